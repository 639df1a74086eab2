//! What the drawing of a step shows large.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::variants::all;

/// The thing a step is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// The manifold with its hand valves.
    Manifold,
    /// The coupler on the low-side port.
    LowCoupler,
    /// The coupler on the high-side port.
    HighCoupler,
    /// The end of the centre hose.
    Centre,
    /// The vacuum pump.
    Pump,
    /// The recovery machine.
    Machine,
    /// The recovery cylinder.
    Recovery,
    /// The cylinder of new refrigerant.
    Supply,
    /// The charging cylinder.
    Charging,
    /// The small can.
    Can,
    /// The nitrogen with its regulator.
    Nitrogen,
    /// The service station.
    Station,
    /// The loop itself.
    Loop,
    /// A scale.
    Scale,
    /// A gauge.
    Gauge,
    /// The work record.
    Record,
    /// A part of the loop in the hand.
    Part,
}

impl Look {
    /// All of them.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "manifold".
    pub fn name(self) -> &'static str {
        match self {
            Self::Manifold => "manifold",
            Self::LowCoupler => "low-side coupler",
            Self::HighCoupler => "high-side coupler",
            Self::Centre => "end of the centre hose",
            Self::Pump => "vacuum pump",
            Self::Machine => "recovery machine",
            Self::Recovery => "recovery cylinder",
            Self::Supply => "supply cylinder",
            Self::Charging => "charging cylinder",
            Self::Can => "small can",
            Self::Nitrogen => "nitrogen",
            Self::Station => "service station",
            Self::Loop => "loop",
            Self::Scale => "scale",
            Self::Gauge => "gauge",
            Self::Record => "work record",
            Self::Part => "part",
        }
    }
}
