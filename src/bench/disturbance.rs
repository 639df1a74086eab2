//! What happens to a bench by itself: the moments of its scenario, hidden faults setting in, faults growing.

use serde::Serialize;

use super::clock::{SECOND_TICKS, ticks};
use crate::fault::{Conditions, Fault, FaultId, FaultSet, Recurs};
use crate::knobs::Controls;
use crate::scenario::{Onset, Scenario};

/// A fault on its way to a severity.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct Ramp {
    id: FaultId,
    from: f64,
    to: f64,
    start_tick: u64,
    ticks: u64,
}

/// Growing faults move once a second, so that the solver may take long steps in between.
const RAMP_EVERY_TICKS: u64 = SECOND_TICKS;
/// Faults that come and go are looked at once a second.
const RECUR_EVERY_TICKS: u64 = SECOND_TICKS;

/// A fault that comes and goes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
struct Recurring {
    fault: Fault,
    recurs: Recurs,
    there: bool,
}

/// What is still to come.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Disturbances {
    /// Engine and A/C come on on this tick.
    comes_on: Option<u64>,
    /// Next moment of the scenario.
    next_moment: usize,
    /// Hidden faults that have not set in, by index.
    waiting: Vec<usize>,
    /// The car has rolled fast enough for a stop to count, per hidden fault.
    has_rolled: Vec<bool>,
    ramps: Vec<Ramp>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    recurring: Vec<Recurring>,
}

impl Disturbances {
    /// All that a scenario holds in store.
    pub fn new(scenario: &Scenario) -> Self {
        Self {
            comes_on: (scenario.comes_on_after_s > 0.0).then(|| ticks(scenario.comes_on_after_s)),
            next_moment: 0,
            waiting: (0..scenario.faults.len()).collect(),
            has_rolled: vec![false; scenario.faults.len()],
            ramps: Vec::new(),
            recurring: Vec::new(),
        }
    }

    /// Let a fault come and go from now on.
    pub fn recur(&mut self, fault: Fault, recurs: Recurs) {
        self.stop(fault.id);
        self.recurring.push(Recurring { fault, recurs, there: false });
    }

    /// Bring and take away what comes and goes.
    pub fn come_and_go(&mut self, tick: u64, felt: &Conditions, faults: &mut FaultSet) {
        if !tick.is_multiple_of(RECUR_EVERY_TICKS) {
            return;
        }
        for r in &mut self.recurring {
            let there = r.recurs.there(r.fault.id, r.there, felt);
            match (r.there, there) {
                (false, true) => faults.impose(r.fault),
                (true, false) => faults.clear(r.fault.id),
                _ => {}
            }
            r.there = there;
        }
    }

    /// Let a fault grow from where it is to a severity.
    pub fn ramp(&mut self, id: FaultId, from: Option<f64>, to: f64, tick: u64, over_s: f64) {
        self.stop(id);
        // A fault grows from the healthy end of its range, or from where it stands.
        let healthy = id.mildest();
        self.ramps.push(Ramp {
            id,
            from: from.unwrap_or(healthy),
            to,
            start_tick: tick,
            ticks: ticks(over_s),
        });
    }

    /// Is a fault growing, or does it come and go?
    pub fn holds(&self, id: FaultId) -> bool {
        self.ramps.iter().any(|r| r.id == id) || self.recurring.iter().any(|r| r.fault.id == id)
    }

    /// Forget a ramp, and what comes and goes.
    pub fn stop(&mut self, id: FaultId) {
        self.ramps.retain(|r| r.id != id);
        self.recurring.retain(|r| r.fault.id != id);
    }

    /// Everything due on `tick`.
    pub fn run(
        &mut self,
        tick: u64,
        scenario: &Scenario,
        discharge_c: f64,
        controls: &mut Controls,
        faults: &mut FaultSet,
    ) {
        if self.comes_on.is_some_and(|at| tick >= at) {
            self.comes_on = None;
            controls.engine_on = scenario.start.engine_on;
            controls.ac_request = scenario.start.ac_request;
        }
        while let Some(moment) = scenario.moments.get(self.next_moment) {
            if ticks(moment.at_s) > tick {
                break;
            }
            controls.turn(moment.change);
            self.next_moment += 1;
        }
        if !self.waiting.is_empty() {
            self.onsets(tick, scenario, discharge_c, controls, faults);
        }
        if !self.ramps.is_empty() {
            for r in &self.ramps {
                let done = tick >= r.start_tick + r.ticks;
                if !done && !(tick - r.start_tick).is_multiple_of(RAMP_EVERY_TICKS) {
                    continue;
                }
                let share = if done { 1.0 } else { (tick - r.start_tick) as f64 / r.ticks as f64 };
                faults.impose(Fault { id: r.id, severity: r.from + share * (r.to - r.from) });
            }
            self.ramps.retain(|r| tick < r.start_tick + r.ticks);
        }
    }

    fn onsets(
        &mut self,
        tick: u64,
        scenario: &Scenario,
        discharge_c: f64,
        controls: &Controls,
        faults: &mut FaultSet,
    ) {
        let due: Vec<usize> = self
            .waiting
            .iter()
            .copied()
            .filter(|&i| match scenario.faults[i].onset {
                Onset::Start => true,
                Onset::AfterS(s) => tick >= ticks(s),
                Onset::WhenDischargeAboveC(c) => discharge_c > c,
                Onset::WhenSlowerThanKmh(v) => {
                    self.has_rolled[i] |= controls.road_speed_kmh > v;
                    self.has_rolled[i] && controls.road_speed_kmh < v
                }
            })
            .collect();
        for &i in &due {
            let hidden = scenario.faults[i];
            let severity = hidden.severity.unwrap_or_else(|| hidden.id.default_severity());
            if let Some(recurs) = hidden.comes_and_goes {
                self.recur(Fault { id: hidden.id, severity }, recurs);
            } else if hidden.grows_over_s > 0.0 {
                self.ramp(hidden.id, None, severity, tick, hidden.grows_over_s);
            } else {
                faults.impose(Fault { id: hidden.id, severity });
            }
        }
        self.waiting.retain(|i| !due.contains(i));
    }
}
