//! The tools of the service bay together: vacuum gauge, scales, infrared thermometer, psychrometer, airflow meter, leak
//! detector, soap, ultraviolet lamp, identifier. One of each lies on the bench; each stands on one place at a time.
//!
//! A tool's sensor follows its place with a lag; what the tool adds of its own is in its [`Character`].

pub mod air_tools;
pub mod character;
pub mod identifier;
pub mod infrared;
pub mod leak_detector;
pub mod leak_signs;
pub mod scales;
pub mod truth;
pub mod vacuum_gauge;
pub mod words;

pub use truth::{BayTruth, LeakTruth};
pub use words::{name, value, value_with_uncertainty};

use core::mem::discriminant;

use serde::{Deserialize, Serialize};

use super::places::Probe;
use super::rack::Truth;
use crate::circuit::Lag;
use character::Character;
use leak_detector::Detector;

/// A tool on its place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Placed {
    probe: Probe,
    /// None until its first moment there.
    sensor: Option<Lag>,
}

/// The tools of the bay that stand on a place.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BayTools {
    placed: Vec<Placed>,
    detector: Option<Detector>,
}

/// The character of a tool of the bay; none for any other tool, and for the leak detector, which has one of its own.
fn character(probe: &Probe) -> Option<&'static Character> {
    Some(match probe {
        Probe::VacuumGauge => &vacuum_gauge::CHARACTER,
        Probe::RecoveryScale => &scales::RECOVERY,
        Probe::ChargingScale => &scales::CHARGING,
        Probe::OilGraduation => &scales::OIL_GLASS,
        Probe::Infrared { .. } => &infrared::CHARACTER,
        Probe::WetBulb(_) => &air_tools::WET_BULB,
        Probe::Airflow => &air_tools::VANE,
        Probe::Soap(_) => &leak_signs::SOAP,
        Probe::UvLamp(_) => &leak_signs::UV_LAMP,
        Probe::Identifier => &identifier::REFRIGERANT,
        Probe::IdentifierAir => &identifier::AIR,
        _ => return None,
    })
}

/// How long a careful hand leaves a tool on its place before reading it [s]: five time constants and more. For any other
/// tool a second.
pub fn patience_s(probe: &Probe) -> f64 {
    match probe {
        Probe::LeakDetector { .. } => leak_detector::PATIENCE_S,
        tool => character(tool).map_or(1.0, |c| (5.0 * c.lag_s).max(1.0)),
    }
}

/// Error limit of a tool of the bay at a shown value, same unit.
pub fn limit(probe: &Probe, value: f64) -> f64 {
    character(probe).map_or(leak_detector::LIMIT, |c| c.limit(value))
}

/// What a sensor goes towards; none where there is nothing to sense.
fn goal(probe: &Probe, truth: &Truth) -> Option<f64> {
    let bay = &truth.bay;
    Some(match probe {
        Probe::VacuumGauge => vacuum_gauge::sense(bay.centre_hose_pa),
        Probe::RecoveryScale => bay.recovery_scale_kg,
        Probe::ChargingScale => bay.charging_scale_kg,
        Probe::OilGraduation => bay.recovered_oil_m3,
        Probe::Infrared { place, taped } => {
            infrared::seen_k(*place, *taped, bay.pipe_t_k[*place as usize], truth.surroundings_t_k)
        }
        Probe::WetBulb(place) => bay.wet_bulb_k[*place as usize],
        Probe::Airflow => air_tools::turned_m3_s(bay.airflow_m3_s),
        Probe::Soap(place) => leak_signs::bubbles(*place, &bay.leaks[*place as usize], bay.shaft_turning),
        Probe::UvLamp(place) => leak_signs::glow(*place, &bay.leaks[*place as usize]),
        Probe::Identifier => bay.sample?.0,
        Probe::IdentifierAir => bay.sample?.1,
        _ => return None,
    })
}

