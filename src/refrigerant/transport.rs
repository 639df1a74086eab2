//! Viscosity, thermal conductivity and surface tension.
//!
//! Viscosity and background conductivity are polynomials, in temperature and density, of the logarithm, fitted to
//! the papers named in the `.json` of each refrigerant (`tests/reference/make_refrigerant.py`). To the conductivity
//! comes the critical enhancement: G. A. Olchowy, J. V. Sengers, Int. J. Thermophys. 10, 417-426 (1989), the
//! simplified crossover. Along the dome everything is tabulated over ln p, since a heat exchanger asks for it in
//! every cell and step.

use std::f64::consts::{FRAC_2_PI, PI};

use super::fit::{Fit, horner, stretch};
use super::hermite::{Weights, curves};
use super::{Phase, Refrigerant, Saturation, State};

/// Boltzmann's constant as the correlations were evaluated with (J/K).
const BOLTZMANN: f64 = 1.380_648_8e-23;
/// Newton steps allowed from temperature and density to pressure and enthalpy; five are usual.
const STEPS: usize = 40;
/// Relative error of density that a table may have; in liquid it is worth a few kilopascals.
const DENSITY_ERROR: f64 = 2e-5;
/// Relative density by which a state may lie inside the dome and still count as saturated.
const DOME_SLACK: f64 = 1e-4;

/// Transport properties of a single-phase state.
///
/// Within 2 % of CoolProp 8.0.0's evaluation of the papers named in `assets/refrigerants/` where `valid`, which is:
/// single-phase, 1 Pa to 98 % of the critical pressure, -60 C to 160 C or as far as the equation of state reaches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Transport {
    /// Dynamic viscosity (Pa s).
    pub mu_pa_s: f64,
    /// Thermal conductivity (W/(m K)).
    pub k_w_m_k: f64,
    /// Whether the state lies in the range. When not, the numbers are finite and positive but not to be shown.
    pub valid: bool,
}

