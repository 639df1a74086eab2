//! Void fraction of a channel from quality: the share of its cross-section that is vapour.
//!
//! All are written in x and 1 - x without dividing by either, so they are exactly 0 in liquid and 1 in vapour,
//! and all rise with quality. Harms, Groll & Braun (HVAC&R Research 9(1), 2003) found the choice to be the most
//! important one for charge, and Baroczy's the best of those tried on three unitary units.

use super::{FilmFluid, GRAVITY, SMALL_FLUX, clamp_quality, power};

/// x over x + (1 - x) times the slip factor.
fn by_slip(x: f64, factor: f64) -> f64 {
    x / (x + (1.0 - x) * factor)
}

/// Phases at equal speed: the upper bound of all others. C1 within [0, 1] (value continuous everywhere).
pub fn homogeneous(fluid: &FilmFluid, quality: f64) -> f64 {
    by_slip(clamp_quality(quality), fluid.rho_v / fluid.rho_l)
}

/// Zivi 1964 (Journal of Heat Transfer 86:247), least production of entropy, annular flow without friction:
/// 1 / (1 + ((1-x)/x) (rho_v/rho_l)^(2/3)). Any pressure; derived for steam. Cross-checked against the open
/// library fluids. C1 within [0, 1].
pub fn zivi(fluid: &FilmFluid, quality: f64) -> f64 {
    let c = libm::cbrt(fluid.rho_v / fluid.rho_l);
    by_slip(clamp_quality(quality), c * c)
}

/// Smith 1969 (Proceedings of the Institution of Mechanical Engineers 184:647), equal velocity heads of a mixture
/// core and a liquid film, entrained share K = 0.4:
/// slip = K + (1-K) sqrt((rho_l/rho_v + K(1-x)/x) / (1 + K(1-x)/x)).
///
/// Stated within 10 % for steam-water and air-water of any regime; pipes of 6 to 38 mm (from memory). As in the
/// open library fluids. C1 within [0, 1].
pub fn smith(fluid: &FilmFluid, quality: f64) -> f64 {
    const ENTRAINED: f64 = 0.4;
    let x = clamp_quality(quality);
    let wet = ENTRAINED * (1.0 - x);
    let root = ((fluid.rho_l / fluid.rho_v * x + wet) / (x + wet)).sqrt();
    by_slip(x, fluid.rho_v / fluid.rho_l * (ENTRAINED + (1.0 - ENTRAINED) * root))
}

/// Baroczy 1965 (Chemical Engineering Progress Symposium Series 61:179), in the power form of Butterworth 1975:
/// 1 / (1 + ((1-x)/x)^0.74 (rho_v/rho_l)^0.65 (mu_l/mu_v)^0.13).
///
/// Fitted to mercury-nitrogen and air-water. As in the open library fluids. Continuous; its slope is unbounded at
/// x = 0 and x = 1 (power 0.74): C1 between. Below a quality of about 0.01 it exceeds equal speeds.
pub fn baroczy(fluid: &FilmFluid, quality: f64) -> f64 {
    let x = clamp_quality(quality);
    let (vapour, liquid) = (power(x, 0.74), power(1.0 - x, 0.74));
    let c = power(fluid.rho_v / fluid.rho_l, 0.65) * power(fluid.mu_l / fluid.mu_v, 0.13);
    vapour / (vapour + liquid * c)
}

/// Rouhani & Axelsson 1970 (International Journal of Heat and Mass Transfer 13:383), drift flux:
/// x/rho_v / (C0 (x/rho_v + (1-x)/rho_l) + v_gm/G), C0 = 1 + 0.2 (1-x),
/// v_gm = 1.18 (1-x) (g sigma (rho_l - rho_v))^0.25 / rho_l^0.5.
///
/// This is the form the open library fluids gives as `Rouhani_1` (which notes that it could not find it in the
/// paper itself); another form has a C0 with diameter and mass flux. Falls toward 0 as flow stops, since bubbles
/// then rise away; the flux is held at a small one there. C1 within [0, 1] and in flux above that.
pub fn rouhani_axelsson(fluid: &FilmFluid, flux_kg_s_m2: f64, quality: f64) -> f64 {
    let x = clamp_quality(quality);
    let g = flux_kg_s_m2.abs().max(SMALL_FLUX);
    let lift = (GRAVITY * fluid.sigma * (fluid.rho_l - fluid.rho_v)).max(0.0).sqrt().sqrt();
    let drift = 1.18 * (1.0 - x) * lift / fluid.rho_l.sqrt();
    let spread = 1.0 + 0.2 * (1.0 - x);
    let vapour = x / fluid.rho_v;
    vapour / (spread * (vapour + (1.0 - x) / fluid.rho_l) + drift / g)
}

