//! Long work, seen from outside: how far it is, and a way to end it early. Who works and who waits hold the same one.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

/// Nobody waits for the work any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("it was given up")]
pub struct GivenUp;

/// Progress of one piece of long work. Clones speak of the same work.
#[derive(Clone, Debug, Default)]
pub struct Effort(Arc<Shared>);

#[derive(Debug, Default)]
struct Shared {
    done: AtomicU64,
    whole: AtomicU64,
    given_up: AtomicBool,
}

impl Effort {
    /// Say how much there is to do, in any unit.
    pub fn plan(&self, whole: u64) {
        self.0.whole.store(whole, Ordering::Relaxed);
    }
    /// So much more is done.
    pub fn add(&self, done: u64) {
        self.0.done.fetch_add(done, Ordering::Relaxed);
    }
    /// How far the work is, 0 to 1; 0 before it is planned.
    pub fn share(&self) -> f32 {
        let whole = self.0.whole.load(Ordering::Relaxed);
        if whole == 0 {
            return 0.0;
        }
        (self.0.done.load(Ordering::Relaxed) as f64 / whole as f64).min(1.0) as f32
    }
    /// Nobody waits for it any more.
    pub fn give_up(&self) {
        self.0.given_up.store(true, Ordering::Relaxed);
    }
    /// Is it to be ended? Whoever works looks at least every second.
    pub fn is_given_up(&self) -> bool {
        self.0.given_up.load(Ordering::Relaxed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_waits_sees_what_who_works_has_done() {
        let effort = Effort::default();
        let work = effort.clone();
        assert_eq!(effort.share(), 0.0);
        work.plan(8);
        work.add(2);
        assert_eq!(effort.share(), 0.25);
        work.add(20);
        assert_eq!(effort.share(), 1.0);
        effort.give_up();
        assert!(work.is_given_up());
    }
}
