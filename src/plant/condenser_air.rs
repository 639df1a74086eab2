//! Air through the front of the car: over the condenser, over the radiator behind it, and what of it comes
//! back to the front while the car stands.
//!
//! With `r` the share of the entering air that has been through both cores before, `e` the effectiveness of
//! the condenser and `x` that of the radiator (times how far the thermostat is open), temperatures follow
//!
//! ```text
//! off condenser  = on + e (wall - on)
//! off radiator   = off condenser + x (engine - off condenser)
//! on             = (1 - r) outside + r (off radiator)
//! ```
//!
//! which is linear in `on` and so is solved in closed form:
//! `on = [(1 - r) outside + r ((1 - x) e wall + x engine)] / [1 - r (1 - x) (1 - e)]`.
//! `wall` is the mean over the face at the start of a step; the loop gain `r (1 - x) e` is far below one, so
//! taking it from there is stable at any step length.

use serde::{Deserialize, Serialize};

use super::heat::AirSide;
use crate::moist_air;

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
    /// Share of the air the fan draws at rest that has been through the cores before, with all seals in place,
    /// 0 to 0.5.
    pub recirculated_share: f64,
    /// Road speed at which the wind holds all of it back [km/h].
    pub recirculation_ends_kmh: f64,
    /// A fan on the engine with a viscous coupling, where there is no electric one.
    #[serde(default)]
    pub viscous_fan: Option<ViscousFanSpec>,
}

/// A fan on the engine's belt behind a coupling of silicone oil that a bimetal strip lets take hold when the air off
/// radiator and condenser is hot.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ViscousFanSpec {
    /// Engine speed at which the fan moves its full flow with the coupling taking hold [rev/min].
    pub full_at_rpm: f64,
    /// Share of the full flow that it never exceeds: the coupling slips at speed.
    pub most_share: f64,
    /// Share of its own speed that a cold coupling still drags it to.
    pub dragged_share: f64,
    /// Air temperature at which the coupling begins to take hold [K].
    pub engages_t_k: f64,
    /// Air temperature at which it holds firmly [K].
    pub engaged_t_k: f64,
}

impl ViscousFanSpec {
    /// Fan flow as a share of the full one, in air of a temperature off the cores [K]; `grip` is 1 for a sound coupling.
    pub fn share(&self, engine_rpm: f64, air_off_t_k: f64, grip: f64) -> f64 {
        let span = (self.engaged_t_k - self.engages_t_k).max(0.1);
        let holds = ((air_off_t_k - self.engages_t_k) / span).clamp(0.0, 1.0) * grip.clamp(0.0, 1.0);
        let coupling = self.dragged_share + (1.0 - self.dragged_share) * holds;
        (coupling * engine_rpm / self.full_at_rpm).clamp(0.0, self.most_share)
    }
}

/// Share of the way to the wet bulb that spray cools the air on the condenser (own estimate).
const SPRAY_SHARE: f64 = 0.7;

/// How much cooler water sprayed ahead of the condenser makes the air on its face [K]: outside air of a temperature [K] and a
/// humidity ratio at a pressure [Pa absolute].
pub fn spray_k(t_k: f64, w: f64, pa: f64) -> f64 {
    SPRAY_SHARE * (t_k - moist_air::wet_bulb_k(t_k, w, pa)).max(0.0)
}

/// Most of the entering air that can be air from behind, whatever seals are missing.
const MOST_RECIRCULATED: f64 = 0.6;

impl CondenserAirSpec {
    /// Share of the face air gets through, never quite none.
    pub(super) fn open(blocked: f64) -> f64 {
        (1.0 - blocked).clamp(0.02, 1.0)
    }

    /// What moves the air, as squares of flows that add: fan, road wind, natural draught [(kg/s)2].
    pub(super) fn drives(&self, fan_share: f64, road_kmh: f64) -> [f64; 3] {
        [self.fan_kg_s * fan_share, self.ram_kg_s_per_kmh * road_kmh, self.natural_kg_s].map(|x| x * x)
    }

