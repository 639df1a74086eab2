//! Flow laws between two volumes. One law gives mass and enthalpy flow as duals by both ends'
//! unknowns, with smooth upwinding.

use super::dual::{D2, D3, D4, D6, Dual};
use super::volume::Node;

/// Pressure difference over which the square-root law is rounded [Pa]: a constant and a share of p
/// (the trial of shared/DESIGN.md section 7 found a smaller share too sharp).
const ROUND_PA: f64 = 0.5;
const ROUND_SHARE: f64 = 1e-3;
const ROUND_MOST_PA: f64 = 2e6;
/// (k/C)^2 of a pipe or hose [Pa kg/m3] and the pressure at which molecular flow equals viscous flow [Pa]; derived from
/// the dimensions of a service hose, plausibility only.
const VISCOUS: f64 = 1.0;
const MOLECULAR_PA: f64 = 12.0;
/// Flow over which the carried enthalpy changes sides [kg/s].
const UPWIND_KG_S: f64 = 1e-4;
/// Flow over which the composition changes sides; half of it is exchanged at rest, as gases do by diffusion [kg/s].
const PART_KG_S: f64 = 1e-7;

/// A mass flow and what it carries, by the unknowns of both ends.
#[derive(Clone, Copy, Debug)]
pub struct Stream {
    /// Refrigerant from first to second [kg/s].
    pub mass_kg_s: D4,
    /// Enthalpy it carries [W].
    pub heat_w: D4,
}

/// The same where there is air.
#[derive(Clone, Copy, Debug)]
pub struct LoadedStream {
    /// Refrigerant from first to second [kg/s].
    pub mass_kg_s: D6,
    /// Enthalpy it carries [W].
    pub heat_w: D6,
    /// Air from first to second [kg/s].
    pub air_kg_s: D6,
}

/// Pressure difference over which the square-root law is rounded at a mean pressure [Pa].
pub fn rounding_pa(mean_pa: f64) -> f64 {
    ROUND_PA + ROUND_SHARE * mean_pa.min(ROUND_MOST_PA)
}

/// The same for thin gas: below a density of about a kilogram per cubic metre pipes and hoses of this size carry
/// viscous flow (Poiseuille), which is linear in the difference, and below some 10 Pa molecular flow, which no
/// longer falls with pressure. With k the turbulent and C the viscous constant of a hose (5 mm by 1.5 m: k/C
/// about 1 Pa kg/m3) the law turns linear below (k/C)^2 / rho.
pub fn viscous_pa(p_pa: f64, rho_kg_m3: f64) -> f64 {
    let molecular = 1.0 + MOLECULAR_PA / p_pa.max(0.1);
    VISCOUS / (molecular * molecular * rho_kg_m3.max(1e-9))
}

/// The flow function `dp / (dp^2 + d0^2)^(1/4)` and the share of upstream density that is the first end's.
fn driven<const N: usize>(dp: Dual<N>, mean: Dual<N>, rho_kg_m3: f64) -> (Dual<N>, Dual<N>) {
    // The part for thin gas counts without its slope: it is there for vacuum, where steps are short.
    let thin = if rho_kg_m3 < 5.0 { viscous_pa(mean.v, rho_kg_m3) } else { 0.0 };
    let slope = if mean.v < ROUND_MOST_PA { ROUND_SHARE } else { 0.0 };
    let d0 = mean.chain(rounding_pa(mean.v) + thin, slope);
    let smooth = (dp.square() + d0.square()).sqrt();
    (dp / smooth.sqrt(), (dp / smooth + 1.0) * 0.5)
}

/// Enthalpy that a flow carries: the upstream one, changing over smoothly through zero.
fn carried<const N: usize>(mass: Dual<N>, ha: Dual<N>, hb: Dual<N>) -> Dual<N> {
    let m = mass.v;
    let root = (m * m + UPWIND_KG_S * UPWIND_KG_S).sqrt();
    let share_slope = 0.5 * UPWIND_KG_S * UPWIND_KG_S / (root * root * root);
    let w = mass.chain(0.5 * (1.0 + m / root), share_slope);
    mass * (ha * w + hb * (Dual::constant(1.0) - w))
}

/// Slope of the enthalpy that a flow carries by that flow, with `ha` and `hb` at its ends [J/kg].
pub fn heat_per_mass(mass_kg_s: f64, ha: f64, hb: f64) -> f64 {
    let mass = D2 { v: mass_kg_s, d: [1.0, 0.0] };
    carried(mass, D2::constant(ha), D2::constant(hb)).d[0]
}

/// Turbulent flow `k sqrt(rho) dp / (dp^2 + d0^2)^(1/4)` with what it carries; k in m2 (an orifice's area times
/// sqrt 2).
pub fn stream(a: &Node, b: &Node, k: f64) -> Stream {
    let (pa, pb) = (a.p.first(), b.p.second());
    let (f, w) = driven(pa - pb, (pa + pb) * 0.5, a.rho_out.v.max(b.rho_out.v));
    let rho = a.rho_out.first() * w + b.rho_out.second() * (D4::constant(1.0) - w);
    let mass = rho.sqrt() * f * k;
    Stream { mass_kg_s: mass, heat_w: carried(mass, a.h_out.first(), b.h_out.second()) }
}

/// The same with air: `load` is the air that leaves each end per kilogram of refrigerant. The gas flows as a whole;
/// each part of it has the composition of the end it comes from, so that air and refrigerant can only come from
/// where they are.
pub fn loaded_stream(a: &Node, b: &Node, k: f64, load: (D3, D3)) -> LoadedStream {
    let (la, lb) = (load.0.first(), load.1.second());
    let (ra, rb) = (a.whole_density(load.0).first(), b.whole_density(load.1).second());
    let (pa, pb) = (a.p.with_air(a.p_per_air).first(), b.p.with_air(b.p_per_air).second());
    let (f, w) = driven(pa - pb, (pa + pb) * 0.5, ra.v.max(rb.v));
    let total = (ra * w + rb * (D6::constant(1.0) - w)).sqrt() * f * k;
    let out = total.soft_positive(PART_KG_S);
    let (from_a, from_b) = (out / (la + 1.0), (total - out) / (lb + 1.0));
    let mass = from_a + from_b;
    LoadedStream {
        mass_kg_s: mass,
        heat_w: carried(mass, a.h_out.with_air(0.0).first(), b.h_out.with_air(0.0).second()),
        air_kg_s: from_a * la + from_b * lb,
    }
}
