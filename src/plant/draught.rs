//! How fast the air moves past the outside of the loop: what carries leaked gas away from a detector. Own estimates, all
//! of them.

use super::Plant;
use crate::constants::R_DRY_AIR;

/// Air that the condenser fan drives past the front of the car at full speed [m/s].
const FAN_M_S: f64 = 3.0;
/// Share of it that is felt under the bonnet.
const FAN_BEHIND: f64 = 0.3;
/// Air that a running engine stirs about its belt [m/s].
const STIRRED_M_S: f64 = 0.3;
/// Share of the road speed that reaches the front of the car.
const ROAD_FRONT: f64 = 0.5;
/// Share of the road speed that reaches the space under the bonnet.
const ROAD_BEHIND: f64 = 0.2;
/// Section of the evaporator's housing above its drain [m2].
const HOUSING_M2: f64 = 0.04;

/// Where air moves past the loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Draught {
    /// At the front of the car, about the condenser.
    Front,
    /// Under the bonnet.
    Bonnet,
    /// Inside the evaporator's housing: the blower's air, and none from outside.
    Housing,
}

impl Plant {
    /// Speed of the air past a place [m/s], with the outside air at a temperature [K].
    pub fn draught_m_s(&self, place: Draught, ambient_t_k: f64) -> f64 {
        let inputs = &self.inputs;
        let road_m_s = inputs.road_kmh / 3.6;
        let fan_m_s = FAN_M_S * inputs.fan_share;
        match place {
            Draught::Front => fan_m_s + ROAD_FRONT * road_m_s,
            Draught::Bonnet => {
                let stirred_m_s = if inputs.engine_on { STIRRED_M_S } else { 0.0 };
                FAN_BEHIND * fan_m_s + ROAD_BEHIND * road_m_s + stirred_m_s
            }
            Draught::Housing => {
                self.coil_air_kg_s() * R_DRY_AIR * ambient_t_k / inputs.ambient_pa / HOUSING_M2
            }
        }
    }
}
