//! The guide on a terminal: a line for each case, and each row that is not within tolerance.

use std::io::Write;

use super::frame::{by_case, summary};
use crate::commands::Failure;
use crate::qualify::{Report, Row, Tally, Verdict};

/// Print it; with `all` every row.
pub fn print(out: &mut dyn Write, report: &Report, all: bool) -> Result<(), Failure> {
    for (section, part) in &report.sections {
        let tally = Tally::of(&part.rows);
        writeln!(out, "{}: {}", section.title(), summary(&tally))?;
        for group in by_case(&part.rows) {
            let tally = Tally::of(group.rows.iter().copied());
            let sign = match (tally.out(), tally.judged()) {
                (0, 0) => "---",
                (0, _) => "ok ",
                _ if tally.new > 0 => "OUT",
                _ => "out",
            };
            writeln!(out, "  {sign} {:>4} of {:<4} {}", tally.within, tally.judged(), group.name)?;
            writeln!(out, "                   {}: {}", group.standing.words(), group.source)?;
            for row in group.rows.into_iter().filter(|r| all || r.verdict() != Verdict::Within) {
                self::row(out, row)?;
            }
        }
        writeln!(out)?;
    }
    writeln!(out, "Pintle {}: {}", env!("CARGO_PKG_VERSION"), summary(&report.tally()))?;
    Ok(())
}

fn row(out: &mut dyn Write, row: &Row) -> Result<(), Failure> {
    let mark = match row.verdict() {
        Verdict::Within => "ok ",
        Verdict::Out if row.known.is_some() => "out",
        Verdict::Out => "OUT",
        Verdict::NearMemory | Verdict::OffMemory => "mem",
        Verdict::Reported => "---",
    };
    let at = if row.conditions.is_empty() { String::new() } else { format!(" ({})", row.conditions) };
    writeln!(
        out,
        "      {mark} {}{at}: got {}, expected {} {}",
        row.quantity,
        row.got_text(),
        row.expected_text(),
        row.unit
    )?;
    if row.verdict() != Verdict::Within {
        writeln!(out, "          {}", row.verdict_words())?;
    }
    if let Some(note) = &row.note {
        writeln!(out, "          note: {note}")?;
    }
    Ok(())
}
