//! Each reading against what every story predicts, and what it says about the cause that was named.

use super::DebriefLine;
use crate::bench::{Action, Bench, Diagnosis};
use crate::diagnosis::{Prediction, Story, StoryError};
use crate::effort::Effort;
use crate::fault::{Fault, FaultId};
use crate::instrument::Reading;

/// Standard deviations within which a reading fits a story, and beyond which it speaks against it.
const FITS: f64 = 2.0;
const AGAINST: f64 = 3.0;

/// A line for each reading, beside what a healthy loop, the named cause and the truth (`real`) would have shown.
pub(super) fn lines(
    notebook: &[Reading],
    diagnosis: &Diagnosis,
    (healthy, named): (Option<&Prediction>, Option<&Prediction>),
    real: &[Option<f64>],
) -> Vec<DebriefLine> {
    let line = |(i, reading): (usize, &Reading)| {
        let of =
            |p: Option<&Prediction>| p.and_then(|p| p.expected.get(i).copied().flatten()).unwrap_or(f64::NAN);
        let true_value = real.get(i).copied().flatten().unwrap_or(reading.value);
        let mut line = DebriefLine {
            reading: reading.clone(),
            healthy: of(healthy),
            named: of(named),
            truth: true_value,
            sigma: reading.probe.spread(reading.value, true_value),
            used_as_evidence: diagnosis.evidence.contains(&i),
            note: String::new(),
        };
        line.note = remark(&line, diagnosis.cause);
        line
    };
    notebook.iter().enumerate().map(line).collect()
}

/// What the instruments of the real session would have shown without noise, and the faults at its end.
pub(super) fn as_it_was(
    bench: &Bench,
    journal: &[(u64, Action)],
    until: u64,
    effort: &Effort,
) -> Result<(Vec<Option<f64>>, Vec<Fault>), StoryError> {
    let set_up = |reason| StoryError::Bench { story: Story::Healthy, reason };
    let mut again = Bench::new(bench.scenario(), bench.seed()).map_err(set_up)?;
    let mut expected = Vec::new();
    let mut truth: Option<Vec<Fault>> = None;
    for (tick, action) in journal {
        again.advance_until(*tick, effort)?;
        // A repair on the last tick is no part of how it was.
        if *tick == until && bench.work_began().is_some() {
            truth.get_or_insert_with(|| again.faults().iter().collect());
        }
        if let Action::Read(probe) = action {
            expected.push(again.expected(probe));
        }
        // It was accepted the first time, so it is accepted now.
        drop(again.apply(action.clone()));
    }
    again.advance_until(until, effort)?;
    let truth = truth.unwrap_or_else(|| again.faults().iter().collect());
    Ok((expected, truth))
}

/// What one reading says about the named cause.
fn remark(line: &DebriefLine, cause: Option<FaultId>) -> String {
    let off = |x: f64| if x.is_nan() { f64::INFINITY } else { line.deviations(x).abs() };
    let (healthy, named) = (off(line.healthy), off(line.named));
    let Some(cause) = cause else {
        return match healthy {
            h if h > AGAINST => "speaks against nothing being wrong".into(),
            h if h <= FITS => "fits a healthy loop".into(),
            _ => "within doubt".into(),
        };
    };
    let name = cause.info().name.to_lowercase();
    if named > AGAINST {
        format!("speaks against {name}")
    } else if named <= FITS && healthy > AGAINST {
        format!("fits {name}, and a healthy loop would differ")
    } else if named <= FITS && healthy <= FITS {
        "fits a healthy loop as well: it decides nothing".into()
    } else {
        "within doubt".into()
    }
}
