//! The plant: a conserved network of volumes that holds refrigerant, air and heat, stepped implicitly.
//!
//! Steps adapt to the loop, not to the ticks: a long step may reach beyond the present tick, and what is
//! seen in between is interpolated. When an input changes inside it, the step is taken again, shorter, up
//! to that tick. So the step sequence depends on the record alone and quiet stretches cost almost nothing.

mod boundary;
mod cabin;
mod coil;
mod coil_cell;
mod coil_water;
mod compressor;
mod condenser_air;
pub mod correlations;
mod dual;
mod engine_bay;
mod frost;
mod heat;
mod inside;
mod layout;
mod linear;
mod link;
mod metering;
mod oil;
mod rates;
mod scratch;
mod shell;
#[cfg(test)]
mod slopes_tests;
mod start;
mod stepping;
mod surroundings;
mod system;
mod volume;
mod wall_films;
mod water;

pub use boundary::{CentreHose, OpenPlace};
pub use cabin::Cabin;
pub use coil_water::{CellWater, CoilWater};
pub use engine_bay::EngineBay;
pub use layout::{Layout, PlantSpec};
pub use oil::{Oil, OilSpec};
pub use rates::RightHandSide;
pub use shell::{Shell, ShellSpec};
pub use system::Flow;
pub use volume::Node;
pub use water::{Water, WaterSpec, capacity_kg as desiccant_capacity_kg, soluble as water_soluble};

use serde::{Deserialize, Serialize};

use crate::refrigerant::Refrigerant;
use coil::{CoilAir, VentAir};
use condenser_air::FrontAir;
use scratch::Scratch;
use system::{Guess, Outcome};
use wall_films::WallFilms;

/// Everything the outside does to the plant; constant over a solver step.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Inputs {
    /// The engine runs; people sit in the car then.
    pub engine_on: bool,
    /// Engine speed while it runs [rev/min].
    pub engine_rpm: f64,
    /// Compressor speed, 0 with the clutch out [rev/min].
    pub compressor_rpm: f64,
    /// Condenser fan speed, share of full.
    pub fan_share: f64,
    /// Road speed [km/h].
    pub road_kmh: f64,
    /// Blower [%].
    pub blower_pct: f64,
    /// Recirculation flap shut to outside air.
    pub recirculate: bool,
    /// Outside air [K].
    pub ambient_t_k: f64,
    /// Outside humidity ratio.
    pub ambient_w: f64,
    /// Sun on a horizontal plane [W/m2].
    pub solar_w_m2: f64,
    /// People in the car.
    pub people: f64,
    /// Service hoses fitted.
    pub hoses_fitted: bool,
    /// Hand valve, low side, 0 to 1.
    pub manifold_low: f64,
    /// Hand valve, high side, 0 to 1.
    pub manifold_high: f64,
    /// Share of the condenser face blocked.
    pub fins_blocked: f64,
    /// Hot air that comes round to the condenser at rest beyond the rig's own share: missing seals, 0 to 0.5.
    pub recirculated_extra: f64,
    /// Expansion valve held at this lift.
    pub valve_held: Option<f64>,
    /// Share of the design flow that leaks back through the reed valves.
    pub reed_leak: f64,
    /// Refrigerant put in at the receiver (negative: taken out) [kg/s].
    pub charge_kg_s: f64,
    /// Enthalpy of refrigerant put in [J/kg].
    pub charge_h_j_kg: f64,
    /// Air let in at the suction line (negative: taken out everywhere) [kg/s].
    pub air_kg_s: f64,
    /// Oil put into the sump (negative: taken out everywhere) [kg/s].
    pub oil_kg_s: f64,
    /// Water let in at the suction line [kg/s].
    pub water_kg_s: f64,
    /// Share of the desiccant that is used up.
    pub desiccant_taken: f64,
    /// What the centre hose ends in.
    pub centre_hose: CentreHose,
    /// Flow constant of a hole to the outside [m2].
    pub open_m2: f64,
    /// Where that hole is.
    pub open_place: OpenPlace,
}