    /// Share of the entering air that has been through the cores before. The fan's suction pulls it round, so
    /// it goes with the fan's part of what moves the air, and the wind on the nose holds it back. The form of
    /// both is our own. Ahead of the condenser air is a kelvin or two warmer than outside at idle with good seals
    /// and 5 to 10 K without (common practice, from memory).
    pub(super) fn recirculated(&self, fan_share: f64, road_kmh: f64, extra: f64) -> f64 {
        let drives = self.drives(fan_share, road_kmh);
        let by_fan = drives[0] / drives.iter().sum::<f64>();
        let calm = (1.0 - road_kmh / self.recirculation_ends_kmh).clamp(0.0, 1.0);
        ((self.recirculated_share + extra.max(0.0)) * by_fan * calm * calm).clamp(0.0, MOST_RECIRCULATED)
    }
}

/// Air through the front over one solver step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FrontAir {
    /// Flow over the condenser [kg/s].
    pub flow_kg_s: f64,
    /// Part of it that fan and wind push on into the engine bay; a draught through the condenser alone rises
    /// in front of the radiator [kg/s].
    pub pushed_kg_s: f64,
    /// Temperature on the condenser [K].
    pub on_t_k: f64,
    /// Conductance between the walls of the whole face and the entering air [W/K].
    pub face_w_k: f64,
    /// Radiator: effectiveness times opening of the thermostat, 0 to 1.
    pub radiator: f64,
}

impl FrontAir {
    /// Air side of a cell with `share` of the face.
    pub fn cell(&self, share: f64) -> AirSide {
        AirSide { conductance_w_k: self.face_w_k * share, t_k: self.on_t_k, ..AirSide::default() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SPEC: CondenserAirSpec = CondenserAirSpec {
        fan_kg_s: 0.3,
        ram_kg_s_per_kmh: 0.006,
        natural_kg_s: 0.03,
        conductance_w_k: 300.0,
        recirculated_share: 0.1,
        recirculation_ends_kmh: 40.0,
        viscous_fan: None,
    };

    #[test]
    fn air_comes_back_only_at_a_standstill_with_the_fan_on() {
        let at = |fan, kmh, extra| SPEC.recirculated(fan, kmh, extra);
        assert!(at(1.0, 0.0, 0.0) > 0.098 && at(1.0, 0.0, 0.0) <= 0.1);
        assert!(at(0.7, 0.0, 0.0) > 0.095);
        assert_eq!(at(0.0, 0.0, 0.0), 0.0);
        assert_eq!(at(1.0, 40.0, 0.3), 0.0);
        assert_eq!(at(1.0, 120.0, 0.3), 0.0);
        assert!(at(1.0, 20.0, 0.0) < 0.03);
        assert!(at(1.0, 0.0, 0.2) > 0.29 && at(1.0, 0.0, 5.0) <= MOST_RECIRCULATED);
    }

    /// The closed form against the three lines of the heading, gone round until they stand still.
    #[test]
    fn the_closed_form_is_the_fixed_point() {
        let (outside, wall, engine): (f64, f64, f64) = (308.0, 330.0, 365.0);
        for (r, e, x) in [(0.1, 0.8, 0.3), (0.6, 0.9, 0.0), (0.6, 0.3, 0.9), (0.0, 0.5, 0.5)] {
            let mut on = outside;
            for _ in 0..200 {
                let off = on + e * (wall - on);
                on = (1.0 - r) * outside + r * (off + x * (engine - off));
            }
            let closed = ((1.0 - r) * outside + r * ((1.0 - x) * e * wall + x * engine))
                / (1.0 - r * (1.0 - x) * (1.0 - e));
            assert!((on - closed).abs() < 1e-9, "{on} {closed}");
        }
    }
}
