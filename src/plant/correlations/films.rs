//! The summariser: from properties, geometry and flow of a cell to its conductances, cheap enough to call once
//! per accepted step for every cell.
//!
//! Powers of Reynolds numbers are taken as sums of logarithms, so a call is about a dozen logarithms and
//! exponentials.

use super::condensation::{above_laminar, shah_mean_from_ln};
use super::friction::muller_steinhagen_heck_mean;
use super::single_phase::nusselt;
use super::{FilmFluid, clamp_quality};

/// Refrigerant passages of a coil or of a cell of it: many equal channels in parallel.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChannelGeometry {
    /// Hydraulic diameter of one channel [m].
    pub hydraulic_diameter_m: f64,
    /// Cross-section of all channels that flow passes at the same time [m2].
    pub flow_area_m2: f64,
    /// Wetted, heated wall of all channels over their whole length [m2].
    pub heated_area_m2: f64,
}

impl ChannelGeometry {
    /// Volume inside [m3]: heated area times hydraulic diameter over 4.
    pub fn volume_m3(&self) -> f64 {
        0.25 * self.heated_area_m2 * self.hydraulic_diameter_m
    }
    /// Length of the way of flow [m]: volume over cross-section.
    pub fn length_m(&self) -> f64 {
        self.volume_m3() / self.flow_area_m2.max(1e-9)
    }
    /// One of `n` equal cells in series.
    pub fn part(&self, n: usize) -> Self {
        Self { heated_area_m2: self.heated_area_m2 / n.max(1) as f64, ..*self }
    }
    /// Mass flux at a mass flow [kg/(m2 s)].
    pub fn flux(&self, flow_kg_s: f64) -> f64 {
        flow_kg_s / self.flow_area_m2.max(1e-9)
    }
}

/// Conductances between refrigerant and wall [W/K].
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Films {
    /// Condensing, mean over qualities 0 to 1.
    pub condensing_w_k: f64,
    /// Boiling, mean over qualities below dry-out.
    pub boiling_w_k: f64,
    /// Vapour alone.
    pub vapour_w_k: f64,
    /// Liquid alone.
    pub liquid_w_k: f64,
}

impl Films {
    /// All conductances times a factor, such as the share that oil leaves.
    pub fn times(&self, factor: f64) -> Self {
        Self {
            condensing_w_k: factor * self.condensing_w_k,
            boiling_w_k: factor * self.boiling_w_k,
            vapour_w_k: factor * self.vapour_w_k,
            liquid_w_k: factor * self.liquid_w_k,
        }
    }
}

/// Two points of Gauss on qualities 0.25 to 0.85, an evaporator from its valve to dry-out.
const BOILING_POINTS: [f64; 2] = [0.376_795, 0.723_205];
/// Heat flux below which boiling is taken at this one [W/m2] (ours), since the power 0.67 is steep at none: a
/// hundredth of a working evaporator's.
const LEAST_FLUX_W_M2: f64 = 50.0;

/// Reynolds number of the liquid about which suppression of pool boiling is rounded (ours).
const LEAST_SUPPRESSING_RE: f64 = 100.0;

