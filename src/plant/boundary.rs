//! Where the loop meets the outside: openings to the air, and what hangs on the centre hose (a vacuum pump, a
//! cylinder of refrigerant held upright or upside down).
//!
//! Refrigerant and air leave together in the proportion in which they stand at the opening; what comes in is
//! air, or refrigerant from the cylinder. Each exchange is exact in the volume's own three unknowns.

use serde::{Deserialize, Serialize};

use super::dual::{D2, D3};
use super::link;
use super::volume::{Node, R_AIR};
use crate::refrigerant::Refrigerant;
use crate::units::ATMOSPHERE_PA;

/// What the centre hose ends in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CentreHose {
    /// A cap.
    #[default]
    Capped,
    /// Nothing: open to the air.
    Open,
    /// A running vacuum pump.
    VacuumPump,
    /// A cylinder that gives vapour.
    CylinderVapour,
    /// A cylinder that gives liquid.
    CylinderLiquid,
}

impl CentreHose {
    /// Does a cylinder hang on it?
    pub fn is_cylinder(self) -> bool {
        matches!(self, Self::CylinderVapour | Self::CylinderLiquid)
    }
}

/// A place in the loop that may be open to the air.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OpenPlace {
    /// Suction line with the compressor's shaft seal.
    #[default]
    SuctionLine,
    /// Discharge line.
    DischargeLine,
    /// Last condenser cell.
    Condenser,
    /// Liquid line.
    LiquidLine,
    /// First evaporator cell.
    Evaporator,
}

/// What leaves a volume: refrigerant [kg/s], its enthalpy [W] and air [kg/s]; negative comes in. Duals by ln p, h
/// and air of the volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exchange {
    /// Refrigerant.
    pub mass_kg_s: D3,
    /// Enthalpy of the refrigerant.
    pub heat_w: D3,
    /// Air.
    pub air_kg_s: D3,
}

/// Air of a volume as an exchange needs it: what is there [kg] and the share a kilogram of flow carries [1/kg].
#[derive(Clone, Copy, Debug)]
pub struct Loaded {
    /// Air held.
    pub kg: f64,
    /// Share carried per flow.
    pub share: f64,
}

impl Loaded {
    /// Kilograms that leave with each kilogram of refrigerant, the refrigerant included.
    pub fn per_refrigerant(&self) -> f64 {
        1.0 + (self.share * self.kg).max(0.0)
    }
    fn dual(&self) -> D3 {
        D3 { v: self.kg, d: [0.0, 0.0, 1.0] }
    }
}

/// Displacement of the vacuum pump [m3/s]: 1.4 litres per second, about 3 cubic feet a minute (common practice, no source).
const PUMP_M3_S: f64 = 1.4e-3;
/// Pressure at which the pump no longer moves anything [Pa absolute] (a two-stage pump in good order; common
/// practice, no source).
const PUMP_ULTIMATE_PA: f64 = 3.0;

fn pressure(node: &Node) -> D3 {
    D3 { v: node.p.v, d: [node.p.d[0], node.p.d[1], node.p_per_air] }
}

fn own(x: D2) -> D3 {
    D3 { v: x.v, d: [x.d[0], x.d[1], 0.0] }
}

/// Pressure difference over which the direction of an exchange turns [Pa].
const TURN_PA: f64 = 1.0;

/// Flow function `dp / (dp^2 + d0^2)^(1/4)` of the difference to an outside pressure, as its part outward (never
/// negative) and its part inward (never positive).
fn both_ways(node: &Node, outside_pa: f64, rho_kg_m3: f64) -> (D3, D3) {
    let dp = pressure(node) - outside_pa;
    let d0 = link::rounding_pa(0.5 * (node.p.v + outside_pa)) + link::viscous_pa(node.p.v, rho_kg_m3);
    let f = dp / (dp.square() + d0 * d0).sqrt().sqrt();
    let out = f.soft_positive(TURN_PA / d0.sqrt());
    (out, f - out)
}

/// An opening of flow constant `k_m2` to the air at `ambient_t_k`.
pub fn opening(node: &Node, air: Loaded, k_m2: f64, ambient_t_k: f64) -> Exchange {
    let outside = ATMOSPHERE_PA / (R_AIR * ambient_t_k);
    let (out, inward) = both_ways(node, ATMOSPHERE_PA, outside.max(node.rho_out.v));
    let leaving = own(node.rho_out * (1.0 / air.per_refrigerant())).sqrt() * out * k_m2;
    let entering = inward * (outside.sqrt() * k_m2);
    Exchange {
        mass_kg_s: leaving,
        heat_w: leaving * own(node.h_out),
        air_kg_s: leaving * air.dual() * air.share + entering,
    }
}

/// A cylinder of the loop's refrigerant at `cylinder_t_k`, giving liquid or vapour through `k_m2`.
pub fn cylinder(
    refrigerant: &Refrigerant,
    node: &Node,
    air: Loaded,
    k_m2: f64,
    cylinder_t_k: f64,
    liquid: bool,
) -> Exchange {
    let p_pa = refrigerant.saturation_p_pa(cylinder_t_k);
    let sat = refrigerant.saturation(libm::log(p_pa));
    let (rho, h) = if liquid { (sat.rho_l, sat.h_l) } else { (sat.rho_v, sat.h_v) };
    let (out, inward) = both_ways(node, p_pa, rho.min(node.rho_out.v));
    let leaving = own(node.rho_out * (1.0 / air.per_refrigerant())).sqrt() * out * k_m2;
    let entering = inward * (rho.sqrt() * k_m2);
    Exchange {
        mass_kg_s: leaving + entering,
        heat_w: leaving * own(node.h_out) + entering * h,
        air_kg_s: leaving * air.dual() * air.share,
    }
}

/// The vacuum pump at the centre hose: it moves a volume of gas, less and less towards its ultimate pressure, and
/// is no liquid pump.
pub fn vacuum_pump(node: &Node, air: Loaded) -> Exchange {
    let p = pressure(node);
    let above = (p - PUMP_ULTIMATE_PA).positive();
    let moving = above.square() / ((above + 1.0) * (above + 2.0 * PUMP_ULTIMATE_PA));
    // Above atmosphere the pump's motor limits what it takes in.
    let relief = (p * (1.0 / (1.5 * ATMOSPHERE_PA)) + 1.0).recip();
    let gas = own(node.rho_out) / (own(node.rho_out) * 0.1 + 1.0);
    let mass = gas * moving * relief * PUMP_M3_S;
    Exchange { mass_kg_s: mass, heat_w: mass * own(node.h_out), air_kg_s: mass * air.dual() * air.share }
}
