//! What readings allow to believe. Every catalogue fault at several severities is a hypothesis; for each a
//! shadow [`Bench`] plays the learner's own actions, and its instruments predict every reading. Bayes' rule
//! with the instruments' own uncertainty turns readings into a belief.

mod belief;
pub mod compare;
mod hypothesis;
mod protocol;
mod shadow;

pub use belief::{Weighed, weigh};
pub use hypothesis::{Hypothesis, Story};
pub use protocol::{Protocol, Watched};
pub use shadow::{Prediction, StoryError, predict, predict_all, stories};
