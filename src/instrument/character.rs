//! What kind of reading a tool gives: error limit, own error, restlessness, last digit, top of its range.

use crate::noise::{Source, fixed_error, wandering};

/// What is shown (and written down) when a value is beyond the range: no number, the letters OL.
pub const OVER: f64 = 1.0e9;

/// A shown value is no number but the letters OL.
pub fn is_over(value: f64) -> bool {
    value.is_nan() || value.abs() >= OVER
}

/// A tool's own part in a reading.
#[derive(Clone, Copy, Debug)]
pub struct Character {
    /// Stream of its noise.
    pub source: Source,
    /// Time constant [s].
    pub lag_s: f64,
    /// Error limit: this share of the reading from its zero ...
    pub limit_share: f64,
    /// ... and this much besides, in the unit of the reading.
    pub limit: f64,
    /// Where its scale has its zero: 0, or 273.15 K for what shows degrees Celsius.
    pub zero: f64,
    /// Lowest and highest value it shows; above that it shows that it is over range.
    pub range: (f64, f64),
    /// Last digit at a value, in the unit of the reading.
    pub digit: fn(f64) -> f64,
    /// Wander, standard deviation as share of the limit.
    pub wander: f64,
}

/// Ticks between fresh wander.
const WANDER_TICKS: u64 = 20;

impl Character {
    /// How long a careful hand leaves it on its place [s]: five time constants, a second at least.
    pub const fn settles_s(&self) -> f64 {
        (5.0 * self.lag_s).max(1.0)
    }
    /// Error limit at a value.
    pub fn limit(&self, value: f64) -> f64 {
        if value >= OVER { 0.0 } else { self.limit_share * (value - self.zero).abs() + self.limit }
    }
    /// What it shows with neither noise nor errors of its own: the sensor's value within the range.
    pub fn expected(&self, sensed: f64) -> f64 {
        if sensed > self.range.1 { OVER } else { sensed.max(self.range.0) }
    }
    /// What it shows. Its fixed error is the same all session, within a third of the limit.
    pub fn shown(&self, sensed: f64, seed: u64, tick: u64) -> f64 {
        let own = fixed_error(seed, self.source, 1.0 / 3.0)
            + self.wander * wandering(seed, self.source, tick, WANDER_TICKS);
        let value = self.expected(sensed + own * self.limit(sensed));
        if value >= OVER {
            return OVER;
        }
        let digit = (self.digit)(value);
        ((value - self.zero) / digit).round() * digit + self.zero
    }
}
