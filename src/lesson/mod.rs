//! Lessons: the cautions at their actions and what a debrief holds.

pub mod bay_debrief;
pub mod cautions;
pub mod debrief;
pub mod review;
pub mod timeline;

pub use debrief::{Belief, Debrief, DebriefLine, Hypothesis};
pub use review::review;
