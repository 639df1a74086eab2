//! Films of liquid or vapour alone in a channel.

use super::power;

/// Nusselt number of developed laminar flow at even heat flux in a round tube (exact solution, textbook).
pub const LAMINAR: f64 = 4.364;
/// Reynolds numbers between which laminar flow gives way to turbulent, as Gnielinski 1995 has them.
const TRANSITION: (f64, f64) = (2300.0, 1e4);

/// Does the fluid take heat from the wall or give it?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exchange {
    /// The wall heats the fluid.
    Heating,
    /// The wall cools the fluid.
    Cooling,
}

/// Dittus & Boelter 1930, in the form of McAdams: Nu = 0.023 Re^0.8 Pr^n, n = 0.4 heating, 0.3 cooling.
///
/// Range Re > 10 000, Pr 0.7 to 160, L/D > 10. From memory, cross-checked against the open library ht. Used
/// below its range as the base of two-phase methods, which were fitted with it so. Continuous, C1 for Re > 0.
pub fn dittus_boelter(reynolds: f64, prandtl: f64, exchange: Exchange) -> f64 {
    let n = if exchange == Exchange::Heating { 0.4 } else { 0.3 };
    0.023 * power(reynolds, 0.8) * power(prandtl, n)
}

/// Gnielinski 1976 with the smooth-tube friction factor of Petukhov 1970:
/// Nu = (f/8) (Re - 1000) Pr / (1 + 12.7 (f/8)^0.5 (Pr^(2/3) - 1)), f = (0.79 ln Re - 1.64)^-2.
///
/// Range Re 2300 to 5e6, Pr 0.5 to 2000. From memory, cross-checked against the open library ht (which takes the
/// friction factor as an argument). C1; held at Re = 2300 below.
pub fn gnielinski(reynolds: f64, prandtl: f64) -> f64 {
    let re = reynolds.max(TRANSITION.0).min(1e12);
    let root = 1.0 / (0.79 * libm::log(re) - 1.64);
    gnielinski_with(re, prandtl, root * root)
}

/// Gnielinski 1976 with a friction factor of the caller's (Darcy).
pub fn gnielinski_with(reynolds: f64, prandtl: f64, friction: f64) -> f64 {
    let (f8, pr) = (friction.max(0.0) / 8.0, prandtl.clamp(1e-3, 1e5));
    let c = libm::cbrt(pr);
    // The bracket stays positive: 12.7 sqrt(f/8) is at most about 1 in smooth tubes; the floor is for absurd input.
    let below = (1.0 + 12.7 * f8.sqrt() * (c * c - 1.0)).max(0.1);
    f8 * (reynolds - 1000.0).max(0.0) * pr / below
}

/// Nusselt number of a channel at any Reynolds number: laminar below 2300, Gnielinski above 10 000, between them a
/// straight line in Re from one to the other: Gnielinski 1995 (Forschung im Ingenieurwesen 61:240; VDI Heat Atlas,
/// section G1; from memory).
///
/// His later line (International Journal of Heat and Mass Transfer, 2013, from memory) ends at 4000 already; between
/// Re 3000 and 10 000 it lies up to 70 % higher. The wider one is taken because the many ports of a coil never turn
/// at the same flow, and because a coil must not switch between two states there. Developed flow: the entry of a
/// pass of some hundred diameters would add 10 to 20 % below Re 2300. Continuous with corners at 2300 and 10 000;
/// rises with Re.
pub fn nusselt(reynolds: f64, prandtl: f64) -> f64 {
    let re = reynolds.abs();
    if re <= TRANSITION.0 {
        return LAMINAR;
    }
    if re >= TRANSITION.1 {
        return gnielinski(re, prandtl).max(LAMINAR);
    }
    let end = gnielinski(TRANSITION.1, prandtl).max(LAMINAR);
    LAMINAR + (end - LAMINAR) * (re - TRANSITION.0) / (TRANSITION.1 - TRANSITION.0)
}

#[cfg(test)]
mod tests {
    use super::super::testing::{grid, largest_jump, near};
    use super::*;

    /// Computed with the open library ht 1.2.0: Re 1e4, Pr 3.5.
    #[test]
    fn the_printed_values() {
        near("Dittus-Boelter heating", dittus_boelter(1e4, 3.5, Exchange::Heating), 60.17, 5e-4);
        near("Dittus-Boelter cooling", dittus_boelter(1e4, 3.5, Exchange::Cooling), 53.08, 5e-4);
        // The printed 59.90 holds with the friction factor of Churchill; Petukhov's own is 1.3 % higher there.
        near(
            "Gnielinski",
            gnielinski_with(1e4, 3.5, super::super::friction::churchill(1e4, 0.0)),
            59.90,
            1e-2,
        );
        near("Gnielinski with Petukhov", gnielinski(1e4, 3.5), 59.90, 2e-2);
        // The example in the text of the open library ht 1.2.0 for turbulent_Gnielinski.
        near("example", gnielinski_with(1e5, 1.2, 0.0185), 254.626_827, 1e-6);
    }

    #[test]
    fn one_curve_from_rest_to_turbulence() {
        for pr in [0.7, 0.95, 3.5, 10.0] {
            let values: Vec<f64> = grid(0.0, 2e4, 4000).map(|re| nusselt(re, pr)).collect();
            assert!(values.windows(2).all(|w| w[1] >= w[0]), "falls somewhere at Pr {pr}");
            assert!(values[4000] > 5.0 * values[0]);
            assert!(largest_jump(|re| nusselt(re, pr), 0.0, 2e4, 4000) < 2e-3);
        }
        // The straight line of 1995 at a Reynolds number of 6150, half way.
        near("half way", nusselt(6150.0, 3.5), 0.5 * (LAMINAR + gnielinski(1e4, 3.5)), 1e-12);
    }

    #[test]
    fn finite_for_absurd_input() {
        for re in [-1e9, 0.0, 1e-300, 1e300, f64::INFINITY] {
            for pr in [-1.0, 0.0, 1e-12, 1e12] {
                assert!(gnielinski(re, pr).is_finite(), "{re} {pr}");
                assert!(nusselt(re.min(1e12), pr) >= LAMINAR, "{re} {pr}");
            }
        }
    }
}
