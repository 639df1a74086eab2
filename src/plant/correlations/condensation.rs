//! Condensing inside tubes.

use super::single_phase::{Exchange, LAMINAR, dittus_boelter};
use super::{FilmFluid, clamp_quality, power, smooth_step};

/// The integral of x^0.76 (1-x)^0.04 over 0 to 1, that is Beta(1.76, 1.04).
const SHAH_INTEGRAL: f64 = 0.537_735_364_277_6;

/// Film of all the flow as liquid [W/(m2 K)], the base of Shah's method: Dittus & Boelter with Pr^0.4.
pub(crate) fn liquid_only(fluid: &FilmFluid, flux_kg_s_m2: f64, diameter_m: f64) -> f64 {
    let d = diameter_m.max(1e-6);
    let re = flux_kg_s_m2.abs() * d / fluid.mu_l;
    dittus_boelter(re, fluid.prandtl_l(), Exchange::Heating) * fluid.k_l / d
}

/// Shah 1979 (International Journal of Heat and Mass Transfer 22:547) [W/(m2 K)]:
/// h = h_LO ((1-x)^0.8 + 3.8 x^0.76 (1-x)^0.04 / p_r^0.38).
///
/// Range from memory: D 7 to 40 mm, p_r 0.002 to 0.44, G 11 to 211 in the data and to 1600 kg/(m2 s) as later
/// stated, Re_LO above 350, Pr_l above 0.5; mean deviation 17 %. Small channels (1 mm) are outside. Formula from
/// memory, cross-checked against the open library ht. 0 at rest and at x = 1, where (1-x)^0.04 drops within the
/// last percent: put [`wet_out`] and a vapour film beside it. Continuous; the slope by quality is unbounded at
/// x = 0 and 1: C1 between.
pub fn shah(fluid: &FilmFluid, flux_kg_s_m2: f64, quality: f64, diameter_m: f64) -> f64 {
    let x = clamp_quality(quality);
    let vapour = 3.8 * power(x, 0.76) * power(1.0 - x, 0.04) / power(fluid.p_reduced, 0.38);
    liquid_only(fluid, flux_kg_s_m2, diameter_m) * (power(1.0 - x, 0.8) + vapour)
}

/// Shah 1979 averaged over qualities from 0 to 1, in closed form, times h_LO:
/// 1/1.8 + 3.8 Beta(1.76, 1.04) / p_r^0.38.
pub fn shah_mean_factor(p_reduced: f64) -> f64 {
    shah_mean_from_ln(libm::log(p_reduced.max(1e-6)))
}

/// The same by the logarithm of reduced pressure.
pub(crate) fn shah_mean_from_ln(ln_p_reduced: f64) -> f64 {
    1.0 / 1.8 + 3.8 * SHAH_INTEGRAL * libm::exp(-0.38 * ln_p_reduced)
}

/// Cavallini & Zecchin 1974 (5th International Heat Transfer Conference, Tokyo) [W/(m2 K)]:
/// Nu = 0.05 Re_eq^0.8 Pr_l^0.33, Re_eq = Re_l + Re_v (mu_v/mu_l) (rho_l/rho_v)^0.5.
///
/// Range from memory: annular flow, refrigerants, Re_LO above 5000 (7000 to 53 000 in the data), Pr_l 0.8 to 20,
/// density ratio 10 to 2000. From memory, cross-checked against the open library ht. 0 at rest; rises with
/// quality; C1 within [0, 1].
pub fn cavallini_zecchin(fluid: &FilmFluid, flux_kg_s_m2: f64, quality: f64, diameter_m: f64) -> f64 {
    let (x, d) = (clamp_quality(quality), diameter_m.max(1e-6));
    let re = flux_kg_s_m2.abs() * d / fluid.mu_l;
    let equivalent = re * (1.0 - x + x * (fluid.rho_l / fluid.rho_v).sqrt());
    0.05 * power(equivalent, 0.8) * power(fluid.prandtl_l(), 0.33) * fluid.k_l / d
}

/// A film that never falls below plain conduction: the cubes added, an asymptotic blend after Churchill & Usagi
/// 1972 with an exponent of our own choosing. C1.
pub(crate) fn above_laminar(film: f64, k: f64, diameter_m: f64) -> f64 {
    let floor = LAMINAR * k / diameter_m.max(1e-6);
    libm::cbrt(film * film * film + floor * floor * floor)
}

/// Quality over which a condensing film takes over from the liquid film (our own; as in `plant/heat.rs`).
pub const WET_OUT: f64 = 0.1;

