//! Flow laws between two volumes. One law gives mass and enthalpy flow as duals by both ends'
//! unknowns, with smooth upwinding.

use super::dual::D4;
use super::volume::Node;

/// Pressure difference over which the square-root law is rounded [Pa]: a constant and a share of p
/// (the trial of shared/DESIGN.md section 7 found a smaller share too sharp).
const ROUND_PA: f64 = 0.5;
const ROUND_SHARE: f64 = 1e-3;
/// (k/C)^2 of a pipe or hose [Pa kg/m3] and the pressure at which molecular flow equals viscous flow [Pa]; derived from
/// the dimensions of a service hose, plausibility only.
const VISCOUS: f64 = 1.0;
const MOLECULAR_PA: f64 = 12.0;
/// Flow over which the carried enthalpy changes sides [kg/s].
const UPWIND_KG_S: f64 = 1e-4;
/// The same for air, which exchanges by half of this at rest, as gases do by diffusion [kg/s].
const AIR_UPWIND_KG_S: f64 = 1e-7;

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
    /// Part of the flow that comes out of the first end, and (not positive) out of the second [kg/s].
    pub split_kg_s: (f64, f64),
    /// Slopes of both parts by the mass flow.
    pub split_slopes: (f64, f64),
}

/// Pressure difference over which the square-root law is rounded at a mean pressure [Pa].
pub fn rounding_pa(mean_pa: f64) -> f64 {
    ROUND_PA + ROUND_SHARE * mean_pa.min(2e6)
}

/// The same for thin gas: below a density of about a kilogram per cubic metre pipes and hoses of this size carry
/// viscous flow (Poiseuille), which is linear in the difference, and below some 10 Pa molecular flow, which no
/// longer falls with pressure. With k the turbulent and C the viscous constant of a hose (5 mm by 1.5 m: k/C
/// about 1 Pa kg/m3) the law turns linear below (k/C)^2 / rho.
pub fn viscous_pa(p_pa: f64, rho_kg_m3: f64) -> f64 {
    let molecular = 1.0 + MOLECULAR_PA / p_pa.max(0.1);
    VISCOUS / (molecular * molecular * rho_kg_m3.max(1e-9))
}

/// Turbulent flow `k sqrt(rho) dp / (dp^2 + d0^2)^(1/4)` with what it carries; k in m2 (an orifice's area times
/// sqrt 2). `loaded` is what leaves each end per kilogram of refrigerant, its air included.
pub fn stream(a: &Node, b: &Node, k: f64, loaded: (f64, f64)) -> Stream {
    let dp = a.p.first() - b.p.second();
    let mean_pa = 0.5 * (a.p.v + b.p.v);
    let thickest = (a.rho_out.v * loaded.0).max(b.rho_out.v * loaded.1);
    let mut d0 = rounding_pa(mean_pa);
    if thickest < 5.0 {
        d0 += viscous_pa(mean_pa, thickest);
    }
    let smooth = (dp.square() + d0 * d0).sqrt();
    // Upstream density, shared between the ends while the difference is small.
    let w = (dp / smooth + 1.0) * 0.5;
    let (ra, rb) = (a.rho_out.first() * (1.0 / loaded.0), b.rho_out.second() * (1.0 / loaded.1));
    let rho = ra * w + rb * (D4::constant(1.0) - w);
    let scale = rho.sqrt() * k;
    let mass = scale * dp / smooth.sqrt();
    let ratio = dp.v / smooth.v;
    let w_slope = 0.5 * d0 * d0 / (smooth.v * smooth.v * smooth.v);
    let by_density = 0.5 * (ra.v - rb.v) / rho.v * w_slope;
    let mass_per_pa = scale.v / smooth.v.sqrt() * (1.0 - 0.5 * ratio * ratio) + mass.v * by_density;

    // Upwinding: the share that comes from the first end, smooth through zero.
    let m = mass.v;
    let root = (m * m + UPWIND_KG_S * UPWIND_KG_S).sqrt();
    let share = 0.5 * (1.0 + m / root);
    let share_slope = 0.5 * UPWIND_KG_S * UPWIND_KG_S / (root * root * root);
    // Air may only come from where it is: the part out of the second end is never positive.
    let strict = (m * m + AIR_UPWIND_KG_S * AIR_UPWIND_KG_S).sqrt();
    let (ha, hb) = (a.h_out.first(), b.h_out.second());
    let w = mass.chain(share, share_slope);
    let heat = mass * (ha * w + hb * (D4::constant(1.0) - w));
    Stream {
        mass_kg_s: mass,
        heat_w: heat,
        mass_per_pa,
        heat_per_mass: hb.v + share * (ha.v - hb.v) + m * share_slope * (ha.v - hb.v),
        split_kg_s: (0.5 * (m + strict), 0.5 * (m - strict)),
        split_slopes: (0.5 * (1.0 + m / strict), 0.5 * (1.0 - m / strict)),
    }
}
