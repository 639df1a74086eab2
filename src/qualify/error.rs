//! Why the guide could not be run.

use crate::bench::{BenchError, Refusal};
use crate::rig::RigError;

/// Why the guide could not be run.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum QualifyError {
    /// A scenario the guide uses is not in the program.
    #[error("there is no shipped scenario `{0}`")]
    NoScenario(&'static str),
    /// A shipped scenario does not load.
    #[error("{0}")]
    Scenario(String),
    /// A bench could not be set up.
    #[error(transparent)]
    Bench(#[from] BenchError),
    /// A rig could not be loaded.
    #[error(transparent)]
    Rig(#[from] RigError),
    /// A bench refused what the guide asked of it.
    #[error("the bench refused: {0}")]
    Refusal(#[from] Refusal),
    /// Rows that break the rules of the guide.
    #[error("rows of the guide break its rules:\n{}", .0.join("\n"))]
    Dishonest(Vec<String>),
    /// A section gave up.
    #[error("section {0} ended without a result")]
    Lost(&'static str),
}
