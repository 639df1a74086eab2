//! Water on the evaporator and its books. What a step does to it is in `coil_step.rs`.

use serde::{Deserialize, Serialize};

/// Water on one cell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CellWater {
    /// Liquid that clings [kg].
    pub film_kg: f64,
    /// Frost [kg].
    pub frost_kg: f64,
}

/// Water on the coil and its books: `condensed = film + frost + evaporated + drained + pool`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct CoilWater {
    /// Each cell in the order of the refrigerant.
    pub cells: Vec<CellWater>,
    /// Taken from the air so far, as water or as frost [kg].
    pub condensed_kg: f64,
    /// Given back to the air so far [kg].
    pub evaporated_kg: f64,
    /// Run out of the drain so far [kg].
    pub drained_kg: f64,
    /// Standing in the box, for the drain let too little out [kg]; it only gathers.
    #[serde(default)]
    pub pool_kg: f64,
}

impl CoilWater {
    /// A dry coil.
    pub fn dry(cells: usize) -> Self {
        Self { cells: vec![CellWater::default(); cells], ..Self::default() }
    }
    /// Liquid on the whole coil [kg].
    pub fn film_kg(&self) -> f64 {
        self.cells.iter().map(|c| c.film_kg).sum()
    }
    /// Frost on the whole coil [kg].
    pub fn frost_kg(&self) -> f64 {
        self.cells.iter().map(|c| c.frost_kg).sum()
    }
}
