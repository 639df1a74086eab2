//! A value worked out by hand, as far as it has come.

use crate::bay::{WorkedUnit, WorkedValue};

/// A sum that has been begun.
#[derive(Clone, Debug, PartialEq)]
pub struct Sum {
    /// What is worked out.
    pub what: WorkedValue,
    /// Readings of the notebook that go into it, by their place there.
    pub readings: Vec<usize>,
    /// The answer as typed.
    pub answer: String,
    /// Its unit.
    pub unit: WorkedUnit,
}

impl Default for Sum {
    fn default() -> Self {
        Self {
            what: WorkedValue::Superheat,
            readings: Vec::new(),
            answer: String::new(),
            unit: WorkedUnit::Kelvin,
        }
    }
}
