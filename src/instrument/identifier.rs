//! The refrigerant identifier: what share of a sample is the loop's own refrigerant, and what share is air.

use super::character::Character;
use super::describe::{Facts, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::truth::Truth;
use crate::circuit::CircuitSpec;
use crate::noise::Source;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Refrigerant identifier",
    touches: "Needs a sample from the low-side port.",
    shelf: Shelf::Drawing,
    needs_bay: true,
};

static REFRIGERANT_FACTS: Facts = Facts {
    id: "identifier",
    words: "Refrigerant identifier: share of refrigerant in the sample [0 to 1].",
    notation: "identifier",
    args: &[],
    example: "identifier",
    placing: Placing::Hands,
    sources: &[REFRIGERANT.source],
    settles_s: REFRIGERANT.settles_s(),
};
static AIR_FACTS: Facts = Facts {
    id: "identifier_air",
    words: "Refrigerant identifier: share of air in the sample [0 to 1].",
    notation: "identifier:air",
    args: &[],
    example: "identifier_air",
    placing: Placing::Hands,
    sources: &[AIR.source],
    settles_s: AIR.settles_s(),
};

/// Refrigerant identifier: share of refrigerant in the sample.
#[derive(Debug)]
pub struct Identifier;

impl Instrument for Identifier {
    fn facts(&self) -> &'static Facts {
        &REFRIGERANT_FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "identifier, refrigerant".into()
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, share: f64, say: &Say) -> String {
        let verdict = if share >= PURE { "pass" } else { "fail" };
        format!("{} ({verdict})", say.number(share, 100.0, 1, "%"))
    }
    fn net(&self, _: f64) -> f64 {
        0.01
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&REFRIGERANT)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(truth.sample()?.0)
    }
    /// Shares are from nothing to all.
    fn shown(&self, character: &Character, sensed: f64, seed: u64, tick: u64) -> f64 {
        character.shown(sensed, seed, tick).clamp(0.0, 1.0)
    }
    fn silent(&self) -> String {
        "take a sample to the identifier first".into()
    }
}

/// Refrigerant identifier: share of air in the sample.
#[derive(Debug)]
pub struct IdentifierAir;

impl Instrument for IdentifierAir {
    fn facts(&self) -> &'static Facts {
        &AIR_FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "identifier, air".into()
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, share: f64, say: &Say) -> String {
        say.number(share, 100.0, 1, "%")
    }
    fn net(&self, _: f64) -> f64 {
        0.01
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&AIR)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(truth.sample()?.1)
    }
    /// Shares are from nothing to all.
    fn shown(&self, character: &Character, sensed: f64, seed: u64, tick: u64) -> f64 {
        character.shown(sensed, seed, tick).clamp(0.0, 1.0)
    }
    fn silent(&self) -> String {
        "take a sample to the identifier first".into()
    }
}

/// Least share of one refrigerant by mass for it to count as pure enough to recover for recycling (SAE J2099; identifiers after SAE J1771 use the same number, from memory).
pub const PURE: f64 = 0.98;

/// Within 1 % of the sample (from memory), tenths of a per cent.
const REFRIGERANT: Character = Character {
    source: Source(20),
    lag_s: 0.5,
    limit_share: 0.0,
    limit: 0.01,
    zero: 0.0,
    range: (0.0, 2.0),
    digit: |_| 1e-3,
    wander: 0.05,
};
/// The same for air.
const AIR: Character = Character { source: Source(21), ..REFRIGERANT };

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_keeps_one_per_cent() {
        for seed in 0..300 {
            for share in [0.0, 0.05, 0.5, 0.965, 1.0] {
                let shown = REFRIGERANT.shown(share, seed, 0);
                assert!((shown - share).abs() <= 0.01, "{shown} for {share}");
            }
            // A pure sample passes and one with 4 % of something else fails, whichever tool it is.
            assert!(REFRIGERANT.shown(1.0, seed, 0) >= PURE && REFRIGERANT.shown(0.96, seed, 0) < PURE);
        }
    }
}
