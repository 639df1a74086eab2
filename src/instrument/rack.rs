//! All instruments of one bench: two gauges, one tool of each kind, and the eye. The tools of the service bay have a
//! set of their own ([`BayTools`]), as the electrical ones have.

use serde::{Deserialize, Serialize};

use super::bay_tools::{self, BayTools, BayTruth};
use super::electrical::Electrical;
use super::gauge::{self, Gauge};
use super::meter::{self, MeterRange};
use super::places::{AirPlace, PipePlace, Probe, Reading};
use super::thermometer::{AIR_LIMIT_K, Kind, PIPE_LIMIT_K, Thermometer};
use super::{clamp, lamp, sight_glass, voltmeter};
use crate::circuit::Circuit;

/// What is true at the places tools can be put.
#[derive(Clone, Copy)]
pub struct Truth<'a> {
    /// Both hoses are fitted; without them the gauges feel open air.
    pub hoses_fitted: bool,
    /// Pressure where the low gauge sits [Pa gauge].
    pub low_gauge_pa: f64,
    /// Pressure where the high gauge sits [Pa gauge].
    pub high_gauge_pa: f64,
    /// The compressor turns and pumps, which makes needles flutter.
    pub compressor_running: bool,
    /// Pipe walls in the order of [`PipePlace::ALL`] [K].
    pub pipe_t_k: [f64; 6],
    /// Air in the order of [`AirPlace::ALL`] [K].
    pub air_t_k: [f64; 4],
    /// Air around pipes and tools not in use [K].
    pub surroundings_t_k: f64,
    /// Share of bubbles in the sight glass, 0 to 1.
    pub sight_glass_bubbles: f64,
    /// Volts of a circuit point; `None` for a name that is no point.
    pub volts: &'a dyn Fn(&str) -> Option<f64>,
    /// The circuit that electrical tools hang on; without one they find no place.
    pub circuit: Option<&'a Circuit>,
    /// What the tools of the service bay meet.
    pub bay: BayTruth,
}

/// The instruments of one bench. Only [`Self::place`], [`Self::remove`] and [`Self::advance`] change it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct InstrumentRack {
    seed: u64,
    low: Gauge,
    high: Gauge,
    pipe: Option<(PipePlace, Thermometer)>,
    air: Option<(AirPlace, Thermometer)>,
    volts: Option<(String, f64)>,
    watching_glass: bool,
    bubbles: f64,
    /// Meter, lamp and clamp.
    #[serde(default, skip_serializing_if = "Electrical::is_untouched")]
    pub electrical: Electrical,
    /// Tools of the service bay.
    #[serde(default, skip_serializing_if = "BayTools::is_untouched")]
    pub bay: BayTools,
}

/// Error limit of the instrument behind a probe at a shown value, same unit.
pub fn limit(probe: &Probe, value: f64) -> f64 {
    match probe {
        Probe::LowGauge => gauge::limit_pa(false),
        Probe::HighGauge => gauge::limit_pa(true),
        Probe::Pipe(_) => PIPE_LIMIT_K,
        Probe::Air(_) => AIR_LIMIT_K,
        Probe::Volts(_) => voltmeter::limit_v(value),
        Probe::Meter { mode, .. } => meter::limit(*mode, MeterRange::Auto, value),
        Probe::Lamp { .. } => lamp::LIMIT,
        Probe::Clamp(_) => clamp::limit_a(value),
        // Digits of a number that a control unit sends, not of what it measured.
        Probe::UnitValue { .. } => 0.005 * value.abs(),
        Probe::SightGlass => sight_glass::LIMIT,
        Probe::Sense(sense) => sense.limit(),
        tool => bay_tools::limit(tool, value),
    }
}

/// Half-width of the 95 % band: 0.95 of the limit, which is all that is known of where within the limit an
/// instrument stands (even distribution, GUM type B).
pub fn uncertainty(probe: &Probe, value: f64) -> f64 {
    0.95 * limit(probe, value)
}

