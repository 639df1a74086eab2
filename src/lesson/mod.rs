//! Lessons: the cautions at their actions and what a debrief holds.

pub mod bay_debrief;
mod bay_review;
pub mod cautions;
pub mod debrief;
pub mod review;
pub mod timeline;

pub use bay_review::{bay_review, checked};
pub use debrief::{Belief, Debrief, DebriefLine, Hypothesis};
pub use review::review;
