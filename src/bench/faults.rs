//! What is wrong with the rig: faults that are present, on their way or coming and going, and what they change.

use serde::Serialize;

use super::action::Action;
use super::disturbance::Disturbances;
use super::fill::{Fill, Wanted};
use super::refusal::{Refusal, in_range, no};
use crate::fault::{Conditions, Effects, Fault, FaultId, FaultSet, InLoop, effects};
use crate::knobs::Controls;
use crate::plant::PlantSpec;
use crate::rig::Rig;
use crate::scenario::Scenario;

/// The faults of a bench.
#[derive(Clone, Debug, Serialize)]
pub struct Faults {
    present: FaultSet,
    disturbances: Disturbances,
    /// Faults that `effects` stands for.
    #[serde(skip)]
    effective: FaultSet,
    #[serde(skip)]
    effects: Effects,
}

impl Faults {
    /// None yet, with all that a scenario holds in store.
    pub fn new(scenario: &Scenario, rig: &Rig) -> Self {
        Self {
            present: FaultSet::default(),
            disturbances: Disturbances::new(scenario),
            effective: FaultSet::default(),
            effects: effects(&FaultSet::default(), rig),
        }
    }
    /// Faults present now.
    pub fn present(&self) -> &FaultSet {
        &self.present
    }
    /// What they change.
    pub fn effects(&self) -> &Effects {
        &self.effects
    }
    /// Is the fault there, on its way, or waiting for what makes it come back?
    pub fn has_in_it(&self, id: FaultId) -> bool {
        self.present.has(id) || self.disturbances.holds(id)
    }
    /// What they want in the loop.
    pub fn wanted(&self, spec: &PlantSpec) -> Wanted {
        Wanted::of(&self.effects.plant, spec)
    }

    /// Can this rig have such a fault, at such a severity?
    pub fn check(action: &Action, rig: &Rig) -> Result<(), Refusal> {
        match action {
            Action::ImposeFault { id, severity } => check_severity(*id, *severity, rig),
            Action::RampFault { id, severity, over_s } => {
                check_severity(*id, *severity, rig)?;
                in_range("over_s", *over_s, 0.0, 36_000.0, "s")
            }
            Action::ImposeIntermittent { id, severity, recurs } => {
                check_severity(*id, *severity, rig)?;
                if id.is_contents() {
                    return no("what is in the loop does not come and go");
                }
                let mut numbers = recurs.numbers().into_iter();
                numbers.try_for_each(|(value, unit, min, max)| in_range("recurs", value, min, max, unit))
            }
            _ => Ok(()),
        }
    }
    /// Impose, ramp or clear a fault.
    pub fn carry_out(&mut self, action: &Action, tick: u64) {
        match action {
            Action::ImposeFault { id, severity } => {
                self.disturbances.stop(*id);
                self.present.impose(Fault { id: *id, severity: *severity });
            }
            Action::ImposeIntermittent { id, severity, recurs } => {
                self.present.clear(*id);
                self.disturbances.recur(Fault { id: *id, severity: *severity }, *recurs);
            }
            Action::RampFault { id, severity, over_s } => {
                let from = self.present.severity(*id);
                self.disturbances.ramp(*id, from, *severity, tick, *over_s);
            }
            Action::ClearFault { id } => self.clear(*id),
            _ => {}
        }
    }
    /// Take a fault away, and what would bring it back.
    pub fn clear(&mut self, id: FaultId) {
        self.disturbances.stop(id);
        self.present.clear(id);
    }

    /// Moments, onsets and ramps that are due on a tick, with the discharge pipe at a temperature [°C].
    pub fn run(&mut self, tick: u64, scenario: &Scenario, discharge_c: f64, controls: &mut Controls) {
        self.disturbances.run(tick, scenario, discharge_c, controls, &mut self.present);
    }
    /// Bring and take away what comes and goes.
    pub fn come_and_go(&mut self, tick: u64, felt: &Conditions) {
        self.disturbances.come_and_go(tick, felt, &mut self.present);
    }
    /// Work out anew what the faults change, when they are others than before.
    pub fn follow(&mut self, rig: &Rig) {
        if self.effective != self.present {
            self.effective.clone_from(&self.present);
            self.effects = effects(&self.present, rig);
        }
    }
    /// Faults of what is in the loop go when hands have emptied, evacuated or filled it: what is in it now is their doing. The
    /// contents stay as they are.
    pub fn settle(&mut self, fill: &mut Fill, found: &InLoop, rig: &Rig) {
        let contents: Vec<Fault> = self.present.iter().filter(|f| f.id.is_contents()).collect();
        for fault in contents.into_iter().filter(|fault| found.settles(*fault, rig)) {
            let before = self.wanted(&rig.plant);
            self.clear(fault.id);
            self.follow(rig);
            fill.settled(&before, &self.wanted(&rig.plant));
        }
    }
}

fn check_severity(id: FaultId, value: f64, rig: &Rig) -> Result<(), Refusal> {
    if !id.info().applies_to(rig) {
        return no(format!("{}: this rig has no such part", id.info().name));
    }
    if id.accepts(value) {
        return Ok(());
    }
    let (min, max) = id.info().severity.map_or((1.0, 1.0), |s| (s.min, s.max));
    Err(Refusal::OutOfRange { what: id.info().key, value, min, max, unit: "(severity)" })
}
