//! Soap solution: gas that comes out blows bubbles.

use strum::VariantNames;

use super::character::Character;
use super::describe::{Facts, Holds, Instrument, Need, Placing};
use super::kit::{Kit, Shelf};
use super::leak_detector::YEAR_S;
use super::leak_signs::{eye, judged};
use super::say::{Say, sign};
use super::truth::{LeakTruth, Truth};
use crate::circuit::CircuitSpec;
use crate::noise::Source;
use crate::places::SearchPlace;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Soap solution",
    touches: "Needs pressure inside. Finds larger leaks, and shows the very spot.",
    shelf: Shelf::LeakSearch,
    needs_bay: false,
};

static FACTS: Facts = Facts {
    id: "soap",
    words: "Soap solution on a place [strength of the sign, 0 to 1].",
    notation: "soap:PLACE",
    args: &[("place", Holds::OneOf(SearchPlace::VARIANTS))],
    example: "soap(discharge_hose)",
    placing: Placing::Hands,
    sources: &[SOAP.source],
    settles_s: SOAP.settles_s(),
};

/// Gas that just blows bubbles well [m3/s]: what 100 g of R-134a a year makes at 25 °C and one atmosphere, 4.25 kg/m3
/// (the 100 g are common practice, no source).
const BUBBLES_M3_S: f64 = 0.1 / YEAR_S / 4.25;
/// An eye that judges bubbles; they take a while to grow.
const SOAP: Character = eye(Source(18), 8.0);

/// Soap solution on a place.
#[derive(Debug)]
pub struct Soap(pub SearchPlace);

impl Instrument for Soap {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        SearchPlace::ALL.map(Self).into()
    }
    fn name(&self) -> String {
        format!("soap on the {}", self.0.name())
    }
    fn choice(&self) -> String {
        self.0.name().into()
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, strength: f64, _: &Say) -> String {
        sign(strength, ["no bubbles", "a few small bubbles", "bubbles", "foam"])
    }
    fn net(&self, _: f64) -> f64 {
        0.2
    }
    fn needs(&self) -> Vec<Need> {
        vec![Need::Search(self.0)]
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&SOAP)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(bubbles(self.0, &truth.leak(self.0), truth.compressor_turns()))
    }
    fn start(&self, _: f64, _: &dyn Truth) -> f64 {
        0.0
    }
    fn shown(&self, character: &Character, sensed: f64, seed: u64, tick: u64) -> f64 {
        judged(character, sensed, seed, tick)
    }
}

/// Bubbles, 0 to 1. Gas of any kind blows them, refrigerant or nitrogen; a loop that draws air in blows none, and the
/// film holds neither on a turning shaft nor in a drain.
fn bubbles(place: SearchPlace, leak: &LeakTruth, shaft_turning: bool) -> f64 {
    let holds = match place {
        SearchPlace::EvaporatorDrain => false,
        SearchPlace::ShaftSeal => !shaft_turning,
        _ => true,
    };
    let times = if holds { leak.gas_m3_s.max(0.0) / BUBBLES_M3_S } else { 0.0 };
    if times.is_finite() { times * times / (1.0 + times * times) } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::leak_signs::judged;
    use crate::instrument::say::CLEAR_SIGN;

    fn gas(g_year: f64) -> LeakTruth {
        LeakTruth { gas_m3_s: 1e-3 * g_year / YEAR_S / 4.25, ..LeakTruth::default() }
    }

    #[test]
    fn it_finds_large_leaks_on_places_it_holds_on() {
        let at = |place, g| bubbles(place, &gas(g), true);
        let joint = SearchPlace::CondenserJoint;
        assert!(at(joint, 100.0) >= CLEAR_SIGN - 1e-9 && at(joint, 14.0) < 0.1 && at(joint, 1000.0) > 0.9);
        assert_eq!(at(SearchPlace::EvaporatorDrain, 1000.0), 0.0);
        assert_eq!(at(SearchPlace::ShaftSeal, 1000.0), 0.0);
        assert!(bubbles(SearchPlace::ShaftSeal, &gas(1000.0), false) > 0.9, "at rest it can be seen");
        assert_eq!(at(joint, -1000.0), 0.0, "none under vacuum");
        assert!((0.0..=1.0).contains(&at(joint, f64::NAN)));
        for seed in 0..100 {
            let shown = judged(&SOAP, 0.6, seed, 4);
            assert!((shown - 0.6).abs() <= 0.15, "{shown}");
            assert!(judged(&SOAP, 1.0, seed, 4) <= 1.0);
        }
    }
}
