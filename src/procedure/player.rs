//! Play an action file on a bench, step by step, with no clock and no input or output of its own.

use super::quantity::last;
use super::trouble::{Miss, PlayError};
use super::{Planned, Procedure, Quantity, Step, Turn, Until, reckon, whole};
use crate::bench::{Action, Bench, TICK_S};
use crate::instrument::Probe;

/// Ticks between two steps: a second, for hands are not instant.
const STEP_TICKS: u64 = 20;
/// Ticks between two looks at an instrument that is watched: a quarter of a second.
const LOOK_TICKS: u64 = 5;

/// Where in a step a player stands.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Phase {
    /// Nothing of the step is done yet.
    Before,
    /// Done, waiting until a tick.
    Waiting(u64),
    /// Watching an instrument since a tick.
    Watching(u64),
    /// Reading the tool of this number, which settles until a tick.
    Reading { index: usize, settled: Option<u64> },
}

/// Plays a procedure. [`Self::act`] does what is due on the bench's tick, [`Self::due`] says when it wants to be asked
/// again; time passes between the two by somebody else's hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Player {
    procedure: Procedure,
    steps: Vec<Planned>,
    /// Tick on which the file of the present step began.
    began: u64,
    step: usize,
    phase: Phase,
    due: u64,
    before: Option<f64>,
    misses: Vec<Miss>,
}

/// The tick nearest to a time. Times were checked to be finite and not negative.
fn ticks(seconds: f64) -> u64 {
    libm::round(seconds / TICK_S) as u64
}

/// What a fall or rise counts from, as a step begins.
pub(super) fn start(until: &Until, bench: &Bench) -> Option<f64> {
    if until.from_reading {
        last(bench, &until.probe, 0)
    } else {
        bench.shown(&until.probe).map(|(value, _)| value)
    }
}

impl Player {
    /// A player that begins on the bench's tick, with the steps of the files that the procedure begins after.
    pub fn new(procedure: Procedure, bench: &Bench) -> Self {
        let began = bench.tick();
        // A procedure that was loaded has been checked for this.
        let steps = whole(&procedure).unwrap_or_default();
        let (phase, misses) = (Phase::Before, Vec::new());
        Self { procedure, steps, began, step: 0, phase, due: began, before: None, misses }
    }
    /// What it plays.
    pub fn procedure(&self) -> &Procedure {
        &self.procedure
    }
    /// Every step it plays, those of earlier files first.
    pub fn steps(&self) -> &[Planned] {
        &self.steps
    }
    /// Number of the step it stands at among all it plays, counted from 0; all of them when it is through.
    pub fn step(&self) -> usize {
        self.step
    }
    /// Is it through?
    pub fn is_done(&self) -> bool {
        self.step >= self.steps.len()
    }
    /// The tick on which it wants to act next; none when it is through.
    pub fn due(&self) -> Option<u64> {
        (!self.is_done()).then_some(self.due)
    }
    /// What came out otherwise than the file says, so far.
    pub fn misses(&self) -> &[Miss] {
        &self.misses
    }

    /// Play to the end.
    ///
    /// # Errors
    /// When an action is refused or a reading never comes.
    pub fn play(&mut self, bench: &mut Bench) -> Result<(), PlayError> {
        loop {
            self.act(bench)?;
            let Some(due) = self.due() else { return Ok(()) };
            let ticks = due.saturating_sub(bench.tick()).max(1);
            bench.advance(u32::try_from(ticks).unwrap_or(u32::MAX));
        }
    }

    /// Do all that is due on the bench's tick.
    ///
    /// # Errors
    /// When an action is refused or a reading never comes; the player then stands where it was.
    pub fn act(&mut self, bench: &mut Bench) -> Result<(), PlayError> {
        while let Some(planned) = self.steps.get(self.step).filter(|_| self.due <= bench.tick()) {
            // Copied, so that the step can be read while the player moves on.
            let step = planned.step.clone();
            match self.phase {
                Phase::Before => self.begin(&step, bench)?,
                Phase::Waiting(tick) if bench.tick() < tick => self.due = tick,
                Phase::Waiting(_) => self.phase = Phase::Watching(bench.tick()),
                Phase::Watching(since) => self.watch(&step, since, bench)?,
                Phase::Reading { index, settled } => self.read(&step, index, settled, bench)?,
            }
        }
        Ok(())
    }

    fn begin(&mut self, step: &Step, bench: &mut Bench) -> Result<(), PlayError> {
        let now = bench.tick();
        let at = step.at_s.map_or(now, |s| self.began + ticks(s));
        if now < at {
            self.due = at;
            return Ok(());
        }
        for (i, action) in step.refused.iter().enumerate() {
            if bench.apply(action.clone()).is_ok() {
                let (file, step) = self.place();
                return Err(PlayError::NotRefused { file, step, action: i + 1 });
            }
        }
        for (i, action) in step.acts.iter().enumerate() {
            self.apply(action.clone(), i, bench)?;
        }
        self.before = None;
        if let Some(until) = &step.until {
            self.put_in_place(&until.probe, step.acts.len(), bench)?;
            self.before = start(until, bench);
        }
        self.phase = Phase::Waiting(now + ticks(step.wait_s));
        Ok(())
    }