/// Where a sensor starts: a dry wick is as warm as the air, bubbles have yet to grow, a display is there at once.
fn start(probe: &Probe, goal: f64, truth: &Truth) -> f64 {
    match probe {
        Probe::Infrared { .. } | Probe::WetBulb(_) => truth.surroundings_t_k,
        Probe::Airflow | Probe::Soap(_) | Probe::UvLamp(_) => 0.0,
        _ => goal,
    }
}

impl BayTools {
    /// Nothing is in use: such a set is left out of the state hash.
    pub fn is_untouched(&self) -> bool {
        self.placed.is_empty() && self.detector.is_none()
    }
    /// Put a tool on a place; a tool already there stays as it is. Says whether it is a tool of the bay.
    pub fn place(&mut self, probe: &Probe) -> bool {
        if let Probe::LeakDetector { place, scale } = probe {
            self.detector.get_or_insert_with(|| Detector::new(*place, *scale)).carry(*place, *scale);
            return true;
        }
        if character(probe).is_none() {
            return false;
        }
        if !self.placed.iter().any(|p| p.probe == *probe) {
            self.remove(probe);
            self.placed.push(Placed { probe: probe.clone(), sensor: None });
        }
        true
    }
    /// Take the tool of this kind away.
    pub fn remove(&mut self, probe: &Probe) {
        if matches!(probe, Probe::LeakDetector { .. }) {
            self.detector = None;
        }
        self.placed.retain(|p| discriminant(&p.probe) != discriminant(probe));
    }
    /// Let sensors follow the truth for `dt_s` seconds.
    pub fn advance(&mut self, dt_s: f64, truth: &Truth) {
        for Placed { probe, sensor } in &mut self.placed {
            let (Some(goal), Some(character)) = (goal(probe, truth), character(probe)) else {
                *sensor = None;
                continue;
            };
            if goal.is_finite() {
                let from = || Lag::new(character.lag_s, start(probe, goal, truth));
                sensor.get_or_insert_with(from).advance(dt_s, goal);
            }
        }
        if let Some(detector) = &mut self.detector {
            detector.advance(dt_s, &truth.bay);
        }
    }
    /// What the sensor of a tool stands at, in the unit of its reading; none when it is not on that place.
    fn sensed(&self, probe: &Probe) -> Option<(f64, &'static Character)> {
        let sensor = self.placed.iter().find(|p| p.probe == *probe)?.sensor?.value();
        let sensed = if *probe == Probe::VacuumGauge { vacuum_gauge::pressure_pa(sensor) } else { sensor };
        Some((sensed, character(probe)?))
    }
    fn detector_at(&self, probe: &Probe) -> Option<&Detector> {
        self.detector.as_ref().filter(|d| d.is_awake() && d.probe() == *probe)
    }
    /// What a tool shows; none when it is not on that place or has nothing to show.
    pub fn shown(&self, probe: &Probe, seed: u64, tick: u64) -> Option<f64> {
        if let Some(detector) = self.detector_at(probe) {
            return Some(detector.shown(seed, tick));
        }
        let (sensed, character) = self.sensed(probe)?;
        Some(match probe {
            Probe::Soap(_) | Probe::UvLamp(_) => leak_signs::judged(character, sensed, seed, tick),
            Probe::Identifier | Probe::IdentifierAir => character.shown(sensed, seed, tick).clamp(0.0, 1.0),
            _ => character.shown(sensed, seed, tick),
        })
    }
    /// The same without noise and errors of its own.
    pub fn expected(&self, probe: &Probe) -> Option<f64> {
        if let Some(detector) = self.detector_at(probe) {
            return Some(detector.expected());
        }
        let (sensed, character) = self.sensed(probe)?;
        Some(character.expected(sensed))
    }
    /// Tools in place.
    pub fn placed(&self) -> impl Iterator<Item = Probe> + '_ {
        self.placed.iter().map(|p| p.probe.clone()).chain(self.detector.as_ref().map(Detector::probe))
    }
}

#[cfg(test)]
mod tests;
