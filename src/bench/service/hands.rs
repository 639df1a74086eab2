//! What hands have connected to the loop: the manifold, and the service bay in a scenario that has one.

use serde::Serialize;

use super::books::Books;
use super::manifold::Manifold;
use crate::bay::cylinder::FillLimit;
use crate::bay::{Bay, BayDanger, BayLog, BayMistake, BaySetup, Coupler, Hose, Opened, StopSees};
use crate::bench::action::Action;
use crate::bench::now::Now;
use crate::bench::refusal::{Refusal, allowed};
use crate::knobs::{Change, HandValve};
use crate::plant::{Inputs, OpenPlace, Plant, Port, Vessel};

/// Hoses, manifold and service bay of a bench.
#[derive(Clone, Debug, Serialize)]
pub struct Service {
    pub(super) manifold: Manifold,
    pub(super) bay: Option<Box<Bay>>,
    pub(super) books: Books,
}

impl Service {
    /// As a scenario begins: hoses fitted or off, in a bay that is set up or in none.
    pub fn new(hoses_fitted: bool, setup: Option<BaySetup>) -> Self {
        let mut bay = setup.map(|setup| Box::new(Bay::new(setup)));
        if let Some(bay) = bay.as_deref_mut().filter(|_| hoses_fitted) {
            bay.low = Coupler::on(Some(Port::Low));
            bay.high = Coupler::on(Some(Port::High));
        }
        let manifold = Manifold { fitted: hoses_fitted, ..Manifold::default() };
        Self { manifold, bay, books: Books::default() }
    }

    /// The service bay, in a scenario that has one.
    pub fn bay(&self) -> Option<&Bay> {
        self.bay.as_deref()
    }
    /// The manifold.
    pub fn manifold(&self) -> Manifold {
        self.manifold
    }
    /// A hose is on the loop.
    pub fn any_fitted(&self) -> bool {
        self.bay().map_or(self.manifold.fitted, Bay::any_fitted)
    }
    /// Gauges feel something: in a bay what their hoses hold, on a port or not.
    pub fn gauges_live(&self) -> bool {
        self.manifold.fitted || self.bay.is_some()
    }
    /// Where the loop has leaked since the start.
    pub fn leaked_at(&self) -> &[OpenPlace] {
        &self.books.leaked_at
    }
    /// A repair has left the loop open.
    pub fn is_open(&self) -> bool {
        self.bay().is_some_and(|bay| bay.opened.is_some())
    }
    /// A repair opens the loop.
    pub fn open(&mut self, opened: Opened) {
        if let Some(bay) = self.bay.as_deref_mut() {
            bay.log.oil_taken_kg += opened.taken.oil_kg;
            bay.opened = Some(opened);
        }
    }

    /// What would make an act deadly; such an act is stopped.
    pub fn danger(&self, action: &Action, now: &Now) -> Option<BayDanger> {
        let bay = self.bay()?;
        let sees = || StopSees {
            running: now.compressor_runs(),
            high_valve_open: self.manifold.high_pct > 0.0,
            loop_gauge_pa: now.loop_gauge_pa(),
            recovery_full: is_full(now.plant, Vessel::Recovery, now.time_s()),
        };
        match action {
            Action::Set(Change::EngineOn(true)) => bay.stops_start(&sees()),
            Action::ManifoldHighPct(pct) if *pct > 0.0 => bay.stops_high_valve(&sees()),
            Action::Hoses(_) => bay.stops_hoses(),
            Action::Repair(id) if id.info().deed.recharges() => bay.stops_opening(&sees()),
            Action::Bay(act) => bay.stops(act, &sees()),
            _ => None,
        }
    }

    /// Are hand valves turned within their range?
    pub fn check_manifold(action: &Action) -> Result<(), Refusal> {
        match action {
            Action::ManifoldLowPct(v) => allowed(HandValve::Low.key(), *v, HandValve::RANGE),
            Action::ManifoldHighPct(v) => allowed(HandValve::High.key(), *v, HandValve::RANGE),
            _ => Ok(()),
        }
    }
    /// Turn a hand valve, or fit both hoses at once or take them off.
    pub fn turn_manifold(&mut self, action: &Action, tick: u64) {
        match action {
            Action::ManifoldLowPct(v) => self.manifold.low_pct = *v,
            Action::ManifoldHighPct(v) => self.manifold.high_pct = *v,
            Action::Hoses(on) => self.fit(*on, tick),
            _ => {}
        }
    }
    /// Both hoses at once: on their own ports with the knobs open, or off with the knobs shut first.
    fn fit(&mut self, on: bool, tick: u64) {
        self.manifold.fitted = on;
        let Some(bay) = self.bay.as_deref_mut() else { return };
        if on && bay.sample.is_none() {
            bay.log.mistake(BayMistake::NotIdentified, tick);
        }
        for hose in [Hose::Low, Hose::High] {
            *bay.coupler_mut(hose) = Coupler::on(on.then(|| hose.own_port()));
        }
    }

    /// What hoses, valves and the bay make of the plant's inputs.
    pub fn tell(&self, inputs: &mut Inputs, now: &Now, high_hose_shut: bool) {
        if let Some(bay) = self.bay() {
            let oil_kg = now.plant.at(now.time_s(), |s| s.oil.total_kg());
            bay.tell(inputs, high_hose_shut, oil_kg);
        }
    }

    /// Begin the books anew with what is in the plant now.
    pub fn begin_books(&mut self, plant: &Plant, time_s: f64) {
        self.books.begin(plant, time_s);
        if let Some(bay) = self.bay.as_deref_mut() {
            let mistakes = std::mem::take(&mut bay.log.mistakes);
            bay.log = BayLog { mistakes, ..BayLog::default() };
            bay.opened = None;
        }
    }
}

/// A vessel holds all that it may.
pub(super) fn is_full(plant: &Plant, vessel: Vessel, time_s: f64) -> bool {
    plant.vessel_kg(vessel, time_s) >= limit_kg(plant, vessel)
}

/// Most refrigerant that may be in a vessel [kg]: 80 % of its volume as liquid at 25 °C (caution S10).
pub(super) fn limit_kg(plant: &Plant, vessel: Vessel) -> f64 {
    FillLimit::of(&vessel.spec(), plant.refrigerant()).net_kg()
}
