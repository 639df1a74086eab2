//! `pintle replay`: run a record again.

use std::collections::BTreeSet;
use std::io::Write;
use std::path::PathBuf;

use super::columns::Row;
use super::failure::Failure;
use super::run::troubles;
use crate::bench::TICK_S;
use crate::record::{Maker, Record, hash_text, replay};

/// Arguments of `pintle replay`.
#[derive(Clone, Debug, clap::Args)]
pub struct ReplayArgs {
    /// A record written by `pintle run --record`, or a session kept by the desk
    pub file: PathBuf,
}

/// Run it.
pub fn run(args: &ReplayArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let record = Record::read(&args.file)?;
    let mut notes = Vec::new();
    if !record.maker().is_this() {
        let (maker, this) = (record.maker(), Maker::this());
        notes.push(format!("this record was made by {maker} and this is {this}; the hashes need not agree"));
    }
    notes.extend(record.earlier.iter().map(|maker| format!("the session was begun with {maker}")));
    notes.extend(record.left_out.clone());
    if record.state.is_empty() {
        notes.push("the session was cut off, so it has no hash to compare with".into());
    }
    let mut log = std::io::stderr().lock();
    for note in notes {
        // A log that nobody can read is no reason to stop.
        let _ = writeln!(log, "note: {note}");
    }
    let bench = replay(&record)?;
    writeln!(out, "scenario    {} (seed {})", record.scenario.id, record.seed)?;
    let (s, acts, readings) = (record.ticks as f64 * TICK_S, record.actions.len(), bench.notebook().len());
    writeln!(out, "replayed    {s} s, {acts} actions, {readings} readings")?;
    writeln!(out, "state hash  {}", hash_text(&bench).map_err(|e| Failure::Wrong(e.to_string()))?)?;
    if record.is_untouched() == Some(true) {
        writeln!(out, "record      {} (nothing in it was changed since it was written)", record.hash)?;
    }
    let odd: BTreeSet<&str> = Row::of(&bench).not_finite().collect();
    let troubles = troubles(&bench, &odd);
    if troubles.is_empty() { Ok(()) } else { Err(Failure::Wrong(troubles.join("\n"))) }
}
