//! Bourdon gauges of the manifold set.

use serde::{Deserialize, Serialize};

use super::describe::{Facts, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use crate::circuit::{CircuitSpec, Lag};
use crate::noise::{Source, fixed_error, wandering};

/// The gauge set.
pub const TOOL: Kit = Kit {
    name: "Gauge set",
    touches: "Goes on the two service ports.",
    shelf: Shelf::Drawing,
    needs_bay: false,
};

const fn facts(
    id: &'static str,
    words: &'static str,
    notation: &'static str,
    sources: &'static [Source],
) -> Facts {
    let (args, placing) = (&[], Placing::Hoses);
    Facts { id, words, notation, args, example: id, placing, sources, settles_s: 1.0 }
}
static LOW: Facts =
    facts("low_gauge", "Low-side gauge of the manifold [Pa gauge].", "gauge:low", &[LOW_SOURCE]);
static HIGH: Facts =
    facts("high_gauge", "High-side gauge of the manifold [Pa gauge].", "gauge:high", &[HIGH_SOURCE]);
const LOW_SOURCE: Source = Source(1);
const HIGH_SOURCE: Source = Source(2);

/// Low-side gauge of the manifold set.
#[derive(Debug)]
pub struct LowGauge;
/// High-side gauge of the manifold set.
#[derive(Debug)]
pub struct HighGauge;

/// What a fault of one severity next to another may move them by [Pa], and as a share of what stands there.
const NET_PA: (f64, f64) = (0.1e5, 0.4e5);
const STEEPNESS: f64 = 0.03;

macro_rules! gauge {
    ($gauge:ident, $high:literal, $facts:expr, $name:literal, $side:literal, $top:expr, $net:expr) => {
        impl Instrument for $gauge {
            fn facts(&self) -> &'static Facts {
                $facts
            }
            fn everywhere(_: &CircuitSpec) -> Vec<Self> {
                vec![Self]
            }
            fn name(&self) -> String {
                $name.into()
            }
            fn short(&self) -> String {
                $side.into()
            }
            fn unit(&self) -> &'static str {
                "Pa gauge"
            }
            fn text(&self, pa: f64, say: &Say) -> String {
                say.pressure(pa)
            }
            fn range(&self) -> (f64, f64) {
                (BOTTOM_PA, $top)
            }
            fn limit(&self, _: f64) -> f64 {
                limit_pa($high)
            }
            fn net(&self, _: f64) -> f64 {
                $net
            }
            fn steepness(&self) -> f64 {
                STEEPNESS
            }
            fn silent(&self) -> String {
                "fit the hoses before reading a gauge".into()
            }
        }
    };
}
gauge!(LowGauge, false, &LOW, "low-side gauge", "low side", LOW_TOP_PA, NET_PA.0);
gauge!(HighGauge, true, &HIGH, "high-side gauge", "high side", HIGH_TOP_PA, NET_PA.1);

/// Accuracy class 1.6: error limit in per cent of span (EN 837-1).
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
        if high { HIGH_SOURCE } else { LOW_SOURCE }
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
        // EN 837-1: class 1.6 is 0.18 bar on -1..10 and 0.58 bar on -1..35.
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
