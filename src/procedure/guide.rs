//! Follow a person through a procedure: which step is next, and which of its parts are done.
//!
//! A step counts as done by what stands in the bench's journal and by what its instruments show, however it was done:
//! the desk, a key or a program that plays along.

use super::player::start;
use super::{Procedure, Until};
use crate::bay::{Bay, BayAction};
use crate::bench::{Action, Bench, TICK_S};
use crate::knobs::Change;

/// One thing that a step asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// Do this; done or not.
    Do(Action, bool),
    /// Wait; how much is left [s].
    Wait(f64),
    /// Watch an instrument until it shows what is waited for; reached or not.
    Until(bool),
    /// Read an instrument into the notebook; done or not.
    Read(crate::instrument::Probe, bool),
}

impl Part {
    /// Is it done?
    pub fn is_done(&self) -> bool {
        match self {
            Self::Do(_, done) | Self::Until(done) | Self::Read(_, done) => *done,
            Self::Wait(left_s) => *left_s <= 0.0,
        }
    }
}

/// Follows a person through a procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct Guide {
    procedure: Procedure,
    step: usize,
    /// Entry of the journal from which on the step's actions count.
    since: usize,
    /// Entry of the notebook from which on its readings count.
    noted: usize,
    /// Tick on which its actions were all done.
    acted: Option<u64>,
    /// What the watched instrument showed as the step began.
    before: Option<f64>,
    /// What is waited for was seen.
    reached: bool,
}

impl Guide {
    /// At the first step, from the bench's tick on.
    pub fn new(procedure: Procedure, bench: &Bench) -> Self {
        let mut guide =
            Self { procedure, step: 0, since: 0, noted: 0, acted: None, before: None, reached: false };
        guide.begin(0, bench);
        guide
    }
    /// The procedure.
    pub fn procedure(&self) -> &Procedure {
        &self.procedure
    }
    /// Number of the step that is next, counted from 0; all of them when it is through.
    pub fn step(&self) -> usize {
        self.step
    }
    /// Is it through?
    pub fn is_done(&self) -> bool {
        self.step >= self.procedure.steps.len()
    }
    /// Go to a step by hand.
    pub fn begin(&mut self, step: usize, bench: &Bench) {
        self.step = step.min(self.procedure.steps.len());
        self.since = bench.journal().len();
        self.noted = bench.notebook().len();
        self.acted = None;
        self.reached = false;
        self.before = self.until().and_then(|until| start(until, bench));
    }
    /// Look at the bench: steps that are done are left behind. To be asked every so often, for what an instrument
    /// shows between two looks is not seen.
    pub fn follow(&mut self, bench: &Bench) {
        while let Some(step) = self.procedure.steps.get(self.step) {
            let all = step.acts.iter().all(|act| self.has_done(act, bench));
            if self.acted.is_none() && all {
                self.acted = Some(bench.tick());
            }
            let shown = self.watched(bench);
            self.before = self.before.or(shown);
            if let (Some(until), Some(before), Some(shown)) = (&step.until, self.before, shown) {
                self.reached |= until.turn().is_some_and(|turn| turn.reached(before, shown));
            }
            // A step of nothing but words, attempts and expectations has no trace to be seen by.
            let parts = self.parts(bench);
            if parts.is_empty() || !parts.iter().all(Part::is_done) {
                return;
            }
            self.begin(self.step + 1, bench);
        }
    }
    /// What the step asks for, with what of it is done.
    pub fn parts(&self, bench: &Bench) -> Vec<Part> {
        let Some(step) = self.procedure.steps.get(self.step) else { return Vec::new() };
        let mut parts: Vec<Part> =
            step.acts.iter().map(|act| Part::Do(act.clone(), self.has_done(act, bench))).collect();
        if step.wait_s > 0.0 {
            let waited = self.acted.map_or(0.0, |tick| (bench.tick() - tick) as f64 * TICK_S);
            parts.push(Part::Wait((step.wait_s - waited).max(0.0)));
        }
        if step.until.is_some() {
            parts.push(Part::Until(self.reached));
        }
        let read = &bench.notebook()[self.noted.min(bench.notebook().len())..];
        parts.extend(step.read.iter().map(|p| Part::Read(p.clone(), read.iter().any(|r| r.probe == *p))));
        parts
    }
    fn until(&self) -> Option<&Until> {
        self.procedure.steps.get(self.step).and_then(|step| step.until.as_ref())
    }
    fn watched(&self, bench: &Bench) -> Option<f64> {
        bench.shown(&self.until()?.probe).map(|(value, _)| value)
    }
    fn has_done(&self, act: &Action, bench: &Bench) -> bool {
        let journal = bench.journal();
        stands(act, bench)
            || journal[self.since.min(journal.len())..].iter().any(|(_, done)| alike(act, done))
    }
}

