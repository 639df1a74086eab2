//! Psychrometrics: moist air as an ideal mixture of dry air and water vapour, with the small real-gas
//! correction at saturation. Temperatures in kelvin, pressures in pascal absolute, humidity ratios in kg of
//! water per kg of dry air, everything else per kg of dry air.
//!
//! Saturation pressures follow Hyland & Wexler (ASHRAE Trans. 89(2A), 1983) as printed in ASHRAE
//! Fundamentals ch. 1; the coefficients are from memory and are checked against published tables below.
//! No function panics; what is not a number comes back as not a number.

pub(crate) mod published;

pub use crate::constants::R_DRY_AIR;
use crate::constants::{ATMOSPHERE_PA, ZERO_C_K};

/// Molar mass of water over that of dry air (ASHRAE Fundamentals ch. 1, from memory).
pub const MASS_RATIO: f64 = 0.621_945;
/// Heat capacity of dry air in the enthalpy formula [J/(kg K)].
pub const CP_DRY_AIR: f64 = 1006.0;
/// Heat capacity of water vapour in the enthalpy formula [J/(kg K)].
pub const CP_VAPOUR: f64 = 1860.0;
/// Enthalpy of water vapour at 0 °C [J/kg].
pub const H_VAPOUR_0C: f64 = 2_501_000.0;

/// Lowest temperature of the saturation equations [K].
const T_MIN_K: f64 = 173.15;
/// Highest temperature of the saturation equations [K].
const T_MAX_K: f64 = 473.15;

/// Natural logarithm of the saturation pressure [Pa], and its slope by temperature [1/K].
fn ln_saturation(t_k: f64) -> (f64, f64) {
    let t = t_k.clamp(T_MIN_K, T_MAX_K);
    let ln_t = libm::log(t);
    if t < ZERO_C_K {
        let value = -5.674_535_9e3 / t + 6.392_524_7 - 9.677_843e-3 * t
            + (6.221_570_1e-7 + (2.074_782_5e-9 - 9.484_024e-13 * t) * t) * t * t
            + 4.163_501_9 * ln_t;
        let slope = 5.674_535_9e3 / (t * t) - 9.677_843e-3
            + (2.0 * 6.221_570_1e-7 + (3.0 * 2.074_782_5e-9 - 4.0 * 9.484_024e-13 * t) * t) * t
            + 4.163_501_9 / t;
        (value, slope)
    } else {
        let value = -5.800_220_6e3 / t + 1.391_499_3 - 4.864_023_9e-2 * t
            + (4.176_476_8e-5 - 1.445_209_3e-8 * t) * t * t
            + 6.545_967_3 * ln_t;
        let slope = 5.800_220_6e3 / (t * t) - 4.864_023_9e-2
            + (2.0 * 4.176_476_8e-5 - 3.0 * 1.445_209_3e-8 * t) * t
            + 6.545_967_3 / t;
        (value, slope)
    }
}

/// Saturation pressure of water [Pa], over ice below 0 °C and over water above it. Temperature [K] is held
/// within -100 to 200 °C, the range of the equations.
pub fn saturation_pressure_pa(t_k: f64) -> f64 {
    libm::exp(ln_saturation(t_k).0)
}

/// Slope of [`saturation_pressure_pa`] by temperature [Pa/K].
pub fn saturation_pressure_slope(t_k: f64) -> f64 {
    let (ln_p, slope) = ln_saturation(t_k);
    libm::exp(ln_p) * slope
}

/// Enhancement factor: how much more vapour saturated air holds than the ideal mixture says. One constant
/// fitted to the real-gas column of the table below (-20 to 40 °C; off by at most 0.0007 there) and made
/// proportional to pressure.
fn enhancement(p_pa: f64) -> f64 {
    1.0 + 4.4e-8 * p_pa.clamp(0.0, 5.0e5)
}

