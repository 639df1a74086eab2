//! The programmable service station: it does each step by weight and pressure, on its own valves, and shows what it
//! does. It draws on the same recovery cylinder, pump and supply cylinder as hands do.

use serde::{Deserialize, Serialize};

use super::StationStep;
use crate::plant::{CentreHose, Vessel};

/// Recovery ends at this pressure [Pa below the outside]; SAE J2788 asks for 102 mm of mercury (from memory).
const RECOVERED_PA: f64 = 4e4;
/// Pressure that must not come back while it waits [Pa below the outside].
const COMES_BACK_PA: f64 = 0.5e4;
/// Its pump does not start on a loop that holds more than this [Pa above the outside] (common practice, no source).
const PUMP_STARTS_PA: f64 = 0.3e5;
/// How long it waits [s].
const RECOVERY_WATCH_S: f64 = 120.0;
/// No step of recovery or charging takes longer [s].
const LONGEST_S: f64 = 3600.0;

/// What the station measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StationSees {
    /// Time [s].
    pub time_s: f64,
    /// Pressure of the outside air [Pa absolute].
    pub ambient_pa: f64,
    /// Pressure at its low-side and high-side hose, the higher one [Pa absolute].
    pub hose_pa: f64,
    /// Weight of what is in its recovery cylinder [kg].
    pub recovery_kg: f64,
    /// Weight of what is in its supply cylinder [kg].
    pub supply_kg: f64,
    /// The compressor turns.
    pub running: bool,
}

/// What a step came to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct StationDone {
    /// The step.
    pub step: StationStep,
    /// How long it took [s].
    pub took_s: f64,
    /// Weight moved [kg]: recovered, or charged; oil in mL stays in the step.
    pub moved_kg: f64,
    /// Pressure at its end [Pa absolute].
    pub end_pa: f64,
    /// It ended without having reached what it was for.
    pub gave_up: bool,
}

/// A station at work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Station {
    /// The program.
    pub steps: Vec<StationStep>,
    /// Steps done.
    pub done: Vec<StationDone>,
    /// When the present step began [s], and what the scale of its vessel showed.
    pub since: Option<(f64, f64)>,
    /// Recovery: shut off and watching since [s].
    pub watching_s: Option<f64>,
}

/// What the station asks of the bench besides its valves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StationAsks {
    /// Nothing.
    Nothing,
    /// Oil to be injected [mL].
    OilMl(f64),
}

impl Station {
    /// At the start of a program.
    pub fn new(steps: Vec<StationStep>) -> Self {
        Self { steps, done: Vec::new(), since: None, watching_s: None }
    }
    /// The step at work; none when it is through.
    pub fn step(&self) -> Option<StationStep> {
        self.steps.get(self.done.len()).copied()
    }
    /// What its own plumbing is open to.
    pub fn centre_hose(&self) -> CentreHose {
        match self.step() {
            Some(StationStep::Recover) if self.watching_s.is_none() => CentreHose::RecoveryMachine,
            Some(StationStep::EvacuateMin(_)) => CentreHose::VacuumPump,
            Some(StationStep::ChargeG(_)) => CentreHose::Vessel { vessel: Vessel::Supply, liquid: true },
            _ => CentreHose::Capped,
        }
    }
    /// Its valves to the low-side and the high-side hose, open (1) or shut (0).
    pub fn valves(&self) -> (f64, f64) {
        match self.step() {
            // Liquid goes into the high side alone.
            Some(StationStep::ChargeG(_)) => (0.0, 1.0),
            Some(StationStep::Recover | StationStep::EvacuateMin(_) | StationStep::HoldMin(_)) => (1.0, 1.0),
            _ => (0.0, 0.0),
        }
    }
    /// Move on. Called often enough that a weight does not run past by much.
    pub fn advance(&mut self, sees: &StationSees) -> StationAsks {
        let Some(step) = self.step() else { return StationAsks::Nothing };
        let weight = match step {
            StationStep::Recover => sees.recovery_kg,
            _ => sees.supply_kg,
        };
        let (began_s, began_kg) = *self.since.get_or_insert((sees.time_s, weight));
        let took_s = sees.time_s - began_s;
        let long = took_s > LONGEST_S;
        let (over, gave_up, moved_kg, asks) = match step {
            StationStep::Recover => {
                let down = sees.hose_pa < sees.ambient_pa - RECOVERED_PA;
                match self.watching_s {
                    None if down => self.watching_s = Some(sees.time_s),
                    Some(_) if sees.hose_pa > sees.ambient_pa - COMES_BACK_PA => self.watching_s = None,
                    _ => {}
                }
                let held = self.watching_s.is_some_and(|since| sees.time_s - since >= RECOVERY_WATCH_S);
                (held || long, !held, weight - began_kg, StationAsks::Nothing)
            }
            StationStep::EvacuateMin(min) => {
                let pressed = sees.hose_pa > sees.ambient_pa + PUMP_STARTS_PA;
                (pressed || took_s >= 60.0 * min, pressed, 0.0, StationAsks::Nothing)
            }
            StationStep::HoldMin(min) => (took_s >= 60.0 * min, false, 0.0, StationAsks::Nothing),
            StationStep::OilMl(ml) => (true, false, 0.0, StationAsks::OilMl(ml)),
            StationStep::ChargeG(g) => {
                let in_kg = began_kg - weight;
                let full = in_kg >= 1e-3 * g;
                // It never pushes liquid against a running compressor.
                (full || long || sees.running, !full, in_kg, StationAsks::Nothing)
            }
        };
        if over {
            self.end(StationDone { step, took_s, moved_kg, end_pa: sees.hose_pa, gave_up });
        }
        asks
    }
    /// Give the present step up, and with it the program: the recovery cylinder's float switch has opened.
    pub fn give_up(&mut self, sees: &StationSees) {
        if let Some(step) = self.step() {
            let (began_s, began_kg) = self.since.unwrap_or((sees.time_s, sees.recovery_kg));
            let (took_s, moved_kg) = (sees.time_s - began_s, sees.recovery_kg - began_kg);
            self.end(StationDone { step, took_s, moved_kg, end_pa: sees.hose_pa, gave_up: true });
        }
    }
    /// A step is over. What follows rests on it: a step that was given up ends the program.
    fn end(&mut self, done: StationDone) {
        self.done.push(done);
        if done.gave_up {
            self.steps.truncate(self.done.len());
        }
        (self.since, self.watching_s) = (None, None);
    }
}
