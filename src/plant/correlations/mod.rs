//! Published correlations as pure functions of numbers: films, void fraction, friction, orifices, compressors,
//! valves. Nothing here knows the solver; `films.rs` sums up what it needs of a channel in one call.
//!
//! Each names its paper. Formulas marked "from memory" were not seen in print; each says whether it was cross-checked against the open libraries `ht` 1.2.0 and
//! `fluids` 1.3.1 with properties of CoolProp 8.0.0. Accepted correlations differ by a factor of 1.5 to 3,
//! so a value from here is one method's answer, never "the" film coefficient.
//!
//! For the Newton solver every function is finite for any finite input and continuous in flow, quality, heat
//! flux and pressure; quality is clamped to [0, 1] and mass flux enters by its magnitude (friction by its
//! sign too). Where the slope jumps as well, the function's text says so; "C1" means that value and slope are
//! continuous.

pub mod air_side;
pub mod boiling;
pub mod compressors;
pub mod condensation;
pub mod films;
pub mod fluid;
pub mod friction;
pub mod short_tube;
pub mod single_phase;
pub mod valve;
pub mod void_fraction;

pub use films::{ChannelGeometry, Films, film_conductances};
pub use fluid::FilmFluid;

pub(crate) use crate::constants::GRAVITY;
/// Mass flux below which formulas that divide by it take this one instead [kg/(m2 s)]: a thousandth of the
/// smallest flux any of them was fitted to.
pub(crate) const SMALL_FLUX: f64 = 1e-2;

/// Smooth step from 0 to 1 on [0, 1]; C1.
pub(crate) fn smooth_step(s: f64) -> f64 {
    let s = s.clamp(0.0, 1.0);
    s * s * (3.0 - 2.0 * s)
}

/// Positive part of `y`, rounded over `width`; C1, never below zero.
pub(crate) fn soft_positive(y: f64, width: f64) -> f64 {
    0.5 * (y + (y * y + width * width).sqrt())
}

/// Quality within [0, 1]; not a number counts as 0.
pub(crate) fn clamp_quality(x: f64) -> f64 {
    if x > 0.0 { x.min(1.0) } else { 0.0 }
}

/// x to the power a for x >= 0.
pub(crate) fn power(x: f64, a: f64) -> f64 {
    libm::pow(x.max(0.0), a)
}

#[cfg(test)]
pub(crate) mod testing {
    /// `got` within a relative tolerance of `want`.
    pub fn near(name: &str, got: f64, want: f64, relative: f64) {
        assert!((got - want).abs() <= relative * want.abs(), "{name}: {got}, expected {want}");
    }
    /// A grid of `n` + 1 points from `a` to `b`.
    pub fn grid(a: f64, b: f64, n: usize) -> impl Iterator<Item = f64> {
        (0..=n).map(move |i| a + (b - a) * i as f64 / n as f64)
    }
    /// The largest jump between neighbours of a function on a grid, as a share of its largest magnitude.
    pub fn largest_jump(f: impl Fn(f64) -> f64, a: f64, b: f64, n: usize) -> f64 {
        let values: Vec<f64> = grid(a, b, n).map(f).collect();
        let size = values.iter().fold(1e-300_f64, |m, v| m.max(v.abs()));
        values.windows(2).map(|w| (w[1] - w[0]).abs() / size).fold(0.0, f64::max)
    }

    #[test]
    fn helpers_see_a_jump_and_round_a_corner() {
        assert!(largest_jump(|x| if x > 0.5 { 1.0 } else { 0.0 }, 0.0, 1.0, 1000) > 0.99);
        assert!(largest_jump(super::smooth_step, -1.0, 2.0, 1000) < 0.01);
        assert!((super::soft_positive(5.0, 0.1) - 5.0).abs() < 1e-3 && super::soft_positive(-5.0, 0.1) > 0.0);
        assert!(super::clamp_quality(f64::NAN) == 0.0 && super::clamp_quality(7.0) == 1.0);
    }
}
