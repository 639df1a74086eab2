//! The air through the front of a loop as walls and engine stand: see `condenser_air.rs` for what it follows from.

use super::condenser_air::{CondenserAirSpec, FrontAir};
use super::engine_bay::EngineBay;
use super::layout::Layout;
use super::spec::PlantSpec;
use super::{Inputs, State};
use crate::moist_air::CP_DRY_AIR;

impl FrontAir {
    /// The air with walls and engine as they stand in `state`.
    pub fn of(spec: &PlantSpec, layout: &Layout, inputs: &Inputs, state: &State) -> Self {
        let air = &spec.condenser_air;
        let drives = air.drives(inputs.fan_share, inputs.road_kmh);
        let all: f64 = drives.iter().sum();
        let thin = inputs.thin_air();
        let open = CondenserAirSpec::open(inputs.fins_blocked);
        // A fan against a part-blocked face: flow falls a little less than the open share.
        let flow = all.sqrt() * libm::pow(open, 0.9) * thin;
        let capacity = flow * CP_DRY_AIR;
        let film = open * libm::pow(flow / open / air.fan_kg_s, 0.55);
        let conductance_w_k = air.conductance_w_k * inputs.condenser_film.max(0.0);
        let effectiveness = 1.0 - libm::exp(-conductance_w_k * film / capacity);
        let engine_bay = &spec.engine_bay;
        let opening = engine_bay.thermostat(inputs.engine_on, state.engine_bay.engine_t_k);
        let radiator = if opening > 0.0 {
            opening * (1.0 - libm::exp(-engine_bay.radiator_w_k * inputs.radiator.max(0.0) * film / capacity))
        } else {
            0.0
        };
        let r = air.recirculated(inputs.fan_share, inputs.road_kmh, inputs.recirculated_extra);
        let wall = face_wall_k(spec, layout, &state.wall_k);
        let came_back = (1.0 - radiator) * effectiveness * wall + radiator * state.engine_bay.engine_t_k;
        let outside = inputs.ambient_t_k - inputs.spray_k;
        let on_t_k =
            ((1.0 - r) * outside + r * came_back) / (1.0 - r * (1.0 - radiator) * (1.0 - effectiveness));
        Self {
            flow_kg_s: flow,
            pushed_kg_s: flow * (1.0 - drives[2] / all),
            on_t_k,
            face_w_k: capacity * effectiveness,
            radiator,
        }
    }

    /// Temperature off the condenser with the walls as they are now [K].
    pub fn off_condenser_t_k(&self, spec: &PlantSpec, layout: &Layout, wall_k: &[f64]) -> f64 {
        let wall = face_wall_k(spec, layout, wall_k);
        self.on_t_k + self.face_w_k / (self.flow_kg_s * CP_DRY_AIR) * (wall - self.on_t_k)
    }

    /// Temperature off the radiator behind it [K].
    pub fn off_radiator_t_k(&self, off_condenser_t_k: f64, engine_bay: &EngineBay) -> f64 {
        off_condenser_t_k + self.radiator * (engine_bay.engine_t_k - off_condenser_t_k)
    }
}

/// Mean wall temperature over the face [K].
fn face_wall_k(spec: &PlantSpec, layout: &Layout, wall_k: &[f64]) -> f64 {
    let condenser = mean(layout.condenser.clone(), wall_k);
    if layout.subcooler.is_empty() {
        return condenser;
    }
    condenser * (1.0 - spec.subcooler_face) + mean(layout.subcooler.clone(), wall_k) * spec.subcooler_face
}

fn mean(cells: std::ops::Range<usize>, wall_k: &[f64]) -> f64 {
    let n = cells.len() as f64;
    cells.map(|i| wall_k[i]).sum::<f64>() / n
}
