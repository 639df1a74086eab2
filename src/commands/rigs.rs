//! `pintle rigs`: the rigs a scenario can stand on.

use std::io::Write;

use super::ListArgs;
use super::failure::Failure;
use crate::scenario::RIGS;

/// List the rigs.
pub fn run(args: ListArgs, out: &mut dyn Write) -> Result<(), Failure> {
    if args.json {
        return super::print_json(out, RIGS);
    }
    for rig in RIGS {
        writeln!(out, "{:<24}{} ({})", rig.id, rig.name, rig.refrigerant)?;
        writeln!(out, "    {}", rig.parts)?;
    }
    Ok(())
}
