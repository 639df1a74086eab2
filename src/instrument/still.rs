//! A truth that stands still, for tests of instruments.

use super::truth::{LeakTruth, Truth};
use crate::circuit::Circuit;
use crate::places::{AirPlace, BySearchPlace, PipePlace, SearchPlace};

/// Numbers as the test sets them; what is not set is a place with nothing in the air.
#[derive(Clone, Default)]
pub struct Still {
    pub gauges_live: bool,
    pub low_gauge_pa: f64,
    pub high_gauge_pa: f64,
    pub compressor_turns: bool,
    pub surroundings_k: f64,
    /// Pipes in loop order [K].
    pub pipe_k: [f64; 6],
    pub air_k: [f64; 4],
    pub wet_bulb_k: [f64; 4],
    pub vent_m3_s: f64,
    pub bubbles: f64,
    pub circuit: Option<Circuit>,
    pub centre_hose_pa: f64,
    pub recovery_scale_kg: f64,
    pub charging_scale_kg: f64,
    pub recovered_oil_m3: f64,
    pub leaks: BySearchPlace<LeakTruth>,
    pub workshop_air_kg_m3: f64,
    pub sample: Option<(f64, f64)>,
}

fn of(place: AirPlace, list: [f64; 4]) -> f64 {
    AirPlace::ALL.into_iter().zip(list).find(|(at, _)| *at == place).map_or(f64::NAN, |(_, k)| k)
}

impl Truth for Still {
    fn gauges_live(&self) -> bool {
        self.gauges_live
    }
    fn low_gauge_pa(&self) -> f64 {
        self.low_gauge_pa
    }
    fn high_gauge_pa(&self) -> f64 {
        self.high_gauge_pa
    }
    fn compressor_turns(&self) -> bool {
        self.compressor_turns
    }
    fn surroundings_k(&self) -> f64 {
        self.surroundings_k
    }
    fn pipe_k(&self, place: PipePlace) -> f64 {
        self.pipe_k[place.point() - 1]
    }
    fn clamped_k(&self, place: PipePlace) -> f64 {
        self.pipe_k(place)
    }
    fn air_k(&self, place: AirPlace) -> f64 {
        of(place, self.air_k)
    }
    fn wet_bulb_k(&self, place: AirPlace) -> f64 {
        of(place, self.wet_bulb_k)
    }
    fn vent_m3_s(&self) -> f64 {
        self.vent_m3_s
    }
    fn bubbles(&self) -> f64 {
        self.bubbles
    }
    fn circuit(&self) -> Option<&Circuit> {
        self.circuit.as_ref()
    }
    fn centre_hose_pa(&self) -> f64 {
        self.centre_hose_pa
    }
    fn recovery_scale_kg(&self) -> f64 {
        self.recovery_scale_kg
    }
    fn charging_scale_kg(&self) -> f64 {
        self.charging_scale_kg
    }
    fn recovered_oil_m3(&self) -> f64 {
        self.recovered_oil_m3
    }
    fn leak(&self, place: SearchPlace) -> LeakTruth {
        self.leaks[place]
    }
    fn workshop_air_kg_m3(&self) -> f64 {
        self.workshop_air_kg_m3
    }
    fn sample(&self) -> Option<(f64, f64)> {
        self.sample
    }
}
