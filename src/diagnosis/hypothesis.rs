//! What may be wrong: nothing, or a fault.

use serde::{Deserialize, Serialize};

use crate::fault::{Fault, FaultId};

/// What may be wrong with a car. By its name alone (`Hypothesis`) it is what a learner names and what belief is summed
/// over; with a severity ([`Story`]) it can be played on a shadow bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hypothesis<F = FaultId> {
    /// Nothing is wrong.
    Healthy,
    /// This fault is present.
    Fault(F),
}

/// Nothing wrong, or one fault at a severity.
pub type Story = Hypothesis<Fault>;

impl<F> Hypothesis<F> {
    /// The fault, if there is one.
    pub fn fault(self) -> Option<F> {
        match self {
            Self::Healthy => None,
            Self::Fault(fault) => Some(fault),
        }
    }
}

impl<F> From<Option<F>> for Hypothesis<F> {
    /// No fault is nothing wrong.
    fn from(fault: Option<F>) -> Self {
        fault.map_or(Self::Healthy, Self::Fault)
    }
}

impl Story {
    /// The hypothesis whose severity this is.
    pub fn hypothesis(self) -> Hypothesis {
        self.fault().map(|fault| fault.id).into()
    }
    /// What it says, for a message.
    pub fn words(self) -> String {
        match self {
            Self::Healthy => "Nothing wrong".into(),
            Self::Fault(Fault { id, severity }) => format!("{} at {severity}", id.info().name),
        }
    }
}

impl Hypothesis {
    /// Name for a list, with a capital letter.
    pub fn name(self) -> &'static str {
        match self {
            Self::Healthy => "Nothing wrong",
            Self::Fault(id) => id.info().name,
        }
    }
}
