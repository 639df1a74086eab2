//! Viscosity, thermal conductivity and surface tension.
//!
//! Viscosity and background conductivity are polynomials, in temperature and density, of the logarithm, fitted to
//! the papers named in the `.json` of each refrigerant (`tests/reference/make_refrigerant.py`). To the conductivity
//! comes the critical enhancement: G. A. Olchowy, J. V. Sengers, Int. J. Thermophys. 10, 417-426 (1989), the
//! simplified crossover. Along the dome everything is tabulated over ln p, since a heat exchanger asks for it in
//! every cell and step.

use super::correlations::Heat;
use super::hermite::{Weights, curves};
use super::{Phase, Refrigerant, Saturation, State};

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
