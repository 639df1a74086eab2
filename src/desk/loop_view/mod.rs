//! The live loop: one drawing that is a schematic when folded and a pressure-enthalpy chart when unfolded.

mod dome;
mod motion;

pub use dome::DomeData;
pub use motion::{Motion, SEGMENTS, Segment};
