//! What the plant remembers from one step to the next.

use serde::{Deserialize, Serialize};

use super::boundary::Released;
use super::cabin::Cabin;
use super::coil_water::CoilWater;
use super::engine_bay::EngineBay;
use super::oil::Oil;
use super::shell::Shell;
use super::wall_films::WallFilms;
use super::water::Water;

/// What a loop is filled with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contents {
    /// Refrigerant, what is dissolved in the oil included [kg].
    pub charge_kg: f64,
    /// Air [kg].
    pub air_kg: f64,
    /// Oil [kg].
    pub oil_kg: f64,
    /// Water [kg].
    pub water_kg: f64,
}

/// Committed state of the plant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct State {
    /// Time [s].
    pub time_s: f64,
    /// ln p of each volume's refrigerant.
    pub u: Vec<f64>,
    /// Enthalpy of each volume's flow [J/kg].
    pub h: Vec<f64>,
    /// Refrigerant held [kg]: the conserved truth, of which u and h are the image.
    pub mass_kg: Vec<f64>,
    /// Internal energy held [J].
    pub energy_j: Vec<f64>,
    /// Air held [kg].
    pub air_kg: Vec<f64>,
    /// Wall temperatures [K].
    pub wall_k: Vec<f64>,
    /// Flow through each volume, for the films [kg/s].
    pub through_kg_s: Vec<f64>,
    /// Heat into the refrigerant from each wall over the last step, for the films [W].
    pub heat_w: Vec<f64>,
    /// Films of each wall over the last step and what they were worked out at; none before the first.
    pub films: Vec<WallFilms>,
    /// Bulb temperature [K].
    pub bulb_t_k: f64,
    /// Fin sensor [K].
    pub fin_t_k: f64,
    /// Cabin.
    pub cabin: Cabin,
    /// Water on the evaporator.
    pub coil: CoilWater,
    /// Under the bonnet.
    #[serde(rename = "bay")]
    pub engine_bay: EngineBay,
    /// The compressor's body.
    pub shell: Shell,
    /// Oil.
    pub oil: Oil,
    /// Water.
    pub water: Water,
    /// Air that came in, less what went out, since the loop was set up [kg].
    pub air_in_kg: f64,
    /// Refrigerant let out into the air so far.
    #[serde(rename = "released_kg")]
    pub released: Released,
    /// Refrigerant put in (or, negative, taken out) on purpose so far [kg].
    pub serviced_kg: f64,
    /// Refrigerant that came out of a cylinder at the centre hose (negative: went into it) so far [kg].
    pub from_cylinder_kg: f64,
    /// Heat that passes from liquid to vapour in each cell of the internal heat exchanger [W].
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub exchanger_w: Vec<f64>,
    /// Coolant of the chiller, where there is one [K].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coolant_t_k: Option<f64>,
}

impl State {
    /// Refrigerant let out into the air so far, whichever way it took [kg].
    pub fn released_kg(&self) -> f64 {
        self.released.total_kg()
    }
    /// Become equal to `other`, in the memory at hand.
    pub(super) fn copy(&mut self, other: &Self) {
        // Taken apart in full, so that a new field cannot be forgotten.
        let Self {
            time_s,
            u,
            h,
            mass_kg,
            energy_j,
            air_kg,
            wall_k,
            through_kg_s,
            bulb_t_k,
            fin_t_k,
            cabin,
            coil,
            engine_bay,
            heat_w,
            films,
            shell,
            oil,
            water,
            air_in_kg,
            released,
            serviced_kg,
            from_cylinder_kg,
            exchanger_w,
            coolant_t_k,
        } = self;
        u.clone_from(&other.u);
        h.clone_from(&other.h);
        mass_kg.clone_from(&other.mass_kg);
        energy_j.clone_from(&other.energy_j);
        air_kg.clone_from(&other.air_kg);
        wall_k.clone_from(&other.wall_k);
        through_kg_s.clone_from(&other.through_kg_s);
        let mut cells = std::mem::take(&mut coil.cells);
        cells.clone_from(&other.coil.cells);
        *coil = CoilWater { cells, ..other.coil };
        (*time_s, *bulb_t_k, *fin_t_k) = (other.time_s, other.bulb_t_k, other.fin_t_k);
        (*cabin, *engine_bay, *shell) = (other.cabin, other.engine_bay, other.shell);
        heat_w.clone_from(&other.heat_w);
        films.clone_from(&other.films);
        let (mut in_oil, mut in_water) = (std::mem::take(&mut oil.kg), std::mem::take(&mut water.kg));
        in_oil.clone_from(&other.oil.kg);
        in_water.clone_from(&other.water.kg);
        *oil = Oil { kg: in_oil, ..other.oil };
        *water = Water { kg: in_water, ..other.water };
        (*air_in_kg, *released) = (other.air_in_kg, other.released);
        exchanger_w.clone_from(&other.exchanger_w);
        *coolant_t_k = other.coolant_t_k;
        (*serviced_kg, *from_cylinder_kg) = (other.serviced_kg, other.from_cylinder_kg);
    }
}
