//! What stands in an action file.

use serde::{Deserialize, Serialize};

use super::look::Look;
use super::quantity::Quantity;
use crate::bay::{RecordField, WorkedUnit, WorkedValue};
use crate::bench::Action;
use crate::instrument::Probe;
use crate::message::number;

/// An action file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Procedure {
    /// Version of the file format; 1.
    pub format: u32,
    /// Short name on the command line.
    pub id: String,
    /// Title for people.
    pub title: String,
    /// The shipped scenario it is written for.
    pub scenario: String,
    /// When one does this, in words.
    pub when: String,
    /// What one needs for it, in words.
    pub needs: String,
    /// The shipped action file that ends where this one begins; its steps are played first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after: Option<String>,
    /// What to do, in order.
    pub steps: Vec<Step>,
}

/// One step: do, wait, watch, read, check, in this order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What to do, as one would say it to an apprentice.
    pub say: String,
    /// Why, in a sentence.
    pub why: String,
    /// Cautions that belong to it, by their ids such as `S1`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub caution: Vec<String>,
    /// What the drawing of the step shows large.
    pub look: Look,
    /// What is done, all on one tick.
    #[serde(default, rename = "do", skip_serializing_if = "Vec::is_empty")]
    pub acts: Vec<Action>,
    /// What is tried and must be refused.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub refused: Vec<Action>,
    /// Not before this time since the procedure began [s].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_s: Option<f64>,
    /// How long to wait after it was done [s].
    #[serde(default, skip_serializing_if = "is_zero")]
    pub wait_s: f64,
    /// Which reading to wait for after that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<Until>,
    /// What is read into the notebook then; tools are put in place and left to settle.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub read: Vec<Probe>,
    /// What is worked out then from the last readings, as one does it with a chart.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub work: Vec<(WorkedValue, WorkedUnit)>,
    /// What is written into the work record then.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub write: Vec<(RecordField, Quantity)>,
    /// What must have come out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub expect: Vec<Expect>,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_zero(x: &f64) -> bool {
    *x == 0.0
}

/// A reading to wait for. One of `below`, `above`, `falls_by` and `rises_by` is given.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Until {
    /// Which instrument is watched.
    pub probe: Probe,
    /// Until it shows less than this [unit of the probe].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub below: Option<f64>,
    /// Until it shows more than this [unit of the probe].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub above: Option<f64>,
    /// Until it has fallen by so much since the step began [unit of the probe].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub falls_by: Option<f64>,
    /// Until it has risen by so much since the step began [unit of the probe].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rises_by: Option<f64>,
    /// Fall or rise counts from the last reading of that instrument, not from the beginning of the step.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub from_reading: bool,
    /// Longest wait; reaching it means that something is wrong [s].
    pub at_most_s: f64,
}

/// What an [`Until`] waits for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turn {
    /// Less than this is shown.
    Below(f64),
    /// More than this is shown.
    Above(f64),
    /// It has fallen by this.
    FallsBy(f64),
    /// It has risen by this.
    RisesBy(f64),
}

impl Until {
    /// What is waited for; none when the file gives none or several, which [`load`](super::load) refuses.
    pub fn turn(&self) -> Option<Turn> {
        match (self.below, self.above, self.falls_by, self.rises_by) {
            (Some(v), None, None, None) => Some(Turn::Below(v)),
            (None, Some(v), None, None) => Some(Turn::Above(v)),
            (None, None, Some(v), None) => Some(Turn::FallsBy(v)),
            (None, None, None, Some(v)) => Some(Turn::RisesBy(v)),
            _ => None,
        }
    }
}

impl Turn {
    /// Is it reached by what is shown, when `before` was shown as the step began?
    pub fn reached(self, before: f64, shown: f64) -> bool {
        match self {
            Self::Below(v) => shown < v,
            Self::Above(v) => shown > v,
            Self::FallsBy(v) => before - shown >= v,
            Self::RisesBy(v) => shown - before >= v,
        }
    }
    /// In words, without the unit.
    pub fn words(self) -> String {
        match self {
            Self::Below(v) => format!("below {}", number(v)),
            Self::Above(v) => format!("above {}", number(v)),
            Self::FallsBy(v) => format!("fallen by {}", number(v)),
            Self::RisesBy(v) => format!("risen by {}", number(v)),
        }
    }
}

/// What must have come out of a step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expect {
    /// Which quantity.
    pub of: Quantity,
    /// Lowest it may be.
    pub from: f64,
    /// Highest it may be.
    pub to: f64,
}

impl Expect {
    /// Does a value lie in it?
    pub fn holds(&self, value: f64) -> bool {
        value >= self.from && value <= self.to
    }
}
