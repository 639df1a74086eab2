//! Subcooled liquid: deviations from the bubble state over (ln p, enthalpy below the bubble line).
//!
//! Temperature and specific volume are tabulated in both coordinates, so the liquid yields to pressure as the
//! equation of state says. Farther below the bubble line than the table reaches, properties come to a halt.

use super::axis::soft_clamp;
use super::grid::Grid;
use super::saturation::Saturation;
use super::state::{Phase, State};

/// Above the table's top the continued rise of temperature fades over this enthalpy (J/kg), so that cold
/// liquid under very high pressure stays cold.
const SHIFT_FADE: f64 = 20e3;

/// The state at enthalpy `h` <= `sat.h_l`; beyond `limit` (J/kg) of subcooling, properties come to a halt.
#[inline(always)]
pub(super) fn state(grid: &Grid, limit: f64, sat: &Saturation, h: f64) -> State {
    let below = sat.h_l - h;
    let (place, bend) = soft_clamp(below, 0.0, 1.0, limit, grid.distance.last() - limit);
    let d = grid.at(&sat.place, place);
    let by_h = |k: usize| -d.fq[k] * bend;
    // Change with ln p at constant h: the table's own, and the bubble point moving away above.
    let along = |k: usize| d.fx[k] * sat.table_slope + d.fq[k] * bend * sat.dh_l_dlnp;

    let rho = 1.0 / (sat.v_l + d.f[1] * sat.yielded);
    let dv_dlnp = sat.dv_l + along(1) * sat.yielded + d.f[1] * sat.yielded_slope;
    let dv_dh = by_h(1) * sat.yielded;

    let mut t_k = sat.t_k + d.f[0];
    let (mut dt_dlnp, mut dt_dh) = (sat.dt_dlnp + along(0), by_h(0));
    if sat.t_shift != 0.0 {
        let fade = 1.0 / (1.0 + below / SHIFT_FADE);
        let fade_slope = -fade * fade / SHIFT_FADE;
        t_k += sat.t_shift * (fade - 1.0);
        dt_dlnp += sat.t_shift_slope * (fade - 1.0) + sat.t_shift * fade_slope * sat.dh_l_dlnp;
        dt_dh -= sat.t_shift * fade_slope;
    }
    State {
        phase: Phase::Liquid,
        t_k,
        rho_kg_m3: rho,
        s_j_per_kg_k: sat.s_l + d.f[2],
        x: f64::NAN,
        dt_dlnp,
        dt_dh,
        drho_dlnp: -rho * rho * dv_dlnp,
        drho_dh: -rho * rho * dv_dh,
        valid: sat.valid && below <= limit,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Phase, Refrigerant};

    /// CoolProp 8.0.0: boiling liquid of 25 C sealed at constant density and warmed by
    /// 1, 2 and 5 K reaches 1307, 1949 and 3879 kPa. A test of compressibility and expansion at once.
    #[test]
    fn sealed_liquid_builds_pressure() {
        let r = Refrigerant::r134a();
        let rho = r.saturation(libm::log(r.saturation_p_pa(298.15))).rho_l;
        for (warmer, p) in [(1.0, 1307e3), (2.0, 1949e3), (5.0, 3879e3)] {
            let sealed = r.density_at_pt(p, 298.15 + warmer, Phase::Liquid);
            // 0.5 kPa of rounding in the reference is 2e-6 of density.
            assert!((sealed / rho - 1.0).abs() < 4e-6, "{warmer} K: {sealed} {rho}");
        }
    }
}