/// Humidity ratio from the partial pressure of vapour. The vapour is held to 95 % of the total, since the
/// ratio has no bound when hot water boils the air away.
fn ratio_from_partial(vapour_pa: f64, p_pa: f64) -> f64 {
    let vapour = vapour_pa.clamp(0.0, 0.95 * p_pa.max(1.0));
    MASS_RATIO * vapour / (p_pa.max(1.0) - vapour)
}

/// Partial pressure of vapour [Pa] at a humidity ratio and a total pressure [Pa].
pub fn vapour_pressure_pa(w: f64, p_pa: f64) -> f64 {
    let w = w.max(0.0);
    p_pa * w / (MASS_RATIO + w)
}

/// Humidity ratio [kg/kg] of saturated air at a temperature [K] and a total pressure [Pa].
pub fn saturated_humidity_ratio(t_k: f64, p_pa: f64) -> f64 {
    ratio_from_partial(enhancement(p_pa) * saturation_pressure_pa(t_k), p_pa)
}

/// [`saturated_humidity_ratio`] and its slope by temperature [1/K] at the price of one.
pub fn saturated_with_slope(t_k: f64, p_pa: f64) -> (f64, f64) {
    let (ln_p, slope) = ln_saturation(t_k);
    let p = p_pa.max(1.0);
    let vapour = enhancement(p_pa) * libm::exp(ln_p);
    if vapour >= 0.95 * p {
        return (ratio_from_partial(vapour, p_pa), 0.0);
    }
    let dry = p - vapour;
    (MASS_RATIO * vapour / dry, MASS_RATIO * p * vapour * slope / (dry * dry))
}

/// Slope of [`saturated_humidity_ratio`] by temperature [1/K]; zero where the ratio is held.
pub fn saturated_humidity_ratio_slope(t_k: f64, p_pa: f64) -> f64 {
    saturated_with_slope(t_k, p_pa).1
}

/// Humidity ratio [kg/kg] of air at a temperature [K], a relative humidity (0 to 1) and a pressure [Pa].
pub fn humidity_ratio(t_k: f64, relative_humidity: f64, p_pa: f64) -> f64 {
    let rh = relative_humidity.clamp(0.0, 1.0);
    ratio_from_partial(rh * enhancement(p_pa) * saturation_pressure_pa(t_k), p_pa)
}

/// Relative humidity (1 when saturated, more in fog) of air at a temperature [K], a humidity ratio and a
/// pressure [Pa].
pub fn relative_humidity(t_k: f64, w: f64, p_pa: f64) -> f64 {
    vapour_pressure_pa(w, p_pa) / (enhancement(p_pa) * saturation_pressure_pa(t_k))
}

/// Enthalpy [J per kg dry air], zero for dry air at 0 °C: `1.006 t + w (2501 + 1.86 t)` in kJ and °C.
pub fn enthalpy(t_k: f64, w: f64) -> f64 {
    let t_c = t_k - ZERO_C_K;
    CP_DRY_AIR * t_c + w * (H_VAPOUR_0C + CP_VAPOUR * t_c)
}

/// Temperature [K] of air with a given enthalpy [J per kg dry air] and humidity ratio.
pub fn temperature_from_enthalpy(h: f64, w: f64) -> f64 {
    let w = w.max(0.0);
    ZERO_C_K + (h - w * H_VAPOUR_0C) / (CP_DRY_AIR + w * CP_VAPOUR)
}

/// Specific volume [m³ per kg dry air] at a temperature [K], a humidity ratio and a pressure [Pa].
pub fn specific_volume(t_k: f64, w: f64, p_pa: f64) -> f64 {
    R_DRY_AIR * t_k * (1.0 + w.max(0.0) / MASS_RATIO) / p_pa.max(1.0)
}

