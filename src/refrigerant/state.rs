//! A thermodynamic state, and the phases it can be in.

/// Which side of the saturation dome a state is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Phase {
    /// At or below the enthalpy of boiling liquid.
    Liquid,
    /// Between boiling liquid and saturated vapour.
    TwoPhase,
    /// At or above the enthalpy of saturated vapour.
    Vapour,
}

impl Phase {
    /// The word for it in files and reports: `liquid`, `two-phase` or `vapour`.
    pub fn word(self) -> &'static str {
        match self {
            Phase::Liquid => "liquid",
            Phase::TwoPhase => "two-phase",
            Phase::Vapour => "vapour",
        }
    }
}

/// The state at a pressure and an enthalpy.
///
/// The derivatives are those of the interpolant itself, to rounding: a Newton solver may use them as exact.
/// They jump only across the saturation lines, as in nature; values do not jump.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Side of the dome.
    pub phase: Phase,
    /// Temperature (K).
    pub t_k: f64,
    /// Density (kg/m3); of the homogeneous mixture inside the dome.
    pub rho_kg_m3: f64,
    /// Entropy (J/(kg K)), 1000 in liquid at 0 C.
    pub s_j_per_kg_k: f64,
    /// Vapour quality (kg/kg); NaN outside the dome.
    pub x: f64,
    /// dT/d(ln p) at constant enthalpy (K).
    pub dt_dlnp: f64,
    /// dT/dh at constant pressure (K kg/J).
    pub dt_dh: f64,
    /// d(rho)/d(ln p) at constant enthalpy (kg/m3).
    pub drho_dlnp: f64,
    /// d(rho)/dh at constant pressure (kg2/(m3 J)).
    pub drho_dh: f64,
    /// Whether pressure, enthalpy and temperature lie in the range of table and equation of state. When not,
    /// the numbers are a smooth continuation, good for a solver on its way but not to be shown.
    pub valid: bool,
}
