//! Instruments: the only way a learner sees the bench. Each has range, class, lag, noise and zero error.
//!
//! What lags (needles, sensors) is plain state moved by `advance`; what is noise is a pure function of seed,
//! instrument and tick, added only when somebody looks.

pub mod bay_tools;
pub mod clamp;
pub mod electrical;
pub mod gauge;
pub mod lamp;
pub mod meter;
pub mod noise;
mod places;
mod rack;
pub mod sight_glass;
pub mod thermometer;
pub mod voltmeter;

pub use bay_tools::{BayTools, BayTruth, LeakTruth};
pub use electrical::Electrical;
pub use meter::{MeterMode, MeterRange};
pub use places::{AirPlace, DetectorScale, PipePlace, Probe, Reading, SearchPlace};
pub use rack::{InstrumentRack, Truth, limit, sigma, uncertainty};
pub use sight_glass::Sight;