impl Inputs {
    /// A parked car with nothing wrong and no hoses on, in still air at a temperature [K].
    pub fn parked(ambient_t_k: f64) -> Self {
        Self {
            engine_on: false,
            engine_rpm: 0.0,
            compressor_rpm: 0.0,
            fan_share: 0.0,
            road_kmh: 0.0,
            blower_pct: 0.0,
            recirculate: true,
            ambient_t_k,
            ambient_w: 0.008,
            solar_w_m2: 0.0,
            people: 0.0,
            recirculated_extra: 0.0,
            hoses_fitted: false,
            manifold_low: 0.0,
            manifold_high: 0.0,
            fins_blocked: 0.0,
            valve_held: None,
            reed_leak: 0.0,
            charge_kg_s: 0.0,
            charge_h_j_kg: 2.5e5,
            air_kg_s: 0.0,
            oil_kg_s: 0.0,
            water_kg_s: 0.0,
            desiccant_taken: 0.0,
            centre_hose: CentreHose::Capped,
            open_m2: 0.0,
            open_place: OpenPlace::SuctionLine,
        }
    }
    /// Can air come in?
    pub(crate) fn lets_air_in(&self) -> bool {
        self.air_kg_s > 0.0 || self.open_m2 > 0.0 || self.centre_hose == CentreHose::Open
    }
    /// Does this differ from `other` by so little that the plant goes on as it did?
    fn near(&self, other: &Self) -> bool {
        let speed = (self.compressor_rpm - other.compressor_rpm).abs();
        let fan = (self.fan_share - other.fan_share).abs();
        let weather = (self.ambient_t_k - other.ambient_t_k).abs();
        let rest = Self {
            compressor_rpm: other.compressor_rpm,
            fan_share: other.fan_share,
            ambient_t_k: other.ambient_t_k,
            ambient_w: other.ambient_w,
            road_kmh: other.road_kmh,
            // These act on engine bay and cabin alone, which are slow.
            engine_rpm: other.engine_rpm,
            solar_w_m2: other.solar_w_m2,
            people: other.people,
            ..*self
        };
        rest == *other
            && speed <= 0.03 * other.compressor_rpm
            && fan <= 0.03
            && weather <= 0.3
            && (self.road_kmh - other.road_kmh).abs() <= 3.0
            && (self.ambient_w - other.ambient_w).abs() <= 3e-4
    }
}

/// What a loop is filled with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contents {
    /// Refrigerant, what is dissolved in the oil included [kg].
    pub charge_kg: f64,
    /// Air [kg].
    pub air_kg: f64,
    /// Oil [kg].
    pub oil_kg: f64,
    /// Water [kg].
    pub water_kg: f64,
}

/// Committed state of the plant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct State {
    /// Time [s].
    pub time_s: f64,
    /// ln p of each volume's refrigerant.
    pub u: Vec<f64>,
    /// Enthalpy of each volume's flow [J/kg].
    pub h: Vec<f64>,
    /// Refrigerant held [kg]: the conserved truth, of which u and h are the image.
    pub mass_kg: Vec<f64>,
    /// Internal energy held [J].
    pub energy_j: Vec<f64>,
    /// Air held [kg].
    pub air_kg: Vec<f64>,
    /// Wall temperatures [K].
    pub wall_k: Vec<f64>,
    /// Flow through each volume, for the films [kg/s].
    pub through_kg_s: Vec<f64>,
    /// Heat into the refrigerant from each wall over the last step, for the films [W].
    pub heat_w: Vec<f64>,
    /// Films of each wall over the last step and what they were worked out at; none before the first.
    pub films: Vec<WallFilms>,
    /// Bulb temperature [K].
    pub bulb_t_k: f64,
    /// Fin sensor [K].
    pub fin_t_k: f64,
    /// Cabin.
    pub cabin: Cabin,
    /// Water on the evaporator.
    pub coil: CoilWater,
    /// Under the bonnet.
    pub bay: EngineBay,
    /// The compressor's body.
    pub shell: Shell,
    /// Oil.
    pub oil: Oil,
    /// Water.
    pub water: Water,
    /// Air that came in, less what went out, since the loop was set up [kg].
    pub air_in_kg: f64,
    /// Refrigerant let out so far [kg].
    pub released_kg: f64,
    /// Refrigerant put in (or, negative, taken out) on purpose so far [kg].
    pub serviced_kg: f64,
    /// Refrigerant that came out of a cylinder at the centre hose (negative: went into it) so far [kg].
    pub from_cylinder_kg: f64,
}

impl State {
    /// Become equal to `other`, in the memory at hand.
    fn copy(&mut self, other: &Self) {
        // Taken apart in full, so that a new field cannot be forgotten.
        let Self {
            time_s,
            u,
            h,
            mass_kg,
            energy_j,
            air_kg,
            wall_k,
            through_kg_s,
            bulb_t_k,
            fin_t_k,
            cabin,
            coil,
            bay,
            heat_w,
            films,
            shell,
            oil,
            water,
            air_in_kg,
            released_kg,
            serviced_kg,
            from_cylinder_kg,
        } = self;
        u.clone_from(&other.u);
        h.clone_from(&other.h);
        mass_kg.clone_from(&other.mass_kg);
        energy_j.clone_from(&other.energy_j);
        air_kg.clone_from(&other.air_kg);
        wall_k.clone_from(&other.wall_k);
        through_kg_s.clone_from(&other.through_kg_s);
        let mut cells = std::mem::take(&mut coil.cells);
        cells.clone_from(&other.coil.cells);
        *coil = CoilWater { cells, ..other.coil };
        (*time_s, *bulb_t_k, *fin_t_k) = (other.time_s, other.bulb_t_k, other.fin_t_k);
        (*cabin, *bay, *shell) = (other.cabin, other.bay, other.shell);
        heat_w.clone_from(&other.heat_w);
        films.clone_from(&other.films);
        let (mut in_oil, mut in_water) = (std::mem::take(&mut oil.kg), std::mem::take(&mut water.kg));
        in_oil.clone_from(&other.oil.kg);
        in_water.clone_from(&other.water.kg);
        *oil = Oil { kg: in_oil, ..other.oil };
        *water = Water { kg: in_water, ..other.water };
        (*air_in_kg, *released_kg) = (other.air_in_kg, other.released_kg);
        (*serviced_kg, *from_cylinder_kg) = (other.serviced_kg, other.from_cylinder_kg);
    }
}

