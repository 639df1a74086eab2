//! Air through the evaporator: what each cell takes from it, the water that clings there, drips and dries,
//! and the frost that narrows the way.
//!
//! A cell sends the share `1 - exp(-NTU)` of its air to the state of its surface and lets the rest by (Lewis
//! number one), so the air leaves on the straight line between both states. The surface is the wall, or the
//! outside of the frost on it, whose temperature follows from a balance linear in the wall's own, so the
//! implicit wall of `heat.rs` stays exact.

use serde::{Deserialize, Serialize};

use super::cabin::{Cabin, CabinSpec};
use super::frost::{self, Path};
use super::heat::AirSide;
use super::layout::PlantSpec;
use super::{Inputs, State};
use crate::moist_air::{self, CP_DRY_AIR};
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// Latent heats of water [J/kg]: condensing near 5 °C, melting at 0 °C (ASHRAE Fundamentals, psychrometrics).
const CONDENSING: f64 = 2.49e6;
const MELTING: f64 = 3.34e5;
/// Conductance between wall and melting or freezing water, per surface [W/(m2 K)]: a film of some tenths of a
/// millimetre of water and slush (own estimate).
const PHASE_W_M2_K: f64 = 60.0;

/// Surface and air path of the coil of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoilSurfaceSpec {
    /// Fins and tubes on the air side [m2].
    pub surface_m2: f64,
    /// Gap between two fins [m].
    pub fin_gap_m: f64,
    /// Conductance from the housing to the coil with the blower off [W/K].
    pub box_w_k: f64,
    /// Water that clings before it drips [kg per m2 of surface].
    pub holdup_kg_m2: f64,
    /// Share of the pressure drop of the whole air path that falls on the clean coil.
    pub resistance_share: f64,
    /// Head the blower loses from shut-off to its working flow, share of the shut-off head.
    pub blower_droop: f64,
}

/// Water on one cell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CellWater {
    /// Liquid that clings [kg].
    pub film_kg: f64,
    /// Frost [kg].
    pub frost_kg: f64,
}

/// Water on the coil and its books: `condensed = film + frost + evaporated + drained`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CoilWater {
    /// Each cell in the order of the refrigerant.
    pub cells: Vec<CellWater>,
    /// Taken from the air so far, as water or as frost [kg].
    pub condensed_kg: f64,
    /// Given back to the air so far [kg].
    pub evaporated_kg: f64,
    /// Run out of the drain so far [kg].
    pub drained_kg: f64,
}

impl CoilWater {
    /// Liquid on the whole coil [kg].
    pub fn film_kg(&self) -> f64 {
        self.cells.iter().map(|c| c.film_kg).sum()
    }
    /// Frost on the whole coil [kg].
    pub fn frost_kg(&self) -> f64 {
        self.cells.iter().map(|c| c.frost_kg).sum()
    }
}

/// Air leaving the evaporator.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct VentAir {
    /// Temperature [K].
    pub t_k: f64,
    /// Humidity ratio.
    pub w: f64,
}

