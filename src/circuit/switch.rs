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

/// The three sensing switches of the compact car.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sensing {
    enough: Hysteresis,
    too_much: Hysteresis,
    medium: Hysteresis,
    warm_fins: Hysteresis,
}

impl Sensing {
    /// Common figures (reference/faults.md 3.2 lists those of six makers): dual pressure switch opens below
    /// 2.0 bar and recloses at 2.3, opens above 31 bar and recloses at 25; medium switch for the fan closes
    /// at 16.5 bar and opens at 12.5; thermistor contact opens at 1 °C and closes at 4 °C. All gauge pressures.
    pub const COMPACT_CAR: Self = Self {
        enough: Hysteresis::new(2.3e5, 2.0e5, true),
        too_much: Hysteresis::new(31.0e5, 25.0e5, false),
        medium: Hysteresis::new(16.5e5, 12.5e5, false),
        warm_fins: Hysteresis::new(277.15, 274.15, true),
    };
    /// Show them the liquid-line pressure [Pa gauge] and the fin temperature [K].
    pub fn update(&mut self, liquid_gauge_pa: f64, fin_t_k: f64) {
        self.enough.update(liquid_gauge_pa);
        self.too_much.update(liquid_gauge_pa);
        self.medium.update(liquid_gauge_pa);
        self.warm_fins.update(fin_t_k);
    }
    /// Dual pressure switch closed.
    pub fn pressure_closed(&self) -> bool {
        self.enough.on() && !self.too_much.on()
    }
    /// Medium-pressure switch closed.
    pub fn medium_closed(&self) -> bool {
        self.medium.on()
    }
    /// Thermistor amplifier contact closed.
    pub fn thermostat_closed(&self) -> bool {
        self.warm_fins.on()
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
    fn every_switch_has_two_values() {
        let mut s = Sensing::COMPACT_CAR;
        let mut at = |bar: f64, c: f64| {
            s.update(bar * 1e5, c + 273.15);
            (s.pressure_closed(), s.medium_closed(), s.thermostat_closed())
        };
        assert_eq!(at(2.1, 2.0), (true, false, true));
        assert_eq!(at(1.9, 0.9), (false, false, false));
        assert_eq!(at(2.2, 3.9), (false, false, false));
        assert_eq!(at(2.4, 4.1), (true, false, true));
        assert_eq!(at(16.4, 10.0), (true, false, true));
        assert_eq!(at(16.6, 10.0), (true, true, true));
        assert_eq!(at(12.6, 10.0), (true, true, true));
        assert_eq!(at(12.4, 10.0), (true, false, true));
        assert_eq!(at(31.1, 10.0), (false, true, true));
        assert_eq!(at(25.1, 10.0), (false, true, true));
        assert_eq!(at(24.9, 10.0), (true, true, true));
        assert_eq!(at(f64::NAN, f64::NAN), (true, true, true));
    }

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
