//! What makes a row worth counting. Every run of the guide holds its rows against these rules and gives no report when one
//! is broken:
//!
//! - A row is there once: no name twice, and no judged quantity twice with conditions, expectation and answer the same.
//! - A row can fail. A tolerance is smaller than the value (but for °C, whose zero means nothing); a band of our own ends no
//!   more than [`WIDEST`] times as high as it begins (what a source prints is taken as printed); an expectation is a
//!   number; only what sources contest has none; and a value that is the expected number to the last bit was copied, not computed.
//! - A source can be looked up: no page of notes of our own, and what counts as published or contested names its year or
//!   says that it has none.

use std::collections::{BTreeMap, BTreeSet};

use super::expected::Expected;
use super::row::{Row, Standing};

/// Highest over lowest end of a band that no source prints.
pub const WIDEST: f64 = 3.0;

/// What is wrong with rows, a line for each; nothing when all is well.
pub fn broken<'a>(rows: impl IntoIterator<Item = &'a Row>) -> Vec<String> {
    let (mut names, mut asked) = (BTreeSet::new(), BTreeMap::new());
    let mut wrong = Vec::new();
    for row in rows {
        if !names.insert(&row.id) {
            wrong.push(format!("{}: the name is there twice", row.id));
        }
        let told_only = matches!(row.standing, Standing::FromMemory | Standing::Contested);
        if let Some(got) = row.got.filter(|_| !told_only) {
            let question =
                (&row.quantity, &row.conditions, row.unit, format!("{:?}", row.expected), got.to_bits());
            if let Some(first) = asked.insert(question, &row.id) {
                wrong.push(format!("{}: asks the same as {first}", row.id));
            }
        }
        wrong.extend(unfailing(row).map(|why| format!("{}: {why}", row.id)));
        wrong.extend(unfounded(row).map(|why| format!("{}: {why}", row.id)));
    }
    wrong
}

/// Why a row cannot fail.
fn unfailing(row: &Row) -> Option<String> {
    let (low, high) = row.expected.limits();
    match row.expected {
        Expected::Nothing if row.standing != Standing::Contested => {
            Some("expects nothing, though nothing is contested".to_owned())
        }
        Expected::Nothing => None,
        _ if row.standing == Standing::Contested => Some("is contested and yet expects something".to_owned()),
        _ if low.is_nan() || high.is_nan() || low > high => Some("expects no number".to_owned()),
        Expected::Value { value, tolerance }
            if value != 0.0 && tolerance >= value.abs() && row.unit != "°C" =>
        {
            Some(format!("a tolerance of {tolerance} on {value} passes anything"))
        }
        Expected::Value { value, .. } if value != 0.0 && row.got == Some(value) => {
            Some(format!("{value} to the last bit: the expectation is a copy of the value"))
        }
        // Told only, so it need not be able to fail.
        Expected::Band { .. } if matches!(row.standing, Standing::Published | Standing::FromMemory) => None,
        Expected::Band { low, high } if low * high > 0.0 => {
            let (inner, outer) = (low.abs().min(high.abs()), low.abs().max(high.abs()));
            (outer > WIDEST * inner)
                .then(|| format!("a band of our own from {low} to {high} passes nearly anything"))
        }
        _ => None,
    }
}

/// Why the source of a row cannot be looked up.
fn unfounded(row: &Row) -> Option<String> {
    let source = row.source;
    if source.trim().is_empty() {
        return Some("has no source".to_owned());
    }
    if [".md", "reference/", "reference page"].iter().any(|page| source.contains(page)) {
        return Some(format!("cites a page of notes instead of a publication: {source}"));
    }
    let dated = matches!(row.standing, Standing::Published | Standing::Contested);
    (dated && !has_year(source) && !source.contains("undated"))
        .then(|| format!("a published source needs a year, or the word undated: {source}"))
}

/// Is there a year from 1850 to 2099 in a text, standing alone?
fn has_year(text: &str) -> bool {
    text.split(|c: char| !c.is_ascii_alphanumeric())
        .any(|word| word.len() == 4 && word.parse().is_ok_and(|year: u32| (1850..2100).contains(&year)))
}

#[cfg(test)]
mod tests {
    use super::super::row::Case;
    use super::super::section::Section;
    use super::*;

    const SOURCE: &str = "A. Author 1999";

    fn row(standing: Standing, source: &'static str, expected: Expected, got: f64) -> Row {
        Case::new(Section::Limits, "case", source, standing).row("q", "at rest", "K", expected, got)
    }

    fn told(row: Row) -> String {
        broken([&row]).join("; ")
    }

    #[test]
    fn a_sound_row_is_let_pass() {
        let band = Expected::Band { low: 1.0, high: 3.0 };
        for expected in [band, Expected::AtLeast(2.0), Expected::Value { value: 0.0, tolerance: 2.0 }] {
            assert_eq!(told(row(Standing::Computed, "formula", expected, 1.5)), "", "{expected:?}");
        }
        assert_eq!(told(row(Standing::Published, "Saturn manual, undated", band, 1.0)), "");
        assert_eq!(told(row(Standing::Contested, SOURCE, Expected::Nothing, 1.0)), "");
    }

    #[test]
    fn what_cannot_fail_is_found() {
        let far = Expected::Band { low: 5.0, high: 95.0 };
        assert!(told(row(Standing::OwnTarget, "ours", far, 9.0)).contains("passes nearly anything"));
        assert_eq!(told(row(Standing::Published, SOURCE, far, 9.0)), "", "printed so");
        let below = Expected::Band { low: -20.0, high: -1.0 };
        assert!(told(row(Standing::Computed, "ours", below, -9.0)).contains("passes nearly anything"));
        let wide = Expected::Value { value: 2.0, tolerance: 2.0 };
        assert!(told(row(Standing::Computed, "ours", wide, 1.0)).contains("passes anything"));
        let copy = Expected::Value { value: 102.032, tolerance: 0.01 };
        assert!(told(row(Standing::Computed, "ours", copy, 102.032)).contains("a copy"));
        assert!(told(row(Standing::Published, SOURCE, Expected::Nothing, 1.0)).contains("expects nothing"));
        let judged = row(Standing::Contested, SOURCE, Expected::AtLeast(1.0), 1.0);
        assert!(told(judged).contains("contested and yet"));
        assert!(told(row(Standing::Computed, "ours", Expected::AtMost(f64::NAN), 1.0)).contains("no number"));
    }

    #[test]
    fn a_source_is_a_publication() {
        let at_most = Expected::AtMost(1.0);
        for source in ["pages.md 1.4", "tables collected in pages.md 2.1", "reference/pages"] {
            assert!(
                told(row(Standing::Computed, source, at_most, 0.0)).contains("page of notes"),
                "{source}"
            );
        }
        for source in ["service manual", "ISO 12345", "P92-007"] {
            assert!(
                told(row(Standing::Published, source, at_most, 0.0)).contains("needs a year"),
                "{source}"
            );
        }
        assert!(told(row(Standing::Computed, " ", at_most, 0.0)).contains("no source"));
    }

    #[test]
    fn the_same_counts_once() {
        let first = row(Standing::Published, SOURCE, Expected::AtMost(1.0), 0.0);
        assert!(broken([&first, &first]).join(" ").contains("twice"));
        let again = Case::new(Section::Bay, "other", SOURCE, Standing::Published);
        let again = again.row("q", "at rest", "K", Expected::AtMost(1.0), 0.0);
        assert!(broken([&first, &again]).join(" ").contains("asks the same as limits/case/q/at-rest"));
    }
}
