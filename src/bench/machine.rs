//! The bench: its parts, how they are set up, and what of them may be looked at.

use std::sync::Arc;

use serde::Serialize;

use super::action::{Action, Diagnosis};
use super::clock;
use super::electrical::{ElectricalSide, Electrics};
use super::faults::Faults;
use super::fill::Fill;
use super::learner::Learner;
use super::notebook::Notebook;
use super::now::Now;
use super::plant_inputs::still;
use super::refusal::BenchError;
use super::repairs::RepairDone;
use super::service::{Manifold, Service};
use crate::bay::Bay;
use crate::circuit::Circuit;
use crate::fault::FaultSet;
use crate::instrument::{InstrumentRack, Reading};
use crate::knobs::Controls;
use crate::plant::{Plant, SolverCounts};
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;
use crate::scenario::Scenario;
use crate::units::ZERO_C_K;

/// A bench at one tick. Cloning it gives an independent shadow that behaves the same.
///
/// It is serialised for the state hash alone; a field that is skipped must not act on what comes next, or follow from others.
#[derive(Clone, Debug, Serialize)]
pub struct Bench {
    pub(super) scenario: Scenario,
    pub(super) seed: u64,
    pub(super) tick: u64,
    pub(super) controls: Controls,
    /// Follows from the scenario.
    #[serde(skip)]
    pub(super) rig: Arc<Rig>,
    pub(super) plant: Plant,
    pub(super) electrical: ElectricalSide,
    pub(super) service: Service,
    pub(super) faults: Faults,
    pub(super) fill: Fill,
    pub(super) repairs: Vec<RepairDone>,
    pub(super) rack: InstrumentRack,
    pub(super) notebook: Notebook,
    pub(super) learner: Learner,
    /// What it did stands in all the rest; a record hashes it besides.
    #[serde(skip)]
    pub(super) journal: Vec<(u64, Action)>,
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
        let inputs = still(&controls, scenario.hoses_fitted);
        let mut bench = Self {
            plant: Plant::soaked(&rig.plant, refrigerant, inputs, rig.plant.full_charge_kg, 0.0),
            scenario: scenario.clone(),
            seed,
            tick: 0,
            controls,
            electrical: ElectricalSide::new(&rig.circuit, controls.ambient_c + ZERO_C_K),
            service: Service::new(scenario.hoses_fitted, scenario.bay),
            faults: Faults::new(scenario, &rig),
            fill: Fill::default(),
            rig: Arc::new(rig),
            repairs: Vec::new(),
            rack: InstrumentRack::new(seed),
            notebook: Notebook::default(),
            learner: Learner::default(),
            journal: Vec::new(),
        };
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
        clock::time_s(self.tick)
    }
    /// Knobs as they stand.
    pub fn controls(&self) -> &Controls {
        &self.controls
    }
    /// Hand valves of the manifold as they stand.
    pub fn manifold(&self) -> Manifold {
        self.service.manifold()
    }
    /// A hose is on the loop.
    pub fn hoses_fitted(&self) -> bool {
        self.service.any_fitted()
    }
    /// The service bay, in a scenario that has one.
    pub fn bay(&self) -> Option<&Bay> {
        self.service.bay()
    }
    /// Everything applied so far with its tick.
    pub fn journal(&self) -> &[(u64, Action)] {
        &self.journal
    }
    /// The notebook.
    pub fn notebook(&self) -> &[Reading] {
        self.notebook.readings()
    }
    /// Put these into the notebook instead of what is there: what was read in a session of another model.
    pub fn recall(&mut self, readings: &[Reading]) {
        self.notebook.recall(readings);
    }
    /// The answer, once given.
    pub fn diagnosis(&self) -> Option<&Diagnosis> {
        self.learner.diagnosis()
    }
    /// Faults present now.
    pub fn faults(&self) -> &FaultSet {
        self.faults.present()
    }
    /// What hands have done to the circuit, with mistakes and unsafe acts.
    pub fn electrics(&self) -> &Electrics {
        self.electrical.done()
    }
    /// Repairs so far.
    pub fn repairs(&self) -> &[RepairDone] {
        &self.repairs
    }
    /// Good parts that were replaced.
    pub fn parts_replaced(&self) -> usize {
        self.repairs.iter().filter(|done| done.good_part).count()
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
        self.electrical.circuit()
    }

    /// The moment, for parts to look at.
    pub(super) fn now(&self) -> Now<'_> {
        Now { tick: self.tick, controls: &self.controls, plant: &self.plant }
    }
}
