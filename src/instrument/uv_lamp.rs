//! The ultraviolet lamp: oil with dye in it glows where it came out.

use strum::VariantNames;

use super::character::Character;
use super::describe::{Facts, Holds, Instrument, Need, Placing};
use super::kit::{Kit, Shelf};
use super::leak_signs::{eye, judged};
use super::say::{Say, sign};
use super::truth::{LeakTruth, Truth};
use crate::circuit::CircuitSpec;
use crate::noise::Source;
use crate::places::SearchPlace;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "UV lamp",
    touches: "Shows oil with dye where it came out. Needs dye and time.",
    shelf: Shelf::LeakSearch,
    needs_bay: true,
};

static FACTS: Facts = Facts {
    id: "uv_lamp",
    words: "Ultraviolet lamp shone on a place [strength of the sign, 0 to 1].",
    notation: "uv_lamp:PLACE",
    args: &[("place", Holds::OneOf(SearchPlace::VARIANTS))],
    example: "uv_lamp(discharge_hose)",
    placing: Placing::Hands,
    sources: &[UV_LAMP.source],
    settles_s: UV_LAMP.settles_s(),
};

/// Dye that glows well [kg] (own estimate: a drop of oil, 50 mg, with 5 % of dye in it).
const GLOWS_KG: f64 = 2.5e-6;
/// Share of the oil out of an evaporator that its drain brings to light (own estimate); the rest stays on the coil.
const DRAINED: f64 = 0.25;

/// An eye that judges a glow.
const UV_LAMP: Character = eye(Source(19), 0.5);

/// Ultraviolet lamp shone on a place.
#[derive(Debug)]
pub struct UvLamp(pub SearchPlace);

impl Instrument for UvLamp {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        SearchPlace::ALL.map(Self).into()
    }
    fn name(&self) -> String {
        format!("UV lamp on the {}", self.0.name())
    }
    fn choice(&self) -> String {
        self.0.name().into()
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, strength: f64, _: &Say) -> String {
        sign(strength, ["dark", "faint glow", "glow", "bright glow"])
    }
    fn net(&self, _: f64) -> f64 {
        0.2
    }
    fn needs(&self) -> Vec<Need> {
        vec![Need::Search(self.0)]
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&UV_LAMP)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(glow(self.0, &truth.leak(self.0)))
    }
    fn start(&self, _: f64, _: &dyn Truth) -> f64 {
        0.0
    }
    fn shown(&self, character: &Character, sensed: f64, seed: u64, tick: u64) -> f64 {
        judged(character, sensed, seed, tick)
    }
}

/// Glow, 0 to 1. Oil stays where it came out, so an old leak glows after its repair until it is wiped off.
fn glow(place: SearchPlace, leak: &LeakTruth) -> f64 {
    let seen = if place == SearchPlace::EvaporatorDrain { DRAINED } else { 1.0 };
    let times = seen * leak.dye_kg.max(0.0) / GLOWS_KG;
    times / (1.0 + times)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::leak_signs::judged;

    #[test]
    fn dye_glows_where_oil_came_out() {
        let oil = |kg| LeakTruth { dye_kg: kg, ..LeakTruth::default() };
        let at = |place, kg| glow(place, &oil(kg));
        assert_eq!(at(SearchPlace::DischargeHose, 0.0), 0.0);
        assert!(at(SearchPlace::DischargeHose, 5e-5) > 0.9);
        let (drain, hose) = (at(SearchPlace::EvaporatorDrain, 5e-6), at(SearchPlace::DischargeHose, 5e-6));
        assert!(drain < 0.5 * hose + 0.1 && drain > 0.1, "{drain} {hose}");
        for seed in 0..100 {
            assert_eq!(judged(&UV_LAMP, 0.0, seed, 4), 0.0);
        }
    }
}
