//! Tools for air: a psychrometer with a fan of its own, and a vane with a hood over the vents.

use super::character::Character;
use crate::instrument::noise::Source;

/// The wet bulb. Its fan draws more than the 3 m/s that a wet bulb needs to read true (common practice, no source), so
/// what is left to do wrong is to read it too soon: wick and water take minutes.
pub const WET_BULB: Character = Character {
    source: Source::Psychrometer,
    lag_s: 30.0,
    limit_share: 0.0,
    limit: 0.5,
    zero: 273.15,
    range: (253.15, 333.15),
    digit: |_| 0.1,
    wander: 0.05,
};

/// The vane: 3 % of the reading and an offset of 2 litres a second (common practice, no source) [m3/s].
pub const VANE: Character = Character {
    source: Source::Vane,
    lag_s: 2.0,
    limit_share: 0.03,
    limit: 2e-3,
    zero: 0.0,
    range: (0.0, 1.0),
    digit: |_| 1.0 / 3600.0,
    wander: 0.1,
};

/// Flow below which the vane stands still [m3/s] (common practice, no source).
const STARTS_M3_S: f64 = 5e-3;

/// What the vane turns at [m3/s].
pub fn turned_m3_s(flow_m3_s: f64) -> f64 {
    if flow_m3_s < STARTS_M3_S { 0.0 } else { flow_m3_s }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_keep_their_limits() {
        for seed in 0..200 {
            for flow in [0.0, 0.02, 0.08, 0.14] {
                let shown = VANE.shown(turned_m3_s(flow), seed, 3);
                assert!((shown - flow).abs() <= 0.03 * flow + 2e-3, "{shown} for {flow}");
            }
            let shown = WET_BULB.shown(290.15, seed, 3);
            assert!((shown - 290.15).abs() <= 0.5, "{shown}");
        }
        assert_eq!(turned_m3_s(0.004), 0.0, "a slow stream does not turn it");
        assert!(turned_m3_s(f64::NAN).is_nan());
    }
}
