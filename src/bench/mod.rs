//! The one state machine: rig + faults + instruments + clock. Only [`Bench::apply`] and
//! [`Bench::advance`] change it; everything else looks.

mod acting;
mod action;
mod action_names;
mod bay;
mod bay_faces;
mod bay_facts;
mod bay_truth;
mod bay_works;
mod circuit_inputs;
mod disturbance;
mod electrical_faces;
mod electrics;
mod felt;
pub mod guarding;
mod plant_inputs;
mod readout;
mod repairs;
mod snapshot;

pub use acting::tool_of;
pub use action::{Action, Diagnosis, Relay, Standing};
pub use bay::oil_kg;
pub use bay_faces::{BayFace, HoseFace, VesselFace};
pub use electrics::{Electrics, Mistake, MistakeKind};
pub use guarding::{Proof, UnsafeAct, UnsafeKind};
pub use repairs::RepairDone;
pub use snapshot::{
    CellState, ChillerState, DriveKind, ElectricalFaces, ExchangerState, Inside, Instruments, MeteringKind,
    Outside, PointState, ReaderFace, Snapshot, Topology, VesselState,
};

use std::sync::Arc;

use serde::Serialize;

use crate::bay::{Bay, Coupler};
use crate::circuit::{Circuit, CircuitInputs, Drives};
use crate::fault::{Conditions, Effects, FaultSet, Group, effects};
use crate::instrument::{AirPlace, InstrumentRack, PipePlace, Probe, Reading, Truth};
use crate::knobs::Controls;
use crate::perceive::Felt;
use crate::plant::{OpenPlace, Plant, Port, SolverCounts};
use crate::refrigerant::Refrigerant;
use crate::rig::{Rig, RigError};
use crate::scenario::Scenario;
use crate::units::ZERO_C_K;
use bay_works::Asked;
use disturbance::Disturbances;
use plant_inputs::still_inputs;

/// Length of a tick [s].
pub const TICK_S: f64 = 0.05;
/// Ticks of a minute.
const MINUTE_TICKS: u64 = 1200;

/// Why an action was refused; it changed nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// A number is outside its range or not a number.
    #[error("{what} {value} is outside {min} to {max} {unit}")]
    OutOfRange {
        /// Which knob.
        what: &'static str,
        /// The refused value.
        value: f64,
        /// Lowest allowed.
        min: f64,
        /// Highest allowed.
        max: f64,
        /// Unit.
        unit: &'static str,
    },
    /// It was not safe: it was stopped and written down as an unsafe act.
    #[error("{}", stop_words(.0))]
    Danger(UnsafeKind),
    /// The action makes no sense now.
    #[error("{0}")]
    NotNow(String),
}

fn stop_words(kind: &UnsafeKind) -> String {
    let words = kind.caution_words().map_or_else(String::new, |words| format!(" {words}"));
    format!("DANGER: stopped, {}.{words}", kind.words())
}

/// Why a bench could not be set up.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BenchError {
    /// The rig is unknown or broken.
    #[error(transparent)]
    Rig(#[from] RigError),
    /// The rig's refrigerant has no property table.
    #[error("there is no property table for {0}")]
    Refrigerant(String),
}

/// A bench at one tick. Cloning it gives an independent shadow that behaves the same.
#[derive(Clone, Debug)]
pub struct Bench {
    scenario: Scenario,
    seed: u64,
    tick: u64,
    controls: Controls,
    faults: FaultSet,
    disturbances: Disturbances,
    plant: Plant,
    circuit: Circuit,
    circuit_inputs: CircuitInputs,
    rig: Arc<Rig>,
    /// Faults that `effects` stands for.
    effective: FaultSet,
    /// What the faults change.
    effects: Effects,
    drives: Drives,
    rack: InstrumentRack,
    coil_t_k: f64,
    hoses_fitted: bool,
    manifold_low_pct: f64,
    manifold_high_pct: f64,
    jumper: Option<Relay>,
    jumper_blown: bool,
    electrics: Electrics,
    notebook: Vec<Reading>,
    suspects: [Standing; Group::ALL.len()],
    diagnosis: Option<Diagnosis>,
    journal: Vec<(u64, Action)>,
    /// Tick on which the clutch plate last pulled in or let go.
    clutch_moved_tick: Option<u64>,
    /// Charge offset the loop was soaked with [kg].
    soaked_offset_kg: f64,
    /// Water it was soaked with [kg].
    soaked_water_kg: f64,
    /// Refrigerant that repairs put in besides what the faults say [kg].
    added_kg: f64,
    /// Oil that repairs put in to make up for what was lost [kg].
    added_oil_kg: f64,
    repairs: Vec<RepairDone>,
    /// The service bay, in a scenario that has one.
    bay: Option<Box<Bay>>,
    /// What faults have asked of the contents, in a bay.
    asked: Asked,
    /// Refrigerant and oil in all places at the start [kg].
    bay_start: (f64, f64),
    /// Where the loop has leaked since the start.
    leak_places: Vec<OpenPlace>,
    /// Refrigerant released and oil lost when the log was last kept [kg].
    bay_seen: (f64, f64),
}

