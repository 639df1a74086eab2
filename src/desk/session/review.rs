//! What is reviewed: the debrief, worked out beside the drawing.

use std::thread::JoinHandle;

use crate::bench::{Bench, BenchError};
use crate::lesson::{Debrief, review};

/// The review of a diagnosis handed in.
#[derive(Default)]
pub struct Review {
    debrief: Option<Debrief>,
    working: Option<JoinHandle<Result<Option<Debrief>, BenchError>>>,
}

impl Review {
    /// What it came to; `None` before a diagnosis and while it is being worked out.
    pub fn debrief(&self) -> Option<&Debrief> {
        self.debrief.as_ref()
    }
    /// Start working it out. The bench stands still for it, so a copy may be played again elsewhere.
    pub fn start(&mut self, bench: &Bench) {
        let bench = bench.clone();
        self.debrief = None;
        self.working = Some(std::thread::spawn(move || review(&bench)));
    }
    /// Take what is ready.
    ///
    /// # Errors
    /// Why the debrief could not be worked out, for people.
    pub fn collect(&mut self) -> Result<(), String> {
        if !self.working.as_ref().is_some_and(JoinHandle::is_finished) {
            return Ok(());
        }
        match self.working.take().map(JoinHandle::join) {
            Some(Ok(Ok(debrief))) => self.debrief = debrief,
            Some(Ok(Err(reason))) => {
                return Err(format!("the debrief could not be worked out: {reason}"));
            }
            Some(Err(_)) => {
                let reason =
                    "The debrief could not be worked out: the model stopped. Your readings are kept.";
                return Err(reason.into());
            }
            None => {}
        }
        Ok(())
    }
}
