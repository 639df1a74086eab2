//! Where the loop meets the outside: openings to the air, and what hangs on the centre hose (a vacuum pump, a
//! cylinder of refrigerant held upright or upside down).
//!
//! Refrigerant and air leave together in the proportion in which they stand at the opening; what comes in is
//! air, or refrigerant from the cylinder. Each exchange is exact in the volume's own three unknowns.

use serde::{Deserialize, Serialize};

use super::dual::D3;
use super::link;
use super::volume::Node;
use crate::constants::R_DRY_AIR;
use crate::refrigerant::Refrigerant;
use crate::units::ATMOSPHERE_PA;

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
    /// Outside air that comes in, counted in the line above too [kg/s]; it brings its humidity.
    pub outside_air_kg_s: f64,
}

/// Where refrigerant that leaves the loop goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outside {
    /// The air, through a hole.
    Leak,
    /// The air, through a hose or joint that hands have opened.
    Vent,
    /// The air, out of the vacuum pump.
    Pump,
    /// The air, through the relief valve or couplers that let go.
    Relief,
    /// The cylinder at the centre hose.
    Cylinder,
    /// Service on purpose.
    Service,
}

/// What leaves the loop at a volume; negative comes in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leaving {
    /// Where.
    pub volume: usize,
    /// Refrigerant [kg/s].
    pub mass_kg_s: f64,
    /// Its enthalpy [W].
    pub heat_w: f64,
    /// Air that leaves [kg/s], never negative.
    pub air_out_kg_s: f64,
    /// Outside air that comes in with its humidity [kg/s], never negative.
    pub air_in_kg_s: f64,
    /// Where to.
    pub to: Outside,
}

/// Refrigerant let out into the air so far, by the way it took [kg].
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(from = "Written", into = "Written")]
pub struct Released {
    /// Through holes.
    pub leaked_kg: f64,
    /// Through hoses and joints that hands have opened.
    pub vented_kg: f64,
    /// Out of the vacuum pump.
    pub pumped_kg: f64,
    /// Through the relief valve or couplers that let go.
    pub relieved_kg: f64,
}

impl Released {
    /// All of it [kg].
    pub fn total_kg(&self) -> f64 {
        self.leaked_kg + self.vented_kg + self.pumped_kg + self.relieved_kg
    }
}

/// As it is written down: one number where everything leaked.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Written {
    Leaked(f64),
    Parts { leaked_kg: f64, vented_kg: f64, pumped_kg: f64, relieved_kg: f64 },
}

impl From<Written> for Released {
    fn from(written: Written) -> Self {
        match written {
            Written::Leaked(leaked_kg) => Self { leaked_kg, ..Self::default() },
            Written::Parts { leaked_kg, vented_kg, pumped_kg, relieved_kg } => {
                Self { leaked_kg, vented_kg, pumped_kg, relieved_kg }
            }
        }
    }
}

impl From<Released> for Written {
    fn from(r: Released) -> Self {
        let Released { leaked_kg, vented_kg, pumped_kg, relieved_kg } = r;
        if [vented_kg, pumped_kg, relieved_kg] == [0.0; 3] {
            Self::Leaked(leaked_kg)
        } else {
            Self::Parts { leaked_kg, vented_kg, pumped_kg, relieved_kg }
        }
    }
}

/// Displacement of the vacuum pump [m3/s]: 1.4 litres per second, about 3 cubic feet a minute (common practice, no source).
const PUMP_M3_S: f64 = 1.4e-3;
/// Pressure at which the pump no longer moves anything [Pa absolute] (a two-stage pump in good order; common
/// practice, no source).
const PUMP_ULTIMATE_PA: f64 = 3.0;

pub(super) fn pressure(node: &Node) -> D3 {
    node.p.with_air(node.p_per_air)
}

/// What a gas flow out of the volume carries: refrigerant, its enthalpy, air. `load` is the air per kilogram of
/// refrigerant that leaves.
pub(super) fn parts(node: &Node, load: D3, total_kg_s: D3) -> Exchange {
    let mass_kg_s = total_kg_s / (load + 1.0);
    let heat_w = mass_kg_s * node.h_out.with_air(0.0);
    Exchange { mass_kg_s, heat_w, air_kg_s: mass_kg_s * load, outside_air_kg_s: 0.0 }
}

pub(super) fn whole_density(node: &Node, load: D3) -> D3 {
    node.whole_density(load)
}

/// Pressure difference over which the direction of an exchange turns [Pa].
const TURN_PA: f64 = 1.0;

