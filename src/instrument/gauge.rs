//! Bourdon gauges of the manifold set.

use serde::{Deserialize, Serialize};

use super::noise::{Source, fixed_error, wandering};
use crate::circuit::Lag;

/// Accuracy class 1.6: error limit in per cent of span (EN 837-1, as cited in reference/faults.md 6).
pub const CLASS: f64 = 0.016;
/// Lowest mark of both gauges [Pa gauge].
pub const BOTTOM_PA: f64 = -1.0e5;
/// Highest mark of the low gauge [Pa gauge].
pub const LOW_TOP_PA: f64 = 10.0e5;
/// Highest mark of the high gauge [Pa gauge].
pub const HIGH_TOP_PA: f64 = 35.0e5;
/// Time constant of needle and damping screw [s]. Common practice, no source.
pub const LAG_S: f64 = 0.3;
/// Flutter of the needle while the compressor runs, standard deviation as share of span. Common practice,
/// no source.
const FLUTTER: f64 = 0.001;
/// Ticks between fresh flutter.
const FLUTTER_TICKS: u64 = 3;

/// A gauge: a needle that lags, flutters, stands off by a fixed zero error and stops at the ends.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gauge {
    high: bool,
    zero_error_pa: f64,
    needle: Lag,
    fluttering: bool,
}

/// Error limit of a gauge [Pa]: class times span.
pub fn limit_pa(high: bool) -> f64 {
    CLASS * (top_pa(high) - BOTTOM_PA)
}

fn top_pa(high: bool) -> f64 {
    if high { HIGH_TOP_PA } else { LOW_TOP_PA }
}

impl Gauge {
    /// The low (false) or high (true) gauge of a session, open to the air. Its zero error is drawn within a
    /// third of the class.
    pub fn new(high: bool, seed: u64) -> Self {
        let zero_error_pa = fixed_error(seed, Self::source(high), limit_pa(high) / 3.0);
        Self { high, zero_error_pa, needle: Lag::new(LAG_S, 0.0), fluttering: false }
    }
    fn source(high: bool) -> Source {
        if high { Source::HighGauge } else { Source::LowGauge }
    }
    fn stop(&self, pa: f64) -> f64 {
        pa.clamp(BOTTOM_PA, top_pa(self.high))
    }
    /// Let time pass under a true pressure [Pa gauge].
    pub fn advance(&mut self, dt_s: f64, true_pa: f64, compressor_running: bool) {
        self.fluttering = compressor_running;
        self.needle.advance(dt_s, self.stop(true_pa));
    }
    /// What the needle shows [Pa gauge].
    pub fn shown(&self, seed: u64, tick: u64) -> f64 {
        let mut pa = self.needle.value() + self.zero_error_pa;
        if self.fluttering {
            let span = top_pa(self.high) - BOTTOM_PA;
            pa += FLUTTER * span * wandering(seed, Self::source(self.high), tick, FLUTTER_TICKS);
        }
        self.stop(pa)
    }
    /// What a gauge without zero error and flutter would show [Pa gauge].
    pub fn expected(&self) -> f64 {
        self.needle.value()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_match_the_standard() {
        // reference/faults.md 6: class 1.6 is 0.18 bar on -1..10 and 0.58 bar on -1..35.
        assert!((limit_pa(false) - 0.18e5).abs() < 0.01e5);
        assert!((limit_pa(true) - 0.58e5).abs() < 0.01e5);
    }

    #[test]
    fn needle_lags_settles_and_stops() {
        let mut g = Gauge::new(true, 5);
        for _ in 0..6 {
            g.advance(0.05, 15.0e5, false);
        }
        assert!((g.expected() / 15.0e5 - 0.632).abs() < 0.001);
        for _ in 0..200 {
            g.advance(0.05, 15.0e5, true);
        }
        for tick in 0..500 {
            assert!((g.shown(5, tick) - 15.0e5).abs() < limit_pa(true));
        }
        for (pa, stop) in [(60.0e5, HIGH_TOP_PA), (-3.0e5, BOTTOM_PA)] {
            for _ in 0..400 {
                g.advance(0.05, pa, true);
            }
            assert_eq!(g.expected(), stop);
        }
        g.advance(f64::NAN, f64::NAN, true);
        assert!(g.shown(5, 0).is_finite());
    }
}
