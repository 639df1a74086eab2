//! The ledger: where every gram of refrigerant and oil is.

use serde::{Deserialize, Serialize};

use crate::plant::PerVessel;

/// Refrigerant and oil by place. What is unaccounted for closes to rounding when the model is sound.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Ledger {
    /// Refrigerant in the loop, what its oil holds included [kg].
    pub loop_kg: f64,
    /// In the three hoses [kg].
    pub hoses_kg: f64,
    /// In the vessels [kg].
    pub vessels_kg: PerVessel<f64>,
    /// Let out so far, by whatever way [kg].
    pub released_kg: f64,
    /// Came with fresh cans, less what went with the old ones [kg].
    pub cans_kg: f64,
    /// Put in by what an instructor imposed, less what was taken out [kg].
    pub imposed_kg: f64,
    /// Refrigerant that was there at the start [kg].
    pub start_kg: f64,
    /// Oil in loop and hoses [kg].
    pub oil_loop_kg: f64,
    /// Oil that came along into vessels [kg].
    pub oil_vessels_kg: f64,
    /// Oil lost with what leaked or was let out [kg].
    pub oil_lost_kg: f64,
    /// Oil that came out with parts [kg].
    pub oil_taken_kg: f64,
    /// Oil poured in, new parts included [kg].
    pub oil_added_kg: f64,
    /// Oil that was there at the start, what faults imposed later included [kg].
    pub oil_start_kg: f64,
}

impl Ledger {
    /// Refrigerant in all places together, what left included [kg].
    pub fn found_kg(&self) -> f64 {
        self.loop_kg + self.hoses_kg + self.vessels_kg.values().sum::<f64>() + self.released_kg
    }
    /// Refrigerant that should be there less what is found [kg].
    pub fn unaccounted_kg(&self) -> f64 {
        self.start_kg + self.cans_kg + self.imposed_kg - self.found_kg()
    }
    /// The same of oil [kg].
    pub fn oil_unaccounted_kg(&self) -> f64 {
        let found = self.oil_loop_kg + self.oil_vessels_kg + self.oil_lost_kg + self.oil_taken_kg;
        self.oil_start_kg + self.oil_added_kg - found
    }
}
