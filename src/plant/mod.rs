//! The plant: a conserved network of volumes that holds refrigerant, air and heat, stepped implicitly.
//!
//! Steps adapt to the loop, not to the ticks: a long step may reach beyond the present tick, and what is
//! seen in between is interpolated. When an input changes inside it, the step is taken again, shorter, up
//! to that tick. So the step sequence depends on the record alone and quiet stretches cost almost nothing.

mod boundary;
mod cabin;
mod coil;
mod coil_cell;
mod coil_step;
mod coil_water;
mod compressor;
mod condenser_air;
pub mod correlations;
mod draught;
mod dual;
mod engine_bay;
mod exchanger;
mod fill;
mod flow;
mod flows;
mod front_air;
mod frost;
mod heat;
mod icing;
mod inputs;
mod inside;
mod layout;
mod linear;
mod link;
mod metering;
mod network;
mod oil;
mod openings;
mod orifice_tube;
mod parts;
mod puddle;
mod rates;
mod scratch;
mod service;
mod service_bay;
mod shaft;
mod shell;
#[cfg(test)]
mod slopes_tests;
mod spec;
mod start;
mod state;
mod step_films;
mod stepping;
mod stub;
mod surroundings;
mod system;
#[cfg(test)]
mod testing;
pub mod told;
mod volume;
mod wall_films;
mod water;

pub use boundary::Released;
pub use cabin::Cabin;
pub use coil_water::{CellWater, CoilWater};
pub use compressor::{CompressorSpec, Drive};
pub use condenser_air::spray_k;
pub use draught::Draught;
pub use engine_bay::EngineBay;
pub use fill::{charged_j_kg, oil_kg};
pub use flow::Flow;
pub use inputs::{Inputs, MeteringState, Passages, SOLENOID_LEAK};
pub use layout::Layout;
pub use metering::{ElectronicSpec, Metering, ValveSpec};
pub use oil::{OIL_KG_M3, Oil, film_of_mixture};
pub use openings::{CentreHose, OpenPlace, Port, Vessel};
pub use orifice_tube::TubeSpec;
pub use rates::RightHandSide;
pub use service::{LoopPart, Taken};
pub use service_bay::{PerVessel, VesselSpec};
pub use shaft::{CLUTCH_HOLDS_NM, rad_s, torque_nm};
pub use shell::{Shell, ShellSpec};
pub use spec::{
    AccumulatorSpec, ChillerSpec, CoilSpec, ExchangerSpec, OilSpec, PipeSpec, PlantSpec, WaterSpec,
};
pub use state::{Contents, State};
pub use volume::Node;
pub use water::{Water, capacity_kg as desiccant_capacity_kg, soluble as water_soluble};

use serde::{Deserialize, Serialize};

use crate::refrigerant::Refrigerant;
use cabin::VentAir;
use coil::CoilAir;
use condenser_air::FrontAir;
use scratch::Scratch;
use system::{Guess, Outcome};

const DT_FIRST_S: f64 = 0.02;
const DT_MIN_S: f64 = 1e-8;

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

/// The plant of one bench. It is serialised for the state hash: all that acts on what comes next. What is skipped is fixed by
/// the rig, follows from the rest, or is room to work in.
#[derive(Clone, Debug, Serialize)]
pub struct Plant {
    #[serde(skip)]
    spec: PlantSpec,
    #[serde(skip)]
    layout: Layout,
    #[serde(skip)]
    refrigerant: &'static Refrigerant,
    /// State at the start of the present step.
    before: State,
    /// State at its end, possibly beyond the present tick.
    after: State,
    #[serde(skip)]
    outcome: Outcome,
    /// Volumes as evaluated at the start of the present step.
    #[serde(skip)]
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
    #[serde(skip)]
    scratch: Scratch,
    /// Films stay as they are, for comparisons.
    films_held: bool,
    #[serde(skip)]
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
        Self::set_up(spec, refrigerant, inputs, contents, None)
    }
    /// The same in the service bay: its vessels belong to the network, and hoses that are off hold air.
    pub fn in_service_bay(
        spec: &PlantSpec,
        refrigerant: &'static Refrigerant,
        inputs: Inputs,
        contents: Contents,
    ) -> Self {
        let vessels_kg = PerVessel::new(|vessel| vessel.spec().start_kg);
        Self::in_service_bay_with(spec, refrigerant, inputs, contents, vessels_kg)
    }
    /// The same with so much refrigerant in each vessel [kg].
    pub fn in_service_bay_with(
        spec: &PlantSpec,
        refrigerant: &'static Refrigerant,
        inputs: Inputs,
        contents: Contents,
        vessels_kg: PerVessel<f64>,
    ) -> Self {
        Self::set_up(spec, refrigerant, inputs, contents, Some(vessels_kg))
    }
    fn set_up(
        spec: &PlantSpec,
        refrigerant: &'static Refrigerant,
        inputs: Inputs,
        contents: Contents,
        vessels_kg: Option<PerVessel<f64>>,
    ) -> Self {
        let layout = Layout::new(spec, vessels_kg.is_some());
        let vessels_kg = vessels_kg.unwrap_or_default();
        let state = start::soaked(spec, &layout, refrigerant, &inputs, contents, vessels_kg);
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
            next_dt_s: DT_FIRST_S,
            accuracy: 1.0,
            counts: SolverCounts::default(),
            troubles: Vec::new(),
            scratch: Scratch::default(),
            films_held: false,
            spare: Spare::default(),
        };
        // A first look, so that readings exist at time zero: a step of no length that changes nothing.
        let mut still = plant.clone();
        plant.outcome = match still.attempt(DT_MIN_S) {
            Some(_) => still.outcome,
            None => plant.first_look(),
        };
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

    /// States at both ends of the present step.
    pub fn committed(&self) -> (&State, &State) {
        (&self.before, &self.after)
    }

    /// Refrigerant in the loop at a time within the present step, what the oil holds included [kg].
    pub fn charge_kg(&self, time_s: f64) -> f64 {
        let n = self.layout.loop_len();
        self.at(time_s, |s| s.mass_kg[..n].iter().sum::<f64>() + s.oil.dissolved_kg)
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
    /// What an opening of flow constant `k_m2` at volume `i` lets out as the present step ends: refrigerant and air
    /// [kg/s], negative where air comes in.
    pub fn through_opening(&self, i: usize, k_m2: f64) -> (f64, f64) {
        let outside = (self.inputs.ambient_pa, self.inputs.ambient_t_k);
        let none = dual::D3::constant(0.0);
        let load = self.outcome.load.get(i).copied().unwrap_or(none);
        let out = boundary::opening(&self.outcome.nodes[i], load, k_m2, outside);
        (out.mass_kg_s.v, out.air_kg_s.v)
    }
    /// A small channel volume at a pressure and enthalpy, free of air: the state just after the valve.
    pub fn at_pressure(&self, p_pa: f64, h_j_kg: f64) -> Node {
        volume::evaluate(self.refrigerant, volume::Kind::Channel, 1e-6, 0.0, libm::log(p_pa), h_j_kg)
    }
    /// Coolant of the chiller at a time within the present step [K]; none in a loop without one.
    pub fn coolant_t_k(&self, time_s: f64) -> Option<f64> {
        let (x, y) = (self.before.coolant_t_k?, self.after.coolant_t_k?);
        Some(x + self.share(time_s) * (y - x))
    }
    /// Something of the state at a time within the present step.
    pub fn at(&self, time_s: f64, pick: impl Fn(&State) -> f64) -> f64 {
        let (x, y) = (pick(&self.before), pick(&self.after));
        x + self.share(time_s) * (y - x)
    }
}
