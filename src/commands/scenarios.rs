//! `pintle scenarios`: what can be run. Hidden faults stay hidden.

use std::io::Write;

use serde::Serialize;

use super::failure::Failure;
use super::listing::{ListArgs, print_json};
use crate::scenario::load::from_text;
use crate::scenario::{Mode, SHIPPED};

#[derive(Serialize)]
struct Entry {
    id: String,
    title: String,
    unit: String,
    mode: Mode,
    rig: String,
    tasks: Vec<String>,
    trains: String,
    file: &'static str,
}

/// List the embedded scenarios.
pub fn run(args: ListArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let mut entries = Vec::new();
    for shipped in SHIPPED {
        // A shipped scenario that does not load is our mistake, not bad input.
        let scenario = from_text(shipped.file, shipped.text).map_err(|e| Failure::Wrong(e.to_string()))?;
        entries.push(Entry {
            id: scenario.id,
            title: scenario.title,
            unit: scenario.unit,
            mode: scenario.mode,
            rig: scenario.rig,
            tasks: scenario.tasks,
            trains: scenario.trains,
            file: shipped.file,
        });
    }
    if args.json {
        return print_json(out, &entries);
    }
    for entry in &entries {
        let mode = if entry.mode == Mode::Explore { "explore" } else { "practice" };
        writeln!(out, "{:<24}{mode:<10}{}", entry.id, entry.title)?;
        writeln!(out, "    unit {}; tasks {}", entry.unit, entry.tasks.join(" "))?;
        writeln!(out, "    {}", entry.trains)?;
    }
    Ok(())
}