    fn apply(&self, action: Action, i: usize, bench: &mut Bench) -> Result<(), PlayError> {
        let at_s = bench.time_s();
        let (file, step) = self.place();
        bench.apply(action).map_err(|refusal| PlayError::Refused { file, step, action: i + 1, at_s, refusal })
    }

    /// File and number of the step it stands at.
    fn place(&self) -> (String, usize) {
        self.steps.get(self.step).map_or((String::new(), 0), |p| (p.file.clone(), p.number))
    }

    /// Put a tool on its place unless it shows something there already; says whether it was put there.
    fn put_in_place(&self, probe: &Probe, i: usize, bench: &mut Bench) -> Result<bool, PlayError> {
        if bench.shown(probe).is_some() {
            return Ok(false);
        }
        self.apply(Action::to_place(probe), i, bench)?;
        Ok(true)
    }

    fn watch(&mut self, step: &Step, since: u64, bench: &Bench) -> Result<(), PlayError> {
        let now = bench.tick();
        if let Some(until) = &step.until {
            let shown = bench.shown(&until.probe).map(|(value, _)| value);
            let turn = until.turn();
            // What showed nothing when the step began counts from when it first shows something.
            self.before = self.before.or(shown);
            let reached = match (turn, self.before, shown) {
                (Some(turn), Some(before), Some(shown)) => turn.reached(before, shown),
                _ => false,
            };
            if !reached {
                let limit = since + ticks(until.at_most_s);
                if now >= limit {
                    let (file, step) = self.place();
                    return Err(PlayError::Never {
                        file,
                        step,
                        probe: until.probe.name(),
                        turn: turn.map_or_else(String::new, Turn::words),
                        unit: until.probe.unit(),
                        limit_s: until.at_most_s,
                        shown,
                    });
                }
                self.due = (now + LOOK_TICKS).min(limit);
                return Ok(());
            }
        }
        self.phase = Phase::Reading { index: 0, settled: None };
        Ok(())
    }

    fn read(
        &mut self,
        step: &Step,
        index: usize,
        settled: Option<u64>,
        bench: &mut Bench,
    ) -> Result<(), PlayError> {
        let Some(probe) = step.read.get(index) else {
            self.reckon(step, bench)?;
            self.finish(step, bench);
            return Ok(());
        };
        let i = step.acts.len() + index;
        let Some(tick) = settled else {
            let settles = self.put_in_place(probe, i, bench)?;
            let tick = bench.tick() + if settles { ticks(probe.facts().settles_s) } else { 0 };
            self.phase = Phase::Reading { index, settled: Some(tick) };
            return Ok(());
        };
        if bench.tick() < tick {
            self.due = tick;
            return Ok(());
        }
        self.apply(Action::Read(probe.clone()), i, bench)?;
        self.phase = Phase::Reading { index: index + 1, settled: None };
        Ok(())
    }

    /// Sums and lines of the record.
    fn reckon(&self, step: &Step, bench: &mut Bench) -> Result<(), PlayError> {
        let first = step.acts.len() + step.read.len();
        let missing = |what: &str| {
            let (file, step) = self.place();
            PlayError::NoReadings { file, step, what: what.to_owned() }
        };
        for (i, (what, unit)) in step.work.iter().enumerate() {
            let act = reckon::work(*what, *unit, bench).ok_or_else(|| missing(what.name()))?;
            self.apply(Action::Bay(act), first + i, bench)?;
        }
        for (i, (field, of)) in step.write.iter().enumerate() {
            let act = reckon::write(*field, of, bench).ok_or_else(|| missing(&of.words()))?;
            self.apply(Action::Bay(act), first + step.work.len() + i, bench)?;
        }
        Ok(())
    }

    /// Compare with what must have come out, and go on to the next step.
    fn finish(&mut self, step: &Step, bench: &Bench) {
        for expect in &step.expect {
            let value = expect.of.value(bench);
            if !value.is_some_and(|v| expect.holds(v)) {
                let (file, number) = self.place();
                self.misses.push(Miss {
                    file,
                    step: number,
                    say: step.say.clone(),
                    what: Quantity::words(&expect.of),
                    value,
                    from: expect.from,
                    to: expect.to,
                    unit: expect.of.unit(),
                });
            }
        }
        self.step += 1;
        self.phase = Phase::Before;
        self.due = bench.tick() + STEP_TICKS;
        if self.steps.get(self.step).is_some_and(|next| next.number == 1) {
            self.began = self.due;
        }
    }
}
