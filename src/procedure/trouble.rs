//! What can go wrong while an action file is played.

use crate::bench::Refusal;
use crate::message::{PIECE, fit, number};

/// Something that came out otherwise than an action file says.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error(
    "{file}, step {step} ({}): {what} is {}, expected {} to {} {unit}",
    fit(.say, PIECE), found(*value, unit), number(*from), number(*to)
)]
pub struct Miss {
    /// Id of the action file.
    pub file: String,
    /// Which step of it, counted from 1.
    pub step: usize,
    /// What the step says.
    pub say: String,
    /// Which quantity.
    pub what: String,
    /// Its value; none: there is no such reading.
    pub value: Option<f64>,
    /// Lowest expected.
    pub from: f64,
    /// Highest expected.
    pub to: f64,
    /// Unit.
    pub unit: &'static str,
}

fn found(value: Option<f64>, unit: &str) -> String {
    value.map_or_else(|| "not known".to_owned(), |v| format!("{v:.6} {unit}"))
}

/// Why an action file could not be played to its end.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlayError {
    /// The bench refused what the file does.
    #[error("{file}, step {step}, action {action} at {at_s} s was refused: {refusal}")]
    Refused {
        /// Id of the action file.
        file: String,
        /// Which step of it, counted from 1.
        step: usize,
        /// Which of its actions, counted from 1; those that place and read tools are counted on.
        action: usize,
        /// When [s].
        at_s: f64,
        /// What the bench said.
        refusal: Refusal,
    },
    /// The bench did what the file says it must refuse.
    #[error("{file}, step {step}: action {action} of `refused` was not refused")]
    NotRefused {
        /// Id of the action file.
        file: String,
        /// Which step of it, counted from 1.
        step: usize,
        /// Which action, counted from 1.
        action: usize,
    },
    /// What a step waits for never came.
    #[error("{file}, step {step}: {probe} was not {turn} {unit} within {limit_s} s; it shows {}", found(*shown, unit))]
    Never {
        /// Id of the action file.
        file: String,
        /// Which step of it, counted from 1.
        step: usize,
        /// Which instrument was watched.
        probe: String,
        /// What was waited for, in words.
        turn: String,
        /// Unit.
        unit: &'static str,
        /// Longest wait [s].
        limit_s: f64,
        /// What it shows at the end.
        shown: Option<f64>,
    },
    /// A sum or a line of the record lacks the readings it is made from.
    #[error("{file}, step {step}: the readings for {what} are missing")]
    NoReadings {
        /// Id of the action file.
        file: String,
        /// Which step of it, counted from 1.
        step: usize,
        /// What was to be worked out or written.
        what: String,
    },
}
