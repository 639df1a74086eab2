//! How the service bay of a scenario is set up.

use serde::{Deserialize, Serialize};

use crate::plant::Vessel;

/// What stands in the bay when a scenario begins. What is left out comes as usual.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BaySetup {
    /// Refrigerant in the supply cylinder [kg].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply_kg: Option<f64>,
    /// Refrigerant in the recovery cylinder [kg].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recovery_kg: Option<f64>,
    /// Refrigerant in the charging cylinder [kg].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charging_kg: Option<f64>,
    /// The loop was left open and is full of air, with no refrigerant in it.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub left_open: bool,
}

impl BaySetup {
    /// Refrigerant in a vessel at the start [kg].
    pub fn start_kg(&self, vessel: Vessel) -> f64 {
        let own = match vessel {
            Vessel::Supply => self.supply_kg,
            Vessel::Recovery => self.recovery_kg,
            Vessel::Charging => self.charging_kg,
            Vessel::Can => None,
        };
        own.unwrap_or(vessel.spec().start_kg)
    }
}
