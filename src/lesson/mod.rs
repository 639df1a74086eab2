//! Lessons: the cautions at their actions and the debrief of a session.

pub mod cautions;
pub mod debrief;
pub mod timeline;

pub use debrief::{Belief, Debrief, DebriefLine, Hypothesis, bay_review, checked, review};