/// Transport properties, and the heat capacities that go with them, of boiling liquid and saturated vapour.
///
/// From the papers named in `assets/refrigerants/`, tabulated over ln p. Where `valid`, which is from 1 Pa to 98 % of
/// the critical pressure and not colder than -60 C, within 2 % of CoolProp 8.0.0; elsewhere finite and positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaturationTransport {
    /// Dynamic viscosity of boiling liquid (Pa s).
    pub mu_l: f64,
    /// Dynamic viscosity of saturated vapour (Pa s).
    pub mu_v: f64,
    /// Thermal conductivity of boiling liquid (W/(m K)).
    pub k_l: f64,
    /// Thermal conductivity of saturated vapour (W/(m K)).
    pub k_v: f64,
    /// Isobaric heat capacity of boiling liquid (J/(kg K)).
    pub cp_l: f64,
    /// Isobaric heat capacity of saturated vapour (J/(kg K)).
    pub cp_v: f64,
    /// Surface tension (N/m).
    pub sigma_n_m: f64,
    /// Whether pressure and temperature lie in the range.
    pub valid: bool,
}

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
    fn of(state: &State, p_pa: f64) -> Self {
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

impl Refrigerant {
    /// Viscosity and conductivity at `t_k` (K) and `rho_kg_m3` (kg/m3), single-phase.
    ///
    /// Finds the pressure first, so it costs a few states; where the state is known, [`Refrigerant::transport_of`] is
    /// faster. A density inside the dome, or any other state out of range, gives `valid: false`.
    pub fn transport(&self, t_k: f64, rho_kg_m3: f64) -> Transport {
        // Nonsense becomes something finite here, and is flagged.
        let clean =
            |value: f64, low: f64, high: f64| if value.is_nan() { low } else { value.clamp(low, high) };
        let (t, rho) = (clean(t_k, 1.0, 1e4), clean(rho_kg_m3, 1e-12, 1e6));
        if let Some((sat, state)) = self.find(t, rho) {
            return self.transport_of(&sat, &state);
        }
        let c = &self.table.correlations;
        Transport { mu_pa_s: c.viscosity.at(t, rho), k_w_m_k: c.conductivity.at(t, rho), valid: false }
    }

    /// Viscosity and conductivity of the single-phase `state` at the pressure of `sat`. A two-phase state gives those
    /// of no real substance, and `valid: false`; see [`Refrigerant::saturation_transport`].
    pub fn transport_of(&self, sat: &Saturation, state: &State) -> Transport {
        let heat = Heat::of(state, sat.p_pa);
        let [mu, k] = self.table.correlations.at(&heat, self.table.facts.critical_p_pa);
        Transport { mu_pa_s: mu, k_w_m_k: k, valid: state.valid && state.phase != Phase::TwoPhase }
    }

    /// Transport properties on both sides of the dome at `ln_p` = ln(p / 1 Pa).
    #[inline]
    pub fn saturation_transport(&self, ln_p: f64) -> SaturationTransport {
        let line = &self.table.saturation;
        let place = line.ln_p.place(if ln_p.is_nan() { line.low } else { ln_p.clamp(line.low, line.high) });
        let pair = &self.table.saturation_transport[place.cell..place.cell + 2];
        let [mu_l, mu_v, k_l, k_v, cp_l, cp_v, sigma_n_m, t_k] =
            curves(&pair[0], &pair[1], &Weights::at(&place)).value;
        let valid = ln_p >= line.low && ln_p <= line.high && t_k >= self.table.facts.valid_t_k[0];
        SaturationTransport { mu_l, mu_v, k_l, k_v, cp_l, cp_v, sigma_n_m, valid }
    }

    /// The single-phase state at `t` and `rho`; none inside the dome or where there is none.
    fn find(&self, t: f64, rho: f64) -> Option<(Saturation, State)> {
        let high = self.table.saturation.high;
        let (ln_p_sat, _) = self.table.saturation.ln_p_at(t);
        let dome = self.saturation(ln_p_sat.min(high));
        let saturates = ln_p_sat < high;
        let phase =
            if saturates && rho >= dome.rho_l * (1.0 - DOME_SLACK) { Phase::Liquid } else { Phase::Vapour };
        if saturates && phase == Phase::Vapour && rho > dome.rho_v * (1.0 + DOME_SLACK) {
            return None;
        }
        let found = self.newton(t, rho, phase, &dome).map(|found| self.held(t, rho, phase, found));
        found.or_else(|| {
            let (h, rho_sat) =
                if phase == Phase::Liquid { (dome.h_l, dome.rho_l) } else { (dome.h_v, dome.rho_v) };
            let at_the_edge = saturates && (rho / rho_sat - 1.0).abs() <= DOME_SLACK;
            at_the_edge.then(|| (dome, self.state_with(&dome, h)))
        })
    }

    /// `found`, or the state on the edge of the pressure range where the density cannot tell the two apart.
    fn held(&self, t: f64, rho: f64, phase: Phase, found: (Saturation, State)) -> (Saturation, State) {
        if found.0.valid {
            return found;
        }
        let line = &self.table.saturation;
        let sat = self.saturation(found.0.ln_p.clamp(line.low, line.high));
        let edge = self.state_with(&sat, self.h_from_pt(sat.p_pa, t, phase));
        if (edge.rho_kg_m3 / rho - 1.0).abs() <= DENSITY_ERROR { (sat, edge) } else { found }
    }

    /// Newton's method for pressure and enthalpy from temperature and density, starting at the dome.
    fn newton(&self, t: f64, rho: f64, phase: Phase, dome: &Saturation) -> Option<(Saturation, State)> {
        let (top, liquid) = (self.max_p_pa(), phase == Phase::Liquid);
        let mut p = if liquid {
            dome.p_pa
        } else {
            // Between the ideal gas and the greatest density at this temperature.
            let greatest = self.density_at_pt(dome.p_pa, t, phase);
            (dome.p_pa * rho / greatest).clamp(1e-6 * self.min_p_pa(), top)
        };
        let mut h = self.h_from_pt(p, t, phase);
        for _ in 0..STEPS {
            let sat = self.saturation(libm::log(p));
            let s = self.state_with(&sat, h);
            let (dt, d_rho) = (t - s.t_k, rho - s.rho_kg_m3);
            if s.phase == phase && dt.abs() <= 1e-8 * t && d_rho.abs() <= 1e-9 * rho {
                return Some((sat, s));
            }
            let det = s.dt_dlnp * s.drho_dh - s.dt_dh * s.drho_dlnp;
            let du = (dt * s.drho_dh - s.dt_dh * d_rho) / det;
            let dh = (s.dt_dlnp * d_rho - dt * s.drho_dlnp) / det;
            if !du.is_finite() || !dh.is_finite() {
                return None;
            }
            // Liquid hardly yields, so pressure itself is the coordinate, not its logarithm.
            p = (p + p * du).clamp(0.3 * p, 1.2 * top);
            let edge = self.saturation(libm::log(p));
            h += dh.clamp(-200e3, 200e3);
            h = if liquid { h.min(edge.h_l) } else { h.max(edge.h_v) };
        }
        None
    }
}
