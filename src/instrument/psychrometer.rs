//! The psychrometer: a wet bulb with a fan of its own.

use strum::VariantNames;

use super::character::Character;
use super::describe::{Facts, Holds, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::truth::Truth;
use crate::circuit::CircuitSpec;
use crate::noise::Source;
use crate::places::AirPlace;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Psychrometer",
    touches: "Wet bulb in its own air stream. Give it two minutes.",
    shelf: Shelf::Air,
    needs_bay: false,
};

static FACTS: Facts = Facts {
    id: "wet_bulb",
    words: "Wet bulb of a psychrometer [K].",
    notation: "wet_bulb:AIR",
    args: &[("place", Holds::OneOf(AirPlace::VARIANTS))],
    example: "wet_bulb(outside)",
    placing: Placing::Hands,
    sources: &[WET_BULB.source],
    settles_s: WET_BULB.settles_s(),
};

/// The wet bulb. Its fan draws more than the 3 m/s that a wet bulb needs to read true (common practice, no source), so
/// what is left to do wrong is to read it too soon: wick and water take minutes.
const WET_BULB: Character = Character {
    source: Source(15),
    lag_s: 30.0,
    limit_share: 0.0,
    limit: 0.5,
    zero: 273.15,
    range: (253.15, 333.15),
    digit: |_| 0.1,
    wander: 0.05,
};

/// Wet bulb of a psychrometer.
#[derive(Debug)]
pub struct WetBulb(pub AirPlace);

impl Instrument for WetBulb {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        AirPlace::ALL.map(Self).into()
    }
    fn name(&self) -> String {
        format!("wet bulb, {}", self.0.name())
    }
    fn choice(&self) -> String {
        self.0.name().into()
    }
    fn unit(&self) -> &'static str {
        "K"
    }
    fn text(&self, k: f64, say: &Say) -> String {
        say.temperature(k)
    }
    fn net(&self, _: f64) -> f64 {
        1.0
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&WET_BULB)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(truth.wet_bulb_k(self.0))
    }
    /// A dry wick is as warm as the air.
    fn start(&self, _: f64, truth: &dyn Truth) -> f64 {
        truth.surroundings_k()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_keeps_its_limit() {
        for seed in 0..200 {
            let shown = WET_BULB.shown(290.15, seed, 3);
            assert!((shown - 290.15).abs() <= 0.5, "{shown}");
        }
    }
}
