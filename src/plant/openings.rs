//! Where the loop can be open, and what can hang on it there.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::variants::all;

/// What the centre hose ends in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CentreHose {
    /// A cap.
    #[default]
    Capped,
    /// Nothing: open to the air.
    Open,
    /// A running vacuum pump.
    VacuumPump,
    /// A cylinder that gives vapour.
    CylinderVapour,
    /// A cylinder that gives liquid.
    CylinderLiquid,
    /// A vessel of the service bay.
    Vessel {
        /// Which.
        vessel: Vessel,
        /// Its liquid valve (or upside down) rather than the vapour one.
        liquid: bool,
    },
    /// The recovery machine, running, with the recovery cylinder behind it.
    RecoveryMachine,
    /// Nitrogen behind a regulator.
    Nitrogen {
        /// What the regulator is set to [Pa absolute].
        set_pa: f64,
    },
}

impl CentreHose {
    /// Can air or nitrogen come in?
    pub fn lets_air_in(self) -> bool {
        matches!(self, Self::Open | Self::Nitrogen { .. })
    }
    /// Does a cylinder of the outside hang on it?
    pub fn is_cylinder(self) -> bool {
        matches!(self, Self::CylinderVapour | Self::CylinderLiquid)
    }
}

/// A place in the loop that may be open to the air.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OpenPlace {
    /// Suction line with the compressor's shaft seal.
    #[default]
    SuctionLine,
    /// Discharge line.
    DischargeLine,
    /// Last condenser cell.
    Condenser,
    /// Liquid line.
    LiquidLine,
    /// First evaporator cell.
    Evaporator,
    /// End of the low-side (blue) hose.
    LowHose,
    /// End of the high-side (red) hose.
    HighHose,
    /// End of the centre hose.
    CentreHose,
}

/// A service port of the loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Port {
    /// On the suction line.
    Low,
    /// On the liquid line.
    High,
}

/// A vessel that can hang on the centre hose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Vessel {
    /// Cylinder of new refrigerant.
    Supply,
    /// Recovery cylinder, evacuated when it comes.
    Recovery,
    /// Charging cylinder: a sight tube with a scale, and a heater.
    Charging,
    /// Small can with its tap.
    Can,
}

impl Vessel {
    /// All, in the order of their volumes.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "supply cylinder".
    pub fn name(self) -> &'static str {
        match self {
            Self::Supply => "supply cylinder",
            Self::Recovery => "recovery cylinder",
            Self::Charging => "charging cylinder",
            Self::Can => "small can",
        }
    }
}
