//! The allowed range of a number.

use crate::message::number;

/// What a number may be, both ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Unit; empty for a count or a share.
    pub unit: &'static str,
    /// Lowest allowed.
    pub min: f64,
    /// Highest allowed.
    pub max: f64,
}

impl Range {
    /// From lowest to highest.
    pub const fn new(unit: &'static str, min: f64, max: f64) -> Self {
        Self { unit, min, max }
    }
    /// Is the number allowed? Not-a-number and infinity never are.
    pub fn holds(&self, value: f64) -> bool {
        value >= self.min && value <= self.max
    }
    /// Why the number is not allowed, if it is not.
    pub fn fault(&self, value: f64) -> Option<String> {
        if self.holds(value) {
            return None;
        }
        let unit = if self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        let (min, max) = (number(self.min), number(self.max));
        Some(if value.is_finite() {
            format!("{}{unit} is outside {min} to {max}{unit}", number(value))
        } else {
            format!("{value} is not a usable number; {min} to {max}{unit} is allowed")
        })
    }
}

/// Why a number is not allowed by the range from `min` to `max`, if it is not.
pub fn out_of_range(value: f64, unit: &'static str, min: f64, max: f64) -> Option<String> {
    Range::new(unit, min, max).fault(value)
}
