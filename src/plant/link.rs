//! Flow laws between two volumes. All give the mass flow as a dual by both ends' unknowns; one function
//! turns a mass flow into an enthalpy flow with smooth upwinding.

use super::dual::D4;
use super::volume::Node;

/// Pressure difference over which the square-root law is rounded [Pa]: a constant and a share of p
/// (the trial of shared/DESIGN.md section 7 found a smaller share too sharp).
const ROUND_PA: f64 = 0.5;
const ROUND_SHARE: f64 = 1e-3;
/// Flow over which the carried enthalpy changes sides [kg/s].
const UPWIND_KG_S: f64 = 2e-5;

/// Turbulent flow `k sqrt(rho) dp / (dp^2 + d0^2)^(1/4)`, k in m2 (times sqrt 2 for an orifice of area k).
pub fn orifice(a: &Node, b: &Node, k: D4) -> D4 {
    let (pa, pb) = (a.p.first(), b.p.second());
    let dp = pa - pb;
    let d0 = ROUND_PA + ROUND_SHARE * 0.5 * (a.p.v + b.p.v).min(2e6);
    let smooth = (dp.square() + d0 * d0).sqrt();
    // Upstream density, shared between the ends while the difference is small.
    let w = (dp / smooth + 1.0) * 0.5;
    let rho = a.rho_out.first() * w + b.rho_out.second() * (D4::constant(1.0) - w);
    k * rho.sqrt() * dp / smooth.sqrt()
}

/// Share of a flow that comes from the first end, 0 to 1.
fn from_first(m: D4) -> D4 {
    let root = (m.v * m.v + UPWIND_KG_S * UPWIND_KG_S).sqrt();
    m.chain(0.5 * (1.0 + m.v / root), 0.5 * UPWIND_KG_S * UPWIND_KG_S / (root * root * root))
}

/// Enthalpy carried by a mass flow [W].
pub fn carried(a: &Node, b: &Node, m: D4) -> D4 {
    let w = from_first(m);
    m * (a.h_out.first() * w + b.h_out.second() * (D4::constant(1.0) - w))
}

/// Air carried by a mass flow, as rates per kilogram in each end: (from first, from second) [1/s].
pub fn air_rates(a: &Node, b: &Node, volumes_m3: (f64, f64), m: f64) -> (f64, f64) {
    let forward = m.max(0.0) * a.air_per_flow(volumes_m3.0, 1.0);
    let backward = (-m).max(0.0) * b.air_per_flow(volumes_m3.1, 1.0);
    (forward, backward)
}