/// Air entering the evaporator, fixed over one solver step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilAir {
    /// Dry air flow [kg/s].
    pub flow_kg_s: f64,
    /// Entering temperature, behind the blower [K].
    pub t_k: f64,
    /// Entering humidity ratio.
    pub w: f64,
    /// How the flow shares out over the cells.
    path: Path,
    /// Effectiveness 1 - exp(-NTU) of a cell, where the path is clean.
    effectiveness: f64,
    conductance_w_k: f64,
    full_kg_s: f64,
    box_w_k: f64,
    box_t_k: f64,
    surface: CoilSurfaceSpec,
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
        // Flow of a fan and of its system both go with its speed, so frost takes the same share at any speed.
        let flow = (spec.blower_kg_s * share * path.flow_share).max(spec.natural_kg_s * path.openness());
        let fresh = if inputs.recirculate { spec.flap_leak } else { 1.0 };
        let motor_k = spec.blower_w * share * share * share / (flow * CP_DRY_AIR);
        let mut air = Self {
            flow_kg_s: flow,
            t_k: fresh * inputs.ambient_t_k + (1.0 - fresh) * cabin.t_k + motor_k,
            w: fresh * inputs.ambient_w + (1.0 - fresh) * cabin.w,
            path,
            effectiveness: 0.0,
            conductance_w_k: spec.conductance_w_k,
            full_kg_s: spec.blower_kg_s,
            // Air that stands in the box goes round between housing and coil: it carries heat, but it is as moist
            // as the coil makes it. The housing is in the cabin and as warm.
            box_w_k: surface.box_w_k * (1.0 - share),
            box_t_k: cabin.t_k,
            surface: *surface,
        };
        air.effectiveness = air.effectiveness_at(flow);
        air
    }

    /// Effectiveness of a cell through which the whole coil would pass `flow_kg_s`: conductance with flow to the
    /// power 0.55 (louvred fins, exponent from memory).
    fn effectiveness_at(&self, flow_kg_s: f64) -> f64 {
        let ntu =
            self.conductance_w_k * libm::pow(flow_kg_s / self.full_kg_s, 0.55) / (flow_kg_s * CP_DRY_AIR);
        1.0 - libm::exp(-ntu)
    }

    /// One cell with its wall at `wall_k` and `water` on it at the start of a step of `dt_s`.
    pub fn cell(&self, wall_k: f64, water: &CellWater, dt_s: f64) -> Cell {
        let n = self.path.cells;
        let flow = self.flow_kg_s * self.path.share(&self.surface, water);
        let effectiveness =
            if self.path.clean { self.effectiveness } else { self.effectiveness_at(flow * n) };
        let mass = flow * effectiveness;
        let area = self.surface.surface_m2 / n;
        let conductance = mass * CP_DRY_AIR;
        let latent = if wall_k < ZERO_C_K { CONDENSING + MELTING } else { CONDENSING };
        let through = frost::conductance_w_k(area, water.frost_kg);
        let mut surface_k = wall_k;
        let (mut saturated, mut slope) = moist_air::saturated_with_slope(wall_k, ATMOSPHERE_PA);
        if through.is_finite() {
            // The surface of the frost: one Newton step from the wall is near enough to draw the tangent there.
            let pull = mass * latent;
            surface_k =
                (through * wall_k + conductance * self.t_k + pull * (self.w - saturated + slope * wall_k))
                    / (through + conductance + pull * slope);
            // Frost cannot be warmer than ice.
            surface_k = surface_k.min(ZERO_C_K.max(wall_k));
            (saturated, slope) = moist_air::saturated_with_slope(surface_k, ATMOSPHERE_PA);
        }
        let excess = self.w - saturated;
        let wet = if excess > 0.0 {
            1.0
        } else {
            // Drying: fins dry out from the top, so the wet share of the surface goes with what clings; what can dry
            // in a step has its say too, so that never more dries than is there.
            let full = self.surface.holdup_kg_m2 * area;
            let there = if water.frost_kg > 0.0 { water.frost_kg } else { water.film_kg };
            (there / (full - dt_s * mass * excess)).min(1.0)
        };
        let phase_w_k = phase_conductance(wall_k, water, PHASE_W_M2_K * area, dt_s);
        Cell {
            box_w_k: self.box_w_k / n,
            box_t_k: self.box_t_k,
            air_t_k: self.t_k,
            conductance_w_k: conductance,
            wet_kg_s: mass * wet,
            latent,
            surface_k,
            excess,
            slope,
            through_w_k: through,
            phase_w_k,
            wall_k,
        }
    }
}

/// Conductance that pulls a wall towards 0 °C while frost melts on it, or water freezes, no more than what is
/// there could do in a step.
fn phase_conductance(wall_k: f64, water: &CellWater, full_w_k: f64, dt_s: f64) -> f64 {
    let off = wall_k - ZERO_C_K;
    let there = if off >= 0.0 { water.frost_kg } else { water.film_kg };
    if there > 0.0 { full_w_k.min(there * MELTING / (dt_s * off.abs().max(1.0))) } else { 0.0 }
}

/// One cell of the coil over one step, linear in its wall's temperature.
#[derive(Clone, Copy, Debug)]
pub struct Cell {
    air_t_k: f64,
    /// Air to surface [W/K].
    conductance_w_k: f64,
    /// Air that gives or takes water [kg/s].
    wet_kg_s: f64,
    /// Heat of the water it gives [J/kg].
    latent: f64,
    /// Surface temperature where `excess` and `slope` hold [K].
    surface_k: f64,
    /// Humidity ratio of the air above that of the surface there; negative where it dries.
    excess: f64,
    /// How the surface's ratio grows [1/K].
    slope: f64,
    /// Surface to wall; infinite without frost [W/K].
    through_w_k: f64,
    /// Wall to melting or freezing water [W/K].
    phase_w_k: f64,
    /// Wall to the housing round it [W/K], and its temperature [K].
    box_w_k: f64,
    box_t_k: f64,
    /// Wall at the start [K].
    wall_k: f64,
}

impl Cell {
    /// Share of the surface's balance that reaches the wall.
    fn reach(&self) -> f64 {
        let at_surface = self.conductance_w_k + self.wet_kg_s * self.latent * self.slope;
        if self.through_w_k.is_finite() { self.through_w_k / (self.through_w_k + at_surface) } else { 1.0 }
    }

