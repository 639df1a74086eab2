//! `pintle replay`: run a record again.

use std::collections::BTreeSet;
use std::io::Write;
use std::path::PathBuf;

use super::columns::Row;
use super::failure::Failure;
use super::run::troubles;
use crate::bench::TICK_S;
use crate::record::journal::{ENGINE, hash_text};
use crate::record::{Record, replay};

/// Arguments of `pintle replay`.
#[derive(Clone, Debug, clap::Args)]
pub struct ReplayArgs {
    /// A record written by `pintle run --record` or by the desk
    pub file: PathBuf,
}

/// Run it.
pub fn run(args: &ReplayArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let record = Record::read(&args.file)?;
    if record.engine != ENGINE {
        let mut log = std::io::stderr().lock();
        // A log that nobody can read is no reason to stop.
        let _ = writeln!(
            log,
            "note: this record was made by engine version {} and this is {ENGINE}; the hashes need not agree",
            record.engine
        );
    }
    let bench = replay(&record)?;
    writeln!(out, "scenario    {} (seed {})", record.scenario.id, record.seed)?;
    writeln!(out, "replayed    {} s, {} actions", record.ticks as f64 * TICK_S, record.actions.len())?;
    writeln!(out, "state hash  {}", hash_text(&bench))?;
    let odd: BTreeSet<&str> = Row::of(&bench).not_finite().collect();
    let troubles = troubles(&bench, &odd);
    if troubles.is_empty() { Ok(()) } else { Err(Failure::Wrong(troubles.join("\n"))) }
}
