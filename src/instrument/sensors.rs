//! Instruments that only follow their place with a lag, together: one of each kind lies on the bench, and stands on one
//! place at a time. The leak detector, whose zero drifts as well, is among them.
//!
//! What such an instrument adds of its own is in its [`Character`].

use core::mem::discriminant;

use serde::{Deserialize, Serialize};

use super::character::Character;
use super::leak_detector::Detector;
use super::table::Probe;
use super::truth::Truth;
use crate::circuit::Lag;

/// One on its place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Placed {
    probe: Probe,
    /// None until its first moment there.
    sensor: Option<Lag>,
}

/// Those that stand on a place.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Sensors {
    placed: Vec<Placed>,
    detector: Option<Detector>,
}

/// The character of what a sensor reads; none for what is no sensor.
fn character(probe: &Probe) -> Option<&'static Character> {
    probe.ask(|i| i.sensor())
}

impl Sensors {
    /// Nothing is in use: such a set is left out of the state hash.
    pub fn is_untouched(&self) -> bool {
        self.placed.is_empty() && self.detector.is_none()
    }
    /// Put one on a place; one already there stays as it is. Says whether it is a sensor.
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
    /// Take the one of this kind away.
    pub fn remove(&mut self, probe: &Probe) {
        if matches!(probe, Probe::LeakDetector { .. }) {
            self.detector = None;
        }
        self.placed.retain(|p| discriminant(&p.probe) != discriminant(probe));
    }
    /// Let sensors follow the truth for `dt_s` seconds.
    pub fn advance(&mut self, dt_s: f64, truth: &dyn Truth) {
        for Placed { probe, sensor } in &mut self.placed {
            probe.ask(|i| {
                let (Some(goal), Some(character)) = (i.goal(truth), i.sensor()) else {
                    *sensor = None;
                    return;
                };
                if goal.is_finite() {
                    let from = || Lag::new(character.lag_s, i.start(goal, truth));
                    sensor.get_or_insert_with(from).advance(dt_s, goal);
                }
            });
        }
        if let Some(detector) = &mut self.detector {
            detector.advance(dt_s, truth);
        }
    }
    /// What the sensor of one stands at; none when it is not on that place.
    fn sensor(&self, probe: &Probe) -> Option<f64> {
        Some(self.placed.iter().find(|p| p.probe == *probe)?.sensor?.value())
    }
    fn detector_at(&self, probe: &Probe) -> Option<&Detector> {
        let Probe::LeakDetector { place, scale } = probe else { return None };
        self.detector.as_ref().filter(|d| d.is_awake() && d.at() == (*place, *scale))
    }
    /// What one shows; none when it is not on that place or has nothing to show.
    pub fn shown(&self, probe: &Probe, seed: u64, tick: u64) -> Option<f64> {
        if let Some(detector) = self.detector_at(probe) {
            return Some(detector.shown(seed, tick));
        }
        let sensor = self.sensor(probe)?;
        probe.ask(|i| Some(i.shown(i.sensor()?, i.sensed(sensor), seed, tick)))
    }
    /// The same without noise and errors of its own.
    pub fn expected(&self, probe: &Probe) -> Option<f64> {
        if let Some(detector) = self.detector_at(probe) {
            return Some(detector.expected());
        }
        let sensor = self.sensor(probe)?;
        probe.ask(|i| Some(i.sensor()?.expected(i.sensed(sensor))))
    }
    /// Those in place.
    pub fn placed(&self) -> impl Iterator<Item = Probe> + '_ {
        let detector = self.detector.as_ref().map(|d| d.at());
        let detector = detector.map(|(place, scale)| Probe::LeakDetector { place, scale });
        self.placed.iter().map(|p| p.probe.clone()).chain(detector)
    }
}

#[cfg(test)]
#[path = "sensors_tests.rs"]
mod tests;