impl Bench {
    /// A bench at tick 0 of a scenario.
    ///
    /// # Errors
    /// When the rig or its refrigerant does not exist.
    pub fn new(scenario: &Scenario, seed: u64) -> Result<Self, BenchError> {
        let rig = Rig::load(&scenario.rig)?;
        let name = &rig.plant.refrigerant;
        let refrigerant = Refrigerant::by_name(name).ok_or_else(|| BenchError::Refrigerant(name.clone()))?;
        let mut controls = scenario.start;
        if scenario.comes_on_after_s > 0.0 {
            controls.engine_on = false;
            controls.ac_request = false;
        }
        let disturbances = Disturbances::new(scenario);
        let faults = FaultSet::default();
        let inputs = still_inputs(&controls, scenario.hoses_fitted);
        let charge = rig.plant.full_charge_kg;
        let mut bench = Self {
            plant: Plant::soaked(&rig.plant, refrigerant, inputs, charge, 0.0),
            scenario: scenario.clone(),
            seed,
            tick: 0,
            controls,
            faults,
            disturbances,
            circuit: Circuit::new(&rig.circuit),
            circuit_inputs: CircuitInputs { setting_k: rig.circuit.setting_k, ..CircuitInputs::default() },
            effective: FaultSet::default(),
            effects: effects(&FaultSet::default(), &rig),
            rig: Arc::new(rig),
            drives: Drives::REST,
            rack: InstrumentRack::new(seed),
            coil_t_k: controls.ambient_c + ZERO_C_K,
            hoses_fitted: scenario.hoses_fitted,
            manifold_low_pct: 0.0,
            manifold_high_pct: 0.0,
            jumper: None,
            jumper_blown: false,
            electrics: Electrics::default(),
            notebook: Vec::new(),
            suspects: [Standing::Open; Group::ALL.len()],
            diagnosis: None,
            journal: Vec::new(),
            clutch_moved_tick: None,
            soaked_offset_kg: 0.0,
            soaked_water_kg: 0.0,
            added_kg: 0.0,
            added_oil_kg: 0.0,
            repairs: Vec::new(),
            bay: scenario.bay.map(|setup| Box::new(Bay::new(setup))),
            asked: Asked::default(),
            bay_start: (0.0, 0.0),
            bay_seen: (0.0, 0.0),
            leak_places: Vec::new(),
        };
        if let Some(bay) = bench.bay.as_deref_mut().filter(|_| scenario.hoses_fitted) {
            bay.low = Coupler { port: Some(Port::Low), open: true };
            bay.high = Coupler { port: Some(Port::High), open: true };
        }
        bench.disturb();
        bench.soak();
        Ok(bench)
    }

