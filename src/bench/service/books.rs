//! What the ledger starts from, and what the log has seen so far.

use serde::Serialize;

use crate::plant::{OpenPlace, Plant};

/// The books of a bay.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Books {
    /// Refrigerant in all places at the start [kg].
    pub start_kg: f64,
    /// Oil in all places at the start [kg].
    pub oil_start_kg: f64,
    /// Refrigerant released when the log was last kept [kg].
    pub released_kg: f64,
    /// Oil lost when the log was last kept [kg].
    pub oil_lost_kg: f64,
    /// Where the loop has leaked since the start.
    pub leaked_at: Vec<OpenPlace>,
}

impl Books {
    /// Begin with what is in the plant now. Places that have leaked stay known.
    pub fn begin(&mut self, plant: &Plant, time_s: f64) {
        self.start_kg = plant.everywhere_kg(time_s);
        self.oil_start_kg = plant.at(time_s, |s| s.oil.total_kg());
        (self.released_kg, self.oil_lost_kg) = (0.0, 0.0);
    }
    /// The loop leaks at a place.
    pub fn leaks_at(&mut self, place: OpenPlace) {
        if !self.leaked_at.contains(&place) {
            self.leaked_at.push(place);
        }
    }
}
