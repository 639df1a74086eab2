//! What comes into a loop from outside, as numbers: charge, air, oil.

use super::oil::OIL_KG_M3;
use super::{Inputs, Layout, Plant};
use crate::constants::R_DRY_AIR;
use crate::refrigerant::Refrigerant;

/// Mass of a volume of oil given in mL, in kg.
pub fn oil_kg(ml: f64) -> f64 {
    ml * 1e-6 * OIL_KG_M3
}

/// Enthalpy of refrigerant charged as liquid at a temperature [K], in J/kg.
pub fn charged_j_kg(refrigerant: &Refrigerant, t_k: f64) -> f64 {
    let u = libm::log(refrigerant.saturation_p_pa(t_k));
    refrigerant.saturation(u).h_l
}

impl Layout {
    /// Room of the loop itself, without hoses and vessels [m3].
    pub fn loop_m3(&self) -> f64 {
        self.volumes_m3[..self.low_hose].iter().sum()
    }
    /// Air in a loop that stands open to the outside [kg].
    pub fn open_air_kg(&self, inputs: &Inputs) -> f64 {
        inputs.ambient_pa * self.loop_m3() / (R_DRY_AIR * inputs.ambient_t_k)
    }
}

impl Plant {
    /// Mean temperature of the loop's walls, by room [K]: what gas shut into it is as warm as.
    pub fn loop_t_k(&self, time_s: f64) -> f64 {
        let l = &self.layout;
        let room_m3 = l.loop_m3();
        self.at(time_s, |s| {
            s.wall_k[..l.low_hose].iter().zip(&l.volumes_m3).map(|(t, v)| t * v).sum::<f64>() / room_m3
        })
    }
    /// Highest pressure in the loop [Pa absolute].
    pub fn highest_pa(&self, time_s: f64) -> f64 {
        let p = |i: usize| self.look(i, time_s).p_pa;
        p(self.layout.suction).max(p(self.layout.liquid)).max(p(self.layout.discharge))
    }
    /// Refrigerant in all places, loop, hoses and vessels, what the oil holds included [kg].
    pub fn everywhere_kg(&self, time_s: f64) -> f64 {
        self.at(time_s, |s| s.mass_kg.iter().sum::<f64>() + s.oil.dissolved_kg)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hundred_millilitres_of_oil_weigh_97_grams() {
        assert!((oil_kg(100.0) - 0.097).abs() < 1e-12);
    }
}
