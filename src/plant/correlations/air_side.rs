//! Air over cylinders: bare pipes and hoses in a stream.

use super::power;

/// Churchill & Bernstein 1977 (Journal of Heat Transfer 99:300), Nusselt number of a cylinder in cross flow:
/// 0.3 + 0.62 Re^(1/2) Pr^(1/3) / (1 + (0.4/Pr)^(2/3))^(1/4) (1 + (Re/282000)^(5/8))^(4/5).
///
/// Range Re Pr above 0.2, Re to about 1e7; within 30 %. From memory, cross-checked against the open library ht.
/// Continuous, rises with Re; the slope is unbounded at rest. Properties at film temperature.
pub fn churchill_bernstein(reynolds: f64, prandtl: f64) -> f64 {
    let (re, pr) = (reynolds.abs().min(1e12), prandtl.clamp(1e-3, 1e5));
    let spread = libm::cbrt(0.4 / pr);
    let below = (1.0 + spread * spread).sqrt().sqrt();
    0.3 + 0.62 * re.sqrt() * libm::cbrt(pr) / below * power(1.0 + power(re / 282_000.0, 0.625), 0.8)
}

/// Film of dry air at about 300 K across a pipe [W/(m2 K)]: k 0.0263 W/(m K), nu 1.59e-5 m2/s, Pr 0.707 (textbook
/// values, from memory). As continuous as [`churchill_bernstein`].
pub fn air_across_pipe(velocity_m_s: f64, diameter_m: f64) -> f64 {
    let d = diameter_m.max(1e-4);
    churchill_bernstein(velocity_m_s * d / 1.59e-5, 0.707) * 0.0263 / d
}

#[cfg(test)]
mod tests {
    use super::super::testing::{grid, near};
    use super::*;

    /// Computed with the open library ht 1.2.0, Nu_cylinder_Churchill_Bernstein; the second is its own example.
    /// (What our notes had for the first, 21.98, is the library's value for Sanitjai & Goldstein.)
    #[test]
    fn the_library_value() {
        near("Re 2000, Pr 0.71", churchill_bernstein(2000.0, 0.71), 22.804_85, 1e-5);
        near("Re 6071, Pr 0.7", churchill_bernstein(6071.0, 0.7), 40.637_08, 1e-5);
    }

    #[test]
    fn rises_from_conduction_and_stays_finite() {
        assert_eq!(churchill_bernstein(0.0, 0.71), 0.3);
        let rises: Vec<f64> = grid(0.0, 1e6, 1000).map(|re| churchill_bernstein(re, 0.71)).collect();
        assert!(rises.windows(2).all(|w| w[1] > w[0]));
        assert!(
            churchill_bernstein(f64::INFINITY, -1.0).is_finite() && air_across_pipe(-1e9, 0.0).is_finite()
        );
    }

    /// A suction line of 16 mm in 2 m/s of engine-bay air: some tens of W/(m2 K), textbook order.
    #[test]
    fn a_pipe_in_a_breeze() {
        let h = air_across_pipe(2.0, 0.016);
        assert!((25.0..60.0).contains(&h), "{h}");
    }
}
