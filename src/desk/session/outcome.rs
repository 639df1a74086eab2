//! What came of the work in the bay, where that may be told.

use crate::bay::facts::Facts;
use crate::bench::Bench;
use crate::scenario::Mode;

/// It is gathered so often [ticks]; nothing in it changes faster than a person can read.
const EVERY_TICKS: u64 = 20;

/// What came of the work, as gathered last.
#[derive(Default)]
pub struct Outcome {
    facts: Option<Facts>,
    tick: u64,
}

impl Outcome {
    /// In Explore, and once the record is handed in.
    pub fn told(&self) -> Option<&Facts> {
        self.facts.as_ref()
    }
    /// Gather it where it may be told and the page that tells it is `shown`.
    pub fn read(&mut self, bench: &Bench, shown: bool) {
        let handed_over = bench.bay().is_some_and(|bay| bay.handed_over.is_some());
        let explore = bench.bay().is_some() && bench.scenario().mode == Mode::Explore;
        if !shown || !(handed_over || explore) {
            self.facts = None;
        } else if self.facts.is_none() || bench.tick() >= self.tick + EVERY_TICKS {
            self.facts = bench.bay_facts();
            self.tick = bench.tick();
        }
    }
}
