//! Friction: Darcy factors and the pressure gradient of two-phase flow.

use super::{FilmFluid, GRAVITY, SMALL_FLUX, clamp_quality, power};

/// Reynolds number below which the factor is held; with the factor 64/Re a gradient still goes to zero with flow.
const SMALLEST_RE: f64 = 1e-6;

fn to_the_8th(x: f64) -> f64 {
    let x2 = x * x;
    let x4 = x2 * x2;
    x4 * x4
}

/// Churchill 1977 (Chemical Engineering 84:91), Darcy factor over all regimes:
/// f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12), A = (2.457 ln(1/((7/Re)^0.9 + 0.27 e/D)))^16, B = (37530/Re)^16.
///
/// Any Re, any relative roughness. From memory, cross-checked against the open library fluids. Smooth (C1), with
/// the dip of the transition near Re 2000 to 3000 that is not a jump.
pub fn churchill(reynolds: f64, relative_roughness: f64) -> f64 {
    let re = reynolds.abs().clamp(SMALLEST_RE, 1e12);
    if re < 100.0 {
        // Laminar to 1e-12, without overflow of the powers.
        return 64.0 / re;
    }
    let rough = relative_roughness.clamp(0.0, 0.1);
    let a = to_the_8th(2.457 * libm::log(power(7.0 / re, 0.9) + 0.27 * rough));
    let b = to_the_8th(37_530.0 / re);
    let turbulent = a * a + b * b;
    let laminar = 8.0 / re;
    let l4 = laminar * laminar * laminar * laminar;
    8.0 * power(l4 * l4 * l4 + 1.0 / (turbulent * turbulent.sqrt()), 1.0 / 12.0)
}

/// Blasius 1913, smooth tubes: f = 0.3164 Re^-0.25, Darcy factor. Range Re 3000 to 2e5. From memory, cross-checked
/// against the open library fluids. C1.
pub fn blasius(reynolds: f64) -> f64 {
    0.3164 / reynolds.abs().max(SMALLEST_RE).sqrt().sqrt()
}

/// Gradient of one phase flowing alone with the whole mass flux, as a magnitude [Pa/m].
fn alone(flux: f64, rho: f64, mu: f64, diameter_m: f64) -> f64 {
    let f = churchill(flux * diameter_m / mu, 0.0);
    f * flux * flux / (2.0 * rho * diameter_m)
}

/// Müller-Steinhagen & Heck 1986 (Chemical Engineering and Processing 20:297), friction gradient along the flow
/// [Pa/m]: (A + 2 (B - A) x) (1 - x)^(1/3) + B x^3, A and B all liquid and all vapour.
///
/// Fitted to 9300 points, D 4 to 392 mm, G 50 to 2490 kg/(m2 s), many fluids among them refrigerants (ranges from
/// memory); widely used below 4 mm, where it stands among the better ones. Formula as in the open library
/// fluids; single-phase factors by [`churchill`]. Sign of the flow, odd in it, zero at rest. Continuous in
/// quality; near x = 1 the slope grows without bound as (1 - x)^(-2/3), so it is C1 below x = 1 only.
pub fn muller_steinhagen_heck(fluid: &FilmFluid, flux_kg_s_m2: f64, quality: f64, diameter_m: f64) -> f64 {
    let (g, d, x) = (flux_kg_s_m2.abs(), diameter_m.max(1e-6), clamp_quality(quality));
    let a = alone(g, fluid.rho_l, fluid.mu_l, d);
    let b = alone(g, fluid.rho_v, fluid.mu_v, d);
    let size = (a + 2.0 * (b - a) * x) * libm::cbrt(1.0 - x) + b * x * x * x;
    size * flux_kg_s_m2.signum()
}

/// The same averaged over qualities from `x_in` to `x_out` (evenly taken, as at even heat flux), by two points of
/// Gauss [Pa/m]. C1 below x = 1.
pub fn muller_steinhagen_heck_mean(
    fluid: &FilmFluid,
    flux_kg_s_m2: f64,
    (x_in, x_out): (f64, f64),
    diameter_m: f64,
) -> f64 {
    let (middle, half) = (0.5 * (x_in + x_out), 0.5 * (x_out - x_in));
    let at = |s: f64| muller_steinhagen_heck(fluid, flux_kg_s_m2, middle + s * half, diameter_m);
    0.5 * (at(-0.577_350_269) + at(0.577_350_269))
}

