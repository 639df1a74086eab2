//! Compressor efficiencies and maps from publications.
//!
//! The rigs use Darr & Crawford 1992 (169 cm3 reciprocating, R-134a), whose functions stand in
//! `plant/compressor.rs` and are repeated here for comparison; the others serve as checks and for further rigs.

pub use crate::plant::compressor::{isentropic_efficiency, volumetric_efficiency};

use super::power;

/// Volumetric efficiency of Li 2013 (Applied Thermal Engineering 50:318):
/// eta_v = (c1 + c2 PR^(1/k)) (a1 + a2 w + a3 w^2), w = speed over the reference speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiVolumetric {
    /// Reference speed [rev/min].
    pub reference_rpm: f64,
    /// c1, c2: the pressure ratio.
    pub clearance: (f64, f64),
    /// a1, a2, a3: the speed.
    pub speed: (f64, f64, f64),
}

impl LiVolumetric {
    /// 170 cm3 reciprocating, R-134a, as read in an open re-implementation (AixLib).
    pub const RECIPROCATING_170: Self =
        Self { reference_rpm: 2000.0, clearance: (0.779, -0.036), speed: (1.223, -0.206, -0.017) };
    /// 54.24 cm3 scroll, R-134a, from the same place.
    pub const SCROLL_54: Self =
        Self { reference_rpm: 3000.0, clearance: (1.047, -0.051), speed: (0.693, 0.543, -0.236) };

    /// Efficiency at a speed [rev/min], pressure ratio and isentropic exponent. Stated for 1800 to 7200 rev/min
    /// (30 to 120 1/s) and pressure ratios 4 to 12; held between 0 and 1. Continuous, C1 inside the bounds.
    pub fn efficiency(&self, rpm: f64, pressure_ratio: f64, exponent: f64) -> f64 {
        let w = (rpm / self.reference_rpm).clamp(0.0, 10.0);
        let ratio = pressure_ratio.clamp(1.0, 1e3);
        let (c1, c2) = self.clearance;
        let (a1, a2, a3) = self.speed;
        let by_ratio = (c1 + c2 * power(ratio, 1.0 / exponent.max(0.5))).max(0.0);
        (by_ratio * (a1 + a2 * w + a3 * w * w).max(0.0)).min(1.0)
    }
}

/// Volumetric efficiency by re-expansion from the clearance volume alone, 1 + C - C PR^(1/n): textbook, from
/// memory. An upper bound: no leakage, no heating, no valve losses. Held at 0 and above; C1 above.
pub fn clearance_efficiency(clearance: f64, pressure_ratio: f64, exponent: f64) -> f64 {
    let c = clearance.clamp(0.0, 1.0);
    (1.0 + c - c * power(pressure_ratio.clamp(1.0, 1e6), 1.0 / exponent.max(0.5))).max(0.0)
}

/// A ten-coefficient map in the form of the standard AHRI 540: one quantity (mass flow, power, capacity, current)
/// by the dew points of suction S and discharge D, in the units its maker gave the coefficients for:
/// C1 + C2 S + C3 D + C4 S^2 + C5 S D + C6 D^2 + C7 S^3 + C8 D S^2 + C9 S D^2 + C10 D^3.
///
/// Within the maker's envelope the regression's uncertainty is up to 4 % in mass flow and 5 % in power; cubics run
/// away beyond it (Cheung, Sarfraz & Bach 2017), so [`Self::at`] holds both temperatures inside the envelope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TenCoefficients {
    /// C1 to C10.
    pub c: [f64; 10],
    /// Least and most suction dew point.
    pub suction: (f64, f64),
    /// Least and most discharge dew point.
    pub discharge: (f64, f64),
}

/// Held between two bounds given in either order.
fn held(value: f64, (a, b): (f64, f64)) -> f64 {
    value.max(a.min(b)).min(a.max(b))
}

impl TenCoefficients {
    /// The mapped quantity. Continuous; C1 inside the envelope.
    pub fn at(&self, suction_dew: f64, discharge_dew: f64) -> f64 {
        let (s, d) = (held(suction_dew, self.suction), held(discharge_dew, self.discharge));
        let c = &self.c;
        c[0] + s * (c[1] + s * (c[3] + s * c[6]))
            + d * (c[2] + d * (c[5] + d * c[9]))
            + s * d * (c[4] + c[7] * s + c[8] * d)
    }
    /// Within the maker's envelope.
    pub fn in_range(&self, suction_dew: f64, discharge_dew: f64) -> bool {
        held(suction_dew, self.suction) == suction_dew && held(discharge_dew, self.discharge) == discharge_dew
    }
}

/// Share of the gain in suction density that reaches mass flow.
pub const DABIRI_RICE: f64 = 0.75;

