//! Sign tables: what each fault does to each quantity, judged with a neutral band.
//!
//! A sign must hold at both severities and all three outside temperatures; the row gives the change with the smallest
//! margin, its note all six. Up or down is a change of more than [`BAND_K`] (1 % of power); `0` is less than [`NEUTRAL_K`]
//! (3 % of power): what a class 1.6 gauge and a class 2 clamp leave open (faults.md 6), in the manner of NIST SP-1087.

use super::stand::{AMBIENTS_C, Seen, Stand, Trial};
use crate::qualify::expected::Expected;
use crate::qualify::row::{Case, Row, Standing};
use crate::qualify::section::Section;

/// A change that counts [K].
const BAND_K: f64 = 0.5;
/// A change that counts as none [K].
const NEUTRAL_K: f64 = 1.7;
/// The same for power [%].
const BAND_PCT: f64 = 1.0;
/// The same for power [%].
const NEUTRAL_PCT: f64 = 3.0;

/// A quantity of a table.
#[derive(Clone, Copy)]
pub struct Column {
    /// Name.
    pub name: &'static str,
    /// Its value.
    pub of: fn(&Seen) -> f64,
    /// Power: judged in per cent of the healthy value.
    pub relative: bool,
}

/// A column in kelvin.
pub const fn kelvin(name: &'static str, of: fn(&Seen) -> f64) -> Column {
    Column { name, of, relative: false }
}

/// A line of a table.
pub struct Line {
    /// The fault.
    pub fault: &'static str,
    /// The printed signs, one for each column, separated by spaces: `+`, `-`, `0`, `0+`, `0-`, `?` contested, `.` not
    /// in the table.
    pub signs: &'static str,
    /// Two severities.
    pub trials: [Trial; 2],
    /// A remark.
    pub note: &'static str,
}

/// The rows of a table on a rig.
pub fn rows(
    stand: &Stand,
    table: &str,
    source: &'static str,
    columns: &[Column],
    lines: Vec<Line>,
) -> Vec<Row> {
    let healthy = AMBIENTS_C.map(|c| stand.run(c, &Trial::none()));
    let mut rows = Vec::new();
    for line in lines {
        let runs: Vec<[Seen; 3]> =
            line.trials.iter().map(|trial| AMBIENTS_C.map(|c| stand.run(c, trial))).collect();
        let at = format!("{}; {}; outside 25, 32, 40 °C", line.trials[0].words, line.trials[1].words);
        for (column, sign) in columns.iter().zip(line.signs.split_whitespace()) {
            let changes: Vec<f64> = runs
                .iter()
                .flat_map(|run| run.iter().zip(&healthy))
                .map(|(x, y)| match column.relative {
                    true => 100.0 * ((column.of)(x) / (column.of)(y) - 1.0),
                    false => (column.of)(x) - (column.of)(y),
                })
                .collect();
            if let Some(row) = row(table, source, &line, column, sign, &at, &changes) {
                rows.push(row);
            }
        }
    }
    rows
}

fn row(
    table: &str,
    source: &'static str,
    line: &Line,
    column: &Column,
    sign: &str,
    at: &str,
    changes: &[f64],
) -> Option<Row> {
    let (band, neutral, unit) =
        if column.relative { (BAND_PCT, NEUTRAL_PCT, "%") } else { (BAND_K, NEUTRAL_K, "K") };
    // A change that is no number must not hide behind the others.
    let worst = |value: &dyn Fn(f64) -> f64, pick: fn(f64, f64) -> f64| {
        changes
            .iter()
            .map(|&x| value(x))
            .reduce(|a, b| if a.is_nan() || b.is_nan() { f64::NAN } else { pick(a, b) })
    };
    let (words, expected, got) = match sign {
        "+" => ("rise", Expected::AtLeast(band), worst(&|x| x, f64::min)),
        "-" => ("fall", Expected::AtLeast(band), worst(&|x| -x, f64::min)),
        "0" => ("change, either way", Expected::AtMost(neutral), worst(&f64::abs, f64::max)),
        "0+" => ("no fall", Expected::AtMost(band), worst(&|x| -x, f64::max)),
        "0-" => ("no rise", Expected::AtMost(band), worst(&|x| x, f64::max)),
        "?" => ("change", Expected::Nothing, worst(&|x| x, |a, b| if a.abs() > b.abs() { a } else { b })),
        _ => return None,
    };
    let standing = if sign == "?" { Standing::Contested } else { Standing::Published };
    let all: Vec<String> = changes.iter().map(|x| format!("{x:+.1}")).collect();
    let case = Case::new(Section::Signs, format!("{table}, {}", line.fault), source, standing);
    let mut note = format!("changes {unit}: {}", all.join(", "));
    if !line.note.is_empty() {
        note = format!("{note}; {}", line.note);
    }
    Some(case.row(format!("{}: {words}", column.name), at, unit, expected, got).noting(note))
}
