//! The scenario the desk opens when none is named, and what the panel tests draw: the shipped healthy car.

use crate::scenario::{Scenario, load};

/// The healthy compact car, everything open.
///
/// # Panics
/// Never in a build whose tests passed: the file is embedded and a test loads it.
pub fn scenario() -> Scenario {
    match load("healthy") {
        Ok(scenario) => scenario,
        Err(broken) => unreachable!("the embedded healthy scenario is broken: {broken}"),
    }
}
