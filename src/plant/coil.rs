//! Air through the evaporator: how much of it, in what state it meets the coil, and what each cell does to it.
//! The water it leaves there is in `coil_water.rs`, frost in `frost.rs`.

use super::cabin::{Cabin, CabinSpec};
use super::coil_cell::Cell;
use super::coil_water::{CellWater, CoilWater};
use super::frost::Path;
use super::spec::{CoilSurfaceSpec, PlantSpec};
use super::{Inputs, State};
use crate::moist_air::CP_DRY_AIR;

/// Air entering the evaporator, fixed over one solver step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilAir {
    /// Dry air flow [kg/s].
    pub flow_kg_s: f64,
    /// Entering temperature, behind the blower [K].
    pub t_k: f64,
    /// Entering humidity ratio.
    pub w: f64,
    /// Pressure of the air [Pa].
    pub(super) p_pa: f64,
    /// How the flow shares out over the cells.
    pub(super) path: Path,
    /// Effectiveness 1 - exp(-NTU) of a cell, where the path is clean.
    effectiveness: f64,
    /// Air-side conductance of the whole coil at the flow `full_kg_s` [W/K].
    conductance_w_k: f64,
    full_kg_s: f64,
    /// Housing to coil [W/K] and its temperature [K].
    housing: (f64, f64),
    /// Share of the water that finds the drain.
    pub(super) drain: f64,
    pub(super) surface: CoilSurfaceSpec,
}

impl CoilAir {
    /// Air of the cabin, mixed with what comes from outside, that meets the coil.
    pub fn entering(spec: &PlantSpec, inputs: &Inputs, state: &State) -> Self {
        Self::new(&spec.cabin, &spec.coil, inputs, &state.cabin, &state.coil)
    }

    /// The same from its parts.
    pub fn new(
        spec: &CabinSpec,
        surface: &CoilSurfaceSpec,
        inputs: &Inputs,
        cabin: &Cabin,
        water: &CoilWater,
    ) -> Self {
        let path = Path::of(surface, water);
        let share = (inputs.blower_pct / 100.0).clamp(0.0, 1.0);
        // Heads of fan and system both go with the square of its speed, so frost takes the same share of flow at
        // any speed.
        let through = inputs.thin_air() * path.flow_share * inputs.evaporator_air.clamp(0.02, 1.0);
        let flow = (spec.blower_kg_s * share * through).max(spec.natural_kg_s * path.openness());
        let fresh = if inputs.recirculate { spec.flap_leak } else { 1.0 };
        let motor_k = spec.blower_w * share * share * share / (flow * CP_DRY_AIR);
        let mut air = Self {
            flow_kg_s: flow,
            t_k: fresh * inputs.ambient_t_k + (1.0 - fresh) * cabin.t_k + motor_k,
            w: fresh * inputs.ambient_w + (1.0 - fresh) * cabin.w,
            p_pa: inputs.ambient_pa,
            path,
            effectiveness: 0.0,
            conductance_w_k: spec.conductance_w_k * inputs.evaporator_film.max(0.0),
            full_kg_s: spec.blower_kg_s,
            // Air that stands in the box goes round between housing and coil: it carries heat, but is as moist as
            // the coil makes it. The housing sits in the cabin and is as warm.
            housing: (surface.box_w_k * (1.0 - share), cabin.t_k),
            drain: inputs.drain.clamp(0.0, 1.0),
            surface: *surface,
        };
        air.effectiveness = air.effectiveness_at(flow);
        air
    }

    /// Effectiveness of a cell when the whole coil would pass `flow_kg_s` as it does: conductance goes with flow
    /// to the power 0.55 (louvred fins, exponent from memory).
    fn effectiveness_at(&self, flow_kg_s: f64) -> f64 {
        let film = libm::pow(flow_kg_s / self.full_kg_s, 0.55);
        1.0 - libm::exp(-self.conductance_w_k * film / (flow_kg_s * CP_DRY_AIR))
    }

    /// One cell with its wall at `wall_k` and `water` on it at the start of a step of `dt_s`.
    pub fn cell(&self, wall_k: f64, water: &CellWater, dt_s: f64) -> Cell {
        let n = self.path.cells;
        let flow = self.flow_kg_s * self.path.share(&self.surface, water);
        let effectiveness =
            if self.path.clean { self.effectiveness } else { self.effectiveness_at(flow * n) };
        let area_m2 = self.surface.surface_m2 / n;
        Cell::new(
            (self.t_k, self.w, self.p_pa),
            flow * effectiveness,
            (area_m2, self.surface.holdup_kg_m2 * area_m2),
            (self.housing.0 / n, self.housing.1),
            (wall_k, water),
            dt_s,
        )
    }
}
