//! The work record a shop would keep: which lines there are, which of them a job asks for, and what is written in them
//! against what really came of the work.

mod lines;
mod mark;
mod slips;
mod words;

pub use lines::{LineInfo, Section};
pub use mark::{Finding, Mark};

use super::facts::Facts;
use super::{RecordField, RecordValue};
use slips::Quantity;

/// The lines that a job asks for, given what was done; in the order of the record.
pub fn asks(truth: &Facts) -> Vec<RecordField> {
    RecordField::ALL.into_iter().filter(|field| asked(*field, truth)).collect()
}

fn asked(field: RecordField, truth: &Facts) -> bool {
    use RecordField as F;
    let recovered = truth.recovered() || truth.opened();
    let filled = truth.charged() || truth.opened();
    match field {
        F::Refrigerant => true,
        F::RecoveredG | F::OilRecoveredMl | F::CylinderLabel => recovered,
        F::PartReplaced => truth.opened(),
        F::LeakPlace => !truth.leaks.is_empty(),
        F::NitrogenBar | F::NitrogenHeldMin | F::NitrogenChangeBar => {
            truth.nitrogen.is_some() || truth.opened()
        }
        F::VacuumPa | F::PumpedMin | F::RisePa => truth.vacuum.is_some() || truth.opened(),
        F::OilAddedMl => truth.oil_added_kg > 0.0 || truth.opened(),
        F::ChargedG => filled,
        // Before is asked for where something was wrong enough to work on; after, where something was filled in.
        F::LowBeforeBar
        | F::HighBeforeBar
        | F::VentBeforeC
        | F::LowAfterBar
        | F::HighAfterBar
        | F::VentAfterC => recovered || filled,
    }
}

/// What must have been done for a line to mean anything; why not, where it was not.
fn not_done(field: RecordField, truth: &Facts) -> Option<&'static str> {
    use RecordField as F;
    let (missing, why) = match field {
        F::Refrigerant => (!truth.identified, "no sample went to the identifier"),
        F::RecoveredG | F::OilRecoveredMl | F::CylinderLabel => (!truth.recovered(), "nothing was recovered"),
        F::NitrogenBar | F::NitrogenHeldMin | F::NitrogenChangeBar => {
            (truth.nitrogen.is_none(), "no hold under nitrogen was made")
        }
        F::VacuumPa | F::PumpedMin => (truth.vacuum.is_none(), "it was not evacuated"),
        F::RisePa => (truth.vacuum.is_none_or(|v| v.rise.is_none()), "the rise was not watched"),
        F::ChargedG => (!truth.charged(), "nothing was charged"),
        F::LowBeforeBar => (truth.before.low_pa.is_none(), "the low side was not read before the work"),
        F::HighBeforeBar => (truth.before.high_pa.is_none(), "the high side was not read before the work"),
        F::VentBeforeC => (truth.before.vent_k.is_none(), "the vents were not read before the work"),
        F::LowAfterBar => (truth.after.low_pa.is_none(), "the low side was not read after the work"),
        F::HighAfterBar => (truth.after.high_pa.is_none(), "the high side was not read after the work"),
        F::VentAfterC => (truth.after.vent_k.is_none(), "the vents were not read after the work"),
        F::PartReplaced | F::LeakPlace | F::OilAddedMl => (false, ""),
    };
    missing.then_some(why)
}

/// Check a record, line by line: every line that is asked for or written. Of a line written twice the last counts.
pub fn check(record: &[(RecordField, RecordValue)], truth: &Facts) -> Vec<Finding> {
    let written = |field| record.iter().rev().find(|(f, _)| *f == field).map(|(_, value)| value);
    let wanted = RecordField::ALL.into_iter().filter(|f| asked(*f, truth) || written(*f).is_some());
    wanted.map(|field| Finding { field, mark: mark(field, written(field), truth) }).collect()
}

fn mark(field: RecordField, written: Option<&RecordValue>, truth: &Facts) -> Mark {
    let undone = not_done(field, truth);
    let blank = |value: &&RecordValue| !matches!(value, RecordValue::Words(w) if w.trim().is_empty());
    let Some(value) = written.filter(blank) else { return undone.map_or(Mark::Missing, Mark::NotDone) };
    match (Quantity::of(field, truth), value) {
        // The name can be known from the label too; it is still right or wrong.
        (None, RecordValue::Words(words)) if field == RecordField::Refrigerant => {
            words::check(field, words, truth)
        }
        (_, _) if undone.is_some() => Mark::CannotBe(undone.unwrap_or_default().into()),
        (None, RecordValue::Words(words)) => words::check(field, words, truth),
        (Some(quantity), RecordValue::Number(number)) => quantity.mark(*number),
        (Some(quantity), RecordValue::Words(words)) => match words.trim().parse() {
            Ok(number) => quantity.mark(number),
            Err(_) => Mark::CannotBe(format!("a number in {} belongs here", field.line().unit)),
        },
        (None, RecordValue::Number(number)) => words::check(field, &number.to_string(), truth),
    }
}

#[cfg(test)]
#[path = "record_tests.rs"]
mod tests;
