//! Inverse look-ups: from temperature or entropy back to pressure, enthalpy and density.

use super::state::{Phase, State};
use super::{Refrigerant, Saturation};

/// Newton steps allowed on an isobar; three or four are usual, since T(h) and s(h) are nearly straight there.
const STEPS: usize = 30;

impl Refrigerant {
    /// Saturation pressure at `t_k` (Pa): the exact inverse of the saturation temperature. Beyond the table
    /// it goes on exponentially.
    pub fn saturation_p_pa(&self, t_k: f64) -> f64 {
        libm::exp(self.table.saturation.ln_p_at(t_k).0)
    }

    /// Slope of the saturation pressure, dp/dT at `t_k` (Pa/K).
    pub fn saturation_dp_dt(&self, t_k: f64) -> f64 {
        let (ln_p, slope) = self.table.saturation.ln_p_at(t_k);
        libm::exp(ln_p) * slope
    }

    /// ln of the saturation pressure at `t_k`, and its slope d(ln p)/dT (1/K).
    pub fn saturation_ln_p(&self, t_k: f64) -> (f64, f64) {
        self.table.saturation.ln_p_at(t_k)
    }

    /// Enthalpy (J/kg) of liquid or vapour at a pressure (Pa) and a temperature (K).
    ///
    /// A temperature on the wrong side of saturation (or `Phase::TwoPhase`, where temperature says nothing
    /// about enthalpy) gives the saturated state: vapour colder than the dew point gives `h_v`, anything else
    /// `h_l`.
    pub fn h_from_pt(&self, p_pa: f64, t_k: f64, phase: Phase) -> f64 {
        let sat = self.saturation(libm::log(p_pa.max(f64::MIN_POSITIVE)));
        match phase {
            Phase::Vapour if t_k > sat.t_k => {
                self.on_isobar(&sat, sat.h_v + 900.0 * (t_k - sat.t_k), sat.h_v, 1e9, |s| {
                    (t_k - s.t_k) / s.dt_dh
                })
            }
            Phase::Vapour => sat.h_v,
            Phase::Liquid if t_k < sat.t_k => {
                self.on_isobar(&sat, sat.h_l - 1400.0 * (sat.t_k - t_k), -1e9, sat.h_l, |s| {
                    (t_k - s.t_k) / s.dt_dh
                })
            }
            Phase::Liquid | Phase::TwoPhase => sat.h_l,
        }
    }

    /// Density (kg/m3) of liquid or vapour at a pressure (Pa) and a temperature (K); on the wrong side of
    /// saturation as [`Refrigerant::h_from_pt`].
    pub fn density_at_pt(&self, p_pa: f64, t_k: f64, phase: Phase) -> f64 {
        let h = self.h_from_pt(p_pa, t_k, phase);
        self.state(libm::log(p_pa.max(f64::MIN_POSITIVE)), h).rho_kg_m3
    }

    /// Enthalpy (J/kg) at pressure exp(`ln_p2`) and entropy `s` (J/(kg K)): where an ideal compression ends.
    ///
    /// Inside the dome the answer is exact and `guess_h` (J/kg) unused.
    pub fn isentropic_h(&self, ln_p2: f64, s: f64, guess_h: f64) -> f64 {
        let sat = self.saturation(ln_p2);
        // Along an isobar dh = T ds.
        if s >= sat.s_v {
            self.on_isobar(&sat, guess_h, sat.h_v, 1e9, |at| (s - at.s_j_per_kg_k) * at.t_k)
        } else if s > sat.s_l {
            sat.h_l + (s - sat.s_l) / (sat.s_v - sat.s_l) * (sat.h_v - sat.h_l)
        } else {
            self.on_isobar(&sat, guess_h, -1e9, sat.h_l, |at| (s - at.s_j_per_kg_k) * at.t_k)
        }
    }

    /// Follows `step` along an isobar from `guess`, within the bounds, until it is down to rounding.
    fn on_isobar(
        &self,
        sat: &Saturation,
        guess: f64,
        low: f64,
        high: f64,
        step: impl Fn(&State) -> f64,
    ) -> f64 {
        let mut h = guess.clamp(low, high);
        for _ in 0..STEPS {
            // 200 kJ/kg at most: beyond the table slopes are nearly flat, and a full step would leap away.
            let dh = step(&self.state_with(sat, h)).clamp(-200e3, 200e3);
            let next = (h + dh).clamp(low, high);
            if (next - h).abs() < 1e-7 * (1.0 + 1e-5 * h.abs()) {
                return next;
            }
            h = next;
        }
        h
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Beyond saturation the answer is the saturated state, as promised.
    #[test]
    fn the_wrong_side_gives_the_saturated_state() {
        let r = Refrigerant::r134a();
        let sat = r.saturation(libm::log(1e6));
        assert_eq!(r.h_from_pt(1e6, sat.t_k - 3.0, Phase::Vapour), sat.h_v);
        assert_eq!(r.h_from_pt(1e6, sat.t_k + 3.0, Phase::Liquid), sat.h_l);
        assert_eq!(r.density_at_pt(1e6, sat.t_k + 3.0, Phase::Liquid), sat.rho_l);
    }

    #[test]
    fn entropy_finds_its_enthalpy_in_every_phase() {
        let r = Refrigerant::r134a();
        for h in [150e3, 300e3, 440e3, 520e3] {
            let s = r.state(libm::log(8e5), h).s_j_per_kg_k;
            assert!((r.isentropic_h(libm::log(8e5), s, 400e3) - h).abs() < 1e-3, "{h}");
        }
    }
}
