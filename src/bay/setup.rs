//! How the service bay of a scenario is set up.

use serde::{Deserialize, Serialize};

use super::cylinder::FillLimit;
use crate::plant::Vessel;
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;

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
    /// Amounts that are given: name of the field, vessel, kilograms.
    pub fn given(&self) -> impl Iterator<Item = (&'static str, Vessel, f64)> {
        let fields = [
            ("supply_kg", Vessel::Supply, self.supply_kg),
            ("recovery_kg", Vessel::Recovery, self.recovery_kg),
            ("charging_kg", Vessel::Charging, self.charging_kg),
        ];
        fields.into_iter().filter_map(|(field, vessel, kg)| Some((field, vessel, kg?)))
    }
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

/// Most of a rig's refrigerant that a vessel may hold when a scenario begins [kg], up to whole grams: what it may be filled
/// to, or as much as it usually comes with, if that is more.
pub fn most_kg(vessel: Vessel, rig: &Rig) -> f64 {
    let spec = vessel.spec();
    let refrigerant = Refrigerant::by_name(&rig.plant.refrigerant);
    let filled = refrigerant.map_or(0.0, |refrigerant| FillLimit::of(&spec, refrigerant).net_kg());
    libm::ceil(filled.max(spec.start_kg) * 1e3) / 1e3
}
