//! The cabin: air, trim, sun, people, and what comes through floor and firewall.

use serde::{Deserialize, Serialize};

use super::Inputs;
use crate::moist_air::{self, CP_DRY_AIR};

/// Sensible heat of a seated person [W] and water breathed and sweated out [kg/s], 60 g/h: seated, very light
/// work, ASHRAE Fundamentals, nonresidential cooling loads (from memory).
pub const PERSON_W: f64 = 80.0;
/// See [`PERSON_W`].
pub const PERSON_WATER_KG_S: f64 = 60.0e-3 / 3600.0;
/// Road speed above which the outside of the shell is fully swept [km/h].
const SWEPT_KMH: f64 = 60.0;

/// Evaporator air and cabin of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CabinSpec {
    /// Blower flow at 100 % through a clean coil [kg/s of dry air].
    pub blower_kg_s: f64,
    /// Heat of the blower motor at 100 % into its air [W]; goes with the cube of its speed.
    pub blower_w: f64,
    /// Air-side conductance of the evaporator at full blower [W/K].
    pub conductance_w_k: f64,
    /// Natural flow through the evaporator box with the blower off [kg/s].
    pub natural_kg_s: f64,
    /// Outside air that leaks in past the closed flap, share of the blower flow.
    pub flap_leak: f64,
    /// Conductance cabin to outside with the blower at full or the car on the road [W/K].
    pub shell_w_k: f64,
    /// The same with still air on both sides [W/K].
    pub still_shell_w_k: f64,
    /// Conductance from the engine's coolant and exhaust through heater box and tunnel, engine running [W/K].
    pub tunnel_w_k: f64,
    /// Sun let in: glass area times transmittance, with the roof's part, on a horizontal plane [m2].
    pub sun_m2: f64,
    /// Share of the sun that falls on trim; the rest warms air through thin surfaces at once.
    pub sun_on_trim: f64,
    /// Heat capacity of trim that goes with the cabin air [J/K].
    pub trim_j_k: f64,
    /// Conductance trim to cabin air [W/K].
    pub trim_w_k: f64,
    /// Air in the cabin [kg].
    pub air_kg: f64,
    /// Outside air that changes places with that inside while the doors stand open [kg/s].
    #[serde(default)]
    pub door_kg_s: f64,
    /// A cold room starts at this temperature rather than at that of its surroundings [K].
    #[serde(default)]
    pub start_t_k: Option<f64>,
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

/// Air leaving the evaporator, which blows into the cabin.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct VentAir {
    /// Temperature [K].
    pub t_k: f64,
    /// Humidity ratio.
    pub w: f64,
}

impl CabinSpec {
    fn shell(&self, inputs: &Inputs) -> f64 {
        let stirred = (inputs.blower_pct / 100.0).max(inputs.road_kmh / SWEPT_KMH).clamp(0.0, 1.0);
        self.still_shell_w_k + (self.shell_w_k - self.still_shell_w_k) * stirred
    }
}

impl Cabin {
    /// A car parked for hours in the sun that stands in `inputs`: what comes in goes out through the still shell.
    pub fn soaked(spec: &CabinSpec, inputs: &Inputs) -> Self {
        if let Some(t_k) = spec.start_t_k {
            let w = inputs.ambient_w.min(0.85 * moist_air::saturated_humidity_ratio(t_k, inputs.ambient_pa));
            return Self { t_k, w, trim_k: t_k };
        }
        let sun = spec.sun_m2 * inputs.solar_w_m2;
        let t_k = inputs.ambient_t_k + sun / spec.still_shell_w_k;
        Self { t_k, w: inputs.ambient_w, trim_k: t_k + spec.sun_on_trim * sun / spec.trim_w_k }
    }

