//! Superheated vapour: deviations from the dew state over (ln p, enthalpy above the dew).
//!
//! Temperature and pressure-times-volume are tabulated; the latter is nearly R*T, so one table reaches from
//! the deepest vacuum to near the critical point, and below the table the vapour is an ideal gas by itself.

use super::grid::Grid;
use super::saturation::Saturation;
use super::state::{Phase, State};

/// The state at enthalpy `h` >= `sat.h_v`; beyond `limit` [J/kg] of superheat, properties go straight on.
#[inline]
pub(super) fn state(grid: &Grid, limit: f64, sat: &Saturation, h: f64) -> State {
    let above = h - sat.h_v;
    let d = grid.at_or_straight_on(sat.table_ln_p, above, limit);
    // Change with ln p at constant h: the table's own, and the dew point moving away below.
    let along = |k: usize| d.fx[k] * sat.table_slope - d.fq[k] * sat.dh_v_dlnp;
    // The volume beyond the dew's is that of a gas even above the table, where the dew itself hardly yields.
    let per_p = 1.0 / sat.p_pa;
    let rho = 1.0 / (sat.v_v + d.f[1] * per_p);
    let dv_dlnp = sat.dv_v + (along(1) - d.f[1]) * per_p;
    State {
        phase: Phase::Vapour,
        t_k: sat.t_k + d.f[0],
        rho_kg_m3: rho,
        s_j_per_kg_k: sat.s_v + d.f[2],
        x: f64::NAN,
        dt_dlnp: sat.dt_dlnp + along(0),
        dt_dh: d.fq[0],
        drho_dlnp: -rho * rho * dv_dlnp,
        drho_dh: -rho * rho * d.fq[1] * per_p,
        valid: sat.valid && above <= limit,
    }
}
