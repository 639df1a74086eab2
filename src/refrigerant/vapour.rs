//! Superheated vapour: deviations from the dew state over (ln p, enthalpy above the dew).
//!
//! Temperature and pressure-times-volume are tabulated; the latter is nearly R*T, so one table reaches from
//! the deepest vacuum to near the critical point, and below the table the vapour is an ideal gas by itself.

use super::grid::Grid;
use super::saturation::Saturation;
use super::state::{Phase, State};

/// The state at enthalpy `h` >= `sat.h_v`; beyond `limit` (J/kg) of superheat, properties go straight on.
#[inline(always)]
pub(super) fn state(grid: &Grid, limit: f64, sat: &Saturation, h: f64) -> State {
    let above = h - sat.h_v;
    let d = grid.at_or_straight_on(&sat.place, above, limit);
    // Change with ln p at constant h: the table's own, and the dew point moving away below.
    let along = |k: usize| d.fx[k] * sat.table_slope - d.fq[k] * sat.dh_v_dlnp;
    // The volume beyond the dew's is that of a gas even above the table, where the dew itself hardly yields.
    let per_p = sat.per_p;
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

#[cfg(test)]
mod tests {
    use super::super::{Phase, Refrigerant};

    /// CoolProp 8.0.0: suction at the pressure of 5 C, superheated by 0, 5, 10, 20 K.
    #[test]
    fn superheated_suction() {
        let r = Refrigerant::r134a();
        let p = r.saturation_p_pa(278.15);
        for (superheat, rho, h) in
            [(0.0, 17.131, 401.49), (5.0, 16.690, 406.07), (10.0, 16.283, 410.62), (20.0, 15.547, 419.68)]
        {
            let t = 278.15 + superheat;
            assert!((r.density_at_pt(p, t, Phase::Vapour) - rho).abs() < 6e-4);
            assert!((r.h_from_pt(p, t, Phase::Vapour) * 1e-3 - h).abs() < 6e-3);
        }
    }
}