/// Is it the case already, so that nobody need do it?
fn stands(act: &Action, bench: &Bench) -> bool {
    let (c, manifold) = (bench.controls(), bench.manifold());
    match act {
        Action::ManifoldLowPct(v) => (*v > 0.0) == (manifold.low_pct > 0.0),
        Action::ManifoldHighPct(v) => (*v > 0.0) == (manifold.high_pct > 0.0),
        Action::Bay(act) => bench.bay().is_some_and(|bay| set_so(act, bay)),
        Action::Set(change) => stands_near(*change, c.get(change.knob())),
        _ => false,
    }
}

/// Is the bay set that way already?
fn set_so(act: &BayAction, bay: &Bay) -> bool {
    match act {
        BayAction::Protect(v) => bay.protected == *v,
        BayAction::Ventilate(v) => bay.ventilated == *v,
        BayAction::Fit { hose, port } => bay.coupler(*hose).port == *port,
        BayAction::Knob { hose, open } => bay.coupler(*hose).open == *open,
        BayAction::Centre(end) => bay.centre == *end,
        BayAction::Loosen(v) => bay.loose == *v,
        BayAction::Pump(v) => bay.pump_on == *v,
        BayAction::Machine(v) => bay.machine_on == *v,
        BayAction::Valve { vessel, valve } => bay.valves[*vessel] == *valve,
        BayAction::Warm(v) => bay.warm == *v,
        BayAction::Spray(v) => bay.spray == *v,
        BayAction::CoverPct(v) => near(*v, 100.0 * bay.cover),
        BayAction::RegulatorBar(v) => near(*v, bay.regulator_pa / 1e5),
        _ => false,
    }
}

/// Within a twentieth; nothing is near to nothing only.
fn near(wanted: f64, found: f64) -> bool {
    (wanted - found).abs() <= 0.05 * wanted.abs()
}

/// Is it the same knob, at the same value or nearly so?
fn stands_near(wanted: Change, found: Change) -> bool {
    match (wanted.number(), found.number()) {
        (Some(a), Some(b)) => wanted.knob() == found.knob() && near(a, b),
        _ => wanted == found,
    }
}

/// Is what was done what the step asks for? Knobs and amounts may be a little off, and what is written into a record is
/// the person's own.
fn alike(wanted: &Action, done: &Action) -> bool {
    use Action::{Bay, ManifoldHighPct, ManifoldLowPct, Set};
    use BayAction::{CoverPct, DyeMl, Oil, RegulatorBar, Work, Write};
    match (wanted, done) {
        (ManifoldLowPct(a), ManifoldLowPct(b)) | (ManifoldHighPct(a), ManifoldHighPct(b)) => {
            (*a > 0.0) == (*b > 0.0)
        }
        (Set(a), Set(b)) => stands_near(*a, *b),
        (Bay(a), Bay(b)) => match (a, b) {
            (RegulatorBar(a), RegulatorBar(b)) | (DyeMl(a), DyeMl(b)) | (CoverPct(a), CoverPct(b)) => {
                near(*a, *b)
            }
            (Oil { ml: a, kind: k }, Oil { ml: b, kind: l }) => k == l && near(*a, *b),
            (Write { field: a, .. }, Write { field: b, .. }) => a == b,
            (Work { what: a, .. }, Work { what: b, .. }) => a == b,
            (a, b) => a == b,
        },
        (a, b) => a == b,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bay::{OilKind, RecordField, RecordValue};

    #[test]
    fn a_knob_a_little_off_counts_and_another_deed_does_not() {
        let oil = |ml| Action::Bay(BayAction::Oil { ml, kind: OilKind::AsLabelled });
        assert!(alike(&Action::Set(Change::EngineRpm(1500.0)), &Action::Set(Change::EngineRpm(1450.0))));
        assert!(!alike(&Action::Set(Change::EngineRpm(1500.0)), &Action::Set(Change::EngineRpm(900.0))));
        assert!(alike(&Action::ManifoldLowPct(100.0), &Action::ManifoldLowPct(60.0)));
        assert!(!alike(&Action::ManifoldLowPct(0.0), &Action::ManifoldLowPct(1.0)));
        assert!(!alike(&Action::ManifoldLowPct(100.0), &Action::ManifoldHighPct(100.0)));
        assert!(alike(&oil(20.0), &oil(20.5)) && !alike(&oil(20.0), &oil(60.0)));
        let other = Action::Bay(BayAction::Oil { ml: 20.0, kind: OilKind::Other });
        assert!(!alike(&oil(20.0), &other));
        let line =
            |x| Action::Bay(BayAction::Write { field: RecordField::ChargedG, value: RecordValue::Number(x) });
        assert!(alike(&line(349.0), &line(320.0)), "what is written is the person's own");
        assert!(!near(0.0, 1e-3) && near(0.0, 0.0));
    }
}
