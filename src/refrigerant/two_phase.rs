//! Liquid and vapour together in equilibrium, taken as one homogeneous mixture.

use super::saturation::Saturation;
use super::state::{Phase, State};

/// The state at enthalpy `h` between `sat.h_l` and `sat.h_v`.
#[inline]
pub(super) fn state(sat: &Saturation, h: f64) -> State {
    let per_h = 1.0 / (sat.h_v - sat.h_l);
    let x = (h - sat.h_l) * per_h;
    let dx_dlnp = -(sat.dh_l_dlnp + x * (sat.dh_v_dlnp - sat.dh_l_dlnp)) * per_h;
    let (v_l, v_v) = (sat.v_l * sat.liquid_yield, sat.pv_v / sat.p_pa);
    let dv_l = sat.dv_l * sat.liquid_yield + sat.v_l * sat.liquid_yield_slope;
    let dv_v = (sat.dpv_v - sat.pv_v) / sat.p_pa;
    let rho = 1.0 / (v_l + x * (v_v - v_l));
    let dv_dlnp = dv_l + x * (dv_v - dv_l) + dx_dlnp * (v_v - v_l);
    State {
        phase: Phase::TwoPhase,
        t_k: sat.t_k,
        rho_kg_m3: rho,
        s_j_per_kg_k: sat.s_l + x * (sat.s_v - sat.s_l),
        x,
        dt_dlnp: sat.dt_dlnp,
        dt_dh: 0.0,
        drho_dlnp: -rho * rho * dv_dlnp,
        drho_dh: -rho * rho * (v_v - v_l) * per_h,
        valid: sat.valid,
    }
}
