//! The air side: what blows over the condenser, through the evaporator and round the cabin.

use crate::moist_air;
use crate::units::ATMOSPHERE_PA;
use serde::{Deserialize, Serialize};

use super::heat::AirSide;

/// Heat capacity of dry air [J/(kg K)] and latent heat of water near 5 °C [J/kg] (ASHRAE Fundamentals, psychrometrics).
pub const AIR_CP: f64 = 1006.0;
const LATENT: f64 = 2.49e6;

/// Condenser face of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CondenserAirSpec {
    /// Flow at full fan speed, car at rest [kg/s].
    pub fan_kg_s: f64,
    /// Ram flow per road speed [kg/s per km/h].
    pub ram_kg_s_per_kmh: f64,
    /// Natural draught at rest with the fan still [kg/s].
    pub natural_kg_s: f64,
    /// Air-side conductance of the whole face at `fan_kg_s` [W/K]; grows with flow to the power 0.55
    /// (louvred fins, exponent from memory).
    pub conductance_w_k: f64,
}

impl CondenserAirSpec {
    /// Flow over the face and conductance of the open part: (kg/s, W/K).
    pub fn flow(&self, fan_share: f64, road_kmh: f64, blocked: f64) -> (f64, f64) {
        let open = (1.0 - blocked).clamp(0.02, 1.0);
        let fan = self.fan_kg_s * fan_share;
        let ram = self.ram_kg_s_per_kmh * road_kmh;
        let free = (fan * fan + ram * ram + self.natural_kg_s * self.natural_kg_s).sqrt();
        // A fan against a part-blocked face: flow falls a little less than the open share.
        let flow = free * libm::pow(open, 0.9);
        let per_open_face = flow / open / self.fan_kg_s;
        (flow, self.conductance_w_k * open * libm::pow(per_open_face, 0.55))
    }
}

/// Evaporator air and cabin of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CabinSpec {
    /// Blower flow at 100 % [kg/s of dry air].
    pub blower_kg_s: f64,
    /// Air-side conductance of the evaporator at full blower [W/K].
    pub conductance_w_k: f64,
    /// Natural flow through the evaporator box with the blower off [kg/s].
    pub natural_kg_s: f64,
    /// Outside air that leaks in past the closed flap, share of the blower flow.
    pub flap_leak: f64,
    /// Conductance cabin to outside [W/K].
    pub shell_w_k: f64,
    /// Heat from engine bay and people [W].
    pub gains_w: f64,
    /// Water from people [kg/s].
    pub moisture_kg_s: f64,
    /// Heat capacity of trim that goes with the cabin air [J/K].
    pub trim_j_k: f64,
    /// Conductance trim to cabin air [W/K].
    pub trim_w_k: f64,
    /// Air in the cabin [kg].
    pub air_kg: f64,
}

/// Air entering the evaporator and what the coil does to it, fixed over one solver step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CoilAir {
    /// Dry air flow [kg/s].
    pub flow_kg_s: f64,
    /// Entering temperature [K].
    pub t_k: f64,
    /// Entering humidity ratio.
    pub w: f64,
    /// Effectiveness 1 - exp(-NTU).
    pub effectiveness: f64,
}

impl CabinSpec {
    /// State of the air that meets the evaporator.
    pub fn coil_air(
        &self,
        cabin: &Cabin,
        blower_pct: f64,
        recirculate: bool,
        outside: (f64, f64),
    ) -> CoilAir {
        let share = (blower_pct / 100.0).clamp(0.0, 1.0);
        let flow = (self.blower_kg_s * share).max(self.natural_kg_s);
        let fresh = if recirculate { self.flap_leak } else { 1.0 };
        let ntu = self.conductance_w_k * libm::pow(flow / self.blower_kg_s, 0.55) / (flow * AIR_CP);
        CoilAir {
            flow_kg_s: flow,
            t_k: fresh * outside.0 + (1.0 - fresh) * cabin.t_k,
            w: fresh * outside.1 + (1.0 - fresh) * cabin.w,
            effectiveness: 1.0 - libm::exp(-ntu),
        }
    }
}

impl CoilAir {
    /// Air side of one cell with `share` of the face, its wall at `wall_k`: sensible conductance, and the
    /// heat of the water that condenses there, linear in the wall temperature (Lewis number one).
    pub fn cell(&self, share: f64, wall_k: f64) -> AirSide {
        let m = self.flow_kg_s * share * self.effectiveness;
        let saturated = moist_air::saturated_humidity_ratio(wall_k, ATMOSPHERE_PA);
        let slope = moist_air::saturated_humidity_ratio_slope(wall_k, ATMOSPHERE_PA);
        let excess = self.w - saturated;
        let wet = if excess > 0.0 { 1.0 } else { 0.0 };
        AirSide {
            conductance_w_k: m * AIR_CP,
            t_k: self.t_k,
            latent_w: m * LATENT * excess * wet,
            latent_slope_w_k: m * LATENT * slope * wet,
        }
    }
}

/// Cabin state.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Cabin {
    /// Air temperature [K].
    pub t_k: f64,
    /// Humidity ratio.
    pub w: f64,
    /// Trim temperature [K].
    pub trim_k: f64,
}

/// Air leaving the evaporator: temperature [K] and humidity ratio.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct VentAir {
    /// Temperature [K].
    pub t_k: f64,
    /// Humidity ratio.
    pub w: f64,
}

impl Cabin {
    /// Implicit step of `dt_s` with vent air blowing in; an occupied car with its engine running adds heat and
    /// moisture.
    pub fn step(
        &mut self,
        spec: &CabinSpec,
        occupied: bool,
        coil: &CoilAir,
        vent: VentAir,
        outside: (f64, f64),
        dt_s: f64,
    ) {
        let supply = coil.flow_kg_s;
        let (gains_w, moisture_kg_s) = if occupied { (spec.gains_w, spec.moisture_kg_s) } else { (0.0, 0.0) };
        let air = spec.air_kg * AIR_CP / dt_s;
        let trim = spec.trim_j_k / dt_s;
        // Trim eliminated: T_trim = (trim T_old + G T) / (trim + G).
        let g = spec.trim_w_k;
        let coupling = g * trim / (trim + g);
        self.t_k = (air * self.t_k
            + supply * AIR_CP * vent.t_k
            + spec.shell_w_k * outside.0
            + gains_w
            + coupling * self.trim_k)
            / (air + supply * AIR_CP + spec.shell_w_k + coupling);
        self.trim_k = (trim * self.trim_k + g * self.t_k) / (trim + g);
        let mass = spec.air_kg / dt_s;
        self.w = (mass * self.w + supply * vent.w + moisture_kg_s) / (mass + supply);
    }
}