/// Memory of past steps, used again by the next.
#[derive(Clone, Debug, Default)]
struct Spare {
    outcome: Outcome,
    guess: Guess,
    air_kg: Vec<f64>,
}

/// What an instrument meets at a volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Total pressure [Pa absolute].
    pub p_pa: f64,
    /// Temperature [K].
    pub t_k: f64,
    /// Quality, below 0 in liquid, above 1 in vapour.
    pub quality: f64,
    /// Share of the volume that is vapour.
    pub void: f64,
}

/// Solver counters.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SolverCounts {
    /// Steps accepted.
    pub steps: u64,
    /// Newton iterations.
    pub iterations: u64,
    /// Steps refused for error or for lack of convergence.
    pub rejected: u64,
    /// Steps taken again because an input changed inside them.
    pub cut: u64,
}

/// The plant of one bench.
#[derive(Clone, Debug)]
pub struct Plant {
    spec: PlantSpec,
    layout: Layout,
    refrigerant: &'static Refrigerant,
    /// State at the start of the present step.
    before: State,
    /// State at its end, possibly beyond the present tick.
    after: State,
    outcome: Outcome,
    /// Volumes as evaluated at the start of the present step.
    nodes_before: Vec<Node>,
    vent: VentAir,
    condensate_kg_s: f64,
    friction_w: f64,
    inputs: Inputs,
    /// Rates of u, h and air over the last step, for the predictor.
    rates: Option<Guess>,
    next_dt_s: f64,
    /// Share of the usual tolerances.
    accuracy: f64,
    counts: SolverCounts,
    troubles: Vec<String>,
    scratch: Scratch,
    /// Films stay as they are, for comparisons.
    films_held: bool,
    spare: Spare,
}

impl Plant {
    /// The rig soaked and at rest: everything at outside temperature, pressures equal, with `charge_kg`
    /// of refrigerant and `air_kg` of air, its full oil and no water.
    pub fn soaked(
        spec: &PlantSpec,
        refrigerant: &'static Refrigerant,
        inputs: Inputs,
        charge_kg: f64,
        air_kg: f64,
    ) -> Self {
        let contents = Contents { charge_kg, air_kg, oil_kg: spec.oil.full_kg, water_kg: 0.0 };
        Self::soaked_with(spec, refrigerant, inputs, contents)
    }
    /// The same with anything in it.
    pub fn soaked_with(
        spec: &PlantSpec,
        refrigerant: &'static Refrigerant,
        inputs: Inputs,
        contents: Contents,
    ) -> Self {
        let layout = Layout::new(spec);
        let state = start::soaked(spec, &layout, refrigerant, &inputs, contents);
        let mut plant = Self {
            spec: spec.clone(),
            layout,
            refrigerant,
            before: state.clone(),
            after: state,
            outcome: Outcome::default(),
            nodes_before: Vec::new(),
            vent: VentAir { t_k: inputs.ambient_t_k, w: inputs.ambient_w },
            condensate_kg_s: 0.0,
            friction_w: 0.0,
            inputs,
            rates: None,
            next_dt_s: stepping::DT_FIRST_S,
            accuracy: 1.0,
            counts: SolverCounts::default(),
            troubles: Vec::new(),
            scratch: Scratch::default(),
            films_held: false,
            spare: Spare::default(),
        };
        // A first look, so that readings exist at time zero: a step of no length that changes nothing.
        let mut still = plant.clone();
        still.attempt(stepping::DT_MIN_S);
        plant.outcome = still.outcome;
        plant.nodes_before.clone_from(&plant.outcome.nodes);
        plant
    }

    /// Take the films of another plant of the same rig and hold them, so that a general solver can be given the same
    /// equations.
    pub fn hold_films_of(&mut self, other: &Self) {
        self.before.films.clone_from(&other.after.films);
        self.after.films.clone_from(&other.after.films);
        self.films_held = true;
    }

