//! The qualification guide: rows and seconds.

use std::time::Instant;

use super::table::Table;
use pintle::qualify::{self, KnownMisses, Section};

/// What `pintle qualify` computes, without writing the report.
pub fn run(table: &mut Table) {
    let started = Instant::now();
    let report = qualify::run(&Section::ALL, &KnownMisses::default()).expect("embedded rigs");
    let spent = started.elapsed().as_secs_f64();
    let tally = report.tally();
    let what = format!("`pintle qualify`, {} rows of which {} within tolerance", tally.rows, tally.within);
    table.note(&what, format!("{spent:.0} s"));
}
