//! What every part of the bench may look at, and none may change: the tick, the knobs and the plant as they stand.

use super::clock;
use crate::knobs::Controls;
use crate::plant::Plant;
use crate::units::ZERO_C_K;

/// A moment of the bench.
#[derive(Clone, Copy, Debug)]
pub struct Now<'a> {
    /// The tick.
    pub tick: u64,
    /// Knobs.
    pub controls: &'a Controls,
    /// The loop.
    pub plant: &'a Plant,
}

impl Now<'_> {
    /// Time since the scenario began [s].
    pub fn time_s(&self) -> f64 {
        clock::time_s(self.tick)
    }
    /// Outside air [Pa absolute].
    pub fn ambient_pa(&self) -> f64 {
        self.controls.ambient_pa()
    }
    /// Outside air [K].
    pub fn ambient_k(&self) -> f64 {
        self.controls.ambient_c + ZERO_C_K
    }
    /// Pressure in a volume of the plant [Pa gauge].
    pub fn gauge_pa(&self, volume: usize) -> f64 {
        self.plant.look(volume, self.time_s()).p_pa - self.ambient_pa()
    }
    /// Highest pressure in the loop [Pa gauge].
    pub fn loop_gauge_pa(&self) -> f64 {
        self.plant.highest_pa(self.time_s()) - self.ambient_pa()
    }
    /// The compressor turns.
    pub fn compressor_runs(&self) -> bool {
        self.plant.inputs().compressor_rpm > 0.0
    }
}
