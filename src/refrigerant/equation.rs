//! The equation of state itself, by way of `feos` (feature `tables` only).
//!
//! Everything is computed from the Helmholtz energy at (T, rho); pressure-enthalpy states and the saturation
//! line are found by Newton's method with exact derivatives.

use std::sync::Arc;

use feos::multiparameter::{MultiParameter, MultiParameterEquationOfState, MultiParameterRecord};
use feos_core::parameter::{Parameters, PureRecord};
use feos_core::{Contributions, State};
use quantity::{GRAM, JOULE, KELVIN, KILOGRAM, METER, MOL, PASCAL, RGAS};
use serde::Deserialize;

use super::correlations::{Correlations, Crossover};
pub use super::equation_error::EquationError;
use super::fit::Fit;
use super::terms;

/// A point given in the coefficient file.
#[derive(Debug, Clone, Copy, Deserialize)]
pub struct Point {
    /// Temperature (K).
    pub t_k: f64,
    /// Pressure (Pa).
    pub p_pa: f64,
    /// Molar density (mol/m3), where given.
    #[serde(default)]
    pub rho_mol_m3: f64,
}

/// Rough saturated densities near 0 C.
#[derive(Debug, Clone, Copy, Deserialize)]
pub struct NearZero {
    /// Pressure (Pa).
    pub p_pa: f64,
    /// Density of the liquid (kg/m3).
    pub rho_l_kg_m3: f64,
    /// Density of the vapour (kg/m3).
    pub rho_v_kg_m3: f64,
}

/// What the coefficient file says besides the coefficients.
#[derive(Debug, Clone, Deserialize)]
pub struct Constants {
    /// Critical point.
    pub critical_point: Point,
    /// Triple point.
    pub triple_point: Point,
    /// Saturation near 0 C, roughly: where searches along the saturation line start.
    pub near_0_c: NearZero,
    /// Highest temperature of the equation (K).
    pub max_t_k: f64,
    /// Gas constant of the paper (J/(mol K)).
    pub gas_constant: f64,
    /// Molar mass (g/mol).
    pub molarweight: f64,
    /// Viscosity, conductivity and surface tension.
    pub transport: TransportData,
}

/// The transport part of a coefficient file.
#[derive(Debug, Clone, Deserialize)]
pub struct TransportData {
    viscosity: ViscosityData,
    conductivity: ConductivityData,
    surface_tension: TensionData,
}

#[derive(Debug, Clone, Deserialize)]
struct ViscosityData {
    fit: Fit,
}

#[derive(Debug, Clone, Deserialize)]
struct ConductivityData {
    fit: Fit,
    crossover: Crossover,
}

/// Surface tension as the sum of a (1 - T/Tc)^n (N/m).
#[derive(Debug, Clone, Deserialize)]
struct TensionData {
    t_critical_k: f64,
    a: Vec<f64>,
    n: Vec<f64>,
}

impl TransportData {
    /// What a table keeps of it.
    pub(super) fn correlations(&self) -> Correlations {
        Correlations {
            viscosity: self.viscosity.fit.clone(),
            conductivity: self.conductivity.fit.clone(),
            crossover: self.conductivity.crossover.clone(),
        }
    }

    /// Surface tension at `t` (K), in N/m; zero at and above the critical temperature.
    pub fn surface_tension(&self, t: f64) -> f64 {
        let s = &self.surface_tension;
        let below = (1.0 - t / s.t_critical_k).max(0.0);
        s.a.iter().zip(&s.n).map(|(a, n)| a * libm::pow(below, *n)).sum()
    }
}

/// A single-phase state with its derivatives.
#[derive(Debug, Clone, Copy)]
pub struct Single {
    /// Temperature (K).
    pub t: f64,
    /// Density (kg/m3).
    pub rho: f64,
    /// Pressure (Pa).
    pub p: f64,
    /// Enthalpy (J/kg).
    pub h: f64,
    /// Entropy (J/(kg K)).
    pub s: f64,
    /// dp/dT at constant density (Pa/K).
    pub p_t: f64,
    /// dp/d(rho) at constant temperature (Pa m3/kg).
    pub p_rho: f64,
    /// Isochoric heat capacity (J/(kg K)).
    pub cv: f64,
}

impl Single {
    /// Specific volume (m3/kg).
    pub fn v(&self) -> f64 {
        1.0 / self.rho
    }

    /// dv/dT at constant pressure.
    pub fn v_t(&self) -> f64 {
        self.p_t / (self.rho * self.rho * self.p_rho)
    }

    /// Isobaric heat capacity (J/(kg K)).
    pub fn cp(&self) -> f64 {
        self.cv + self.t * self.p_t * self.v_t()
    }

