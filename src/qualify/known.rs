//! The list of known misses: rows that are out of tolerance today, each with the reason.
//!
//! A line `reason: ...` gives the reason of the row names below it, up to the next such line. Empty lines and lines
//! that begin with `#` are for people.

use std::collections::BTreeMap;

use super::row::{Row, Verdict};
use super::section::Section;
use crate::message::{LINE, PIECE, fit};

/// The list that is committed and built into the program.
pub const SHIPPED: &str = include_str!("../../assets/qualify/known_misses.txt");

/// A list that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BadList {
    /// A row name before any reason.
    #[error("line {line}: `{}` has no reason above it (hint: begin with a line `reason: ...`)", fit(.id, PIECE))]
    NoReason {
        /// Line, from 1.
        line: usize,
        /// Row name.
        id: String,
    },
    /// A row name twice.
    #[error("line {line}: `{}` is listed twice", fit(.id, PIECE))]
    Twice {
        /// Line, from 1.
        line: usize,
        /// Row name.
        id: String,
    },
    /// Not the name of a row.
    #[error("line {line}: `{}` does not begin with a section, as in `limits/...`", fit(.id, PIECE))]
    NoSection {
        /// Line, from 1.
        line: usize,
        /// What stands there.
        id: String,
    },
}

/// Row names with their reasons.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct KnownMisses(BTreeMap<String, String>);

/// How the misses of a run differ from the list.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Difference {
    /// Out of tolerance and not listed.
    pub new: Vec<String>,
    /// Listed and within tolerance now.
    pub met: Vec<String>,
    /// Listed, but there is no such row any more.
    pub gone: Vec<String>,
}

impl Difference {
    /// No difference.
    pub fn is_none(&self) -> bool {
        self.new.is_empty() && self.met.is_empty() && self.gone.is_empty()
    }
}

impl KnownMisses {
    /// Read a list.
    ///
    /// # Errors
    /// When a line is no row name, has no reason or is there twice.
    pub fn parse(text: &str) -> Result<Self, BadList> {
        let (mut list, mut reason) = (BTreeMap::new(), None);
        for (line, entry) in (1..).zip(text.lines().map(str::trim)) {
            if entry.is_empty() || entry.starts_with('#') {
                continue;
            }
            if let Some(words) = entry.strip_prefix("reason:") {
                reason = Some(fit(words.trim(), LINE));
                continue;
            }
            let id = entry.to_owned();
            if entry.split_once('/').is_none_or(|(section, _)| Section::by_key(section).is_none()) {
                return Err(BadList::NoSection { line, id });
            }
            let Some(reason) = reason.clone().filter(|r| !r.is_empty()) else {
                return Err(BadList::NoReason { line, id });
            };
            if list.insert(id.clone(), reason).is_some() {
                return Err(BadList::Twice { line, id });
            }
        }
        Ok(Self(list))
    }

    /// Write the reasons into the rows they belong to.
    pub fn explain(&self, rows: &mut [Row]) {
        for row in rows {
            row.known = self.0.get(&row.id).cloned();
        }
    }

    /// Compare the rows of these sections with the list.
    pub fn compare(&self, sections: &[Section], rows: &[Row]) -> Difference {
        let verdicts: BTreeMap<&str, Verdict> = rows.iter().map(|r| (r.id.as_str(), r.verdict())).collect();
        let mut difference = Difference::default();
        for (id, verdict) in &verdicts {
            match (*verdict, self.0.contains_key(*id)) {
                (Verdict::Out, false) => difference.new.push((*id).to_owned()),
                (Verdict::Within | Verdict::NearMemory | Verdict::OffMemory | Verdict::Reported, true) => {
                    difference.met.push((*id).to_owned());
                }
                _ => {}
            }
        }
        let asked = |id: &str| sections.iter().any(|s| id.split_once('/').is_some_and(|(k, _)| k == s.key()));
        difference.gone =
            self.0.keys().filter(|id| asked(id) && !verdicts.contains_key(id.as_str())).cloned().collect();
        difference
    }
}

#[cfg(test)]
mod tests {
    use super::super::expected::Expected;
    use super::super::row::{Case, Standing};
    use super::*;

    fn row(quantity: &str, got: f64) -> Row {
        Case::new(Section::Limits, "c", "s", Standing::Published).row(
            quantity,
            "",
            "K",
            Expected::AtMost(1.0),
            got,
        )
    }

    #[test]
    fn the_list_and_the_misses_must_agree() {
        let list =
            KnownMisses::parse("# a list\nreason: because\nlimits/c/a\n\nlimits/c/b\nsteady/x/y\n").unwrap();
        let same = list.compare(&[Section::Limits], &[row("a", 2.0), row("b", 3.0), row("d", 0.0)]);
        assert!(same.is_none(), "{same:?}");
        let other = list.compare(&[Section::Limits], &[row("a", 0.0), row("d", 2.0)]);
        let names = |ids: &[&str]| ids.iter().map(|s| (*s).to_owned()).collect::<Vec<_>>();
        assert_eq!(other.new, names(&["limits/c/d"]));
        assert_eq!(other.met, names(&["limits/c/a"]));
        assert_eq!(other.gone, names(&["limits/c/b"]));
        let mut rows = [row("a", 2.0)];
        list.explain(&mut rows);
        assert_eq!(rows[0].known.as_deref(), Some("because"));
    }

    #[test]
    fn a_bad_list_is_told_with_its_line() {
        for text in
            ["limits/c/a", "reason: x\nlimits/a\nlimits/a", "reason: x\nsome words", "reason:\nlimits/a"]
        {
            let told = KnownMisses::parse(text).unwrap_err().to_string();
            assert!(told.starts_with("line "), "{told}");
        }
    }

    #[test]
    fn the_shipped_list_reads() {
        KnownMisses::parse(SHIPPED).unwrap();
    }
}
