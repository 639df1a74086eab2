//! Films between refrigerant and walls, held constant over a solver step: in the coils by published correlations
//! ([`film_conductances`]), in pipes and vessels constants with a flow exponent.
//!
//! Each wall remembers the flow, pressure and heat its films were last worked out at, and they are worked out anew
//! only when one of these has moved noticeably. The memory is part of the committed state: a step that is cut and
//! taken again starts from the films it started from before, so what follows depends on the record alone.

use super::correlations::{ChannelGeometry, FilmFluid, Films, film_conductances};
use crate::refrigerant::Refrigerant;
use serde::{Deserialize, Serialize};

/// Wall of a pipe, hose or vessel: conductances on its refrigerant side at design flow and the metal. Plain tubes
/// carry little of the heat, and most of their resistance is on the outside, so constants do.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PipeWallSpec {
    /// Two-phase conductance, condensing and boiling alike [W/K].
    pub two_phase_w_k: f64,
    /// Vapour conductance [W/K].
    pub vapour_w_k: f64,
    /// Liquid conductance [W/K].
    pub liquid_w_k: f64,
    /// Heat capacity of the wall [J/K].
    pub capacity_j_k: f64,
}

/// Wall of a coil: the channels its films follow from and the metal.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoilWallSpec {
    /// Passages of refrigerant.
    pub channels: ChannelGeometry,
    /// Heat capacity of the wall [J/K].
    pub capacity_j_k: f64,
}

/// A wall as a volume of the network has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wall {
    /// Constants at a design flow [kg/s].
    Pipe(PipeWallSpec, f64),
    /// A cell of a coil.
    Cell(CoilWallSpec),
}

/// Films of one wall and what they were worked out at.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct WallFilms {
    pub(super) flow_kg_s: f64,
    pub(super) ln_p: f64,
    pub(super) heat_w: f64,
    /// Conductances between refrigerant and wall [W/K].
    pub films: Films,
}

/// Films are worked out anew when flow or ln p has moved by this much (ours).
const NOTICED: f64 = 0.03;
/// The same for heat, which acts through boiling alone, to a power of 0.67 and beside convection (ours).
const NOTICED_HEAT: f64 = 0.06;
/// Flow below which its changes are taken as shares of this one [kg/s], a fiftieth of design flow (ours).
const LITTLE_FLOW_KG_S: f64 = 5e-4;
/// Heat below which its changes are taken as shares of this one [W] (ours).
const LITTLE_HEAT_W: f64 = 20.0;

/// Share of full design film at a flow: forced convection with exponent 0.8 (Dittus-Boelter 1930) over a floor
/// of natural convection.
fn film_share(flow_kg_s: f64, design_kg_s: f64) -> f64 {
    let r = (flow_kg_s.abs() / design_kg_s).clamp(0.0, 4.0);
    0.15 + 0.85 * libm::pow(r, 0.8)
}

impl PipeWallSpec {
    fn films(&self, share: f64) -> Films {
        Films {
            condensing_w_k: self.two_phase_w_k * share,
            boiling_w_k: self.two_phase_w_k * share,
            vapour_w_k: self.vapour_w_k * share,
            liquid_w_k: self.liquid_w_k * share,
        }
    }
}

impl CoilWallSpec {
    /// One of `n` equal cells in series.
    pub fn part(&self, n: usize) -> Self {
        Self { channels: self.channels.part(n), capacity_j_k: self.capacity_j_k / n.max(1) as f64 }
    }
}

impl Wall {
    /// Heat capacity of the metal [J/K].
    pub fn capacity_j_k(&self) -> f64 {
        match self {
            Self::Pipe(spec, _) => spec.capacity_j_k,
            Self::Cell(spec) => spec.capacity_j_k,
        }
    }
    pub(super) fn films(&self, refrigerant: &Refrigerant, flow_kg_s: f64, ln_p: f64, heat_w: f64) -> Films {
        match self {
            Self::Pipe(spec, design_kg_s) => spec.films(film_share(flow_kg_s, *design_kg_s)),
            Self::Cell(spec) => {
                film_conductances(&saturated(refrigerant, ln_p), &spec.channels, flow_kg_s, heat_w)
            }
        }
    }
}

/// Saturated liquid and vapour at ln p as the correlations ask for them.
pub fn saturated(refrigerant: &Refrigerant, ln_p: f64) -> FilmFluid {
    let (s, t) = (refrigerant.saturation(ln_p), refrigerant.saturation_transport(ln_p));
    FilmFluid::new(
        s.p_pa / refrigerant.critical_p_pa(),
        (s.rho_l, s.rho_v),
        (t.mu_l, t.mu_v),
        (t.k_l, t.k_v),
        (t.cp_l, t.cp_v),
        t.sigma_n_m,
        s.h_v - s.h_l,
        refrigerant.molar_mass_kg_mol(),
    )
}

impl WallFilms {
    pub(super) fn still_hold(&self, wall: &Wall, flow_kg_s: f64, ln_p: f64, heat_w: f64) -> bool {
        let size = flow_kg_s.abs().max(LITTLE_FLOW_KG_S);
        let flow = (flow_kg_s - self.flow_kg_s).abs() <= NOTICED * size;
        match wall {
            Wall::Pipe(..) => flow,
            Wall::Cell(_) => {
                let heat = heat_w.abs().max(LITTLE_HEAT_W);
                flow && (ln_p - self.ln_p).abs() <= NOTICED
                    && (heat_w.abs() - self.heat_w.abs()).abs() <= NOTICED_HEAT * heat
            }
        }
    }
}
