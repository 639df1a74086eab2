//! `pintle rigs`: the rigs a scenario can stand on.

use std::io::Write;

use serde::Serialize;

use super::ListArgs;
use super::failure::Failure;
use crate::rig::Rig;

#[derive(Serialize)]
struct Entry {
    id: String,
    name: String,
    words: String,
    refrigerant: String,
    full_charge_kg: f64,
}

/// List the rigs.
pub fn run(args: ListArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let mut entries = Vec::new();
    for id in Rig::ids() {
        // A rig of ours that does not load is our mistake, not bad input.
        let Rig { id, name, words, plant, circuit: _ } =
            Rig::load(id).map_err(|e| Failure::Wrong(e.to_string()))?;
        let entry =
            Entry { id, name, words, refrigerant: plant.refrigerant, full_charge_kg: plant.full_charge_kg };
        entries.push(entry);
    }
    if args.json {
        return super::print_json(out, &entries);
    }
    for rig in entries {
        writeln!(
            out,
            "{:<24}{}, {:.0} g of {}",
            rig.id,
            rig.name,
            rig.full_charge_kg * 1e3,
            rig.refrigerant
        )?;
        writeln!(out, "    {}", rig.words)?;
    }
    Ok(())
}
