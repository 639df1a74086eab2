//! The how-to that a person follows.

use crate::bench::Bench;
use crate::procedure::{self, Guide, Part};

/// A how-to, or none.
#[derive(Default)]
pub struct HowTo {
    guide: Option<Guide>,
    parts: Vec<Part>,
}

impl HowTo {
    /// The how-to being followed, and what its present step asked for when it was last read.
    pub fn shown(&self) -> Option<(&Guide, &[Part])> {
        self.guide.as_ref().map(|guide| (guide, self.parts.as_slice()))
    }
    /// Take a shipped how-to from its first step on, or put it away.
    ///
    /// # Errors
    /// There is no such how-to.
    pub fn choose(&mut self, id: Option<&str>, bench: &Bench) -> Result<(), String> {
        self.parts.clear();
        self.guide = None;
        if let Some(id) = id {
            let procedure = procedure::load(id).map_err(|bad| bad.to_string())?;
            self.guide = Some(Guide::new(procedure, bench));
        }
        Ok(())
    }
    /// Go to a step by hand.
    pub fn begin(&mut self, step: usize, bench: &Bench) {
        if let Some(guide) = &mut self.guide {
            guide.begin(step, bench);
        }
    }
    /// Look at the bench after something was done or time went by.
    pub fn follow(&mut self, bench: &Bench) {
        if let Some(guide) = &mut self.guide {
            guide.follow(bench);
        }
    }
    /// Read what the present step asks for, for one frame.
    pub fn read(&mut self, bench: &Bench) {
        if let Some(guide) = &self.guide {
            self.parts = guide.parts(bench);
        }
    }
}