/// Mass flow at another suction superheat than the map's: Dabiri & Rice 1981 (ASHRAE Transactions 87(2)),
/// m = m_map (1 + 0.75 (rho/rho_map - 1)); from memory. Not below 0; C1 above.
pub fn superheat_corrected(mass_map_kg_s: f64, rho_kg_m3: f64, rho_map_kg_m3: f64) -> f64 {
    let ratio = (rho_kg_m3 / rho_map_kg_m3.max(1e-6)).clamp(0.0, 1e3);
    mass_map_kg_s * (1.0 + DABIRI_RICE * (ratio - 1.0)).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::super::testing::{grid, near};
    use super::*;

    /// Computed from the formula of Darr & Crawford, ACRC TR-14 (1992), as coded in AixLib, with suction and isentropic
    /// discharge density of CoolProp 8.0.0 at 10 K superheat.
    #[test]
    fn darr_and_crawford_as_printed() {
        let (cold, mild) = ((13.729_744, 59.592_303), (16.282_763, 68.093_859));
        let (warm, frost) = ((19.198_087, 77.623_762), (11.503_519, 52.011_848));
        for ((rho, rho_2s), rpm, at_3, at_5, isentropic) in [
            (cold, 1000.0, 0.710, 0.657, 0.663),
            (cold, 2000.0, 0.619, 0.573, 0.614),
            (cold, 4000.0, 0.439, 0.406, 0.517),
            (mild, 800.0, 0.732, 0.680, 0.693),
            (mild, 1000.0, 0.713, 0.663, 0.683),
            (mild, 2000.0, 0.623, 0.579, 0.634),
            (mild, 3000.0, 0.532, 0.495, 0.586),
            (warm, 1000.0, 0.717, 0.669, 0.700),
            (frost, 2000.0, 0.616, 0.567, 0.589),
        ] {
            assert!((volumetric_efficiency(rpm, 0.03, rho_2s / rho) - at_3).abs() < 1e-3, "{rpm} {rho}");
            assert!((volumetric_efficiency(rpm, 0.05, rho_2s / rho) - at_5).abs() < 1e-3, "{rpm} {rho}");
            assert!((isentropic_efficiency(rpm, rho) - isentropic).abs() < 1e-3, "{rpm} {rho}");
        }
    }

    /// Computed from the formula of Li, Appl. Therm. Eng. 50 (2013) 318-326, as coded in AixLib, k = 1.1: two independent sets of data within 0.06 of each other.
    #[test]
    fn li_as_printed_and_beside_darr_and_crawford() {
        let li = LiVolumetric::RECIPROCATING_170;
        for (ratio, want) in [(4.0, [0.728, 0.652, 0.571]), (6.0, [0.664, 0.595, 0.521])] {
            for (rpm, want) in [1000.0, 2000.0, 3000.0].iter().zip(want) {
                assert!((li.efficiency(*rpm, ratio, 1.1) - want).abs() < 1e-3, "{ratio} {rpm}");
            }
        }
        for rpm in [1000.0, 2000.0, 3000.0] {
            let darr = volumetric_efficiency(rpm, 0.03, 68.093_859 / 16.282_763);
            assert!((li.efficiency(rpm, 4.266, 1.1) - darr).abs() < 0.06, "{rpm}");
        }
        // The scroll at its reference speed and ratio 4, by hand: (1.047 - 0.051 * 3.5264) * 1.000.
        near("scroll", LiVolumetric::SCROLL_54.efficiency(3000.0, 4.0, 1.1), 0.8672, 1e-3);
    }

    #[test]
    fn efficiencies_fall_with_pressure_ratio_and_stay_in_bounds() {
        let of: [fn(f64) -> f64; 3] = [
            |r| LiVolumetric::RECIPROCATING_170.efficiency(2000.0, r, 1.1),
            |r| LiVolumetric::SCROLL_54.efficiency(3000.0, r, 1.1),
            |r| clearance_efficiency(0.05, r, 1.1),
        ];
        for f in of {
            let falls: Vec<f64> = grid(1.0, 10.0, 100).map(f).collect();
            assert!(falls.windows(2).all(|w| w[1] < w[0]));
            assert!([-1e9, 0.0, 1e9].iter().all(|r| (0.0..=1.0).contains(&f(*r))));
        }
        assert_eq!(clearance_efficiency(0.05, 1.0, 1.1), 1.0);
        near("by hand, 1.05 - 0.05 * 4^(1/1.1)", clearance_efficiency(0.05, 4.0, 1.1), 0.8737, 1e-3);
        assert!(LiVolumetric::RECIPROCATING_170.efficiency(1e9, 4.0, 0.0) == 0.0);
    }

    /// Each coefficient alone multiplies its own term, in the order of the standard.
    #[test]
    fn ten_coefficients_in_their_order() {
        let (s, d) = (2.0, 3.0);
        let terms = [1.0, s, d, s * s, s * d, d * d, s * s * s, d * s * s, s * d * d, d * d * d];
        for (i, want) in terms.iter().enumerate() {
            let mut map = TenCoefficients { c: [0.0; 10], suction: (-30.0, 20.0), discharge: (70.0, -10.0) };
            map.c[i] = 1.0;
            assert_eq!(map.at(s, d), *want, "C{}", i + 1);
            assert_eq!(map.at(50.0, d), map.at(20.0, d), "held outside");
            assert!(map.in_range(s, d) && !map.in_range(50.0, d) && !map.in_range(s, 71.0));
        }
    }

    #[test]
    fn denser_suction_gas_moves_three_quarters_more() {
        near("10 % denser", superheat_corrected(0.02, 17.6, 16.0), 0.0215, 1e-9);
        assert_eq!(superheat_corrected(0.02, 16.0, 16.0), 0.02);
        assert!(superheat_corrected(0.02, 0.0, 0.0) >= 0.0);
    }
}
