//! Metering devices.
//!
//! Thermostatic expansion valve: a force balance on the pintle. Bulb pressure opens, evaporator pressure and spring close;
//! the bulb follows the outlet pipe with a lag and has a maximum operating pressure. Orifice tube: choked flow by a
//! published correlation (`orifice_tube.rs`). Electronic valve: the opening it is told.

use super::dual::D2;
use super::inputs::MeteringState;
use super::orifice_tube::TubeSpec;
use super::volume::Node;
use crate::refrigerant::Refrigerant;
use serde::{Deserialize, Serialize};

/// What meters liquid into the evaporator.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Metering {
    /// A thermostatic expansion valve.
    Thermostatic(ValveSpec),
    /// An orifice tube.
    OrificeTube(TubeSpec),
    /// An electronic expansion valve.
    Electronic(ElectronicSpec),
}

impl Metering {
    /// The thermostatic valve, if it is one.
    pub fn thermostatic(&self) -> Option<&ValveSpec> {
        match self {
            Self::Thermostatic(valve) => Some(valve),
            Self::OrificeTube(_) | Self::Electronic(_) => None,
        }
    }
}

/// An electronic expansion valve: a needle moved by a motor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ElectronicSpec {
    /// Flow area times discharge coefficient wide open [m2].
    pub full_area_m2: f64,
    /// The same shut [m2].
    pub bleed_area_m2: f64,
}

impl ElectronicSpec {
    /// Orifice constant at an opening of 0 to 1: area times sqrt 2 [m2].
    pub fn orifice_m2(&self, opening: f64) -> f64 {
        let opening = opening.max(0.0);
        std::f64::consts::SQRT_2 * (self.bleed_area_m2 + (self.full_area_m2 - self.bleed_area_m2) * opening)
    }
}

/// Valve data of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ValveSpec {
    /// Flow area times discharge coefficient at full lift [m2].
    pub full_area_m2: f64,
    /// The same with the pintle on its seat: the small bleed [m2].
    pub bleed_area_m2: f64,
    /// Spring force with the pintle on its seat, as pressure [Pa].
    pub spring_pa: f64,
    /// Further pressure from seat to full lift [Pa].
    pub spring_rate_pa: f64,
    /// Bulb pressure does not rise above this [Pa absolute].
    pub max_bulb_pa: f64,
    /// Time constant of the bulb [s].
    pub bulb_lag_s: f64,
}

/// A temperature held to where saturation is tabulated [K].
pub fn below_critical(refrigerant: &Refrigerant, t_k: f64) -> f64 {
    t_k.clamp(200.0, (refrigerant.critical_t_k() - 2.5).min(370.0))
}

impl ValveSpec {
    /// Bulb temperature after `dt_s` on the outlet pipe, implicit in the outlet's own temperature [K]. A loose bulb
    /// feels the air around it, at `air_t_k`, as well.
    pub fn bulb_t(&self, bulb_old_k: f64, outlet: &Node, (loose, air_t_k): (f64, f64), dt_s: f64) -> D2 {
        let share = dt_s / (self.bulb_lag_s + dt_s);
        if loose > 0.0 {
            let felt = outlet.t * (1.0 - loose) + loose * air_t_k;
            return felt * share + bulb_old_k * (1.0 - share);
        }
        outlet.t * share + bulb_old_k * (1.0 - share)
    }

    /// Bulb pressure at a bulb temperature [Pa absolute]: the refrigerant's own saturation up to the
    /// maximum operating pressure, above which all bulb charge is vapour and hardly rises. Charge that is `lost`
    /// (share) takes its pressure along.
    pub fn bulb_pa(&self, refrigerant: &Refrigerant, bulb_t: D2, lost: f64) -> D2 {
        let p = refrigerant.saturation_p_pa(below_critical(refrigerant, bulb_t.v));
        let slope = p / refrigerant.saturation(libm::log(p)).dt_dlnp;
        let p = bulb_t.chain(p, slope);
        let p = if p.v < self.max_bulb_pa { p } else { (p - self.max_bulb_pa) * 0.03 + self.max_bulb_pa };
        if lost > 0.0 { p * (1.0 - lost) } else { p }
    }

    /// Lift, 0 to 1, from bulb pressure and the pressure under the diaphragm (at the evaporator outlet, unless the
    /// equaliser is blocked), and its slope by that pressure alone [1/Pa].
    pub fn lift(&self, bulb_pa: D2, outlet: &Node, state: &MeteringState) -> (D2, f64) {
        let under = state.equaliser_held_pa.map_or(outlet.p, D2::constant);
        let open = (bulb_pa - under - self.spring_pa) * (1.0 / self.spring_rate_pa);
        // Rounded at both stops, so the Newton step sees a slope.
        let low = open.soft_positive(0.03);
        let top = (D2::constant(1.0) - low).soft_positive(0.03);
        // The same rounding seen by the pressure alone.
        let by_pressure = if state.equaliser_held_pa.is_some() { 0.0 } else { -1.0 / self.spring_rate_pa };
        let by_pressure = D2 { v: open.v, d: [by_pressure, 0.0] };
        let slope = (D2::constant(1.0) - by_pressure.soft_positive(0.03)).soft_positive(0.03).d[0];
        (D2::constant(1.0) - top, -slope)
    }

    /// Orifice constant at a lift: area times sqrt 2, for [`super::link::orifice`] [m2].
    pub fn orifice_m2(&self, lift: f64) -> f64 {
        std::f64::consts::SQRT_2 * (self.bleed_area_m2 + (self.full_area_m2 - self.bleed_area_m2) * lift)
    }
}