/// Conductances of a cell. `heat_w` is the heat between wall and refrigerant at the last step, either way: boiling
/// answers heat flux, the other films do not.
///
/// Condensing: Shah 1979, mean over quality in closed form. Boiling: Liu & Winterton 1991 at two qualities; it
/// answers flow, quality and heat flux, keeps pool boiling at rest, and agrees with Sun & Mishima 2009 (small
/// channels) within 40 % at the flows of a car. Vapour and liquid: laminar to Gnielinski. Floors of laminar
/// conduction under both two-phase films are ours. Ranges: ports of 1 mm are below Shah's diameters (from
/// 7 mm), and mass fluxes below about 70 kg/(m2 s) in them below its Reynolds numbers; expect 40 %. Liquid and
/// vapour fall where flow turns laminar (Reynolds 10 000 to 2300, a straight line), by a factor of up to 13 in liquid.
///
/// Between [`super::condensation::wet_out`] and [`super::boiling::dry_out`] the caller blends by its own quality.
/// C1 in flow (but for corners at Reynolds 2300 and 10 000), properties and quality, even in flow; rising with it but for boiling at less than a tenth of design
/// flow, which suppression lowers by a few percent first. In heat continuous, with corners at the bounds of heat
/// flux.
pub fn film_conductances(
    fluid: &FilmFluid,
    geometry: &ChannelGeometry,
    flow_kg_s: f64,
    heat_w: f64,
) -> Films {
    let d = geometry.hydraulic_diameter_m.max(1e-6);
    let area = geometry.heated_area_m2.max(0.0);
    let flux = geometry.flux(flow_kg_s).abs().min(1e6);
    let (re_l, re_v) = (flux * d / fluid.mu_l, flux * d / fluid.mu_v);
    let (pr_l, pr_v) = (fluid.prandtl_l(), fluid.prandtl_v());
    let liquid = nusselt(re_l, pr_l) * fluid.k_l / d;
    let vapour = nusselt(re_v, pr_v) * fluid.k_v / d;

    let ln_re = libm::log(re_l.max(1e-9));
    let ln_pr = libm::log(fluid.p_reduced.clamp(1e-4, 0.99));
    // Dittus & Boelter with all flow as liquid: the base of both two-phase methods.
    let all_liquid = 0.023 * libm::exp(0.8 * ln_re + 0.4 * libm::log(pr_l)) * fluid.k_l / d;
    let condensing = all_liquid * shah_mean_from_ln(ln_pr);

    // Cooper 1984: 55 q^0.67 p_r^0.12 (-log10 p_r)^-0.55 M^-0.5, all powers in one exponential.
    let heat_flux = (heat_w.abs() / area.max(1e-9)).clamp(LEAST_FLUX_W_M2, 1e7);
    let ln_pool =
        0.67 * libm::log(heat_flux) + 0.12 * ln_pr - 0.55 * libm::log(-ln_pr * core::f64::consts::LOG10_E);
    let pool = 55.0 * libm::exp(ln_pool) / (1000.0 * fluid.molar_mass_kg_mol).sqrt();
    // ln 0.055; and Re^0.16, steep at rest, with Re rounded there.
    let ln_suppression =
        -2.900_422_093_749_666 + 0.08 * libm::log(re_l * re_l + LEAST_SUPPRESSING_RE * LEAST_SUPPRESSING_RE);
    let density = fluid.rho_l / fluid.rho_v - 1.0;
    let mut boiling = 0.0;
    for x in BOILING_POINTS {
        let ln_f = 0.35 * libm::log(1.0 + x * pr_l * density);
        let convective = all_liquid * libm::exp(ln_f);
        let nucleate = pool / (1.0 + libm::exp(ln_suppression + 0.1 * ln_f));
        boiling += 0.5 * (convective * convective + nucleate * nucleate).sqrt();
    }
    Films {
        condensing_w_k: area * above_laminar(condensing, fluid.k_l, d),
        boiling_w_k: area * above_laminar(boiling, fluid.k_l, d),
        vapour_w_k: area * vapour,
        liquid_w_k: area * liquid,
    }
}

/// Friction along the whole way of flow between two qualities [Pa], Müller-Steinhagen & Heck 1986: straight
/// channels only, without headers, bends, distributor and the change of momentum.
pub fn friction_pa(fluid: &FilmFluid, geometry: &ChannelGeometry, flow_kg_s: f64, x: (f64, f64)) -> f64 {
    let x = (clamp_quality(x.0), clamp_quality(x.1));
    let d = geometry.hydraulic_diameter_m;
    muller_steinhagen_heck_mean(fluid, geometry.flux(flow_kg_s), x, d) * geometry.length_m()
}

/// Flow constant k of m = k sqrt(rho dp) that gives a pressure difference between two qualities, rho that of
/// phases at equal speed and its reciprocal averaged [m2]: the constant a rig file has as `flow_m2`.
pub fn equivalent_flow_m2(fluid: &FilmFluid, flow_kg_s: f64, dp_pa: f64, x: (f64, f64)) -> f64 {
    let middle = 0.5 * (clamp_quality(x.0) + clamp_quality(x.1));
    let volume = middle / fluid.rho_v + (1.0 - middle) / fluid.rho_l;
    flow_kg_s.abs() * (volume / dp_pa.abs().max(1e-3)).sqrt()
}

#[cfg(test)]
#[path = "films_tests.rs"]
mod tests;
