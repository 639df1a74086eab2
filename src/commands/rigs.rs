//! `pintle rigs`: the rigs a scenario can stand on.

use std::io::Write;

use serde::Serialize;

use super::failure::Failure;
use super::listing::{ListArgs, print_json};
use crate::rig::Rig;

#[derive(Serialize)]
struct Entry {
    id: String,
    name: String,
    words: String,
    refrigerant: String,
    full_charge_kg: f64,
    oil: String,
    oil_kg: f64,
}

/// List the rigs.
pub fn run(args: ListArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let mut entries = Vec::new();
    for id in Rig::ids() {
        // A rig of ours that does not load is our mistake, not bad input.
        let rig = Rig::load(id).map_err(|e| Failure::Wrong(e.to_string()))?;
        let line = rig.label_line();
        let Rig { id, name, words, plant, circuit: _, pictures } = rig;
        let (full_charge_kg, oil_kg) = (plant.full_charge_kg, plant.oil.full_kg);
        let (refrigerant, oil) = (plant.refrigerant, pictures.label.oil);
        entries.push((line, Entry { id, name, words, refrigerant, full_charge_kg, oil, oil_kg }));
    }
    if args.json {
        let entries: Vec<&Entry> = entries.iter().map(|(_, entry)| entry).collect();
        return print_json(out, &entries);
    }
    for (line, rig) in entries {
        writeln!(out, "{:<24}{}, {line}", rig.id, rig.name)?;
        writeln!(out, "    {}", rig.words)?;
    }
    Ok(())
}
