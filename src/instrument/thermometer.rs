//! What both thermometers have in common: a sensor that follows its place slowly, an error of its own, a last digit.

use serde::{Deserialize, Serialize};

use crate::circuit::Lag;
use crate::noise::{Source, fixed_error, wandering};

/// Error limit of the pipe clamp [K]: thermocouple type K class 2 (IEC 60584).
pub const PIPE_LIMIT_K: f64 = 2.5;
/// Error limit of the air thermometer [K] (from memory).
pub const AIR_LIMIT_K: f64 = 1.0;
/// Time constant of the clamp on its pipe [s]. Common practice, no source.
pub const PIPE_LAG_S: f64 = 4.0;
/// Time constant of the air probe in moving air [s]. Common practice, no source.
pub const AIR_LAG_S: f64 = 6.0;
/// Share of the difference between pipe and surroundings a clamp on bare pipe loses. Common practice, no
/// source; a bad contact loses much more (from memory).
pub const CONTACT_ERROR: f64 = 0.03;
/// Last digit shown [K].
const DIGIT_K: f64 = 0.1;
/// Wander of the shown value, standard deviation [K], and the ticks between fresh wander.
const WANDER: (f64, u64) = (0.05, 10);

/// Which thermometer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Kind {
    /// Clamp on a pipe.
    Pipe,
    /// Probe in air.
    Air,
}

impl Kind {
    /// Where its noise comes from.
    pub const fn source(self) -> Source {
        match self {
            Self::Pipe => Source(3),
            Self::Air => Source(4),
        }
    }
    /// Error limit [K].
    pub fn limit_k(self) -> f64 {
        match self {
            Self::Pipe => PIPE_LIMIT_K,
            Self::Air => AIR_LIMIT_K,
        }
    }
}

/// A thermometer whose sensor follows its place slowly.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Thermometer {
    kind: Kind,
    error_k: f64,
    sensor: Lag,
}

impl Thermometer {
    /// A thermometer just put in place, its sensor still as warm as the surroundings [K]. Its fixed error
    /// is the same all session, within a third of the limit.
    pub fn placed(kind: Kind, seed: u64, surroundings_k: f64) -> Self {
        let start = if surroundings_k.is_finite() { surroundings_k } else { 293.15 };
        let lag_s = match kind {
            Kind::Pipe => PIPE_LAG_S,
            Kind::Air => AIR_LAG_S,
        };
        let error_k = fixed_error(seed, kind.source(), kind.limit_k() / 3.0);
        Self { kind, error_k, sensor: Lag::new(lag_s, start) }
    }
    /// Let time pass on a pipe or in air of a temperature [K], with surroundings [K].
    pub fn advance(&mut self, dt_s: f64, place_k: f64, surroundings_k: f64) {
        let goal = match self.kind {
            Kind::Pipe => place_k + CONTACT_ERROR * (surroundings_k - place_k),
            Kind::Air => place_k,
        };
        self.sensor.advance(dt_s, goal);
    }
    /// What the display shows [K], to a tenth.
    pub fn shown(&self, seed: u64, tick: u64) -> f64 {
        let wander = WANDER.0 * wandering(seed, self.kind.source(), tick, WANDER.1);
        let celsius = self.sensor.value() - 273.15 + self.error_k + wander;
        (celsius / DIGIT_K).round() * DIGIT_K + 273.15
    }
    /// What a thermometer without its own error and wander would show [K]; lag and contact error remain.
    pub fn expected(&self) -> f64 {
        self.sensor.value()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_taken_too_soon_is_wrong() {
        let (mut pipe, mut air) =
            (Thermometer::placed(Kind::Pipe, 3, 308.15), Thermometer::placed(Kind::Air, 3, 308.15));
        for _ in 0..80 {
            pipe.advance(0.05, 358.15, 308.15);
            air.advance(0.05, 283.15, 308.15);
        }
        assert!(pipe.expected() < 340.0 && air.expected() > 292.0, "{} {}", pipe.expected(), air.expected());
        for _ in 0..1200 {
            pipe.advance(0.05, 358.15, 308.15);
            air.advance(0.05, 283.15, 308.15);
        }
        assert!((pipe.expected() - 356.65).abs() < 1e-3, "3 % of 50 K is lost at the contact");
        assert!((air.expected() - 283.15).abs() < 1e-2);
        assert!((pipe.shown(3, 9) - 356.65).abs() < PIPE_LIMIT_K);
        assert!((air.shown(3, 9) - 283.15).abs() < AIR_LIMIT_K);
        pipe.advance(0.05, f64::NAN, 1.0);
        assert!(pipe.shown(3, 0).is_finite());
        assert!(Thermometer::placed(Kind::Air, 0, f64::NAN).shown(0, 0).is_finite());
    }
}