    /// Implicit step of `dt_s` with `supply_kg_s` of vent air blowing in, engine and bay at these temperatures. People sit in a
    /// car whose engine runs.
    pub fn step(
        &mut self,
        spec: &CabinSpec,
        inputs: &Inputs,
        supply_kg_s: f64,
        vent: VentAir,
        firewall: (f64, f64),
        engine_t_k: f64,
        dt_s: f64,
    ) {
        let (tunnel, people) = if inputs.engine_on { (spec.tunnel_w_k, inputs.people) } else { (0.0, 0.0) };
        let sun = spec.sun_m2 * inputs.solar_w_m2;
        let air = spec.air_kg * CP_DRY_AIR / dt_s;
        let trim = spec.trim_j_k / dt_s;
        let shell = spec.shell(inputs);
        // Trim eliminated: T_trim = (trim T_old + sun on it + G T) / (trim + G).
        let g = spec.trim_w_k;
        let trim_w = trim * self.trim_k + spec.sun_on_trim * sun;
        let door_kg_s = spec.door_kg_s * inputs.doors_open.clamp(0.0, 1.0);
        let door = door_kg_s * CP_DRY_AIR;
        self.t_k = (air * self.t_k
            + supply_kg_s * CP_DRY_AIR * vent.t_k
            + door * inputs.ambient_t_k
            + shell * inputs.ambient_t_k
            + firewall.0 * firewall.1
            + tunnel * engine_t_k
            + people * PERSON_W
            + (1.0 - spec.sun_on_trim) * sun
            + g * trim_w / (trim + g))
            / (air + supply_kg_s * CP_DRY_AIR + door + shell + firewall.0 + tunnel + g * trim / (trim + g));
        self.trim_k = (trim_w + g * self.t_k) / (trim + g);
        let mass = spec.air_kg / dt_s;
        let w = (mass * self.w
            + supply_kg_s * vent.w
            + door_kg_s * inputs.ambient_w
            + people * PERSON_WATER_KG_S)
            / (mass + supply_kg_s + door_kg_s);
        // What cabin air cannot hold fogs the windows; it is not followed any further.
        self.w = w.min(moist_air::saturated_humidity_ratio(self.t_k, inputs.ambient_pa));
    }
}

#[cfg(test)]
mod tests {
    use super::super::coil::CoilAir;
    use super::super::coil_water::CoilWater;
    use super::super::slopes_tests::inputs;
    use super::*;
    use crate::plant::testing::rig;
    use crate::units::ATMOSPHERE_PA;

    /// A parked car stays as its soak left it, and a crowd in a cold car fogs the windows at most.
    #[test]
    fn a_soaked_cabin_rests_and_never_holds_fog() {
        let car = rig("compact_car");
        let mut i = inputs();
        (i.engine_on, i.blower_pct, i.solar_w_m2) = (false, 0.0, 900.0);
        let start = Cabin::soaked(&car.cabin, &i);
        let mut cabin = start;
        let water = CoilWater::dry(6);
        let step = |cabin: &mut Cabin, i: &Inputs| {
            let coil = CoilAir::new(&car.cabin, &car.coil, i, cabin, &water);
            let vent = VentAir { t_k: coil.t_k, w: coil.w };
            cabin.step(&car.cabin, i, coil.flow_kg_s, vent, (0.0, i.ambient_t_k), i.ambient_t_k, 2.0);
        };
        for _ in 0..3600 {
            step(&mut cabin, &i);
        }
        assert!((cabin.t_k - start.t_k).abs() < 0.1, "{start:?} {cabin:?}");
        assert!((cabin.trim_k - start.trim_k).abs() < 0.1, "{start:?} {cabin:?}");
        (i.engine_on, i.people, i.solar_w_m2) = (true, 7.0, 0.0);
        (i.ambient_t_k, i.ambient_w) = (263.15, 0.0015);
        for _ in 0..3600 {
            step(&mut cabin, &i);
            assert!(cabin.w <= moist_air::saturated_humidity_ratio(cabin.t_k, ATMOSPHERE_PA));
        }
    }
}
