//! What there is to say about the work in the bay of a bench: how it went, the work record line by line, the arithmetic.

use super::bay_debrief;
use crate::bay::{WorkedDone, record, worked};
use crate::bench::Bench;

/// How the work in the bay went, in words; empty without a bay or before anything was done in it.
pub fn bay_review(bench: &Bench) -> Vec<String> {
    let (Some(bay), Some(truth)) = (bench.bay(), bench.bay_facts()) else { return Vec::new() };
    if !bench.journal().iter().any(|(_, action)| matches!(action, crate::bench::Action::Bay(_))) {
        return Vec::new();
    }
    let mut lines = bay_debrief::lines(bench.journal(), &truth);
    if bay.handed_over.is_some() {
        lines.extend(bay_debrief::record_lines(&record::check(&bay.record, &truth)));
    }
    lines.extend(bay.worked.iter().map(|done| checked(bench, done).to_string()));
    lines
}

/// An answer of arithmetic, checked against the readings it was worked out from.
pub fn checked(bench: &Bench, done: &WorkedDone) -> worked::Worked {
    worked::check_in(
        bench.notebook(),
        &done.readings,
        done.what,
        done.answer,
        done.unit,
        bench.plant().refrigerant(),
        bench.plant().inputs().ambient_pa,
    )
}
