//! What is reviewed: the debrief, worked out beside the drawing.

use crate::bench::Bench;
use crate::desk::errand::Errand;
use crate::diagnosis::StoryError;
use crate::lesson::{Debrief, review};

/// The review of a diagnosis handed in.
#[derive(Default)]
pub struct Review {
    debrief: Option<Debrief>,
    working: Errand<Result<Option<Debrief>, StoryError>>,
}

impl Review {
    /// What it came to; `None` before a diagnosis and while it is being worked out.
    pub fn debrief(&self) -> Option<&Debrief> {
        self.debrief.as_ref()
    }
    /// How far it is, 0 to 1, while it is being worked out.
    pub fn share(&self) -> Option<f32> {
        self.working.share()
    }
    /// Start working it out. The bench stands still for it, so a copy may be played again elsewhere.
    pub fn start(&mut self, bench: &Bench) {
        let bench = bench.clone();
        self.debrief = None;
        self.working.start(move |effort| review(&bench, effort));
    }
    /// Leave it.
    pub fn give_up(&mut self) {
        self.working.give_up();
    }
    /// Take what is ready.
    ///
    /// # Errors
    /// Why the debrief could not be worked out, for people.
    pub fn collect(&mut self) -> Result<(), String> {
        match self.working.collect() {
            None | Some(Ok(Err(StoryError::GivenUp(_)))) => {}
            Some(Ok(Ok(debrief))) => self.debrief = debrief,
            Some(Ok(Err(reason))) => {
                return Err(format!("the debrief could not be worked out: {reason}. Your readings are kept"));
            }
            Some(Err(stopped)) => {
                return Err(format!(
                    "the debrief could not be worked out: {stopped}. Your readings are kept"
                ));
            }
        }
        Ok(())
    }
}