/// Between the film of liquid and a condensing film, by quality: our own blend, C1, monotone.
pub fn wet_out(liquid: f64, condensing: f64, quality: f64) -> f64 {
    liquid + (condensing - liquid) * smooth_step(quality / WET_OUT)
}

#[cfg(test)]
mod tests {
    use super::super::fluid::tests::{absurd, at_50c};
    use super::super::testing::{grid, largest_jump, near};
    use super::*;

    /// Computed with the open library ht 1.2.0: R-134a, 50 °C, G 300.
    #[test]
    fn the_printed_values() {
        let f = at_50c();
        for (x, s8, c8, s1, c1) in [
            (0.1, 1492.0, 1925.0, 2261.0, 2917.0),
            (0.3, 2363.0, 2620.0, 3581.0, 3972.0),
            (0.5, 3035.0, 3272.0, 4600.0, 4960.0),
            (0.7, 3573.0, 3893.0, 5416.0, 5901.0),
            (0.9, 3920.0, 4490.0, 5941.0, 6805.0),
        ] {
            near(&format!("Shah 8 mm {x}"), shah(&f, 300.0, x, 0.008), s8, 1e-3);
            near(&format!("Shah 1 mm {x}"), shah(&f, 300.0, x, 0.001), s1, 1e-3);
            near(&format!("Cavallini & Zecchin 8 mm {x}"), cavallini_zecchin(&f, 300.0, x, 0.008), c8, 1e-3);
            near(&format!("Cavallini & Zecchin 1 mm {x}"), cavallini_zecchin(&f, 300.0, x, 0.001), c1, 1e-3);
        }
    }

    /// The methods agree within 40 %, which is all that can be asked: accepted methods lie a factor of 1.5 to 3 apart.
    #[test]
    fn two_methods_agree_as_far_as_methods_do() {
        for d in [0.001, 0.003, 0.008] {
            for g in [100.0, 300.0, 600.0] {
                for x in grid(0.1, 0.9, 8) {
                    let ratio = cavallini_zecchin(&at_50c(), g, x, d) / shah(&at_50c(), g, x, d);
                    assert!((1.0 / 1.4..1.4).contains(&ratio), "{d} {g} {x}: {ratio}");
                }
            }
        }
    }

    #[test]
    fn the_mean_is_a_mean() {
        let f = at_50c();
        let many = grid(0.0, 1.0, 20_000).map(|x| shah(&f, 300.0, x, 0.001)).sum::<f64>() / 20_001.0;
        near("mean", liquid_only(&f, 300.0, 0.001) * shah_mean_factor(f.p_reduced), many, 1e-3);
    }

    #[test]
    fn liquid_at_one_end_and_rising_with_flow_and_quality() {
        let f = at_50c();
        near("x = 0 is liquid alone", shah(&f, 300.0, -1.0, 0.008), liquid_only(&f, 300.0, 0.008), 1e-12);
        assert_eq!((shah(&f, 0.0, 0.5, 0.008), cavallini_zecchin(&f, 0.0, 0.5, 0.008)), (0.0, 0.0));
        for of in [shah, cavallini_zecchin] {
            let by_flow: Vec<f64> = grid(0.0, 900.0, 900).map(|g| of(&f, g, 0.5, 0.001)).collect();
            let by_quality: Vec<f64> = grid(0.0, 0.9, 900).map(|x| of(&f, 300.0, x, 0.001)).collect();
            assert!(by_flow.windows(2).chain(by_quality.windows(2)).all(|w| w[1] > w[0]));
            assert!(largest_jump(|x| of(&f, 300.0, x, 0.001), -0.1, 0.99, 50_000) < 0.01);
            assert!(of(&f, -300.0, 0.5, 0.001) == of(&f, 300.0, 0.5, 0.001));
        }
    }

    #[test]
    fn floors_and_blends() {
        near("far above", above_laminar(3000.0, 0.07, 0.001), 3000.0, 1e-3);
        near("at rest", above_laminar(0.0, 0.07, 0.001), LAMINAR * 70.0, 1e-12);
        assert_eq!((wet_out(300.0, 2000.0, -1.0), wet_out(300.0, 2000.0, 0.5)), (300.0, 2000.0));
        near("half way", wet_out(300.0, 2000.0, 0.5 * WET_OUT), 1150.0, 1e-12);
        for f in absurd() {
            for g in [0.0, 1e6, -1e6] {
                assert!(shah(&f, g, 2.0, 0.0).is_finite() && cavallini_zecchin(&f, g, 0.5, 0.0).is_finite());
            }
        }
    }
}
