//! What runs: the bench, the healthy twin beside it, and how fast time goes.

use super::marks::drives;
use super::pace::Pace;
use crate::bench::{Action, Bench, Refusal};
use crate::scenario::{Mode, Scenario};

/// Ticks done between two looks at the clock; also between two looks of a how-to at the instruments.
const STRETCH: u32 = 10;
/// Seed of the instruments' noise, until a session chooses its own.
const SEED: u64 = 1;
/// Fastest that time is let go [times real time].
const FASTEST: u32 = 20;

/// A running bench.
pub struct Run {
    /// The bench.
    pub bench: Bench,
    /// The same rig in the same weather with nothing wrong (Explore only).
    pub ghost: Option<Bench>,
    /// Time stands still.
    pub paused: bool,
    pace: Pace,
    speed: u32,
}

/// A bench for a scenario, at tick 0.
pub fn new_bench(scenario: &Scenario) -> Result<Bench, String> {
    Bench::new(scenario, SEED).map_err(|e| e.to_string())
}

/// The healthy twin of an Explore scenario.
fn healthy_twin(scenario: &Scenario) -> Option<Bench> {
    (scenario.mode == Mode::Explore).then(|| {
        let healthy = Scenario { faults: Vec::new(), ..scenario.clone() };
        new_bench(&healthy).ok()
    })?
}

impl Run {
    /// On a bench as it stands, at real time.
    pub fn of(bench: Bench) -> Self {
        Self { ghost: healthy_twin(bench.scenario()), bench, paused: false, pace: Pace::default(), speed: 1 }
    }
    /// Times real time asked for.
    pub fn speed(&self) -> u32 {
        self.speed
    }
    /// Ask for a speed [times real time].
    pub fn set_speed(&mut self, speed: u32) {
        self.speed = speed.clamp(1, FASTEST);
    }
    /// Times real time reached, while the machine cannot keep up.
    pub fn lagging_at(&self) -> Option<f64> {
        self.pace.lagging_at()
    }
    /// Wall time passes [s].
    pub fn owe(&mut self, wall_s: f64) {
        self.pace.owe(wall_s, self.speed);
    }
    /// Wall time passes and time stands still.
    pub fn rest(&mut self) {
        self.pace.rest();
    }
    /// Ticks of the next stretch; 0 when all that is owed is done.
    pub fn due(&self) -> u32 {
        self.pace.due(STRETCH)
    }
    /// So many ticks that were due are done.
    pub fn paid(&mut self, ticks: u32) {
        self.pace.paid(ticks);
    }
    /// So many ticks on, whether or not they are due.
    pub fn advance(&mut self, ticks: u32) {
        self.bench.advance(ticks);
        if let Some(ghost) = &mut self.ghost {
            ghost.advance(ticks);
        }
    }
    /// Do something; the twin lives in the same weather and is driven the same way.
    pub fn apply(&mut self, action: Action) -> Result<(), Refusal> {
        if let Some(ghost) = self.ghost.as_mut().filter(|_| drives(&action)) {
            // What it refuses the bench refuses too.
            let _refused_twice = ghost.apply(action.clone());
        }
        self.bench.apply(action)
    }
}
