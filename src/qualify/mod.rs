//! The qualification guide: the model compared with published data, row by row.
//!
//! Training simulators in regulated trades are qualified by objective tests against documented reference data that
//! are kept and run again at every change (14 CFR Part 60 for flight simulators, ANSI/ANS-3.5 for power plants).
//! This module does that for Pintle, in that spirit and without any claim to either. Each file of a section runs the
//! model (refrigerant tables, moist air, the bench, the plant on a test stand) and returns rows; nothing here is a stored
//! result. A row that fails stays in. What makes a row worth counting stands in `honest.rs` and holds for every run.

mod air;
mod balances;
mod bay;
mod bay_stand;
mod calorimeter;
pub mod car;
mod charge;
mod components;
mod cycle;
mod cycling;
mod envelopes;
mod error;
mod expected;
mod films;
mod fit;
mod honest;
mod known;
mod limits;
mod part;
mod plot;
mod properties;
mod row;
pub mod saturation_data;
mod section;
mod short_tube;
mod signs;
mod sources;
mod steady;
mod swap;
mod transients;
mod transients_rows;

pub use error::QualifyError;
pub use expected::{Expected, number};
pub use known::{BadList, Difference, KnownMisses, SHIPPED};
pub use part::Part;
pub use plot::{Band, Look, Plot, Series};
pub use row::{Case, Row, Standing, Verdict};
pub use section::Section;

use serde::Serialize;

/// What came out, section by section.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    /// Sections in their order.
    pub sections: Vec<(Section, Part)>,
}

/// How many rows of each kind.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Tally {
    /// All rows.
    pub rows: usize,
    /// Within tolerance.
    pub within: usize,
    /// Out of tolerance with a known reason.
    pub known: usize,
    /// Out of tolerance without.
    pub new: usize,
    /// Of those out, rows whose part is not modelled yet.
    pub not_modelled: usize,
    /// Near a value from memory: told, not judged.
    pub near_memory: usize,
    /// Off a value from memory: told, not judged.
    pub off_memory: usize,
    /// Contested in the sources: told, not judged.
    pub reported: usize,
}

impl Tally {
    /// Count rows.
    pub fn of<'a>(rows: impl IntoIterator<Item = &'a Row>) -> Self {
        let mut tally = Self::default();
        for row in rows {
            tally.rows += 1;
            match row.verdict() {
                Verdict::Within => tally.within += 1,
                Verdict::NearMemory => tally.near_memory += 1,
                Verdict::OffMemory => tally.off_memory += 1,
                Verdict::Reported => tally.reported += 1,
                Verdict::Out => {
                    tally.not_modelled += usize::from(row.got.is_none());
                    if row.known.is_some() { tally.known += 1 } else { tally.new += 1 }
                }
            }
        }
        tally
    }
    /// Rows out of tolerance.
    pub fn out(&self) -> usize {
        self.known + self.new
    }
    /// Rows that are judged; the others are told only.
    pub fn judged(&self) -> usize {
        self.within + self.out()
    }
}

impl Report {
    /// All rows.
    pub fn rows(&self) -> impl Iterator<Item = &Row> {
        self.sections.iter().flat_map(|(_, part)| &part.rows)
    }
    /// All rows counted.
    pub fn tally(&self) -> Tally {
        Tally::of(self.rows())
    }
    /// Sections in it.
    pub fn keys(&self) -> Vec<Section> {
        self.sections.iter().map(|(section, _)| *section).collect()
    }
}

fn part(section: Section) -> Result<Part, QualifyError> {
    match section {
        Section::Properties => Ok(properties::rows().into()),
        Section::Steady => steady::part(),
        Section::Components => components::part(),
        Section::Limits => limits::part(),
        Section::Transients => transients::part(),
        Section::Balances => balances::part(),
        Section::Signs => signs::part(),
        Section::Bay => bay::part(),
    }
}

/// Run sections, side by side, and give the rows the reasons of the list.
///
/// # Errors
/// When a bench of the guide cannot be set up, or when a row breaks a rule of `honest.rs`.
pub fn run(sections: &[Section], known: &KnownMisses) -> Result<Report, QualifyError> {
    let parts: Vec<Result<Part, QualifyError>> = std::thread::scope(|scope| {
        let running: Vec<_> = sections.iter().map(|&s| (s, scope.spawn(move || part(s)))).collect();
        // Collected in order, so the report does not depend on which thread is first.
        running
            .into_iter()
            .map(|(s, thread)| thread.join().unwrap_or(Err(QualifyError::Lost(s.key()))))
            .collect()
    });
    let mut report = Report { sections: Vec::new() };
    for (&section, part) in sections.iter().zip(parts) {
        let mut part = part?;
        known.explain(&mut part.rows);
        report.sections.push((section, part));
    }
    let broken = honest::broken(report.rows());
    if broken.is_empty() { Ok(report) } else { Err(QualifyError::Dishonest(broken)) }
}
