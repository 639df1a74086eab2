//! Refrigerant properties: from an equation of state, through committed tables, to states.
//!
//! A table (`assets/refrigerants/*.tbl`) is made from the published Helmholtz equation named in the `.json`
//! beside it (feature `tables`) and embedded in the program, so that a run needs no equation solver, gives the
//! same bits on every machine, and costs well under a microsecond per state. Every table in that folder is a
//! refrigerant (`shipped`). Coordinates are ln p (p in Pa)
//! and specific enthalpy (J/kg, IIR reference: 200 kJ/kg and 1 kJ/(kg K) in liquid at 0 C).
//!
//! Parts: Hermite curves along the dome (`saturation`), bicubic grids of the deviations from it (`grid`, `vapour`,
//! `liquid`), inverse look-ups (`solve`), viscosity and conductivity (`transport`), limits (`range`), the file
//! (`table`); and with feature `tables` the equation (`equation`)
//! and the maker of the file (`tabulate`). Transcendentals come from `libm` alone, and nothing is fused, so results
//! do not depend on the machine.
//!
//! ```
//! use pintle::refrigerant::{Phase, Refrigerant};
//!
//! let r = Refrigerant::r134a();
//! let p_pa = r.saturation_p_pa(278.15); // 5 C: 349.7 kPa
//! let suction = r.state(libm::log(p_pa), 406.07e3);
//! assert_eq!(suction.phase, Phase::Vapour);
//! assert!((suction.t_k - 283.15).abs() < 0.01 && (suction.rho_kg_m3 - 16.690).abs() < 0.01);
//! ```

mod axis;
mod correlations;
mod error;
mod fit;
mod grid;
mod hermite;
mod liquid;
mod range;
mod saturation;
mod shipped;
mod solve;
mod state;
mod table;
mod transport;
mod two_phase;
mod vapour;

#[cfg(feature = "tables")]
pub mod equation;
#[cfg(feature = "tables")]
mod equation_error;
#[cfg(feature = "tables")]
pub mod tabulate;
#[cfg(feature = "tables")]
mod terms;

pub use error::TableError;
pub use range::{CRITICAL_BAND, OutOfRange};
pub use saturation::Saturation;
pub use state::{Phase, State};
pub use table::RANGE_T_K;
pub use transport::{SaturationTransport, Transport};

use std::fmt;
use table::Table;

/// Enthalpies are cut to plus or minus this (J/kg), so that the continuation beyond the table stays finite.
const H_LIMIT: f64 = 1e9;

/// A pure refrigerant, ready for look-ups.
#[derive(Clone)]
pub struct Refrigerant {
    table: Table,
}

/// Its name: a table of a hundred thousand numbers helps nobody who looks at a plant.
impl fmt::Debug for Refrigerant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Refrigerant").field(&self.name()).finish()
    }
}

impl Refrigerant {
    /// Reads a table made by the `tables` command; a damaged file is an error.
    pub fn from_bytes(bytes: &[u8]) -> Result<Self, TableError> {
        Ok(Self { table: Table::from_bytes(bytes)? })
    }

    /// Designation, such as `R-134a`.
    pub fn name(&self) -> &str {
        &self.table.name
    }

    /// Pressure at the critical point (Pa).
    pub fn critical_p_pa(&self) -> f64 {
        self.table.facts.critical_p_pa
    }

    /// Temperature at the critical point (K).
    pub fn critical_t_k(&self) -> f64 {
        self.table.facts.critical_t_k
    }

    /// Enthalpy at the critical point (J/kg).
    pub fn critical_h_j_per_kg(&self) -> f64 {
        self.table.facts.critical_h
    }

    /// Density at the critical point (kg/m3).
    pub fn critical_rho_kg_m3(&self) -> f64 {
        self.table.facts.critical_rho
    }

    /// Molar mass (kg/mol).
    pub fn molar_mass_kg_mol(&self) -> f64 {
        self.table.facts.molar_mass_kg_mol
    }

    /// Temperature of the triple point (K); colder states are a continuation of the equation.
    pub fn triple_t_k(&self) -> f64 {
        self.table.facts.triple_t_k
    }

    /// Pressure of the triple point (Pa).
    pub fn triple_p_pa(&self) -> f64 {
        self.table.facts.triple_p_pa
    }

    /// Highest temperature of the equation of state (K).
    pub fn max_t_k(&self) -> f64 {
        self.table.facts.max_t_k
    }

    /// Lowest pressure of the table (Pa): 1 Pa.
    pub fn min_p_pa(&self) -> f64 {
        libm::exp(self.table.facts.low)
    }

    /// Highest pressure of the table (Pa): 98 % of the critical pressure.
    pub fn max_p_pa(&self) -> f64 {
        libm::exp(self.table.facts.high)
    }

    /// The saturation line at `ln_p` = ln(p / 1 Pa).
    #[inline]
    pub fn saturation(&self, ln_p: f64) -> Saturation {
        let line = &self.table.saturation;
        if line.holds(ln_p) { line.at::<true>(ln_p) } else { self.saturation_beyond(ln_p) }
    }

    #[cold]
    #[inline(never)]
    fn saturation_beyond(&self, ln_p: f64) -> Saturation {
        self.table.saturation.at::<false>(ln_p)
    }

    /// The state at `ln_p` = ln(p / 1 Pa) and enthalpy `h_j_per_kg` (J/kg).
    #[inline(never)]
    pub fn state(&self, ln_p: f64, h_j_per_kg: f64) -> State {
        let line = &self.table.saturation;
        if line.holds(ln_p) {
            self.state_in(&line.at::<true>(ln_p), h_j_per_kg)
        } else {
            self.state_with(&self.saturation_beyond(ln_p), h_j_per_kg)
        }
    }

    /// As [`Refrigerant::state`], where the saturation at that pressure is already known.
    #[inline]
    pub fn state_with(&self, sat: &Saturation, h_j_per_kg: f64) -> State {
        self.state_in(sat, h_j_per_kg)
    }

    /// Inlined for good, so that of the saturation only what a state needs is computed.
    #[inline(always)]
    fn state_in(&self, sat: &Saturation, h_j_per_kg: f64) -> State {
        let facts = &self.table.facts;
        let h = h_j_per_kg.clamp(-H_LIMIT, H_LIMIT);
        let mut state = if h <= sat.h_l {
            liquid::state(&self.table.liquid, facts.liquid_limit, sat, h)
        } else if h < sat.h_v {
            two_phase::state(sat, h)
        } else {
            vapour::state(&self.table.vapour, facts.vapour_limit, sat, h)
        };
        state.valid &= state.t_k >= facts.valid_t_k[0] && state.t_k <= facts.valid_t_k[1];
        state
    }
}
