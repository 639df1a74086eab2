//! The refrigerant identifier: what share of a sample is the loop's own refrigerant, and what share is air.

use super::character::Character;
use crate::instrument::noise::Source;

/// Least share of one refrigerant by mass for it to count as pure enough to recover for recycling (SAE J2099, in
/// reference/faults.md 3; identifiers after SAE J1771 use the same number, from memory).
pub const PURE: f64 = 0.98;

/// Within 1 % of the sample (from memory), tenths of a per cent.
pub const REFRIGERANT: Character = Character {
    source: Source::Identifier,
    lag_s: 0.5,
    limit_share: 0.0,
    limit: 0.01,
    zero: 0.0,
    range: (0.0, 2.0),
    digit: |_| 1e-3,
    wander: 0.05,
};
/// The same for air.
pub const AIR: Character = Character { source: Source::IdentifierAir, ..REFRIGERANT };

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