    /// (T, v, s): derivatives with respect to p at constant h.
    pub fn by_p(&self) -> [f64; 3] {
        let t_p = (self.t * self.v_t() - self.v()) / self.cp();
        let v_p = -1.0 / (self.rho * self.rho * self.p_rho);
        [t_p, v_p + self.v_t() * t_p, -self.v() / self.t]
    }

    /// (T, v, s): derivatives with respect to h at constant p.
    pub fn by_h(&self) -> [f64; 3] {
        [1.0 / self.cp(), self.v_t() / self.cp(), 1.0 / self.t]
    }

    fn gibbs(&self) -> f64 {
        self.h - self.t * self.s
    }
}

/// The equation of state of one pure refrigerant.
pub struct Equation {
    eos: Arc<MultiParameterEquationOfState>,
    /// Constants from the coefficient file.
    pub constants: Constants,
    /// Molar mass that gives the paper's R/M with the gas constant of `feos` (g/mol).
    scaled_molarweight: f64,
    /// Added to enthalpy (J/kg) and entropy (J/(kg K)) for the IIR reference.
    offset: [f64; 2],
}

impl Equation {
    /// Reads the coefficients in the form of `assets/refrigerants/R-134a.json`.
    pub fn from_json(json: &str) -> Result<Self, EquationError> {
        let bad = |e: &dyn std::fmt::Display| EquationError::Coefficients(e.to_string());
        let constants: Constants = serde_json::from_str(json).map_err(|e| bad(&e))?;
        for fit in [&constants.transport.viscosity.fit, &constants.transport.conductivity.fit] {
            fit.check().map_err(|e| bad(&e))?;
        }
        // Older papers use an older gas constant. Scaling molar mass and molar density by the ratio leaves
        // every specific property exactly as published.
        let scale = (RGAS.convert_into(JOULE / (MOL * KELVIN))) / constants.gas_constant;
        let mut record: serde_json::Value = serde_json::from_str(json).map_err(|e| bad(&e))?;
        terms::check(&mut record)?;
        let rhoc = record["rhoc"].as_f64().ok_or_else(|| bad(&"no rhoc"))?;
        let scaled_molarweight = constants.molarweight * scale;
        record["rhoc"] = (rhoc / scale).into();
        record["molarweight"] = scaled_molarweight.into();
        let record: PureRecord<MultiParameterRecord, ()> =
            serde_json::from_value(record).map_err(|e| bad(&e))?;
        let parameters = Parameters::new_pure(record).map_err(|e| bad(&e))?;
        let eos = Arc::new(MultiParameter::new(parameters));
        let mut equation = Self { eos, constants, scaled_molarweight, offset: [0.0; 2] };
        let liquid = equation.at_0_c()?[0];
        equation.offset = [200e3 - liquid.h, 1e3 - liquid.s];
        Ok(equation)
    }

    /// Boiling liquid and saturated vapour at 0 C.
    pub fn at_0_c(&self) -> Result<[Single; 2], EquationError> {
        let near = self.constants.near_0_c;
        let [mut p, t] = [near.p_pa, crate::constants::ZERO_C_K];
        let mut pair = [self.at_pt(p, t, near.rho_l_kg_m3)?, self.at_pt(p, t, near.rho_v_kg_m3)?];
        for _ in 0..20 {
            pair = self.saturation(p, &pair)?;
            let [l, v] = pair;
            if (l.t - t).abs() < 1e-11 * t {
                break;
            }
            p += (t - l.t) * (v.s - l.s) / (v.v() - l.v());
        }
        Ok(pair)
    }

    /// The state at temperature `t` (K) and density `rho` (kg/m3), stable or not.
    pub fn at(&self, t: f64, rho: f64) -> Result<Single, EquationError> {
        let molar = rho / (self.scaled_molarweight * 1e-3) * MOL / METER.powi::<3>();
        let state = State::new_pure(&self.eos, t * KELVIN, molar)
            .map_err(|e| EquationError::NoSolution(format!("T = {t} K, rho = {rho} kg/m3: {e}")))?;
        let all = Contributions::Total;
        let specific_heat = JOULE / (KILOGRAM * KELVIN);
        let per_density = KILOGRAM / METER.powi::<3>();
        let gram_mol = GRAM / MOL * self.scaled_molarweight;
        Ok(Single {
            t,
            rho,
            p: state.pressure(all).convert_into(PASCAL),
            h: state.specific_enthalpy(all).convert_into(JOULE / KILOGRAM) + self.offset[0],
            s: state.specific_entropy(all).convert_into(specific_heat) + self.offset[1],
            p_t: state.dp_dt(all).convert_into(PASCAL / KELVIN),
            p_rho: (state.dp_drho(all) / gram_mol).convert_into(PASCAL / per_density),
            cv: state.specific_isochoric_heat_capacity(all).convert_into(specific_heat),
        })
    }

