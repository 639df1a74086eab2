//! The absolute vacuum gauge at the centre hose, of the thermal-conductivity kind. It feels what is left in the hose, so
//! it knows no height above the sea, and it sees what no compound gauge can.
//!
//! A valve of its own shuts its sensor off above its range, so pressure does it no harm. It is calibrated for air; that
//! such gauges read other gases a little differently is not modelled.

use super::character::{Character, is_over};
use super::describe::{Facts, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::truth::Truth;
use crate::circuit::CircuitSpec;
use crate::constants::MICRON_PA;
use crate::noise::Source;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Vacuum gauge",
    touches: "At the centre hose. Absolute: it knows no height above the sea. It shows nothing above 20,000 micron.",
    shelf: Shelf::Drawing,
    needs_bay: true,
};

static FACTS: Facts = Facts {
    id: "vacuum_gauge",
    words: "Absolute vacuum gauge at the centre hose [Pa absolute].",
    notation: "vacuum_gauge",
    args: &[],
    example: "vacuum_gauge",
    placing: Placing::Hands,
    sources: &[CHARACTER.source],
    settles_s: CHARACTER.settles_s(),
};

/// Absolute vacuum gauge at the centre hose.
#[derive(Debug)]
pub struct VacuumGauge;

impl Instrument for VacuumGauge {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "vacuum gauge".into()
    }
    fn unit(&self) -> &'static str {
        "Pa absolute"
    }
    fn text(&self, pa: f64, say: &Say) -> String {
        if is_over(pa) {
            return "over range".into();
        }
        format!("{} ({:.0} micron)", say.number(pa, 1.0, 1, "Pa"), pa / MICRON_PA)
    }
    /// A vacuum is a matter of decades; the net of severities is coarse there.
    fn net(&self, predicted: f64) -> f64 {
        0.3 * predicted.abs() + 10.0
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&CHARACTER)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(sense(truth.centre_hose_pa()))
    }
    fn sensed(&self, sensor: f64) -> f64 {
        pressure_pa(sensor)
    }
}

/// Top of its range [Pa absolute]: 20,000 micron (common practice, no source).
pub const TOP_PA: f64 = 20_000.0 * MICRON_PA;

/// 10 % of the reading (from memory), and the last digit.
const CHARACTER: Character = Character {
    source: Source(10),
    lag_s: 2.0,
    limit_share: 0.1,
    limit: MICRON_PA,
    zero: 0.0,
    range: (0.0, TOP_PA),
    digit,
    wander: 0.05,
};

/// Last digit [Pa]: 1 micron below 1,000, 10 below 10,000, 100 above (common practice, no source).
fn digit(pa: f64) -> f64 {
    let microns = match pa / MICRON_PA {
        m if m < 1_000.0 => 1.0,
        m if m < 10_000.0 => 10.0,
        _ => 100.0,
    };
    microns * MICRON_PA
}

/// What its sensor goes by: the logarithm of the pressure, since it answers to decades alike.
fn sense(pa: f64) -> f64 {
    libm::log(pa.clamp(0.1 * MICRON_PA, 1e7))
}

/// Back from the sensor to a pressure [Pa absolute].
fn pressure_pa(sensed: f64) -> f64 {
    libm::exp(sensed)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Within 10 % of the reading (from memory).
    #[test]
    fn it_keeps_a_tenth_of_the_reading_and_shows_nothing_above_its_range() {
        let mut worst = 0.0_f64;
        for seed in 0..200 {
            for microns in [50.0, 500.0, 2_000.0, 15_000.0] {
                let pa = microns * MICRON_PA;
                for tick in [0, 7, 500] {
                    let off = CHARACTER.shown(pa, seed, tick) - pa;
                    assert!(off.abs() <= 0.1 * pa + MICRON_PA, "{microns} micron: {off} Pa");
                    worst = worst.max(off.abs() / pa);
                }
            }
            assert!(is_over(CHARACTER.shown(1.05 * TOP_PA, seed, 3)));
            assert!(is_over(CHARACTER.shown(101_325.0, seed, 3)));
        }
        assert!(worst > 0.03, "it has errors of its own: {worst}");
    }

    /// What a compound gauge cannot tell apart (500 and 10,000 micron lie 0.37 inHg
    /// apart), this can.
    #[test]
    fn it_tells_500_micron_from_600() {
        for seed in 0..50 {
            let shown = |microns: f64| CHARACTER.shown(microns * MICRON_PA, seed, 0);
            assert!(shown(600.0) > shown(500.0));
            let digits = shown(500.0) / MICRON_PA;
            assert!((digits - digits.round()).abs() < 1e-6, "{digits}");
        }
        assert!((pressure_pa(sense(66.7)) - 66.7).abs() < 1e-9);
        assert!(pressure_pa(sense(f64::NAN)).is_nan() && pressure_pa(sense(-5.0)) > 0.0);
    }
}
