//! All instruments of one bench: two gauges, one tool of each kind, and the eye. Those that only follow their place have a
//! set of their own ([`Sensors`]), as the electrical ones have.

use serde::{Deserialize, Serialize};

use super::dial;
use super::electrical::Electrical;
use super::gauge::Gauge;
use super::reading::Reading;
use super::sensors::Sensors;
use super::sight_glass;
use super::table::Probe;
use super::thermometer::{Kind, Thermometer};
use super::truth::Truth;
use crate::places::{AirPlace, PipePlace};

/// The instruments of one bench. Only [`Self::place`], [`Self::remove`] and [`Self::advance`] change it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct InstrumentRack {
    seed: u64,
    low: Gauge,
    high: Gauge,
    pipe: Option<(PipePlace, Thermometer)>,
    air: Option<(AirPlace, Thermometer)>,
    watching_glass: bool,
    bubbles: f64,
    /// Meter, lamp and clamp.
    #[serde(default, skip_serializing_if = "Electrical::is_untouched")]
    pub electrical: Electrical,
    /// What follows its place with a lag.
    #[serde(default, skip_serializing_if = "Sensors::is_untouched")]
    pub sensors: Sensors,
}

impl InstrumentRack {
    /// The instruments of a session with this seed: hoses off, nothing placed.
    pub fn new(seed: u64) -> Self {
        Self {
            seed,
            low: Gauge::new(false, seed),
            high: Gauge::new(true, seed),
            pipe: None,
            air: None,
            watching_glass: false,
            bubbles: 0.0,
            electrical: Electrical::default(),
            sensors: Sensors::default(),
        }
    }
    /// Put a tool on a place, replacing the tool of the same kind; a tool already there stays as it is.
    /// Says whether the place exists.
    pub fn place(&mut self, probe: &Probe, truth: &dyn Truth) -> bool {
        let start = truth.surroundings_k();
        match probe {
            Probe::LowGauge | Probe::HighGauge => {}
            Probe::Pipe(place) => {
                if self.pipe.is_none_or(|(p, _)| p != *place) {
                    self.pipe = Some((*place, Thermometer::placed(Kind::Pipe, self.seed, start)));
                }
            }
            Probe::Air(place) => {
                if self.air.is_none_or(|(p, _)| p != *place) {
                    self.air = Some((*place, Thermometer::placed(Kind::Air, self.seed, start)));
                }
            }
            Probe::Meter { .. } | Probe::Lamp { .. } | Probe::Clamp(_) => {
                return truth.circuit().is_some_and(|c| self.electrical.place(probe, c));
            }
            Probe::SightGlass => {
                self.watching_glass = true;
                self.bubbles = sight_glass::share(truth.bubbles());
            }
            sensor => return self.sensors.place(sensor),
        }
        true
    }
    /// Take the tool of this kind away.
    pub fn remove(&mut self, probe: &Probe) {
        match probe {
            Probe::Meter { .. } | Probe::Lamp { .. } | Probe::Clamp(_) => self.electrical.remove(probe),
            Probe::Pipe(_) => self.pipe = None,
            Probe::Air(_) => self.air = None,
            Probe::SightGlass => self.watching_glass = false,
            sensor => self.sensors.remove(sensor),
        }
    }
    /// Let needles and sensors follow the truth for `dt_s` seconds.
    pub fn advance(&mut self, dt_s: f64, truth: &dyn Truth) {
        let live = truth.gauges_live();
        let felt = |pa: f64| if live { pa } else { 0.0 };
        let flutter = truth.compressor_turns() && live;
        self.low.advance(dt_s, felt(truth.low_gauge_pa()), flutter);
        self.high.advance(dt_s, felt(truth.high_gauge_pa()), flutter);
        if let Some((place, t)) = &mut self.pipe {
            t.advance(dt_s, truth.clamped_k(*place), truth.surroundings_k());
        }
        if let Some((place, t)) = &mut self.air {
            t.advance(dt_s, truth.air_k(*place), truth.surroundings_k());
        }
        if let Some(circuit) = truth.circuit() {
            self.electrical.advance(dt_s, circuit, self.seed);
        }
        self.bubbles = sight_glass::share(truth.bubbles());
        self.sensors.advance(dt_s, truth);
    }
    /// What the instrument shows at a tick and the half-width of its 95 % band; `None` when no tool is on
    /// that place. Gauges and the glass always show.
    pub fn shown(&self, probe: &Probe, tick: u64) -> Option<(f64, f64)> {
        let seed = self.seed;
        let value = match probe {
            Probe::LowGauge => self.low.shown(seed, tick),
            Probe::HighGauge => self.high.shown(seed, tick),
            Probe::Pipe(place) => self.pipe.filter(|(p, _)| p == place)?.1.shown(seed, tick),
            Probe::Air(place) => self.air.filter(|(p, _)| p == place)?.1.shown(seed, tick),
            Probe::SightGlass => sight_glass::shown(self.bubbles, seed, tick),
            Probe::Meter { mode, .. } => {
                let value = self.electrical.shown(probe, seed, tick)?;
                return Some((value, 0.95 * dial::limit(*mode, self.electrical.keys.range, value)));
            }
            Probe::Lamp { .. } | Probe::Clamp(_) => self.electrical.shown(probe, seed, tick)?,
            sensor => self.sensors.shown(sensor, seed, tick)?,
        };
        Some((value, probe.uncertainty(value)))
    }
    /// What an instrument without noise and without errors of its own would show; lag and contact error
    /// remain. For shadow benches of the diagnosis.
    pub fn expected(&self, probe: &Probe) -> Option<f64> {
        Some(match probe {
            Probe::LowGauge => self.low.expected(),
            Probe::HighGauge => self.high.expected(),
            Probe::Pipe(place) => self.pipe.filter(|(p, _)| p == place)?.1.expected(),
            Probe::Air(place) => self.air.filter(|(p, _)| p == place)?.1.expected(),
            Probe::SightGlass => self.bubbles,
            Probe::Meter { .. } | Probe::Lamp { .. } | Probe::Clamp(_) => self.electrical.expected(probe)?,
            sensor => self.sensors.expected(sensor)?,
        })
    }
    /// A reading for the notebook.
    pub fn read(&self, probe: &Probe, tick: u64) -> Option<Reading> {
        let (value, uncertainty) = self.shown(probe, tick)?;
        Some(Reading { tick, probe: probe.clone(), value, uncertainty })
    }
    /// Tools in place now: pipe thermometer, air thermometer, sight glass, electrical tools, sensors.
    pub fn placed(&self) -> impl Iterator<Item = Probe> + '_ {
        let pipe = self.pipe.map(|(p, _)| Probe::Pipe(p));
        let air = self.air.map(|(p, _)| Probe::Air(p));
        pipe.into_iter()
            .chain(air)
            .chain(self.watching_glass.then_some(Probe::SightGlass))
            .chain(self.electrical.placed())
            .chain(self.sensors.placed())
    }
}

#[cfg(test)]
#[path = "rack_tests.rs"]
mod tests;
