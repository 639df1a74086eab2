//! Liquid and vapour together in equilibrium, taken as one homogeneous mixture.

use super::saturation::Saturation;
use super::state::{Phase, State};

/// The state at enthalpy `h` between `sat.h_l` and `sat.h_v`.
#[inline(always)]
pub(super) fn state(sat: &Saturation, h: f64) -> State {
    let per_h = 1.0 / (sat.h_v - sat.h_l);
    let x = (h - sat.h_l) * per_h;
    let dx_dlnp = -(sat.dh_l_dlnp + x * (sat.dh_v_dlnp - sat.dh_l_dlnp)) * per_h;
    let widening = sat.v_v - sat.v_l;
    let rho = 1.0 / (sat.v_l + x * widening);
    let dv_dlnp = sat.dv_l + x * (sat.dv_v - sat.dv_l) + dx_dlnp * widening;
    State {
        phase: Phase::TwoPhase,
        t_k: sat.t_k,
        rho_kg_m3: rho,
        s_j_per_kg_k: sat.s_l + x * (sat.s_v - sat.s_l),
        x,
        dt_dlnp: sat.dt_dlnp,
        dt_dh: 0.0,
        drho_dlnp: -rho * rho * dv_dlnp,
        drho_dh: -rho * rho * widening * per_h,
        valid: sat.valid,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Phase, Refrigerant};

    /// CoolProp 8.0.0: 0.5 kg in 2 litres has a quality of 0.0905 at 20 C.
    #[test]
    fn quality_of_a_closed_vessel() {
        let r = Refrigerant::r134a();
        let sat = r.saturation(libm::log(r.saturation_p_pa(293.15)));
        let s = r.state_with(&sat, sat.h_l + 0.0905 * (sat.h_v - sat.h_l));
        assert_eq!(s.phase, Phase::TwoPhase);
        assert!((s.x - 0.0905).abs() < 1e-12 && s.dt_dh == 0.0);
        assert!((s.rho_kg_m3 / 250.0 - 1.0).abs() < 1e-3);
    }
}
