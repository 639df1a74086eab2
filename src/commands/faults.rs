//! `pintle faults`: the catalogue.

use std::io::Write;

use super::ListArgs;
use super::failure::Failure;
use crate::fault::{FaultId, FaultInfo};

/// List the faults.
pub fn run(args: ListArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let all: Vec<&FaultInfo> = FaultId::ALL.iter().map(|id| id.info()).collect();
    if args.json {
        return super::print_json(out, &all);
    }
    for info in all {
        writeln!(out, "{:<28}{} ({})", info.key, info.name, info.group.name())?;
        writeln!(out, "    {}", info.changes)?;
        let severity = match info.severity {
            Some(s) => format!("{}, {} to {}, default {}", s.meaning, s.min, s.max, s.default),
            None => "none, there or not".to_owned(),
        };
        writeln!(out, "    severity: {severity}")?;
        writeln!(out, "    repair: {}", info.repair())?;
    }
    Ok(())
}