/// Friedel 1979 (European Two-Phase Flow Group Meeting, Ispra), friction gradient along the flow [Pa/m]:
/// all-liquid gradient times E + 3.24 F H / (Fr^0.0454 We^0.035).
///
/// For mu_l/mu_v below 1000, D from 4 mm; mean errors about 40 %. As in the open library fluids; single-phase
/// factors by [`churchill`]. Sign of the flow, zero at rest. Continuous; its slope by quality is unbounded at 0
/// and 1 (powers 0.78 and 0.224).
pub fn friedel(fluid: &FilmFluid, flux_kg_s_m2: f64, quality: f64, diameter_m: f64) -> f64 {
    let (d, x) = (diameter_m.max(1e-6), clamp_quality(quality));
    let g = flux_kg_s_m2.abs();
    let held = g.max(SMALL_FLUX);
    let a = alone(g, fluid.rho_l, fluid.mu_l, d);
    let ratio = alone(held, fluid.rho_v, fluid.mu_v, d) / alone(held, fluid.rho_l, fluid.mu_l, d);
    let mu = (fluid.mu_v / fluid.mu_l).min(0.999);
    let homogeneous = 1.0 / (x / fluid.rho_v + (1.0 - x) / fluid.rho_l);
    let froude = held * held / (GRAVITY * d * homogeneous * homogeneous);
    let weber = held * held * d / (fluid.sigma * homogeneous);
    let e = (1.0 - x) * (1.0 - x) + x * x * ratio;
    let f = power(x, 0.78) * power(1.0 - x, 0.224);
    let h = power(fluid.rho_l / fluid.rho_v, 0.91) * power(mu, 0.19) * power(1.0 - mu, 0.7);
    a * (e + 3.24 * f * h / (power(froude, 0.0454) * power(weber, 0.035))) * flux_kg_s_m2.signum()
}

#[cfg(test)]
mod tests {
    use super::super::fluid::tests::{absurd, at_5c};
    use super::super::testing::{grid, largest_jump, near};
    use super::*;

    /// Computed with the open library fluids 1.3.1.
    #[test]
    fn the_printed_factors() {
        for (re, want) in
            [(500.0, 0.1280), (2000.0, 0.032_04), (4000.0, 0.040_59), (1e4, 0.031_00), (1e5, 0.017_87)]
        {
            near(&format!("Churchill {re}"), churchill(re, 0.0), want, 1e-3);
        }
        near("Churchill, rough", churchill(1e5, 1e-4), 0.018_46, 1e-3);
        near("Blasius", blasius(4000.0), 0.039_79, 1e-3);
        near("Blasius", blasius(1e4), 0.031_64, 1e-3);
        near("the seam at 100", churchill(100.0 - 1e-9, 0.0), churchill(100.0 + 1e-9, 0.0), 1e-9);
    }

    /// The same library: R-134a, 5 °C, G 200, 8 mm, x 0.3/0.5/0.8. The library takes another smooth-tube
    /// factor there (Clamond 2009), hence 2 %.
    #[test]
    fn the_printed_gradients() {
        let f = at_5c();
        for (x, msh, fr) in [(0.3, 1383.0, 1625.0), (0.5, 2230.0, 2406.0), (0.8, 3490.0, 3533.0)] {
            near(
                &format!("Müller-Steinhagen & Heck {x}"),
                muller_steinhagen_heck(&f, 200.0, x, 0.008),
                msh,
                0.02,
            );
            near(&format!("Friedel {x}"), friedel(&f, 200.0, x, 0.008), fr, 0.02);
        }
    }

    #[test]
    fn ends_are_the_single_phases_and_flow_sets_the_sign() {
        let f = at_5c();
        let (liquid, vapour) = (alone(200.0, f.rho_l, f.mu_l, 0.008), alone(200.0, f.rho_v, f.mu_v, 0.008));
        for of in [muller_steinhagen_heck, friedel] {
            near("liquid", of(&f, 200.0, -3.0, 0.008), liquid, 1e-9);
            near("vapour", of(&f, 200.0, 3.0, 0.008), vapour, 1e-9);
            near("backwards", of(&f, -200.0, 0.4, 0.008), -of(&f, 200.0, 0.4, 0.008), 1e-12);
            assert!(of(&f, 1e-9, 0.4, 0.008).abs() < 1e-6 && of(&f, 0.0, 0.4, 0.008) == 0.0);
            let falls = grid(0.0, 600.0, 600).map(|g| of(&f, g, 0.4, 0.008)).collect::<Vec<_>>();
            assert!(falls.windows(2).all(|w| w[1] > w[0]));
            // Steep at both ends, so there by values close by.
            assert!(largest_jump(|x| of(&f, 200.0, x, 0.008), 0.01, 0.99, 20_000) < 2e-3);
            near("near liquid", of(&f, 200.0, 1e-9, 0.008), liquid, 0.01);
            near("near vapour", of(&f, 200.0, 1.0 - 1e-13, 0.008), vapour, 0.01);
        }
    }

    /// Two points of Gauss against two thousand steps.
    #[test]
    fn the_mean_is_a_mean() {
        let f = at_5c();
        let many = grid(0.3, 0.999, 2000).map(|x| muller_steinhagen_heck(&f, 100.0, x, 0.0025)).sum::<f64>()
            / 2001.0;
        near("mean", muller_steinhagen_heck_mean(&f, 100.0, (0.3, 0.999), 0.0025), many, 0.03);
    }

    #[test]
    fn finite_for_absurd_input() {
        for f in absurd() {
            for g in [0.0, -1e4, 1e4] {
                assert!(muller_steinhagen_heck(&f, g, 0.5, 0.0).is_finite(), "{f:?} {g}");
                assert!(friedel(&f, g, 0.5, -1.0).is_finite(), "{f:?} {g}");
            }
        }
        assert!(churchill(0.0, -1.0).is_finite() && churchill(1e300, 9.0) > 0.0);
    }
}
