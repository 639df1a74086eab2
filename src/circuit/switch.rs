//! Parts with a memory: switches that open and close at different values, and lags.

use serde::{Deserialize, Serialize};

/// A switch that turns on when its value rises to `on_at` and off when it falls to `off_at` (`off_at` below
/// `on_at`). In between, and when the value is not a number, it stays as it was.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hysteresis {
    on_at: f64,
    off_at: f64,
    on: bool,
}

impl Hysteresis {
    /// A switch with its two values and the state it starts in.
    pub const fn new(on_at: f64, off_at: f64, on: bool) -> Self {
        Self { on_at, off_at, on }
    }
    /// Show it the value; says whether it is on.
    pub fn update(&mut self, value: f64) -> bool {
        if value >= self.on_at {
            self.on = true;
        } else if value <= self.off_at {
            self.on = false;
        }
        self.on
    }
    /// Is it on?
    pub fn on(&self) -> bool {
        self.on
    }
}

/// A first-order lag: the value moves toward its goal by the share `1 - exp(-dt / tau)` of the distance.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lag {
    tau_s: f64,
    value: f64,
    dt_s: f64,
    share: f64,
}

impl Lag {
    /// A lag with a time constant [s] (above 0), standing at a value.
    pub fn new(tau_s: f64, value: f64) -> Self {
        Self { tau_s, value, dt_s: 0.0, share: 0.0 }
    }
    /// Let time pass toward a goal; a goal or a time that is not a finite number changes nothing.
    pub fn advance(&mut self, dt_s: f64, goal: f64) -> f64 {
        if !(goal.is_finite() && dt_s.is_finite() && dt_s > 0.0) || self.value == goal {
            return self.value;
        }
        if dt_s != self.dt_s {
            self.dt_s = dt_s;
            self.share = -libm::expm1(-dt_s / self.tau_s);
        }
        let step = (goal - self.value) * self.share;
        self.value = if step.abs() < 1e-12 * goal.abs().max(1.0) { goal } else { self.value + step };
        self.value
    }
    /// Where it stands.
    pub fn value(&self) -> f64 {
        self.value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lag_covers_63_percent_in_its_time_constant() {
        let mut lag = Lag::new(1.5, 0.0);
        for _ in 0..30 {
            lag.advance(0.05, 1.0);
        }
        assert!((lag.value() - 0.632_120_558).abs() < 1e-9);
        lag.advance(f64::NAN, 5.0);
        lag.advance(0.05, f64::INFINITY);
        assert!((lag.value() - 0.632_120_558).abs() < 1e-9);
    }
}
