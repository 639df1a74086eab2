//! The orifice tube: a bore with screens in the liquid line, choked by liquid that flashes inside it.
//!
//! Flow by Payne & O'Neal (`correlations/short_tube.rs`) times the unchoked share, turned into the constant of the
//! common flow law at the present unknowns, with its slopes by both ends from differences.

use serde::{Deserialize, Serialize};

use super::correlations::short_tube::{ShortTube, TubeInlet, unchoked_share};
use super::volume::Node;
use crate::refrigerant::Refrigerant;

/// An orifice tube.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TubeSpec {
    /// Length [m].
    pub length_m: f64,
    /// Bore [m].
    pub bore_m: f64,
}

/// Flow constant and its slopes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct TubeConstant {
    /// `m = flow_m2 sqrt(rho dp)` [m2].
    pub flow_m2: f64,
    /// By u and h of the inlet.
    pub by_inlet: [f64; 2],
    /// By the pressure of air at the inlet [m2/Pa].
    pub per_air_pa: f64,
    /// By the pressure at the outlet [m2/Pa].
    pub per_outlet_pa: f64,
}

/// Differences the slopes are taken over: u, h [J/kg], pressures as a share. That by the outlet is short, since in choked
/// flow it all but cancels the slope of the common flow law; it takes no look at the tables, so it is smooth enough.
const D_U: f64 = 1e-5;
const D_H: f64 = 5.0;
const D_AIR: f64 = 1e-5;
const D_P: f64 = 1e-7;
/// Pressure difference, as a share of the inlet pressure, below which the constant is held: the correlation is for
/// choked flow, and backwards the tube is a plain orifice.
const LEAST_DROP: f64 = 0.02;
/// Most an orifice passes: area times discharge coefficient [share of the bore].
const DISCHARGE: f64 = 0.9;

impl TubeSpec {
    /// Constant of the tube with its bore's area times `bore`, from `inlet` (all at its own pressure `air` above the
    /// refrigerant's) to a place at `outlet_pa`.
    pub fn constant(
        &self,
        refrigerant: &Refrigerant,
        inlet: &Node,
        outlet_pa: f64,
        bore: f64,
    ) -> TubeConstant {
        let u = libm::log(inlet.p_ref);
        let sat = &inlet.sat;
        let h = sat.h_l + inlet.quality.v * (sat.h_v - sat.h_l);
        let air_pa = inlet.p.v - inlet.p_ref;
        let at = |u: f64, h: f64, outlet_pa: f64| self.flow_m2(refrigerant, (u, h, air_pa), outlet_pa) * bore;
        let flow_m2 = at(u, h, outlet_pa);
        let step_pa = D_P * outlet_pa;
        let mut by_inlet =
            [(at(u + D_U, h, outlet_pa) - flow_m2) / D_U, (at(u, h + D_H, outlet_pa) - flow_m2) / D_H];
        let mut per_air_pa = 0.0;
        if air_pa > 0.0 {
            let step_pa = D_AIR * inlet.p.v;
            let more = self.flow_m2(refrigerant, (u, h, air_pa + step_pa), outlet_pa) * bore;
            per_air_pa = (more - flow_m2) / step_pa;
            // The same air presses more where it has less room.
            by_inlet[0] += per_air_pa * (inlet.p.d[0] - inlet.p_ref);
            by_inlet[1] += per_air_pa * inlet.p.d[1];
        }
        TubeConstant {
            flow_m2,
            by_inlet,
            per_air_pa,
            per_outlet_pa: (at(u, h, outlet_pa + step_pa) - flow_m2) / step_pa,
        }
    }

    fn flow_m2(&self, r: &Refrigerant, (u, h, air_pa): (f64, f64, f64), outlet_pa: f64) -> f64 {
        let sat = r.saturation(u);
        let quality = (h - sat.h_l) / (sat.h_v - sat.h_l);
        let p_pa = sat.p_pa + air_pa;
        let (rho_in, p_sat_pa, subcooling_k) = if quality < 0.0 {
            let s = r.state_with(&sat, h);
            (s.rho_kg_m3, r.saturation_p_pa(s.t_k), sat.t_k - s.t_k)
        } else {
            (1.0 / ((1.0 - quality.min(1.0)) / sat.rho_l + quality.min(1.0) / sat.rho_v), sat.p_pa, 0.0)
        };
        let inlet = TubeInlet {
            p_pa,
            p_sat_pa: p_sat_pa.min(p_pa),
            subcooling_k,
            quality,
            rho_l: sat.rho_l,
            rho_v: sat.rho_v,
            rho_in,
            // Not asked for by this method.
            mu: (2e-4, 1.2e-5),
            sigma: 8e-3,
            p_critical_pa: r.critical_p_pa(),
            t_critical_k: r.critical_t_k(),
        };
        let tube = ShortTube { length_m: self.length_m, diameter_m: self.bore_m };
        let least = LEAST_DROP * p_pa;
        let outlet_pa = outlet_pa.min(p_pa - least);
        let share = unchoked_share(p_pa, outlet_pa, inlet.p_sat_pa);
        let mass = tube.payne_oneal(&inlet).mass_kg_s * share;
        let area = 0.25 * std::f64::consts::PI * self.bore_m * self.bore_m;
        let most = std::f64::consts::SQRT_2 * DISCHARGE * area;
        (mass / (rho_in * (p_pa - outlet_pa)).max(1e-9).sqrt()).min(most)
    }
}

#[cfg(test)]
mod tests {
    use super::super::volume::{self, Kind};
    use super::*;

    /// Away from the cap the common flow law with this constant gives the correlation's own flow.
    #[test]
    fn the_constant_gives_the_correlations_flow() {
        let r = Refrigerant::r134a();
        let tube = TubeSpec { length_m: 0.0254, bore_m: 1.45e-3 };
        let u = libm::log(15e5);
        let sat = r.saturation(u);
        for (below, x) in [(8.0, 0.0), (3.0, 0.0), (0.0, 0.05)] {
            let h = if x > 0.0 { sat.h_l + x * (sat.h_v - sat.h_l) } else { sat.h_l - below * 1.55e3 };
            let node = volume::evaluate(r, Kind::Channel, 1e-5, 0.0, u, h);
            let k = tube.constant(r, &node, 3e5, 1.0);
            let rho = if x > 0.0 { 1.0 / ((1.0 - x) / sat.rho_l + x / sat.rho_v) } else { node.rho_out.v };
            let flow = k.flow_m2 * (rho * 12e5).sqrt();
            // Payne & O'Neal's points for such tubes lie between 20 and 60 g/s.
            assert!((0.015..0.07).contains(&flow), "{flow}");
            // Choked: what the law loses with the pressure difference the constant makes up for.
            let by_outlet = k.per_outlet_pa / k.flow_m2 - 0.5 / 12e5;
            assert!(by_outlet.abs() < 0.02 * 0.5 / 12e5, "{by_outlet:e}");
        }
    }
}
