//! The hand valves of the manifold, as `--set` and the bench know them.

use super::Range;

/// A hand valve of the manifold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandValve {
    /// Between the low-side hose and the centre hose.
    Low,
    /// Between the high-side hose and the centre hose.
    High,
}

impl HandValve {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Low, Self::High];
    /// How far it can stand open [%].
    pub const RANGE: Range = Range::new("%", 0.0, 100.0);

    /// Its name on the command line.
    pub fn key(self) -> &'static str {
        match self {
            Self::Low => "manifold_low_valve_pct",
            Self::High => "manifold_high_valve_pct",
        }
    }
    /// What the name stands for.
    pub fn meaning(self) -> &'static str {
        match self {
            Self::Low => "Low-side hand valve of the manifold, 0 is shut [%]; the hoses are fitted first.",
            Self::High => "High-side hand valve of the manifold, 0 is shut [%]; the hoses are fitted first.",
        }
    }
    /// The valve of that name.
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|valve| valve.key() == key)
    }
}