/// Flow function `dp / (dp^2 + d0^2)^(1/4)` of the difference to an outside pressure, as its part outward (never
/// negative) and its part inward (never positive).
pub(super) fn both_ways(node: &Node, outside_pa: f64, rho_kg_m3: f64) -> (D3, D3) {
    let dp = pressure(node) - outside_pa;
    let d0 = link::rounding_pa(0.5 * (node.p.v + outside_pa)) + link::viscous_pa(node.p.v, rho_kg_m3);
    let f = dp / (dp.square() + d0 * d0).sqrt().sqrt();
    let out = f.soft_positive(TURN_PA / d0.sqrt());
    (out, f - out)
}

/// What changes places through a wide opening where pressures are equal [m3/s]: the loop breathes as its temperature
/// and the weather move, and a draught stirs what lies behind it (own estimate, 2 to 5 mL/s).
pub(super) const DRAUGHT_M3_S: f64 = 3e-6;
/// Flow constant from which an opening is wide [m2]: the bore of a pipe that is taken apart (own estimate).
pub(super) const WIDE_M2: f64 = 1e-5;
/// Pressure difference from which gas goes one way only [Pa].
const ONE_WAY_PA: f64 = 20.0;

/// An opening of flow constant `k_m2` to the air at a pressure [Pa] and temperature [K].
pub fn opening(node: &Node, load: D3, k_m2: f64, (ambient_pa, ambient_t_k): (f64, f64)) -> Exchange {
    let outside = ambient_pa / (R_DRY_AIR * ambient_t_k);
    let gas = whole_density(node, load);
    let (out, inward) = both_ways(node, ambient_pa, outside.max(gas.v));
    let mut going = gas.sqrt() * out * k_m2;
    let mut coming = -inward * (outside.sqrt() * k_m2);
    if k_m2 >= WIDE_M2 {
        let dp = pressure(node) - ambient_pa;
        let draught = ((dp * (1.0 / ONE_WAY_PA)).square() + 1.0).recip() * DRAUGHT_M3_S;
        going = going + draught * gas;
        coming = coming + draught * outside;
    }
    let leaving = parts(node, load, going);
    Exchange { outside_air_kg_s: coming.v.max(0.0), ..with_trace(node, leaving, -coming) }
}

/// Refrigerant that comes in with a kilogram of air or nitrogen. A few pascals of it hang about every workshop; they keep
/// a flushed volume from holding none at all, where the logarithm of its pressure has no bottom. Booked like any other.
const TRACE: f64 = 2e-4;

/// An exchange with the gas that comes in (never positive) and its trace.
pub(super) fn with_trace(node: &Node, leaving: Exchange, gas_kg_s: D3) -> Exchange {
    let trace = gas_kg_s * TRACE;
    Exchange {
        mass_kg_s: leaving.mass_kg_s + trace,
        heat_w: leaving.heat_w + trace * node.h_out.with_air(0.0),
        air_kg_s: leaving.air_kg_s + gas_kg_s,
        ..leaving
    }
}

/// A cylinder of the loop's refrigerant at `cylinder_t_k`, giving liquid or vapour through `k_m2`.
pub fn cylinder(
    refrigerant: &Refrigerant,
    node: &Node,
    load: D3,
    k_m2: f64,
    cylinder_t_k: f64,
    liquid: bool,
) -> Exchange {
    let p_pa = refrigerant.saturation_p_pa(cylinder_t_k);
    let sat = refrigerant.saturation(libm::log(p_pa));
    let (rho, h) = if liquid { (sat.rho_l, sat.h_l) } else { (sat.rho_v, sat.h_v) };
    let (out, inward) = both_ways(node, p_pa, rho.min(whole_density(node, load).v));
    let leaving = parts(node, load, whole_density(node, load).sqrt() * out * k_m2);
    let entering = inward * (rho.sqrt() * k_m2);
    Exchange { mass_kg_s: leaving.mass_kg_s + entering, heat_w: leaving.heat_w + entering * h, ..leaving }
}

/// The vacuum pump at the centre hose: it moves a volume of gas, less and less towards its ultimate pressure, and
/// is no liquid pump.
pub fn vacuum_pump(node: &Node, load: D3) -> Exchange {
    let p = pressure(node);
    let above = (p - PUMP_ULTIMATE_PA).positive();
    let moving = above.square() / ((above + 1.0) * (above + 2.0 * PUMP_ULTIMATE_PA));
    // Above atmosphere the pump's motor limits what it takes in.
    let relief = (p * (1.0 / (1.5 * ATMOSPHERE_PA)) + 1.0).recip();
    let gas = whole_density(node, load);
    parts(node, load, gas / (gas * 0.1 + 1.0) * moving * relief * PUMP_M3_S)
}
