//! What can go wrong with an equation of state.

use thiserror::Error;

/// Why the equation could not be read or solved.
#[derive(Debug, Error)]
pub enum EquationError {
    /// The coefficient file is not what it should be.
    #[error("the coefficients cannot be read: {0}")]
    Coefficients(String),
    /// A property could not be computed.
    #[error("no solution at {0}")]
    NoSolution(String),
}
