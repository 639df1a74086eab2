//! Viscosity and conductivity as the tables keep them: two fits, and the critical enhancement of G. A. Olchowy,
//! J. V. Sengers, Int. J. Thermophys. 10, 417-426 (1989), the simplified crossover.

use std::f64::consts::{FRAC_2_PI, PI};

use super::State;
use super::fit::{Fit, horner, stretch};

/// Boltzmann's constant as the correlations were evaluated with (J/K).
const BOLTZMANN: f64 = 1.380_648_8e-23;

/// What the critical enhancement needs besides the state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Heat {
    pub t: f64,
    pub rho: f64,
    /// Isobaric and isochoric heat capacity (J/(kg K)).
    pub cp: f64,
    pub cv: f64,
    /// d(rho)/dp at constant temperature (kg/(m3 Pa)).
    pub rho_p: f64,
}

impl Heat {
    /// From the slopes of a single-phase state at pressure `p_pa`.
    pub fn of(state: &State, p_pa: f64) -> Self {
        let (t, rho) = (state.t_k, state.rho_kg_m3);
        let cp = 1.0 / state.dt_dh;
        let rho_t = state.drho_dh * cp;
        let rho_p = (state.drho_dlnp - rho_t * state.dt_dlnp) / p_pa;
        Self { t, rho, cp, cv: cp - t * rho_t * rho_t / (rho * rho * rho_p), rho_p }
    }
}

/// The crossover of Olchowy and Sengers.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "tables", derive(serde::Deserialize))]
pub(super) struct Crossover {
    pub r0: f64,
    pub gamma: f64,
    pub nu: f64,
    pub amplitude: f64,
    pub zeta0_m: f64,
    pub cutoff_per_m: f64,
    pub t_reference_k: f64,
    pub rho_critical_kg_m3: f64,
    pub reference_rho_span_kg_m3: [f64; 2],
    pub ln_reference_dp_drho: Vec<f64>,
}

impl Crossover {
    /// The enhancement (W/(m K)), zero where the fluid yields less than at the reference temperature.
    fn at(&self, heat: &Heat, mu: f64, critical_p_pa: f64) -> f64 {
        let scale = critical_p_pa * heat.rho / (self.rho_critical_kg_m3 * self.rho_critical_kg_m3);
        let y = stretch(heat.rho, self.reference_rho_span_kg_m3);
        let there = libm::exp(-horner(&self.ln_reference_dp_drho, y)) * self.t_reference_k / heat.t;
        let excess = scale * (heat.rho_p - there);
        // Also refuses NaN, and slopes of a continuation that no real fluid has.
        if !(excess > 0.0 && heat.cp > 0.0 && heat.cv > 0.0 && excess.is_finite()) {
            return 0.0;
        }
        let zeta = self.zeta0_m * libm::pow(excess / self.amplitude, self.nu / self.gamma);
        let (y, ratio) = (self.cutoff_per_m * zeta, (heat.cv / heat.cp).min(1.0));
        let omega = FRAC_2_PI * ((1.0 - ratio) * libm::atan(y) + ratio * y);
        let far = y * self.rho_critical_kg_m3 / heat.rho;
        let omega0 = FRAC_2_PI * (1.0 - libm::exp(-1.0 / (1.0 / y + far * far / 3.0)));
        let size = heat.rho * heat.cp * self.r0 * BOLTZMANN * heat.t / (6.0 * PI * mu * zeta);
        (size * (omega - omega0)).max(0.0)
    }
}

/// The correlations of one refrigerant.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Correlations {
    pub viscosity: Fit,
    pub conductivity: Fit,
    pub crossover: Crossover,
}

impl Correlations {
    /// Viscosity (Pa s) and conductivity (W/(m K)).
    pub fn at(&self, heat: &Heat, critical_p_pa: f64) -> [f64; 2] {
        let mu = self.viscosity.at(heat.t, heat.rho);
        [mu, self.conductivity.at(heat.t, heat.rho) + self.crossover.at(heat, mu, critical_p_pa)]
    }
}
