//! Ice at the metering: water that the cold jet cannot hold stays there and narrows the passage, until the seat has
//! warmed up and lets it go.
//!
//! While the valve is open the jet keeps its seat below freezing. Ice chokes the flow, and the seat warms from the body
//! of the valve and the liquid ahead of it. Ice whose rim has thawed no longer clings: the pressure across the valve
//! sweeps it away whole. So an iced valve comes back by itself, and ices again (common practice, no source: the needles
//! swing, and it works again after a rest). Numbers of the seat are own estimates for a small block valve.

use serde::{Deserialize, Serialize};

use crate::units::ZERO_C_K;

/// Share of the water beyond solubility that stays as ice where it freezes.
const STAYS: f64 = 0.03;
/// Heat capacity of the valve's body around the seat [J/K].
const BODY_J_K: f64 = 150.0;
/// Conductance from pipes, air and the liquid that stands ahead of the valve to the seat [W/K]: minutes to thaw, so the
/// stops of a cycling clutch do not undo what froze while it ran.
const BODY_W_K: f64 = 0.5;
/// Heat the jet takes from the seat per kelvin and kilogram [J/(kg K)]: about what liquid would.
const JET_J_KG_K: f64 = 1000.0;

/// Ice in the valve, and its seat.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Icing {
    /// Ice [kg].
    pub ice_kg: f64,
    /// Temperature of the seat while there is ice, and until it has settled after it [K].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seat_t_k: Option<f64>,
}

/// What runs through the valve over a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Jet {
    /// Liquid ahead of it [K].
    pub inlet_t_k: f64,
    /// What it flashes to [K].
    pub t_k: f64,
    /// Flow [kg/s].
    pub mass_kg_s: f64,
    /// Water that comes with it over the step [kg], and the mass fraction it stands for.
    pub water_kg: f64,
    /// Mass fraction of water.
    pub fraction: f64,
    /// Mass fraction that stays dissolved at the jet's temperature.
    pub soluble: f64,
}

impl Icing {
    /// Freeze out what the jet cannot hold and move the seat on. Returns the water that goes on with the jet: less than
    /// came while ice grows, more when it lets go [kg].
    pub fn step(&mut self, jet: &Jet, dt_s: f64) -> f64 {
        let cooling = JET_J_KG_K * jet.mass_kg_s.max(0.0);
        let goal = (cooling * jet.t_k + BODY_W_K * jet.inlet_t_k) / (cooling + BODY_W_K);
        let seat = self.seat_t_k.map_or(goal, |seat| {
            let rate = dt_s * (cooling + BODY_W_K) / BODY_J_K;
            (seat + rate * goal) / (1.0 + rate)
        });
        let mut on_kg = jet.water_kg;
        if seat > ZERO_C_K {
            on_kg += std::mem::take(&mut self.ice_kg);
        } else if jet.t_k < ZERO_C_K && jet.fraction > jet.soluble {
            let ice = STAYS * jet.water_kg * (1.0 - jet.soluble / jet.fraction);
            self.ice_kg += ice;
            on_kg -= ice;
        }
        // A seat that has thawed takes some seconds to be as cold as the jet again.
        let away = (seat - goal).abs() > 0.5 && self.seat_t_k.is_some();
        self.seat_t_k = (self.ice_kg > 0.0 || away).then_some(seat);
        on_kg
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn jet(mass_kg_s: f64) -> Jet {
        let fraction = 900e-6;
        Jet {
            inlet_t_k: 308.15,
            t_k: 266.15,
            mass_kg_s,
            water_kg: fraction * mass_kg_s,
            fraction,
            soluble: 390e-6,
        }
    }

    #[test]
    fn ice_grows_in_a_full_jet_and_lets_go_when_it_has_choked_it() {
        let mut icing = Icing::default();
        let mut seconds = 0;
        while icing.ice_kg < 1.4e-4 && seconds < 3600 {
            let on = icing.step(&jet(0.02), 1.0);
            assert!(on <= jet(0.02).water_kg);
            seconds += 1;
        }
        assert!((60..1200).contains(&seconds), "{seconds} s to close a valve");
        let choked = icing.ice_kg;
        let mut came = 0.0;
        seconds = 0;
        while icing.ice_kg > 0.0 && seconds < 3600 {
            came += icing.step(&jet(2e-4), 1.0) - jet(2e-4).water_kg;
            seconds += 1;
        }
        assert!((10..600).contains(&seconds), "{seconds} s to let go");
        assert!(icing.seat_t_k.is_some_and(|t| t > 273.15) && (came - choked).abs() < 1e-5 && came > 0.0);
    }

    #[test]
    fn a_warm_jet_and_a_dry_one_leave_no_ice() {
        let mut icing = Icing::default();
        for jet in [
            Jet { t_k: 275.15, ..jet(0.02) },
            Jet { fraction: 300e-6, water_kg: 6e-6, ..jet(0.02) },
            Jet { mass_kg_s: 0.0, water_kg: 0.0, fraction: 0.0, ..jet(0.02) },
        ] {
            for _ in 0..600 {
                icing.step(&jet, 1.0);
            }
            assert_eq!(icing, Icing::default());
        }
    }
}
