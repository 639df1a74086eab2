//! The sections of the guide.

use serde::Serialize;
use strum::VariantArray;

use crate::variants::all;

/// A section.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Section {
    /// Refrigerants, water and moist air.
    Properties,
    /// Cycle points, service-manual envelopes, refrigerant swaps, charge.
    Steady,
    /// Compressor, metering, coils, fans.
    Components,
    /// At rest, empty, full, vacuum, water.
    Limits,
    /// Start, stop, clutch cycles.
    Transients,
    /// Mass, energy and air.
    Balances,
    /// Which way faults move what instruments show.
    Signs,
    /// Vacuum, water, trapped air, nitrogen and charging in the service bay.
    Bay,
}

impl Section {
    /// All, in the order of the guide.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// Name on the command line.
    pub fn key(self) -> &'static str {
        match self {
            Self::Properties => "properties",
            Self::Steady => "steady",
            Self::Components => "components",
            Self::Limits => "limits",
            Self::Transients => "transients",
            Self::Balances => "balances",
            Self::Signs => "signs",
            Self::Bay => "bay",
        }
    }
    /// Name for people.
    pub fn title(self) -> &'static str {
        match self {
            Self::Properties => "Properties",
            Self::Steady => "Steady states",
            Self::Components => "Components",
            Self::Limits => "Limits",
            Self::Transients => "Transients",
            Self::Balances => "Balances",
            Self::Signs => "Signs of faults",
            Self::Bay => "Service bay",
        }
    }
    /// The section of a name.
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.key() == key)
    }
}
