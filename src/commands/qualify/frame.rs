//! What every form of the guide begins and ends with, and what it counts.

use crate::qualify::{Row, Standing, Tally};

/// What a report says about itself besides its rows.
pub struct Frame {
    /// Version of the program.
    pub version: &'static str,
    /// Day of the run, UTC.
    pub date: String,
}

/// What a guide of this kind is and is not; the same words in every report.
pub const ABOUT: [&str; 3] = [
    "Each row compares what the model gives now with a value from a named source. Nothing here is stored: every value \
     was computed by this run.",
    "The practice follows, in spirit, the objective tests of 14 CFR Part 60 (flight simulators) and ANSI/ANS-3.5 \
     (power-plant simulators): fixed criteria, documented reference data, exceptions recorded by name, all of it run \
     again at every change. It claims conformity with neither.",
    "Pintle is a training aid. This guide is no certificate, and its numbers replace no service manual.",
];

/// First line of a report, by which one of ours is known again and may be written over.
pub(super) const HTML_BEGINS: &str = "<!DOCTYPE html>\n<!-- pintle qualify -->\n";

pub(super) const MARKDOWN_BEGINS: &str = "# Pintle: qualification guide\n";

/// The summary line, the same everywhere.
pub fn summary(tally: &Tally) -> String {
    let mut text = format!("{} of {} rows judged within tolerance", tally.within, tally.judged());
    let mut add = |n: usize, words: &str| {
        if n > 0 {
            text.push_str(&format!("; {n} {words}"));
        }
    };
    add(tally.new, "out of tolerance");
    add(tally.known, "out of tolerance with a known reason");
    add(tally.not_modelled, "of those not modelled yet");
    add(tally.near_memory + tally.off_memory, "from memory, told only");
    add(tally.off_memory, "of those off");
    add(tally.reported, "contested in the sources, told only");
    text
}

/// Rows that have case, source and standing in common.
pub struct Group<'a> {
    /// Name of the case.
    pub name: &'a str,
    /// Source of every row.
    pub source: &'a str,
    /// What the expected values rest on.
    pub standing: Standing,
    /// The rows, at least one.
    pub rows: Vec<&'a Row>,
}

/// Rows of a section by case and source, in order of first appearance: a case with two sources is told in two pieces, so
/// that no row stands under a source that is not its own.
pub fn by_case(rows: &[Row]) -> Vec<Group<'_>> {
    let mut groups: Vec<Group> = Vec::new();
    for row in rows {
        let same =
            |g: &&mut Group| g.name == row.case && g.source == row.source && g.standing == row.standing;
        match groups.iter_mut().find(same) {
            Some(group) => group.rows.push(row),
            None => groups.push(Group {
                name: &row.case,
                source: row.source,
                standing: row.standing,
                rows: vec![row],
            }),
        }
    }
    groups
}
