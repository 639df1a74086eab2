//! The eye that judges signs of a leak: bubbles of soap, a glow of dye.

use super::character::Character;
use crate::noise::Source;

/// How the eye judges; `lag_s` is how long a sign takes to grow [s].
pub const fn eye(source: Source, lag_s: f64) -> Character {
    Character {
        source,
        lag_s,
        limit_share: 0.0,
        limit: 0.15,
        zero: 0.0,
        range: (0.0, 1.0),
        digit: |_| 0.01,
        wander: 0.2,
    }
}

/// What the eye judges: sure of nothing at all, unsure in between. Unlike other tools it has no offset at zero.
pub fn judged(character: &Character, strength: f64, seed: u64, tick: u64) -> f64 {
    if strength < 0.02 { 0.0 } else { character.shown(strength, seed, tick).clamp(0.0, 1.0) }
}