    /// The state at `t` and `p` on the branch of the guessed density.
    pub fn at_pt(&self, p: f64, t: f64, guess_rho: f64) -> Result<Single, EquationError> {
        let mut rho = guess_rho;
        let critical = self.constants.critical_point.rho_mol_m3 * self.constants.molarweight * 1e-3;
        for i in 0..60 {
            let at = self.at(t, rho)?;
            if at.p_rho <= 0.0 {
                // Unstable: away from the middle, towards the branch of the guess.
                rho *= if guess_rho > critical { 1.02 } else { 0.98 };
                continue;
            }
            let step = (p - at.p) / at.p_rho;
            rho += step.clamp(-0.3 * rho, 0.3 * rho);
            // Near the critical point rounding of the pressure leaves more of the density open.
            if step.abs() < if i < 20 { 1e-13 } else { 1e-11 } * rho {
                return self.at(t, rho);
            }
        }
        Err(EquationError::NoSolution(format!("p = {p} Pa, T = {t} K")))
    }

    /// The state at `p` and `h` on the branch of the guess.
    pub fn at_ph(&self, p: f64, h: f64, guess: &Single) -> Result<Single, EquationError> {
        let mut at = *guess;
        for _ in 0..80 {
            let h_t = at.cv + at.p_t / at.rho;
            let h_rho = (at.p_rho - at.t * at.p_t / at.rho) / at.rho;
            let det = at.p_rho * h_t - at.p_t * h_rho;
            let (dp, dh) = (p - at.p, h - at.h);
            let d_rho = (dp * h_t - at.p_t * dh) / det;
            let d_t = (at.p_rho * dh - dp * h_rho) / det;
            let scale = (0.2 * at.rho / d_rho.abs()).min(20.0 / d_t.abs()).min(1.0);
            at = self.at(at.t + scale * d_t, at.rho + scale * d_rho)?;
            if d_rho.abs() < 1e-12 * at.rho && d_t.abs() < 1e-12 * at.t {
                return Ok(at);
            }
        }
        Err(EquationError::NoSolution(format!("p = {p} Pa, h = {h} J/kg")))
    }

    /// Boiling liquid and saturated vapour at `p`, from a guess near by.
    pub fn saturation(&self, p: f64, guess: &[Single; 2]) -> Result<[Single; 2], EquationError> {
        let [mut l, mut v] = *guess;
        let mut t = l.t;
        for i in 0..60 {
            l = self.at_pt(p, t, l.rho)?;
            v = self.at_pt(p, t, v.rho)?;
            // At the given pressure the two Gibbs energies part by the difference in entropy per kelvin.
            let step = (v.gibbs() - l.gibbs()) / (v.s - l.s);
            t += step.clamp(-3.0, 3.0);
            if step.abs() < if i < 20 { 1e-12 } else { 1e-11 } * t {
                return Ok([l, v]);
            }
        }
        Err(EquationError::NoSolution(format!("saturation at p = {p} Pa")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn r134a() -> Equation {
        Equation::from_json(include_str!("../../assets/refrigerants/R-134a.json")).unwrap()
    }

    /// CoolProp 8.0.0 at 20 C: 571.706 kPa, 1225.33 and 27.7803 kg/m3.
    #[test]
    fn saturation_at_20_c() {
        let eq = r134a();
        let [l, v] = eq.saturation(571_706.0, &eq.at_0_c().unwrap()).unwrap();
        assert!((l.t - 293.15).abs() < 1e-4);
        assert!((l.rho - 1225.33).abs() < 0.01 && (v.rho - 27.7803).abs() < 1e-4);
    }

    #[test]
    fn derivatives_match_differences() {
        let eq = r134a();
        let v = eq.at(320.0, 30.0).unwrap();
        let (e_p, e_h) = (v.p * 1e-5, 5.0);
        let three = |s: Single| [s.t, s.v(), s.s];
        let (a, b) = (eq.at_ph(v.p - e_p, v.h, &v).unwrap(), eq.at_ph(v.p + e_p, v.h, &v).unwrap());
        let (c, d) = (eq.at_ph(v.p, v.h - e_h, &v).unwrap(), eq.at_ph(v.p, v.h + e_h, &v).unwrap());
        for k in 0..3 {
            let (by_p, by_h) = (v.by_p()[k], v.by_h()[k]);
            assert!(((three(b)[k] - three(a)[k]) / (2.0 * e_p) / by_p - 1.0).abs() < 1e-6);
            assert!(((three(d)[k] - three(c)[k]) / (2.0 * e_h) / by_h - 1.0).abs() < 1e-6);
        }
    }
}
