//! Instruments: the only way a learner sees the bench. Each has range, class, lag, noise and zero error, and a file of
//! its own that says all there is to say of it (`describe.rs`); `table.rs` lists them.
//!
//! What lags (needles, sensors) is plain state moved by `advance`; what is noise is a pure function of seed,
//! instrument and tick, added only when somebody looks.

pub mod air_thermometer;
pub mod airflow;
mod character;
pub mod clamp;
mod describe;
mod dial;
pub mod electrical;
pub mod gauge;
pub mod identifier;
pub mod infrared;
pub mod jumper;
mod kit;
pub mod lamp;
pub mod leak_detector;
mod leak_signs;
pub mod meter;
pub mod pipe_thermometer;
pub mod psychrometer;
mod rack;
pub mod reader;
mod reading;
mod say;
pub mod scales;
pub mod senses;
mod sensors;
pub mod sight_glass;
pub mod soap;
mod table;
pub mod thermometer;
mod truth;
pub mod uv_lamp;
pub mod vacuum_gauge;
mod word;

#[cfg(test)]
mod still;

pub use crate::places::{AirPlace, PipePlace, SearchPlace};
pub use character::{Character, OVER, is_over};
pub use describe::{Facts, Holds, Instrument, Need, Placing};
pub use dial::{MeterMode, MeterRange};
pub use electrical::Electrical;
pub use kit::{Kit, Shelf};
pub use leak_detector::DetectorScale;
pub use rack::InstrumentRack;
pub use reading::Reading;
pub use say::{CLEAR_SIGN, Say};
pub use sensors::Sensors;
pub use sight_glass::Sight;
pub use table::{Probe, Tool};
pub use truth::{LeakTruth, Truth};
