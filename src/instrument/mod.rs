//! Instruments: the only way a learner sees the bench. Each has range, class, lag, noise and zero error.

mod places;

pub use places::{AirPlace, PipePlace, Probe, Reading};
