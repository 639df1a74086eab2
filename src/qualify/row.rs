//! One row of the guide: what was compared with what, and how it came out.

use serde::Serialize;

use super::expected::{Expected, number};
use super::section::Section;

/// What an expected value rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Printed by the named source, as a number or as a sign: a paper, its abstract, a standard or a service manual.
    Published,
    /// Common practice of the trade, without a source that can be named.
    CommonPractice,
    /// Computed with independent software, from a published formula, or by arithmetic from stated assumptions.
    Computed,
    /// A target this project set itself, such as a balance that must close.
    OwnTarget,
    /// From memory, not verified: told, not judged.
    FromMemory,
    /// Sources contradict each other, or say that it depends: shown, not judged.
    Contested,
}

impl Standing {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::CommonPractice => "common practice",
            Self::Computed => "computed",
            Self::OwnTarget => "own target",
            Self::FromMemory => "from memory",
            Self::Contested => "contested",
        }
    }
}

/// How a row came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Within tolerance.
    Within,
    /// Out of tolerance, or there is no value because the part is not modelled.
    Out,
    /// Near a value that is from memory: told, no success.
    NearMemory,
    /// Off a value that is from memory: told, no failure.
    OffMemory,
    /// Contested in the sources: told, not judged.
    Reported,
}

/// One comparison.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Row {
    /// Name that stays the same from run to run: section, case, quantity and conditions.
    pub id: String,
    /// Section.
    pub section: Section,
    /// Case within the section.
    pub case: String,
    /// Where the expected value comes from.
    pub source: &'static str,
    /// What it rests on.
    pub standing: Standing,
    /// What is compared.
    pub quantity: String,
    /// Under what conditions.
    pub conditions: String,
    /// Unit.
    pub unit: &'static str,
    /// What is expected.
    pub expected: Expected,
    /// What the model gives; nothing where the part is not modelled yet.
    pub got: Option<f64>,
    /// A remark that belongs to the row whatever its verdict.
    pub note: Option<String>,
    /// Why a row is out of tolerance, from the list of known misses.
    pub known: Option<String>,
}

impl Row {
    /// How it came out.
    pub fn verdict(&self) -> Verdict {
        match (self.got.is_some_and(|got| self.expected.holds(got)), self.standing) {
            (_, Standing::Contested) => Verdict::Reported,
            (true, Standing::FromMemory) => Verdict::NearMemory,
            (false, Standing::FromMemory) => Verdict::OffMemory,
            (true, _) => Verdict::Within,
            (false, _) => Verdict::Out,
        }
    }
    /// The verdict in words, with the known reason.
    pub fn verdict_words(&self) -> String {
        let missing = if self.got.is_none() { "not modelled yet" } else { "out of tolerance" };
        match (self.verdict(), &self.known) {
            (Verdict::Within, None) => "within tolerance".to_owned(),
            (Verdict::Within, Some(_)) => "within tolerance, though listed as a known miss".to_owned(),
            (Verdict::Reported, _) => "contested, told only".to_owned(),
            (Verdict::NearMemory, _) => "near a value from memory, told only".to_owned(),
            (Verdict::OffMemory, _) if self.got.is_none() => {
                "not modelled yet; from memory, told only".to_owned()
            }
            (Verdict::OffMemory, _) => "off a value from memory, told only".to_owned(),
            (Verdict::Out, Some(reason)) => format!("{missing}, known: {reason}"),
            (Verdict::Out, None) => missing.to_owned(),
        }
    }
    /// The value got as text, without the unit.
    pub fn got_text(&self) -> String {
        match self.got {
            Some(got) => number(got, self.expected.step(self.got)),
            None => "none".to_owned(),
        }
    }
    /// The expectation as text, without the unit.
    pub fn expected_text(&self) -> String {
        self.expected.text(self.got)
    }
    /// The row with a remark.
    #[must_use]
    pub fn noting(mut self, note: impl Into<String>) -> Self {
        self.note = Some(note.into());
        self
    }
}

/// What the rows of a case have in common.
#[derive(Clone, Debug)]
pub struct Case {
    section: Section,
    name: String,
    source: &'static str,
    standing: Standing,
}

impl Case {
    /// A case.
    pub fn new(section: Section, name: impl Into<String>, source: &'static str, standing: Standing) -> Self {
        Self { section, name: name.into(), source, standing }
    }
    /// A row of it.
    pub fn row(
        &self,
        quantity: impl Into<String>,
        conditions: impl Into<String>,
        unit: &'static str,
        expected: Expected,
        got: impl Into<Option<f64>>,
    ) -> Row {
        let (quantity, conditions) = (quantity.into(), conditions.into());
        let id = [self.section.key(), &self.name, &quantity, &conditions].map(slug).join("/");
        Row {
            id: id.trim_end_matches('/').to_owned(),
            section: self.section,
            case: self.name.clone(),
            source: self.source,
            standing: self.standing,
            quantity,
            conditions,
            unit,
            expected,
            got: got.into(),
            note: None,
            known: None,
        }
    }
}

/// Lower-case letters, digits and points of a text, anything else as single hyphens.
fn slug(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            'a'..='z' | '0'..='9' | '.' => out.push(c),
            'A'..='Z' => out.push(c.to_ascii_lowercase()),
            '+' => out.push('+'),
            '-' | '−' if out.ends_with('-') || out.is_empty() => out.push('m'),
            _ if !out.ends_with('-') && !out.is_empty() => out.push('-'),
            _ => {}
        }
    }
    out.trim_end_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(standing: Standing, expected: Expected, got: Option<f64>) -> Row {
        Case::new(Section::Limits, "a case", "a source", standing).row("q", "at -5 °C", "K", expected, got)
    }

    #[test]
    fn a_row_out_of_tolerance_is_out_whatever_is_known_about_it() {
        let value = Expected::Value { value: 10.0, tolerance: 0.5 };
        for (got, want) in [(10.5, Verdict::Within), (10.51, Verdict::Out), (9.4, Verdict::Out)] {
            assert_eq!(row(Standing::Published, value, Some(got)).verdict(), want, "{got}");
        }
        let mut known = row(Standing::Computed, value, Some(12.0));
        known.known = Some("a reason".to_owned());
        assert_eq!(known.verdict(), Verdict::Out);
        assert!(known.verdict_words().ends_with("known: a reason"));
    }

    #[test]
    fn what_is_not_modelled_and_what_is_no_number_is_out() {
        for got in [None, Some(f64::NAN), Some(f64::INFINITY)] {
            for expected in [
                Expected::AtLeast(0.0),
                Expected::AtMost(1.0),
                Expected::MoreThan(0.0),
                Expected::share(1.0, 1.0),
            ] {
                assert_eq!(row(Standing::OwnTarget, expected, got).verdict(), Verdict::Out, "{got:?}");
            }
        }
    }

    #[test]
    fn from_memory_neither_fails_nor_counts_as_met() {
        for (got, verdict) in [
            (None, Verdict::OffMemory),
            (Some(f64::NAN), Verdict::OffMemory),
            (Some(3.0), Verdict::OffMemory),
            (Some(0.5), Verdict::NearMemory),
        ] {
            let r = row(Standing::FromMemory, Expected::AtMost(1.0), got);
            assert_eq!(r.verdict(), verdict, "{got:?}");
            assert!(r.verdict_words().contains("told only"));
        }
    }

    #[test]
    fn names_tell_minus_from_plus() {
        let id = row(Standing::Published, Expected::AtMost(1.0), None).id;
        assert_eq!(id, "limits/a-case/q/at-m5-c");
    }
}
