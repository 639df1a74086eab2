//! What shows a leak to the eye: soap solution that blows bubbles, and oil with dye that glows under ultraviolet.

use super::character::Character;
use super::truth::LeakTruth;
use crate::instrument::noise::Source;
use crate::instrument::places::SearchPlace;

/// Gas that just blows bubbles well [m3/s]: what 100 g of R-134a a year makes at 25 °C and one atmosphere, 4.25 kg/m3
/// (the 100 g are common practice, no source).
const BUBBLES_M3_S: f64 = 0.1 / super::leak_detector::YEAR_S / 4.25;
/// Dye that glows well [kg] (own estimate: a drop of oil, 50 mg, with 5 % of dye in it).
const GLOWS_KG: f64 = 2.5e-6;
/// Share of the oil out of an evaporator that its drain brings to light (own estimate); the rest stays on the coil.
const DRAINED: f64 = 0.25;

/// An eye that judges bubbles; they take a while to grow.
pub const SOAP: Character = Character {
    source: Source::Soap,
    lag_s: 8.0,
    limit_share: 0.0,
    limit: 0.15,
    zero: 0.0,
    range: (0.0, 1.0),
    digit: |_| 0.01,
    wander: 0.2,
};

/// An eye that judges a glow.
pub const UV_LAMP: Character = Character { source: Source::UvLamp, lag_s: 0.5, ..SOAP };

/// Bubbles, 0 to 1. Gas of any kind blows them, refrigerant or nitrogen; a loop that draws air in blows none, and the
/// film holds neither on a turning shaft nor in a drain.
pub fn bubbles(place: SearchPlace, leak: &LeakTruth, shaft_turning: bool) -> f64 {
    let holds = match place {
        SearchPlace::EvaporatorDrain => false,
        SearchPlace::ShaftSeal => !shaft_turning,
        _ => true,
    };
    let times = if holds { leak.gas_m3_s.max(0.0) / BUBBLES_M3_S } else { 0.0 };
    if times.is_finite() { times * times / (1.0 + times * times) } else { 1.0 }
}

/// Glow, 0 to 1. Oil stays where it came out, so an old leak glows after its repair until it is wiped off.
pub fn glow(place: SearchPlace, leak: &LeakTruth) -> f64 {
    let seen = if place == SearchPlace::EvaporatorDrain { DRAINED } else { 1.0 };
    let times = seen * leak.dye_kg.max(0.0) / GLOWS_KG;
    times / (1.0 + times)
}

/// What the eye judges: sure of nothing at all, unsure in between. Unlike other tools it has no offset at zero.
pub fn judged(character: &Character, strength: f64, seed: u64, tick: u64) -> f64 {
    if strength < 0.02 { 0.0 } else { character.shown(strength, seed, tick).clamp(0.0, 1.0) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::bay_tools::leak_detector::YEAR_S;
    use crate::instrument::bay_tools::words::CLEAR_SIGN;

    fn gas(g_year: f64) -> LeakTruth {
        LeakTruth { gas_m3_s: 1e-3 * g_year / YEAR_S / 4.25, ..LeakTruth::default() }
    }

    #[test]
    fn soap_finds_large_leaks_on_places_it_holds_on() {
        let at = |place, g| bubbles(place, &gas(g), true);
        let joint = SearchPlace::CondenserJoint;
        assert!(at(joint, 100.0) >= CLEAR_SIGN - 1e-9 && at(joint, 14.0) < 0.1 && at(joint, 1000.0) > 0.9);
        assert_eq!(at(SearchPlace::EvaporatorDrain, 1000.0), 0.0);
        assert_eq!(at(SearchPlace::ShaftSeal, 1000.0), 0.0);
        assert!(bubbles(SearchPlace::ShaftSeal, &gas(1000.0), false) > 0.9, "at rest it can be seen");
        assert_eq!(at(joint, -1000.0), 0.0, "none under vacuum");
        assert!((0.0..=1.0).contains(&at(joint, f64::NAN)));
    }

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
            let shown = judged(&SOAP, 0.6, seed, 4);
            assert!((shown - 0.6).abs() <= 0.15, "{shown}");
            assert!(judged(&SOAP, 1.0, seed, 4) <= 1.0);
        }
    }
}