#[cfg(test)]
mod tests {
    use super::super::fluid::tests::{absurd, at_5c, at_50c};
    use super::super::testing::{grid, largest_jump};
    use super::*;

    fn all(f: &FilmFluid, x: f64) -> [f64; 5] {
        [homogeneous(f, x), zivi(f, x), smith(f, x), baroczy(f, x), rouhani_axelsson(f, 200.0, x)]
    }

    /// Computed with the open library fluids 1.3.1.
    #[test]
    fn the_printed_values() {
        let warm = [
            (0.1, [0.6489, 0.4200, 0.5271, 0.4725, 0.4762]),
            (0.2, [0.8061, 0.6196, 0.6765, 0.6201, 0.6394]),
            (0.3, [0.8770, 0.7363, 0.7635, 0.7087, 0.7284]),
            (0.5, [0.9433, 0.8670, 0.8697, 0.8199, 0.8351]),
            (0.7, [0.9749, 0.9383, 0.9356, 0.8950, 0.9085]),
            (0.9, [0.9934, 0.9832, 0.9817, 0.9586, 0.9706]),
        ];
        let cold = [
            (0.1, [0.8924, 0.6632, 0.7426, 0.6835, 0.7099]),
            (0.2, [0.9491, 0.8159, 0.8364, 0.7974, 0.7933]),
            (0.3, [0.9697, 0.8837, 0.8851, 0.8543, 0.8347]),
            (0.5, [0.9868, 0.9466, 0.9396, 0.9165, 0.8894]),
            (0.7, [0.9943, 0.9764, 0.9710, 0.9536, 0.9344]),
            (0.9, [0.9985, 0.9938, 0.9919, 0.9824, 0.9779]),
        ];
        for (fluid, rows) in [(at_50c(), warm), (at_5c(), cold)] {
            for (x, want) in rows {
                for (got, want) in all(&fluid, x).iter().zip(want) {
                    assert!((got - want).abs() < 1.5e-4, "x {x}: {got} {want}");
                }
            }
        }
    }

    /// Means over quality by the same library: 50 °C, x 0 to 1, and 5 °C, x 0.25 to 1.
    #[test]
    fn the_printed_means() {
        let mean = |f: &FilmFluid, from: f64, of: fn(&FilmFluid, f64) -> f64| {
            grid(from, 1.0, 2000).map(|x| of(f, x)).sum::<f64>() / 2001.0
        };
        let (warm, cold) = (at_50c(), at_5c());
        let pairs: [(f64, f64, fn(&FilmFluid, f64) -> f64); 3] =
            [(0.8726, 0.9889, homogeneous), (0.7799, 0.9559, zivi), (0.8046, 0.9522, smith)];
        for (condenser, evaporator, of) in pairs {
            assert!((mean(&warm, 0.0, of) - condenser).abs() < 1e-3);
            assert!((mean(&cold, 0.25, of) - evaporator).abs() < 1e-3);
        }
    }

    #[test]
    fn all_rise_from_nothing_to_one() {
        for fluid in [at_50c(), at_5c()] {
            assert_eq!(all(&fluid, -0.5), [0.0; 5]);
            assert!(all(&fluid, 1.5).iter().all(|v| (v - 1.0).abs() < 1e-12));
            let mut before = [0.0; 5];
            for x in grid(0.001, 1.0, 999) {
                let now = all(&fluid, x);
                assert!(now.iter().zip(before).all(|(n, b)| *n > b), "x {x}");
                // Baroczy's power form exceeds equal speeds below a quality of about 0.01, a known flaw of it.
                let bounded = if x > 0.02 { &now[..] } else { &now[..3] };
                assert!(bounded.iter().all(|v| *v <= now[0] + 1e-12), "x {x} {now:?}");
                before = now;
            }
            for i in 0..5 {
                assert!(largest_jump(|x| all(&fluid, x)[i], 0.0, 1.0, 100_000) < 0.01, "number {i}");
            }
        }
    }

    #[test]
    fn still_flow_and_absurd_fluids_stay_within_bounds() {
        assert!(rouhani_axelsson(&at_5c(), 0.0, 0.5) < 0.01);
        assert!((rouhani_axelsson(&at_5c(), -200.0, 0.5) - 0.8894).abs() < 1e-3);
        for f in absurd() {
            for x in [f64::NAN, -1.0, 0.0, 1e-12, 0.5, 1.0, 2.0] {
                assert!(all(&f, x).iter().all(|v| (0.0..=1.0).contains(v)), "{f:?} {x} {:?}", all(&f, x));
            }
        }
    }
}
