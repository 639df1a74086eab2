//! The voltmeter, black lead on battery minus.

use super::noise::{Source, fixed_error, standard_normal};

/// Last digit shown [V].
pub const DIGIT_V: f64 = 0.01;
/// Error limit as share of the reading; two digits come on top (reference/faults.md 6: 0.5-1 % + 2 digits).
pub const SHARE: f64 = 0.008;

/// Error limit [V] at a reading [V].
pub fn limit_v(volts: f64) -> f64 {
    SHARE * volts.abs() + 2.0 * DIGIT_V
}

/// What the meter shows [V] for a true voltage: a gain error fixed for the session (within a third of the
/// limit), a last digit that will not stand still, and rounding.
pub fn shown(volts: f64, seed: u64, tick: u64) -> f64 {
    let gain = 1.0 + fixed_error(seed, Source::Voltmeter, SHARE / 3.0);
    let restless = 0.4 * DIGIT_V * standard_normal(seed, Source::Voltmeter, tick / 6);
    ((volts * gain + restless) / DIGIT_V).round() * DIGIT_V
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_stay_within_the_limit() {
        let mut outside = 0;
        for seed in 0..40 {
            for tick in (0..600).step_by(6) {
                for volts in [0.0, 0.08, 7.9, 14.1] {
                    outside += u32::from((shown(volts, seed, tick) - volts).abs() > limit_v(volts));
                }
            }
        }
        assert!(outside < 16, "{outside} of 16000");
        assert!((limit_v(14.0) - 0.132).abs() < 1e-12);
    }
}