/// Dew point, or frost point below 0 °C [K], of air with a humidity ratio at a pressure [Pa]; within -100
/// to 200 °C. Newton's rule on the logarithm of pressure against 1/T, where the curve is almost straight.
pub fn dew_point_k(w: f64, p_pa: f64) -> f64 {
    let vapour = vapour_pressure_pa(w, p_pa) / enhancement(p_pa);
    if vapour.is_nan() {
        return f64::NAN;
    }
    let goal = libm::log(vapour.max(1e-3));
    let mut t = 283.15;
    for _ in 0..20 {
        let (ln_p, slope) = ln_saturation(t);
        let inverse = 1.0 / t - (goal - ln_p) / (slope * t * t);
        let next = (1.0 / inverse.clamp(1.0 / T_MAX_K, 1.0 / T_MIN_K)).clamp(T_MIN_K, T_MAX_K);
        let step = next - t;
        t = next;
        if step.abs() < 1e-9 {
            break;
        }
    }
    t
}

/// Thermodynamic wet bulb [K] of air at a temperature [K], a humidity ratio and a pressure [Pa]: the ratio that air
/// saturated there leaves to it falls short of its own by what cooling it takes (ASHRAE Fundamentals ch. 1, from memory,
/// over water above 0 °C and over ice below). Found by halving between 60 K below and the air itself.
pub fn wet_bulb_k(t_k: f64, w: f64, p_pa: f64) -> f64 {
    if t_k.is_nan() || w.is_nan() || p_pa.is_nan() {
        return f64::NAN;
    }
    let t_c = t_k - ZERO_C_K;
    // Humidity ratio that goes with a wet bulb, in units of kJ and °C.
    let ratio = |bulb_k: f64| {
        let (bulb, saturated) = (bulb_k - ZERO_C_K, saturated_humidity_ratio(bulb_k, p_pa));
        let (latent, taken) = if bulb >= 0.0 {
            (2501.0 - 2.326 * bulb, 2501.0 + 1.86 * t_c - 4.186 * bulb)
        } else {
            (2830.0 - 0.24 * bulb, 2830.0 + 1.86 * t_c - 2.1 * bulb)
        };
        (latent * saturated - 1.006 * (t_c - bulb)) / taken
    };
    let (mut low, mut high) = (t_k - 60.0, t_k);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if ratio(middle) < w {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// Pressure of the US Standard Atmosphere 1976 [Pa] at a height above the sea [m], within its lowest layer: held
/// between 5 km below and 11 km above sea level.
pub fn standard_atmosphere_pa(altitude_m: f64) -> f64 {
    let height = altitude_m.clamp(-5_000.0, 11_000.0);
    ATMOSPHERE_PA * libm::pow(1.0 - 0.0065 * height / 288.15, 5.255_88)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::constants::FOOT_M;

    const P: f64 = ATMOSPHERE_PA;

    fn near(got: f64, want: f64, share: f64, what: &str) {
        assert!((got - want).abs() <= share * want.abs(), "{what}: got {got}, want {want}");
    }

    /// Pressures after Hyland & Wexler (ASHRAE Trans. 89(2A), 1983) and real-gas ratios (CoolProp 8.0.0, HAPropsSI).
    #[test]
    fn saturation_matches_the_tables() {
        for (t_c, pws, w_s) in published::SATURATED {
            let t = t_c + ZERO_C_K;
            near(saturation_pressure_pa(t), pws, 1e-4, "pressure");
            near(saturated_humidity_ratio(t, P), w_s, 1.5e-3, "saturated ratio");
        }
    }

    /// CoolProp 8.0.0, HAPropsSI (ASHRAE RP-1485): T, RH, W, dew point, h, v.
    #[test]
    fn moist_air_matches_the_tables() {
        for (t_c, rh_pct, w, dew_c, h_kj, v) in published::MOIST {
            let (t, rh) = (t_c + ZERO_C_K, rh_pct / 100.0);
            let got = humidity_ratio(t, rh, P);
            near(got, w, 1.5e-3, "ratio");
            near(enthalpy(t, got), h_kj * 1e3, 1e-3, "enthalpy");
            near(specific_volume(t, got, P), v, 1e-3, "volume");
            near(relative_humidity(t, got, P), rh, 1e-12, "relative humidity");
            near(temperature_from_enthalpy(enthalpy(t, got), got), t, 1e-12, "temperature");
            assert!((dew_point_k(got, P) - ZERO_C_K - dew_c).abs() < 0.02, "dew point at {t_c} °C");
        }
        let high = humidity_ratio(27.0 + ZERO_C_K, 0.5, 83_437.0);
        near(high, 0.013_641, 1e-3, "ratio at altitude");
        near(specific_volume(27.0 + ZERO_C_K, high, 83_437.0), 1.0549, 1e-3, "volume at altitude");
    }

    /// CoolProp 8.0.0, HAPropsSI (ASHRAE RP-1485): T, RH and wet bulb.
    #[test]
    fn wet_bulbs_match_the_tables() {
        let rows = [
            (20.0, 0.5, 13.78),
            (25.0, 0.5, 17.88),
            (26.7, 0.5, 19.28),
            (27.0, 0.5, 19.53),
            (30.0, 0.5, 22.00),
            (35.0, 0.4, 23.93),
            (35.0, 0.5, 26.14),
            (37.8, 0.4, 26.11),
            (40.0, 0.4, 27.83),
            (45.0, 0.2, 25.20),
            (50.0, 0.1, 23.76),
        ];
        for (t_c, rh, wet_c) in rows {
            let t = t_c + ZERO_C_K;
            let got = wet_bulb_k(t, humidity_ratio(t, rh, P), P) - ZERO_C_K;
            assert!((got - wet_c).abs() < 0.1, "wet bulb at {t_c} °C, {rh}: {got}, want {wet_c}");
        }
        let saturated = wet_bulb_k(280.0, saturated_humidity_ratio(280.0, P), P);
        assert!((saturated - 280.0).abs() < 1e-6, "{saturated}");
        assert!(wet_bulb_k(f64::NAN, 0.01, P).is_nan() && wet_bulb_k(300.0, -1.0, P).is_finite());
    }

    /// Formula of the US Standard Atmosphere 1976.
    #[test]
    fn pressure_falls_with_height() {
        for (feet, pa) in [(0.0, 101_325.0), (5_000.0, 84_307.0), (10_000.0, 69_682.0)] {
            near(standard_atmosphere_pa(feet * FOOT_M), pa, 1e-4, "standard atmosphere");
        }
        assert!(standard_atmosphere_pa(1e9) > 2e4 && standard_atmosphere_pa(f64::NAN).is_nan());
    }

    #[test]
    fn slopes_and_dew_point_are_consistent() {
        for step in 0..70 {
            let t = 240.02 + f64::from(step);
            let d = 1e-3;
            let by_difference = (saturation_pressure_pa(t + d) - saturation_pressure_pa(t - d)) / (2.0 * d);
            near(saturation_pressure_slope(t), by_difference, 1e-5, "pressure slope");
            let w = (saturated_humidity_ratio(t + d, P) - saturated_humidity_ratio(t - d, P)) / (2.0 * d);
            near(saturated_humidity_ratio_slope(t, P), w, 1e-5, "ratio slope");
            near(dew_point_k(saturated_humidity_ratio(t, P), P), t, 1e-5, "dew point");
        }
    }

    #[test]
    fn strange_inputs_do_no_harm() {
        let strange = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -1.0, 1e300];
        for a in strange {
            for b in strange {
                for c in [P, 0.0, -5.0, f64::NAN, f64::INFINITY] {
                    let _ = (humidity_ratio(a, b, c), relative_humidity(a, b, c), specific_volume(a, b, c));
                    let _ = (dew_point_k(a, c), saturated_humidity_ratio_slope(a, c), enthalpy(a, b));
                }
            }
        }
        assert!(saturated_humidity_ratio(450.0, P).is_finite());
        assert!(dew_point_k(0.0, P) >= T_MIN_K);
    }
}
