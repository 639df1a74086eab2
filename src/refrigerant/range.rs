//! Where the numbers hold: the range, the band around the critical point, and the words for being outside.

use std::fmt;

use super::table::RANGE_SLACK_K;
use super::{Refrigerant, State};

/// The critical band: states whose pressure and whose temperature both lie within this share (2 %) of the critical
/// ones. Heat capacity, compressibility and conductivity diverge there, density hangs on the last digit of the
/// temperature, and no table or equation of this kind is to be trusted; such states are always flagged.
///
/// The band meets the upper end of the pressure range, 98 % of the critical pressure, and takes nothing from it.
pub const CRITICAL_BAND: f64 = 0.02;

/// Why a state is not valid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OutOfRange {
    /// Below 1 Pa.
    PressureTooLow,
    /// Above 98 % of the critical pressure, away from the critical point.
    PressureTooHigh,
    /// Inside [`CRITICAL_BAND`].
    CriticalBand,
    /// Colder than -60 C or than the triple point.
    TooCold,
    /// Hotter than 160 C or than the equation of state reaches.
    TooHot,
}

impl OutOfRange {
    /// The word for it in files and reports, such as `critical-band`.
    pub fn word(self) -> &'static str {
        match self {
            Self::PressureTooLow => "below-pressure-range",
            Self::PressureTooHigh => "above-pressure-range",
            Self::CriticalBand => "critical-band",
            Self::TooCold => "below-temperature-range",
            Self::TooHot => "above-temperature-range",
        }
    }
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            Self::PressureTooLow => "below the range: less than 1 Pa",
            Self::PressureTooHigh => "above the range: more than 98 % of the critical pressure",
            Self::CriticalBand => "too near the critical point: within 2 % of its pressure and temperature",
            Self::TooCold => "below the range: colder than -60 C or the triple point",
            Self::TooHot => "above the range: hotter than 160 C or the highest temperature of the equation",
        })
    }
}

impl Refrigerant {
    /// Lowest temperature at which states are valid (K): -60 C, or the triple point where that is higher.
    pub fn valid_from_t_k(&self) -> f64 {
        self.table.facts.valid_t_k[0] + RANGE_SLACK_K
    }

    /// Highest temperature at which states are valid (K): 160 C, or less where the equation of state ends earlier.
    pub fn valid_to_t_k(&self) -> f64 {
        self.table.facts.valid_t_k[1] - RANGE_SLACK_K
    }

    /// Why `state`, which is the state at `ln_p` = ln(p / 1 Pa), is not valid; none when it is.
    pub fn out_of_range(&self, ln_p: f64, state: &State) -> Option<OutOfRange> {
        if state.valid {
            return None;
        }
        let facts = &self.table.facts;
        let p_share = libm::exp(ln_p) / facts.critical_p_pa - 1.0;
        let t_share = state.t_k / facts.critical_t_k - 1.0;
        Some(if ln_p < facts.low {
            OutOfRange::PressureTooLow
        } else if ln_p > facts.high && p_share.abs() <= CRITICAL_BAND && t_share.abs() <= CRITICAL_BAND {
            OutOfRange::CriticalBand
        } else if ln_p > facts.high {
            OutOfRange::PressureTooHigh
        } else if state.t_k < facts.valid_t_k[0] {
            OutOfRange::TooCold
        } else {
            OutOfRange::TooHot
        })
    }

    /// Whether liquid and vapour can stand in equilibrium at `t_k` (K) within the range: false above the temperature of
    /// 98 % of the critical pressure and below that of 1 Pa. Where it is false, saturation pressures at that
    /// temperature are a continuation and not to be shown.
    pub fn saturates_at(&self, t_k: f64) -> bool {
        let line = &self.table.saturation;
        let (ln_p, _) = line.ln_p_at(t_k);
        t_k.is_finite() && ln_p >= line.low && ln_p <= line.high
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_way_out_has_its_reason() {
        for &name in Refrigerant::names() {
            let r = Refrigerant::by_name(name).unwrap();
            let dew = |p: f64| r.saturation(libm::log(p)).h_v;
            let pc = r.critical_p_pa();
            for (p, h, reason) in [
                (0.2 * pc, dew(0.2 * pc) + 10e3, None),
                (0.9 * pc, r.critical_h_j_per_kg(), None),
                (0.9, dew(1.0) + 150e3, Some(OutOfRange::PressureTooLow)),
                (0.99 * pc, r.critical_h_j_per_kg(), Some(OutOfRange::CriticalBand)),
                (1.015 * pc, r.critical_h_j_per_kg(), Some(OutOfRange::CriticalBand)),
                (1.3 * pc, r.critical_h_j_per_kg(), Some(OutOfRange::PressureTooHigh)),
                (0.99 * pc, dew(0.9 * pc) + 50e3, Some(OutOfRange::PressureTooHigh)),
                (
                    0.2 * pc,
                    r.h_from_pt(0.2 * pc, 212.0, super::super::Phase::Liquid),
                    Some(OutOfRange::TooCold),
                ),
                (0.2 * pc, dew(0.2 * pc) + 900e3, Some(OutOfRange::TooHot)),
            ] {
                let state = r.state(libm::log(p), h);
                assert_eq!(
                    r.out_of_range(libm::log(p), &state),
                    reason,
                    "{name}, {p} Pa, {h} J/kg: {state:?}"
                );
            }
        }
    }

    /// CoolProp 8.0.0 (Tillner-Roth & Yokozeki 1997): R-32 is beyond its critical point at 80 C, the others are not.
    #[test]
    fn r32_does_not_saturate_at_80_c() {
        for &name in Refrigerant::names() {
            let r = Refrigerant::by_name(name).unwrap();
            assert_eq!(r.saturates_at(353.15), name != "R-32", "{name}");
            assert!(r.saturates_at(300.0) && !r.saturates_at(f64::NAN) && !r.saturates_at(50.0));
        }
    }
}
