//! Faults of the air over condenser and evaporator.

pub(super) mod cabin;
pub(super) mod condenser;

use super::{PLAIN, graded, rows};
