//! Noise as a pure function of seed, source and tick: no shared stream, so reading one instrument never
//! changes what another shows, and a replay meets the same noise whatever was drawn on the screen.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// Where noise comes from, by number: each instrument has one of its own, or several, and says so in its file. A new one
/// takes the next that is free; the tests of the table find doubles. 5 stays free: it was that of an ideal voltmeter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Source(pub u64);

const TWO_POW_53: f64 = 9_007_199_254_740_992.0;

/// Two even numbers in (0, 1] for a seed, a stream and a place in the stream.
fn uniform_pair(seed: u64, stream: u64, place: u64) -> (f64, f64) {
    let mut key = [0_u8; 32];
    key[..8].copy_from_slice(&seed.to_le_bytes());
    key[8..22].copy_from_slice(b"pintle noise 1");
    let mut rng = ChaCha8Rng::from_seed(key);
    rng.set_stream(stream);
    rng.set_word_pos(4 * u128::from(place));
    let mut next = || ((rng.next_u64() >> 11) as f64 + 1.0) / TWO_POW_53;
    (next(), next())
}

/// Standard normal noise (mean 0, variance 1) of a source at a tick, by Box and Muller's method.
pub fn standard_normal(seed: u64, source: Source, tick: u64) -> f64 {
    let (a, b) = uniform_pair(seed, source.0, tick);
    (-2.0 * libm::log(a)).sqrt() * libm::cos(std::f64::consts::TAU * b)
}

/// Standard normal noise that wanders smoothly: fresh every `period` ticks (at least 1), blended between.
pub fn wandering(seed: u64, source: Source, tick: u64, period: u64) -> f64 {
    let period = period.max(1);
    let (knot, rest) = (tick / period, tick % period);
    let here = standard_normal(seed, source, knot);
    if rest == 0 {
        return here;
    }
    let w = rest as f64 / period as f64;
    let next = standard_normal(seed, source, knot + 1);
    (here * (1.0 - w) + next * w) / (w * w + (1.0 - w) * (1.0 - w)).sqrt()
}

/// An even number in (0, 1] for a seed, a stream of its own and a place in it, for chance that is no instrument's.
pub fn even(seed: u64, stream: u64, place: u64) -> f64 {
    // The upper half of all streams; instruments use the lowest ones.
    uniform_pair(seed, stream | 1 << 63, place).0
}

/// The fixed error a source has for a whole session: even between minus and plus `most`.
pub fn fixed_error(seed: u64, source: Source, most: f64) -> f64 {
    let (a, _) = uniform_pair(seed, source.0 + (1 << 32), 0);
    (2.0 * a - 1.0) * most
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOW: Source = Source(1);
    const HIGH: Source = Source(2);
    const EYE: Source = Source(6);

    #[test]
    fn noise_is_normal_and_depends_on_everything() {
        let n = 20_000_u64;
        let (mut sum, mut square, mut beyond, mut product) = (0.0, 0.0, 0, 0.0);
        for tick in 0..n {
            let x = standard_normal(7, LOW, tick);
            sum += x;
            square += x * x;
            beyond += u32::from(x.abs() > 1.96);
            product += x * standard_normal(7, HIGH, tick);
        }
        let n = n as f64;
        assert!((sum / n).abs() < 0.03 && (square / n - 1.0).abs() < 0.04, "{} {}", sum / n, square / n);
        assert!((f64::from(beyond) / n - 0.05).abs() < 0.006);
        assert!((product / n).abs() < 0.03, "two sources share nothing");
        assert_ne!(standard_normal(7, EYE, 3), standard_normal(8, EYE, 3));
        assert_eq!(standard_normal(7, EYE, u64::MAX), standard_normal(7, EYE, u64::MAX));
        assert!(wandering(7, EYE, u64::MAX, 1).is_finite());
    }

    /// The numbers themselves: a change here changes every stored record.
    #[test]
    fn noise_never_changes() {
        assert_eq!(standard_normal(1, LOW, 0), -1.779_546_125_204_553_5);
        assert_eq!(standard_normal(42, Source(5), 12_345), 1.542_305_286_171_085_8);
    }

    #[test]
    fn fixed_errors_stay_inside_and_fill_the_range() {
        let errors: Vec<f64> = (0..500).map(|seed| fixed_error(seed, HIGH, 2.0)).collect();
        assert!(errors.iter().all(|e| e.abs() <= 2.0));
        assert!(errors.iter().any(|e| *e > 1.8) && errors.iter().any(|e| *e < -1.8));
    }
}
