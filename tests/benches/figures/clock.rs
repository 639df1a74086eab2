//! Time that a thread has really had a core, where the system says so: a busy machine does not spoil it.

use std::time::{Duration, Instant};

/// Started at some moment on some thread.
pub struct Clock {
    started: Instant,
    had: Option<u64>,
}

/// Nanoseconds this thread has run so far; up to some milliseconds old.
fn had() -> Option<u64> {
    std::fs::read_to_string("/proc/thread-self/schedstat").ok()?.split_whitespace().next()?.parse().ok()
}

impl Clock {
    /// Now.
    pub fn start() -> Self {
        Self { started: Instant::now(), had: had() }
    }
    /// Seconds of this thread since the start: of the wall for short stretches, of the core for long ones.
    pub fn seconds(&self) -> f64 {
        let wall = self.started.elapsed();
        match (self.had, had()) {
            (Some(from), Some(to)) if wall > Duration::from_millis(20) => {
                wall.as_secs_f64().min((to.saturating_sub(from)) as f64 * 1e-9)
            }
            _ => wall.as_secs_f64(),
        }
    }
}
