//! Scales under the vessels, and the measuring glass that catches the oil which comes along with recovered refrigerant.
//! A scale weighs vessel and contents together: what went in or out is the difference of two readings.

use super::character::Character;
use super::describe::{Facts, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::truth::Truth;
use crate::circuit::CircuitSpec;
use crate::noise::Source;

/// The scales and the glass.
pub const TOOL: Kit = Kit {
    name: "Scales and oil glass",
    touches: "Under the vessels; a glass for the oil. Weigh before and after: the difference counts.",
    shelf: Shelf::Drawing,
    needs_bay: true,
};

static RECOVERY_FACTS: Facts = Facts {
    id: "recovery_scale",
    words: "Scale under the recovery cylinder [kg, cylinder and contents].",
    notation: "scale:recovery",
    args: &[],
    example: "recovery_scale",
    placing: Placing::Hands,
    sources: &[RECOVERY.source],
    settles_s: RECOVERY.settles_s(),
};
static CHARGING_FACTS: Facts = Facts {
    id: "charging_scale",
    words: "Scale under the vessel last put on the centre hose [kg, vessel and contents].",
    notation: "scale:charging",
    args: &[],
    example: "charging_scale",
    placing: Placing::Hands,
    sources: &[CHARGING.source],
    settles_s: CHARGING.settles_s(),
};
static OIL_FACTS: Facts = Facts {
    id: "oil_graduation",
    words: "Oil in the measuring glass of the recovery machine [m3].",
    notation: "oil",
    args: &[],
    example: "oil_graduation",
    placing: Placing::Hands,
    sources: &[OIL_GLASS.source],
    settles_s: OIL_GLASS.settles_s(),
};

/// Scale under the recovery cylinder.
#[derive(Debug)]
pub struct RecoveryScale;

impl Instrument for RecoveryScale {
    fn facts(&self) -> &'static Facts {
        &RECOVERY_FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "scale under the recovery cylinder".into()
    }
    fn unit(&self) -> &'static str {
        "kg"
    }
    fn text(&self, kg: f64, say: &Say) -> String {
        say.ranged(kg, 3, "kg")
    }
    fn net(&self, _: f64) -> f64 {
        0.02
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&RECOVERY)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(truth.recovery_scale_kg())
    }
}

/// Scale under the vessel last put on the centre hose: supply cylinder, charging cylinder or can.
#[derive(Debug)]
pub struct ChargingScale;

impl Instrument for ChargingScale {
    fn facts(&self) -> &'static Facts {
        &CHARGING_FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "charging scale".into()
    }
    fn unit(&self) -> &'static str {
        "kg"
    }
    fn text(&self, kg: f64, say: &Say) -> String {
        say.ranged(kg, 3, "kg")
    }
    fn net(&self, _: f64) -> f64 {
        0.02
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&CHARGING)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(truth.charging_scale_kg())
    }
}

/// Oil in the measuring glass of the recovery machine.
#[derive(Debug)]
pub struct OilGraduation;

impl Instrument for OilGraduation {
    fn facts(&self) -> &'static Facts {
        &OIL_FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "oil in the measuring glass".into()
    }
    fn unit(&self) -> &'static str {
        "m3"
    }
    fn text(&self, m3: f64, say: &Say) -> String {
        say.number(m3, 1e6, 0, "mL")
    }
    fn net(&self, _: f64) -> f64 {
        5e-6
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&OIL_GLASS)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(truth.recovered_oil_m3())
    }
}

/// What a scale carries at most [kg] (common practice, no source).
pub const TOP_KG: f64 = 100.0;

/// 5 g (5 to 10 g are usual, from memory), 2 g digits.
const SCALE: Character = Character {
    source: Source(11),
    lag_s: 0.7,
    limit_share: 0.0,
    limit: 5e-3,
    zero: 0.0,
    range: (-TOP_KG, TOP_KG),
    digit,
    wander: 0.1,
};

/// Scale under the recovery cylinder.
const RECOVERY: Character = SCALE;
/// Scale for charging.
const CHARGING: Character = Character { source: Source(12), ..SCALE };

/// Last digit [kg]: 2 g below 50 kg, 5 g above (common practice, no source).
fn digit(kg: f64) -> f64 {
    if kg.abs() < 50.0 { 2e-3 } else { 5e-3 }
}

/// Marks on the measuring glass, 2 mL apart; an eye reads the nearest one (common practice, no source).
const OIL_GLASS: Character = Character {
    source: Source(13),
    lag_s: 1.0,
    limit_share: 0.0,
    limit: 2e-6,
    zero: 0.0,
    range: (0.0, 250e-6),
    digit: |_| 2e-6,
    wander: 0.1,
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::character::is_over;

    #[test]
    fn it_keeps_5_grams_and_steps_by_2() {
        for seed in 0..200 {
            for kg in [0.0, 0.45, 11.5, 14.0, 49.0] {
                let shown = RECOVERY.shown(kg, seed, 40);
                assert!((shown - kg).abs() <= 5e-3, "{shown} for {kg}");
                let steps = shown / 2e-3;
                assert!((steps - steps.round()).abs() < 1e-6);
            }
            assert!(is_over(CHARGING.shown(101.0, seed, 0)));
        }
    }

    /// Weighing by difference is better than either reading: the fixed error goes out.
    #[test]
    fn a_difference_loses_the_fixed_error() {
        let mut off = 0.0_f64;
        for seed in 0..200 {
            let gone = RECOVERY.shown(12.0, seed, 0) - RECOVERY.shown(11.5, seed, 9000);
            assert!((gone - 0.5).abs() <= 4.1e-3, "{gone}");
            off = off.max((RECOVERY.shown(12.0, seed, 0) - 12.0).abs());
        }
        assert!(off > 1.5e-3, "a single reading is off: {off}");
    }

    #[test]
    fn the_glass_is_read_to_its_marks() {
        for seed in 0..100 {
            let shown = OIL_GLASS.shown(31e-6, seed, 5);
            assert!((shown - 31e-6).abs() <= 2e-6 + 1e-12, "{shown}");
            let marks = shown / 2e-6;
            assert!((marks - marks.round()).abs() < 1e-6 && OIL_GLASS.shown(0.0, seed, 5) >= 0.0);
        }
    }
}
