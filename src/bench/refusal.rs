//! Why an action was refused, or a bench could not be set up.

use super::electrical::guarding::UnsafeKind;
use crate::knobs::Range;
use crate::message::{LINE, WORD, fit, number};
use crate::rig::RigError;

/// Why an action was refused; it changed nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// A number is outside its range or not a number.
    #[error("{what} {} is outside {} to {} {unit}", number(*value), number(*min), number(*max))]
    OutOfRange {
        /// Which knob.
        what: &'static str,
        /// The refused value.
        value: f64,
        /// Lowest allowed.
        min: f64,
        /// Highest allowed.
        max: f64,
        /// Unit.
        unit: &'static str,
    },
    /// It was not safe: it was stopped and written down as an unsafe act.
    #[error("{}", stop_words(.0))]
    Danger(UnsafeKind),
    /// The action makes no sense now. Names in it may come from a file.
    #[error("{}", fit(.0, LINE))]
    NotNow(String),
}

fn stop_words(kind: &UnsafeKind) -> String {
    let words = kind.caution_words().map_or_else(String::new, |words| format!(" {words}"));
    format!("DANGER: stopped, {}.{words}", kind.words())
}

/// Why a bench could not be set up.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BenchError {
    /// The rig is unknown or broken.
    #[error(transparent)]
    Rig(#[from] RigError),
    /// The rig's refrigerant has no property table.
    #[error("there is no property table for {}", fit(.0, WORD))]
    Refrigerant(String),
}

/// Makes no sense now, for this reason.
pub(super) fn no<T>(why: impl Into<String>) -> Result<T, Refusal> {
    Err(Refusal::NotNow(why.into()))
}

/// Is a number within a range?
pub(super) fn in_range(
    what: &'static str,
    value: f64,
    min: f64,
    max: f64,
    unit: &'static str,
) -> Result<(), Refusal> {
    allowed(what, value, Range::new(unit, min, max))
}

/// Does a range hold a number?
pub(super) fn allowed(what: &'static str, value: f64, range: Range) -> Result<(), Refusal> {
    let Range { unit, min, max } = range;
    if range.holds(value) { Ok(()) } else { Err(Refusal::OutOfRange { what, value, min, max, unit }) }
}
