//! The service bay's vessels and machines as parts of the network: cylinders that empty, warm and cool, a recovery
//! machine, nitrogen behind a regulator. Vacuum pump and openings are in `boundary.rs`.
//!
//! Sizes are those of common tools (common practice, no source).

use super::boundary::{self, Exchange};
use super::dual::D3;
use super::openings::Vessel;
use super::spec::PipeSpec;
use super::volume::Node;
use super::wall_films::PipeWallSpec;
use crate::constants::R_DRY_AIR;
use crate::refrigerant::Refrigerant;
use crate::variants::PerVariant;

/// A vessel as built and as it comes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VesselSpec {
    /// Which.
    pub vessel: Vessel,
    /// Inside [m3].
    pub volume_m3: f64,
    /// Weight without contents [kg].
    pub tare_kg: f64,
    /// Heat capacity of its wall [J/K].
    pub capacity_j_k: f64,
    /// Conductance to the air around it [W/K].
    pub outside_w_k: f64,
    /// Refrigerant in it at the start [kg].
    pub start_kg: f64,
}

impl Vessel {
    /// What it is like.
    pub fn spec(self) -> VesselSpec {
        let (volume_m3, tare_kg, capacity_j_k, outside_w_k, start_kg) = match self {
            Self::Supply => (13.0e-3, 2.9, 1500.0, 3.0, 11.0),
            Self::Recovery => (22.0e-3, 11.5, 5500.0, 4.0, 0.0),
            Self::Charging => (2.4e-3, 3.8, 1800.0, 1.0, 1.6),
            Self::Can => (0.36e-3, 0.11, 60.0, 0.35, 0.34),
        };
        VesselSpec { vessel: self, volume_m3, tare_kg, capacity_j_k, outside_w_k, start_kg }
    }
}

/// One entry for each vessel.
pub type PerVessel<T> = PerVariant<Vessel, T, { Vessel::ALL.len() }>;

impl VesselSpec {
    /// As a vessel of the network.
    pub fn pipe(&self) -> PipeSpec {
        // Films of a vessel that boils or condenses at rest go with its size (own estimate).
        let film_w_k = 12.0 * self.outside_w_k;
        PipeSpec {
            volume_m3: self.volume_m3,
            wall: PipeWallSpec {
                two_phase_w_k: film_w_k * 4.0,
                vapour_w_k: film_w_k * 0.3,
                liquid_w_k: film_w_k,
                capacity_j_k: self.capacity_j_k,
            },
            outside_w_k: self.outside_w_k,
            engine_bay_share: 0.0,
        }
    }
}

/// Volume the recovery machine's pistons move [m3/s]: about a quarter of a kilogram of vapour a minute at 6 bar.
const MACHINE_M3_S: f64 = 0.17e-3;
/// Density from which it takes liquid in gulps [kg/m3].
const GULPS_KG_M3: f64 = 200.0;
/// Loss of flow per pressure ratio above one.
const MACHINE_LOSS: f64 = 0.012;
/// Pressure below which its valves no longer open [Pa].
const MACHINE_FADE_PA: f64 = 4_000.0;
/// Its condenser leaves the liquid this much above the air [K].
const MACHINE_APPROACH_K: f64 = 10.0;

/// What the recovery machine takes out of the hose `node` against a vessel at `vessel_pa`, and the enthalpy of what it
/// delivers [J/kg].
pub fn recovery_machine(
    refrigerant: &Refrigerant,
    node: &Node,
    load: D3,
    vessel_pa: f64,
    ambient_t_k: f64,
) -> (Exchange, f64) {
    let p = boundary::pressure(node);
    let gas = boundary::whole_density(node, load);
    let against = (p.recip() * (-MACHINE_LOSS * vessel_pa) + (1.0 + MACHINE_LOSS)).soft_positive(0.005);
    let opening = p / (p + MACHINE_FADE_PA);
    let total = gas / (gas * (1.0 / GULPS_KG_M3) + 1.0) * against * opening * MACHINE_M3_S;
    let t_k = (ambient_t_k + MACHINE_APPROACH_K).min(refrigerant.critical_t_k() - 5.0);
    let liquid = refrigerant.saturation(libm::log(refrigerant.saturation_p_pa(t_k)));
    (boundary::parts(node, load, total), liquid.h_l)
}

/// Nitrogen that a regulator set to `set_pa` lets in through `k_m2`; nothing comes back. It is counted as air, whose gas
/// constant is 3 % smaller.
pub fn nitrogen(node: &Node, load: D3, k_m2: f64, set_pa: f64, ambient_t_k: f64) -> Exchange {
    let density = set_pa / (R_DRY_AIR * ambient_t_k);
    let (_, inward) = boundary::both_ways(node, set_pa, density.max(boundary::whole_density(node, load).v));
    let none = D3::constant(0.0);
    // Dry, so no outside air.
    let still = Exchange { mass_kg_s: none, heat_w: none, air_kg_s: none, outside_air_kg_s: 0.0 };
    boundary::with_trace(node, still, inward * (density.sqrt() * k_m2))
}

/// Flow constant of a vessel's valve [m2].
pub const VESSEL_VALVE_M2: f64 = 4.0e-6;