/// Standard deviation a diagnosis should reckon with: the limit over the square root of three (even
/// distribution, as in reference/faults.md 6).
pub fn sigma(probe: &Probe, value: f64) -> f64 {
    limit(probe, value) / 3.0_f64.sqrt()
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
            volts: None,
            watching_glass: false,
            bubbles: 0.0,
            electrical: Electrical::default(),
            bay: BayTools::default(),
        }
    }
    /// Put a tool on a place, replacing the tool of the same kind; a tool already there stays as it is.
    /// Says whether the place exists.
    pub fn place(&mut self, probe: &Probe, truth: &Truth) -> bool {
        let start = truth.surroundings_t_k;
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
            Probe::Volts(id) => match (truth.volts)(id) {
                Some(v) if v.is_finite() => self.volts = Some((id.clone(), v)),
                _ => return false,
            },
            Probe::Meter { .. } | Probe::Lamp { .. } | Probe::Clamp(_) => {
                return truth.circuit.is_some_and(|c| self.electrical.place(probe, c));
            }
            Probe::Sense(_) | Probe::UnitValue { .. } => return false,
            Probe::SightGlass => {
                self.watching_glass = true;
                self.bubbles = sight_glass::share(truth.sight_glass_bubbles);
            }
            tool => return self.bay.place(tool),
        }
        true
    }
    /// Take the tool of this kind away.
    pub fn remove(&mut self, probe: &Probe) {
        match probe {
            Probe::LowGauge | Probe::HighGauge | Probe::Sense(_) | Probe::UnitValue { .. } => {}
            Probe::Meter { .. } | Probe::Lamp { .. } | Probe::Clamp(_) => self.electrical.remove(probe),
            Probe::Pipe(_) => self.pipe = None,
            Probe::Air(_) => self.air = None,
            Probe::Volts(_) => self.volts = None,
            Probe::SightGlass => self.watching_glass = false,
            tool => self.bay.remove(tool),
        }
    }
    /// Let needles and sensors follow the truth for `dt_s` seconds.
    pub fn advance(&mut self, dt_s: f64, truth: &Truth) {
        let felt = |pa: f64| if truth.hoses_fitted { pa } else { 0.0 };
        let flutter = truth.compressor_running && truth.hoses_fitted;
        self.low.advance(dt_s, felt(truth.low_gauge_pa), flutter);
        self.high.advance(dt_s, felt(truth.high_gauge_pa), flutter);
        if let Some((place, t)) = &mut self.pipe {
            t.advance(dt_s, truth.pipe_t_k[*place as usize], truth.surroundings_t_k);
        }
        if let Some((place, t)) = &mut self.air {
            t.advance(dt_s, truth.air_t_k[*place as usize], truth.surroundings_t_k);
        }
        if let Some((id, v)) = &mut self.volts {
            *v = (truth.volts)(id).filter(|v| v.is_finite()).unwrap_or(0.0);
        }
        if let Some(circuit) = truth.circuit {
            self.electrical.advance(dt_s, circuit, self.seed);
        }
        self.bubbles = sight_glass::share(truth.sight_glass_bubbles);
        self.bay.advance(dt_s, truth);
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
            Probe::Volts(id) => voltmeter::shown(self.volts_at(id)?, seed, tick),
            Probe::SightGlass => sight_glass::shown(self.bubbles, seed, tick),
            Probe::Meter { mode, .. } => {
                let value = self.electrical.shown(probe, seed, tick)?;
                return Some((value, 0.95 * meter::limit(*mode, self.electrical.keys.range, value)));
            }
            Probe::Lamp { .. } | Probe::Clamp(_) => self.electrical.shown(probe, seed, tick)?,
            Probe::Sense(_) | Probe::UnitValue { .. } => return None,
            tool => self.bay.shown(tool, seed, tick)?,
        };
        Some((value, uncertainty(probe, value)))
    }
    /// What an instrument without noise and without errors of its own would show; lag and contact error
    /// remain. For shadow benches of the diagnosis.
    pub fn expected(&self, probe: &Probe) -> Option<f64> {
        Some(match probe {
            Probe::LowGauge => self.low.expected(),
            Probe::HighGauge => self.high.expected(),
            Probe::Pipe(place) => self.pipe.filter(|(p, _)| p == place)?.1.expected(),
            Probe::Air(place) => self.air.filter(|(p, _)| p == place)?.1.expected(),
            Probe::Volts(id) => self.volts_at(id)?,
            Probe::SightGlass => self.bubbles,
            Probe::Meter { .. } | Probe::Lamp { .. } | Probe::Clamp(_) => self.electrical.expected(probe)?,
            Probe::Sense(_) | Probe::UnitValue { .. } => return None,
            tool => self.bay.expected(tool)?,
        })
    }
    fn volts_at(&self, id: &str) -> Option<f64> {
        self.volts.as_ref().filter(|(at, _)| at == id).map(|(_, v)| *v)
    }
    /// A reading for the notebook.
    pub fn read(&self, probe: &Probe, tick: u64) -> Option<Reading> {
        let (value, uncertainty) = self.shown(probe, tick)?;
        Some(Reading { tick, probe: probe.clone(), value, uncertainty })
    }
    /// Tools in place now: pipe thermometer, air thermometer, voltmeter, sight glass, electrical tools, tools of the bay.
    pub fn placed(&self) -> impl Iterator<Item = Probe> + '_ {
        let pipe = self.pipe.map(|(p, _)| Probe::Pipe(p));
        let air = self.air.map(|(p, _)| Probe::Air(p));
        let volts = self.volts.as_ref().map(|(id, _)| Probe::Volts(id.clone()));
        pipe.into_iter()
            .chain(air)
            .chain(volts)
            .chain(self.watching_glass.then_some(Probe::SightGlass))
            .chain(self.electrical.placed())
            .chain(self.bay.placed())
    }
}

#[cfg(test)]
#[path = "rack_tests.rs"]
mod tests;
