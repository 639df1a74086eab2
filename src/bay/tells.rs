//! What the plant is told of hoses, machines and fittings as they are connected.

use super::spurt::CRACK_M2;
use super::{Bay, JOINT_M2, Station};
use crate::plant::{self, CentreHose, Inputs, OpenPlace, Vessel};

impl Bay {
    /// The station at work on the hoses.
    pub fn at_work(&self) -> Option<&Station> {
        self.station.as_ref().filter(|station| station.step().is_some())
    }

    /// Put what is open to what into the plant's inputs, with so much oil in all places [kg]. The coupler of the high-side hose
    /// may be stuck shut.
    pub fn tell(&self, inputs: &mut Inputs, high_hose_shut: bool, oil_kg: f64) {
        (inputs.low_hose, inputs.high_hose) = (self.low.reaches(), self.high.reaches());
        if high_hose_shut {
            inputs.high_hose = None;
        }
        let station = self.at_work();
        if let Some(station) = station {
            (inputs.manifold_low, inputs.manifold_high) = station.valves();
        }
        inputs.centre_hose = self.centre_hose(inputs.ambient_pa);
        if let Some(opened) = &self.opened {
            (inputs.joint_m2, inputs.joint_place) = (JOINT_M2, opened.place);
        }
        if let Some(spurt) = self.spurts.iter().max_by(|a, b| a.m2.total_cmp(&b.m2)) {
            (inputs.crack_m2, inputs.crack_place) = (spurt.m2, spurt.place);
            if spurt.place == OpenPlace::CentreHose {
                inputs.centre_hose = CentreHose::Capped;
            }
        } else if self.loose {
            (inputs.crack_m2, inputs.crack_place) = (CRACK_M2, OpenPlace::CentreHose);
        }
        // The station keeps its supply cylinder warm.
        inputs.warm_bath =
            if station.is_some() { Some(Vessel::Supply) } else { self.warm.then_some(self.on_scale) };
        inputs.fins_blocked = inputs.fins_blocked.max(self.cover);
        if self.spray {
            inputs.spray_k = plant::spray_k(inputs.ambient_t_k, inputs.ambient_w, inputs.ambient_pa);
        }
        let foreign = (self.log.foreign_oil_kg / oil_kg.max(1e-6)).clamp(0.0, 1.0);
        inputs.oil_film *= plant::film_of_mixture(foreign);
    }
}