    /// Rig numbers.
    pub fn spec(&self) -> &PlantSpec {
        &self.spec
    }
    /// Inputs in force.
    pub fn inputs(&self) -> &Inputs {
        &self.inputs
    }
    /// Solver counters.
    pub fn counts(&self) -> SolverCounts {
        self.counts
    }
    /// What went wrong so far; empty in a good run.
    pub fn troubles(&self) -> &[String] {
        &self.troubles
    }
    /// States at both ends of the present step, for the state hash.
    pub fn committed(&self) -> (&State, &State) {
        (&self.before, &self.after)
    }

    /// Refrigerant in the loop at a time within the present step, what the oil holds included [kg].
    pub fn charge_kg(&self, time_s: f64) -> f64 {
        self.at(time_s, |s| s.mass_kg.iter().sum::<f64>() + s.oil.dissolved_kg)
    }
    /// Friction of the compressor over the present step [W].
    pub fn friction_w(&self) -> f64 {
        self.friction_w
    }
    /// Index map.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }
    /// Properties.
    pub fn refrigerant(&self) -> &'static Refrigerant {
        self.refrigerant
    }
    /// Flows of the present step; the compressor first, its reed leak second, the expansion valve third.
    pub fn flows(&self) -> &[Flow] {
        &self.outcome.flows
    }
    /// Heat into the refrigerant from each wall over the present step [W].
    pub fn heats_w(&self) -> &[f64] {
        &self.outcome.heat_w
    }
    /// Expansion valve: lift, bulb temperature [K], bulb pressure [Pa].
    pub fn valve(&self) -> (f64, f64, f64) {
        (self.outcome.lift, self.outcome.bulb_t_k, self.outcome.bulb_pa)
    }
    /// Vent air temperature [K] and water condensing on the coil [kg/s].
    pub fn vent(&self) -> (f64, f64) {
        (self.vent.t_k, self.condensate_kg_s)
    }
    /// Humidity ratio of the vent air.
    pub fn vent_humidity_ratio(&self) -> f64 {
        self.vent.w
    }
    /// Condenser air: flow [kg/s], temperature on the face and off it [K].
    pub fn condenser_air(&self) -> (f64, f64, f64) {
        let front = FrontAir::of(&self.spec, &self.layout, &self.inputs, &self.after);
        let off = front.off_condenser_t_k(&self.spec, &self.layout, &self.after.wall_k);
        (front.flow_kg_s, front.on_t_k, off)
    }
    /// Air through the evaporator [kg/s]; frost holds it back.
    pub fn coil_air_kg_s(&self) -> f64 {
        CoilAir::entering(&self.spec, &self.inputs, &self.after).flow_kg_s
    }
    /// How far into the present step `time_s` lies, 0 to 1.
    fn share(&self, time_s: f64) -> f64 {
        let span = self.after.time_s - self.before.time_s;
        if span > 0.0 { ((time_s - self.before.time_s) / span).clamp(0.0, 1.0) } else { 1.0 }
    }
    /// Volume `i` at a time within the present step.
    pub fn node(&self, i: usize, time_s: f64) -> Node {
        let (a, b, f) = (&self.before, &self.after, self.share(time_s));
        let mix = |x: &[f64], y: &[f64]| x[i] + f * (y[i] - x[i]);
        let air = mix(&a.air_kg, &b.air_kg);
        let l = &self.layout;
        volume::evaluate(self.refrigerant, l.kinds[i], l.volumes_m3[i], air, mix(&a.u, &b.u), mix(&a.h, &b.h))
    }
    /// What an instrument at volume `i` meets at a time within the present step: a straight line between its ends,
    /// at a fraction of the cost of [`Self::node`].
    pub fn look(&self, i: usize, time_s: f64) -> Look {
        let (a, b, f) = (&self.nodes_before[i], &self.outcome.nodes[i], self.share(time_s));
        let mix = |x: f64, y: f64| x + f * (y - x);
        Look {
            p_pa: mix(a.p.v, b.p.v),
            t_k: mix(a.t.v, b.t.v),
            quality: mix(a.quality.v, b.quality.v),
            void: mix(a.void, b.void),
        }
    }
    /// A small channel volume at a pressure and enthalpy, free of air: the state just after the valve.
    pub fn at_pressure(&self, p_pa: f64, h_j_kg: f64) -> Node {
        volume::evaluate(self.refrigerant, volume::Kind::Channel, 1e-6, 0.0, libm::log(p_pa), h_j_kg)
    }
    /// Something of the state at a time within the present step.
    pub fn at(&self, time_s: f64, pick: impl Fn(&State) -> f64) -> f64 {
        let (x, y) = (pick(&self.before), pick(&self.after));
        x + self.share(time_s) * (y - x)
    }
}
