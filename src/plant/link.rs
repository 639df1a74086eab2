//! Flow laws between two volumes. One law gives mass and enthalpy flow as duals by both ends'
//! unknowns, with smooth upwinding.

use super::dual::D4;
use super::volume::Node;

/// Pressure difference over which the square-root law is rounded [Pa]: a constant and a share of p
/// (the trial of shared/DESIGN.md section 7 found a smaller share too sharp).
const ROUND_PA: f64 = 0.5;
const ROUND_SHARE: f64 = 1e-3;
/// Flow over which the carried enthalpy changes sides [kg/s].
const UPWIND_KG_S: f64 = 2e-5;

/// A mass flow, with its slope by the pressure difference alone (through which air acts) [kg/(s Pa)].
#[derive(Clone, Copy, Debug)]
pub struct Stream {
    /// Mass flow from first to second [kg/s].
    pub mass_kg_s: D4,
    /// Enthalpy it carries [W].
    pub heat_w: D4,
    /// Slope of the mass flow by the pressure difference [kg/(s Pa)].
    pub mass_per_pa: f64,
    /// Slope of the carried enthalpy by the mass flow [J/kg].
    pub heat_per_mass: f64,
    /// Part of the flow that comes from the first end, and what comes from the second [kg/s].
    pub split_kg_s: (f64, f64),
    /// Slopes of both parts by the mass flow.
    pub split_slopes: (f64, f64),
}

/// Turbulent flow `k sqrt(rho) dp / (dp^2 + d0^2)^(1/4)` with what it carries; k in m2 (an orifice's area times
/// sqrt 2).
pub fn stream(a: &Node, b: &Node, k: f64) -> Stream {
    let dp = a.p.first() - b.p.second();
    let d0 = ROUND_PA + ROUND_SHARE * 0.5 * (a.p.v + b.p.v).min(2e6);
    let smooth = (dp.square() + d0 * d0).sqrt();
    // Upstream density, shared between the ends while the difference is small.
    let w = (dp / smooth + 1.0) * 0.5;
    let rho = a.rho_out.first() * w + b.rho_out.second() * (D4::constant(1.0) - w);
    let scale = rho.sqrt() * k;
    let mass = scale * dp / smooth.sqrt();
    let ratio = dp.v / smooth.v;
    let w_slope = 0.5 * d0 * d0 / (smooth.v * smooth.v * smooth.v);
    let by_density = 0.5 * (a.rho_out.v - b.rho_out.v) / rho.v * w_slope;
    let mass_per_pa = scale.v / smooth.v.sqrt() * (1.0 - 0.5 * ratio * ratio) + mass.v * by_density;

    // Upwinding: the share that comes from the first end, smooth through zero.
    let m = mass.v;
    let root = (m * m + UPWIND_KG_S * UPWIND_KG_S).sqrt();
    let share = 0.5 * (1.0 + m / root);
    let share_slope = 0.5 * UPWIND_KG_S * UPWIND_KG_S / (root * root * root);
    let (ha, hb) = (a.h_out.first(), b.h_out.second());
    let w = mass.chain(share, share_slope);
    let heat = mass * (ha * w + hb * (D4::constant(1.0) - w));
    Stream {
        mass_kg_s: mass,
        heat_w: heat,
        mass_per_pa,
        heat_per_mass: hb.v + share * (ha.v - hb.v) + m * share_slope * (ha.v - hb.v),
        split_kg_s: (m * share, m * (1.0 - share)),
        split_slopes: (share + m * share_slope, 1.0 - share - m * share_slope),
    }
}