    /// The scenario this bench runs.
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }
    /// The seed of its instrument noise.
    pub fn seed(&self) -> u64 {
        self.seed
    }
    /// The current tick.
    pub fn tick(&self) -> u64 {
        self.tick
    }
    /// Time since the scenario began [s].
    pub fn time_s(&self) -> f64 {
        self.tick as f64 * TICK_S
    }
    /// Everything applied so far with its tick.
    pub fn journal(&self) -> &[(u64, Action)] {
        &self.journal
    }
    /// The notebook.
    pub fn notebook(&self) -> &[Reading] {
        &self.notebook
    }
    /// The answer, once given.
    pub fn diagnosis(&self) -> Option<&Diagnosis> {
        self.diagnosis.as_ref()
    }
    /// Faults present now.
    pub fn faults(&self) -> &FaultSet {
        &self.faults
    }
    /// What hands have done to the circuit, with mistakes and unsafe acts.
    pub fn electrics(&self) -> &Electrics {
        &self.electrics
    }
    /// Solver counters.
    pub fn counts(&self) -> SolverCounts {
        self.plant.counts()
    }
    /// Steps that did not solve and values that are not finite; empty in a good run.
    pub fn troubles(&self) -> &[String] {
        self.plant.troubles()
    }
    /// The loop itself with its true states, for the qualification guide; nothing a learner may see.
    pub fn plant(&self) -> &Plant {
        &self.plant
    }
    /// The rig on the bench.
    pub fn rig(&self) -> &Rig {
        &self.rig
    }
    /// The circuit, to name its points.
    pub fn circuit(&self) -> &Circuit {
        &self.circuit
    }
    /// What a probe would show without noise and zero error; for the diagnosis engine's shadow benches.
    pub fn expected(&self, probe: &Probe) -> Option<f64> {
        match probe {
            Probe::Sense(sense) => Felt::of(self).value(*sense),
            Probe::UnitValue { unit, id } => self.unit_value(unit, id),
            tool => self.rack.expected(tool),
        }
    }
    /// A value of a control unit, as the reader that is plugged in shows it.
    fn unit_value(&self, unit: &str, id: &str) -> Option<f64> {
        if !self.electrics.reader {
            return None;
        }
        self.circuit.values().into_iter().find(|v| v.unit == unit && v.id == id)?.value
    }
    /// What a tool in place shows on this tick, or a person's own senses notice, and the half-width of its 95 % band.
    pub fn shown(&self, probe: &Probe) -> Option<(f64, f64)> {
        match probe {
            Probe::Sense(_) | Probe::UnitValue { .. } => {
                let value = self.expected(probe)?;
                Some((value, crate::instrument::uncertainty(probe, value)))
            }
            tool => self.rack.shown(tool, self.tick),
        }
    }

    /// Do something now, on the current tick.
    ///
    /// # Errors
    /// When the action is out of range or makes no sense; nothing has changed then. When it is not safe it is not done
    /// either, but written down: the journal holds it as [`Action::Stopped`].
    pub fn apply(&mut self, action: Action) -> Result<(), Refusal> {
        self.check(&action)?;
        if let Some(kind) = self.unsafe_kind(&action) {
            let stopped = Action::Stopped(Box::new(action));
            self.carry_out(&stopped);
            self.journal.push((self.tick, stopped));
            return Err(Refusal::Danger(kind));
        }
        self.carry_out(&action);
        // What hands do in the bay is no part of how the car was found.
        let by_hand = self.bay.is_some() && matches!(action, Action::Bay(_) | Action::Repair(_));
        self.journal.push((self.tick, action));
        self.follow_faults();
        if self.tick == 0 && !by_hand {
            self.soak();
        }
        Ok(())
    }

    /// Let time pass.
    pub fn advance(&mut self, ticks: u32) {
        for _ in 0..ticks {
            self.one_tick();
        }
    }

    fn one_tick(&mut self) {
        let now = self.time_s();
        self.disturb();
        let clutch_was_in = self.drives.clutch_engaged;
        self.run_circuit(now);
        if self.drives.clutch_engaged != clutch_was_in {
            self.clutch_moved_tick = Some(self.tick);
        }
        let mut inputs = self.inputs(now);
        if self.bay.is_some() && self.tick.is_multiple_of(20) {
            self.contents_in_bay(&mut inputs);
        }
        self.plant.set_inputs(now, inputs);
        self.tick += 1;
        let then = self.time_s();
        self.plant.advance_to(then);
        self.bay_tick();
        let circuit = &self.circuit;
        let volts = |id: &str| circuit.volts(id);
        let truth = self.truth(then, &volts, Some(circuit));
        self.rack.advance(TICK_S, &truth);
    }

    /// Moments, onsets and ramps that are due on this tick.
    fn disturb(&mut self) {
        let discharge_c = self.plant.look(self.plant.layout().discharge, self.time_s()).t_k - ZERO_C_K;
        self.disturbances.run(self.tick, &self.scenario, discharge_c, &mut self.controls, &mut self.faults);
        // Taken out for a moment, because its conditions look at the whole bench.
        let (mut disturbances, mut faults) =
            (core::mem::take(&mut self.disturbances), core::mem::take(&mut self.faults));
        let now = self.time_s();
        let c = &self.controls;
        let discharge_pa = self.plant.look(self.plant.layout().discharge, now).p_pa;
        let felt = Conditions {
            pipe_c: &|place| self.pipe_t_k(place, now) - ZERO_C_K,
            engine_rpm: if c.engine_on { c.engine_rpm } else { 0.0 },
            road_kmh: c.road_speed_kmh,
            high_bar: (discharge_pa - c.ambient_pa()) / 1e5,
            seed: self.seed,
            minute: self.tick / MINUTE_TICKS,
        };
        disturbances.come_and_go(self.tick, &felt, &mut faults);
        (self.disturbances, self.faults) = (disturbances, faults);
        self.follow_faults();
    }

    /// Work out anew what the faults change, when they are others than before.
    fn follow_faults(&mut self) {
        if self.effective != self.faults {
            self.effective.clone_from(&self.faults);
            self.effects = effects(&self.faults, &self.rig);
        }
    }

    /// What is true at the places of the instruments.
    fn truth<'a>(
        &self,
        now: f64,
        volts: &'a dyn Fn(&str) -> Option<f64>,
        circuit: Option<&'a Circuit>,
    ) -> Truth<'a> {
        let l = self.plant.layout();
        let ambient_pa = self.controls.ambient_pa();
        let gauge = |hose: usize| self.plant.look(hose, now).p_pa - ambient_pa;
        let surroundings_t_k = self.controls.ambient_c + ZERO_C_K;
        let wrong = &self.effects.instruments;
        // A needle off its zero is off with the hoses on and off; a shut coupler leaves outside air in the hose.
        let on = |pa: f64, open: bool| if self.gauges_live() && open { pa } else { 0.0 };
        let (mut pipe_t_k, mut air_t_k) = ([surroundings_t_k; 6], [surroundings_t_k; 4]);
        for probe in self.rack.placed() {
            match probe {
                Probe::Pipe(place) => {
                    let pipe_k = self.pipe_t_k(place, now);
                    pipe_t_k[place as usize] = pipe_k + wrong.clamp_loose * (surroundings_t_k - pipe_k);
                }
                Probe::Air(place) => air_t_k[place as usize] = self.air_t_k(place, now),
                _ => {}
            }
        }
        let glass = self.plant.look(l.liquid, now);
        Truth {
            hoses_fitted: self.gauges_live(),
            low_gauge_pa: on(gauge(l.low_hose), true) + wrong.low_gauge_pa,
            high_gauge_pa: on(gauge(l.high_hose), !wrong.high_hose_shut) + wrong.high_gauge_pa,
            compressor_running: self.plant.inputs().compressor_rpm > 0.0,
            pipe_t_k,
            air_t_k,
            surroundings_t_k,
            sight_glass_bubbles: if glass.quality > 0.0 { glass.void } else { 0.0 },
            volts,
            circuit,
            bay: self.bay_truth(now, self.bay()),
        }
    }

    /// Gauges feel something: in a bay what their hoses hold, on a port or not.
    fn gauges_live(&self) -> bool {
        self.hoses_fitted || self.bay.is_some()
    }

    fn pipe_t_k(&self, place: PipePlace, now: f64) -> f64 {
        let l = self.plant.layout();
        let i = match place {
            PipePlace::CompressorInlet => l.suction,
            PipePlace::CompressorOutlet => l.discharge,
            PipePlace::CondenserOutlet => l.condenser_outlet(),
            PipePlace::ValveInlet => l.metering_inlet(),
            PipePlace::ValveOutlet => l.evaporator.start,
            PipePlace::EvaporatorOutlet => l.evaporator.end - 1,
        };
        self.plant.look(i, now).t_k
    }

    fn air_t_k(&self, place: AirPlace, now: f64) -> f64 {
        match place {
            AirPlace::Outside => self.controls.ambient_c + ZERO_C_K,
            AirPlace::CondenserOff => self.plant.condenser_air().2,
            AirPlace::Cabin => self.plant.at(now, |s| s.cabin.t_k),
            AirPlace::Vent => self.plant.vent().0,
        }
    }

    /// Hash of the committed state: equal records give equal hashes, at any frame rate, on any machine.
    pub fn state_hash(&self) -> u64 {
        #[derive(Serialize)]
        struct Committed<'a> {
            tick: u64,
            controls: &'a Controls,
            faults: &'a FaultSet,
            disturbances: &'a Disturbances,
            plant: (&'a crate::plant::State, &'a crate::plant::State),
            counts: SolverCounts,
            circuit: &'a Circuit,
            rack: &'a InstrumentRack,
            coil_t_k: f64,
            service: (bool, f64, f64, Option<Relay>),
            notebook: &'a [Reading],
            suspects: &'a [Standing],
            diagnosis: Option<&'a Diagnosis>,
            repairs: (&'a [RepairDone], f64, f64),
            #[serde(skip_serializing_if = "Electrics::is_untouched")]
            electrics: &'a Electrics,
            #[serde(skip_serializing_if = "Option::is_none")]
            bay: Option<(&'a Bay, &'a Asked)>,
        }
        let committed = Committed {
            tick: self.tick,
            controls: &self.controls,
            faults: &self.faults,
            disturbances: &self.disturbances,
            plant: self.plant.committed(),
            counts: self.plant.counts(),
            circuit: &self.circuit,
            rack: &self.rack,
            coil_t_k: self.coil_t_k,
            service: (self.hoses_fitted, self.manifold_low_pct, self.manifold_high_pct, self.jumper),
            notebook: &self.notebook,
            suspects: &self.suspects,
            diagnosis: self.diagnosis.as_ref(),
            repairs: (&self.repairs, self.added_kg, self.added_oil_kg),
            electrics: &self.electrics,
            bay: self.bay().map(|bay| (bay, &self.asked)),
        };
        // Text of the shortest exact decimals, so the hash depends on values, not on memory layout.
        let bytes = serde_json::to_vec(&committed).unwrap_or_default();
        bytes
            .iter()
            .fold(0xcbf2_9ce4_8422_2325, |hash, &b| (hash ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3))
    }
}
