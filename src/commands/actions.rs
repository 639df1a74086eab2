//! `pintle actions`: everything that an action file can do and read, and the action files that are embedded.

use std::io::Write;

use serde::Serialize;

use super::failure::Failure;
use super::listing::{ListArgs, print_json};
use crate::procedure::listing::{BAY, BENCH, Listed, PROBES, Row, knobs};
use crate::procedure::{SHIPPED, from_text};

#[derive(Serialize)]
struct File {
    id: String,
    title: String,
    scenario: String,
    when: String,
    steps: usize,
    file: &'static str,
}

#[derive(Serialize)]
struct All {
    actions: Vec<Listed>,
    knobs: Vec<Listed>,
    bay: Vec<Listed>,
    probes: Vec<Listed>,
    files: Vec<File>,
}

/// Rows of a table, each example as it stands in a file.
fn listed(rows: &[Row], inside: Option<&str>) -> Vec<Listed> {
    rows.iter().map(|row| row.listed(inside)).collect()
}

/// List them.
pub fn run(args: ListArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let mut files = Vec::new();
    for shipped in SHIPPED {
        // A shipped action file that does not load is our mistake, not bad input.
        let p = from_text(shipped.file, shipped.text).map_err(|e| Failure::Wrong(e.to_string()))?;
        let steps = p.steps.len();
        let (id, title, scenario, when) = (p.id, p.title, p.scenario, p.when);
        files.push(File { id, title, scenario, when, steps, file: shipped.file });
    }
    if args.json {
        let (actions, bay, probes) =
            (listed(BENCH, None), listed(BAY, Some("bay")), listed(&PROBES, Some("read")));
        return print_json(out, &All { actions, knobs: knobs(), bay, probes, files });
    }
    table(out, "Actions", &listed(BENCH, None))?;
    table(out, "Knobs, written set(...)", &knobs())?;
    table(out, "Actions of the service bay, written bay(...)", &listed(BAY, None))?;
    table(out, "Probes, for place(...), read(...) and remove(...)", &listed(&PROBES, None))?;
    writeln!(out, "Embedded action files, for `pintle run SCENARIO --actions ID`")?;
    for file in &files {
        writeln!(out, "  {:<26}{} ({}, {} steps)", file.id, file.title, file.scenario, file.steps)?;
    }
    Ok(())
}

fn table(out: &mut dyn Write, title: &str, rows: &[Listed]) -> Result<(), Failure> {
    writeln!(out, "{title}")?;
    for row in rows {
        writeln!(out, "  {}", row.example)?;
        writeln!(out, "      {}", row.words)?;
        for arg in &row.arguments {
            let line = arg.line();
            // A list of names that would fill the screen is left to the command that lists it, or to --json.
            let short =
                if line.len() > 300 { format!("{}: one of many (see --json)", arg.name) } else { line };
            writeln!(out, "        {short}")?;
        }
    }
    writeln!(out)?;
    Ok(())
}