    /// The same as the wall sees it: a conductance to a temperature, and latent heat with its slope.
    pub fn side(&self) -> AirSide {
        let reach = self.reach();
        let air = reach * self.conductance_w_k;
        let pull = reach * self.wet_kg_s * self.latent;
        let conductance_w_k = air + self.phase_w_k + self.box_w_k;
        AirSide {
            conductance_w_k,
            t_k: (air * self.air_t_k + self.phase_w_k * ZERO_C_K + self.box_w_k * self.box_t_k)
                / conductance_w_k,
            latent_w: pull * (self.excess + self.slope * (self.surface_k - self.wall_k)),
            latent_slope_w_k: pull * self.slope,
        }
    }

    /// With the wall at `wall_k` at the end of the step: heat from the air [W], water from the air [kg/s],
    /// frost that melts [kg/s]; each may be negative.
    fn taken(&self, wall_k: f64) -> (f64, f64, f64) {
        let surface_k = if self.through_w_k.is_finite() {
            let at_surface = self.conductance_w_k + self.wet_kg_s * self.latent * self.slope;
            let pull = self.wet_kg_s * self.latent * (self.excess + self.slope * self.surface_k);
            (self.through_w_k * wall_k + self.conductance_w_k * self.air_t_k + pull)
                / (self.through_w_k + at_surface)
        } else {
            wall_k
        };
        (
            self.conductance_w_k * (self.air_t_k - surface_k),
            self.wet_kg_s * (self.excess - self.slope * (surface_k - self.surface_k)),
            self.phase_w_k * (wall_k - ZERO_C_K) / MELTING,
        )
    }
}

/// Air off the coil after a step of `dt_s` in which the walls went from `walls.0` to `walls.1`, and the water
/// it left there [kg/s]; `water` moves on.
pub fn leave(coil: &CoilAir, walls: (&[f64], &[f64]), water: &mut CoilWater, dt_s: f64) -> (VentAir, f64) {
    let (mut heat_w, mut dried_kg_s, mut gone_kg_s) = (0.0, 0.0, 0.0);
    let most = coil.surface.holdup_kg_m2 * coil.surface.surface_m2 / coil.path.cells;
    for ((cell, &old), &new) in water.cells.iter_mut().zip(walls.0).zip(walls.1) {
        let (heat, mut taken, melting) = coil.cell(old, cell, dt_s).taken(new);
        let frosty = cell.frost_kg > 0.0 || old < ZERO_C_K;
        if taken < 0.0 {
            let there = if cell.frost_kg > 0.0 { cell.frost_kg } else { cell.film_kg };
            taken = taken.max(-there / dt_s);
            gone_kg_s -= taken;
        } else {
            dried_kg_s += taken;
        }
        heat_w += heat;
        let gained = taken * dt_s;
        // On frost at 0 °C or warmer water falls as water.
        if (taken < 0.0 && cell.frost_kg > 0.0) || (taken >= 0.0 && frosty && old < ZERO_C_K) {
            cell.frost_kg += gained;
        } else {
            cell.film_kg += gained;
        }
        let melted = (melting * dt_s).clamp(-cell.film_kg, cell.frost_kg);
        cell.frost_kg -= melted;
        cell.film_kg += melted;
    }
    let mut vent = VentAir {
        t_k: coil.t_k - heat_w / (coil.flow_kg_s * CP_DRY_AIR),
        w: coil.w - (dried_kg_s - gone_kg_s) / coil.flow_kg_s,
    };
    let fog = settle_fog(&mut vent) * coil.flow_kg_s;
    let n = coil.path.cells;
    for cell in &mut water.cells {
        cell.film_kg += fog * dt_s / n;
        let drained = (cell.film_kg - most).max(0.0);
        cell.film_kg -= drained;
        water.drained_kg += drained;
    }
    water.condensed_kg += (dried_kg_s + fog) * dt_s;
    water.evaporated_kg += gone_kg_s * dt_s;
    (vent, dried_kg_s + fog)
}

/// A mixture of moist and saturated air may be fog. Its droplets settle in the fins and on the ducts and their
/// heat stays with the air: returns the water that falls out per air.
fn settle_fog(vent: &mut VentAir) -> f64 {
    let (mut saturated, mut slope) = moist_air::saturated_with_slope(vent.t_k, ATMOSPHERE_PA);
    if vent.w <= saturated {
        vent.w = vent.w.max(0.0);
        return 0.0;
    }
    let before = vent.w;
    for _ in 0..4 {
        let over = vent.w - saturated;
        let rise = over * CONDENSING / (CP_DRY_AIR + CONDENSING * slope);
        vent.t_k += rise;
        vent.w -= rise * CP_DRY_AIR / CONDENSING;
        (saturated, slope) = moist_air::saturated_with_slope(vent.t_k, ATMOSPHERE_PA);
    }
    vent.w = vent.w.min(saturated);
    before - vent.w
}
