//! Engine and the space around it under the bonnet: two lumps of heat. While the engine runs, a thermostat
//! holds it and the radiator gives its heat to the air that comes off the condenser; after a stop nothing
//! flushes the bay, which soaks up to near the engine's temperature and cools with it.

use serde::{Deserialize, Serialize};

use super::Inputs;
use super::condenser_air::FrontAir;
use crate::moist_air::CP_DRY_AIR;

/// Engine, radiator and bay of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EngineBaySpec {
    /// Heat capacity of engine and coolant [J/K].
    pub engine_j_k: f64,
    /// Heat into engine and coolant per engine speed [W per rev/min].
    pub heat_w_per_rpm: f64,
    /// Further heat per road speed [W per km/h].
    pub heat_w_per_kmh: f64,
    /// Coolant temperature at which the thermostat begins to open [K].
    pub thermostat_opens_t_k: f64,
    /// Coolant temperature at which it is wide open [K].
    pub thermostat_open_t_k: f64,
    /// Air-side conductance of the radiator at the condenser's full fan flow [W/K].
    pub radiator_w_k: f64,
    /// Conductance from the engine's surfaces to the bay [W/K].
    pub surface_w_k: f64,
    /// Heat capacity of metal and air in the bay [J/K].
    pub bay_j_k: f64,
    /// Conductance from the bay through bonnet and gaps to still outside air [W/K].
    pub still_w_k: f64,
    /// Outside air that joins past the cores, as a share of the flow pushed through them.
    pub past_cores_share: f64,
    /// Conductance from the bay through the firewall to the cabin [W/K].
    pub firewall_w_k: f64,
}

/// Coolant boils off above this under its cap [K] (from memory); what boils away takes the heat along.
const BOILS_T_K: f64 = 398.15;
/// How firmly boiling holds the engine there [W/K].
const BOILING_W_K: f64 = 500.0;
/// A car that has just rolled in: how far the flushed bay stands between outside air and engine. It finds its
/// own within minutes.
const ROLLED_IN: f64 = 0.4;
/// How far its thermostat stands open.
const OPEN_AT_START: f64 = 0.2;

/// Temperatures under the bonnet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct EngineBay {
    /// Engine block and coolant [K].
    pub engine_t_k: f64,
    /// Air and metal of the bay [K].
    pub bay_t_k: f64,
}

impl EngineBaySpec {
    /// How far the thermostat lets coolant through the radiator, 0 to 1; the pump turns with the engine.
    pub fn thermostat(&self, engine_on: bool, engine_t_k: f64) -> f64 {
        let span = self.thermostat_open_t_k - self.thermostat_opens_t_k;
        let opening = (engine_t_k - self.thermostat_opens_t_k) / span;
        if engine_on { opening.clamp(0.0, 1.0) } else { 0.0 }
    }
}

impl EngineBay {
    /// Start of a scenario: an engine that runs then is warm, for the car was driven in; one that stands is cold.
    pub fn at_start(spec: &EngineBaySpec, engine_on: bool, ambient_t_k: f64) -> Self {
        if !engine_on {
            return Self { engine_t_k: ambient_t_k, bay_t_k: ambient_t_k };
        }
        let span = spec.thermostat_open_t_k - spec.thermostat_opens_t_k;
        let engine_t_k = spec.thermostat_opens_t_k + OPEN_AT_START * span;
        Self { engine_t_k, bay_t_k: ambient_t_k + ROLLED_IN * (engine_t_k - ambient_t_k) }
    }

    /// Implicit step of `dt_s` with the front's air at `off_condenser_t_k` and the cabin at `cabin_t_k`.
    pub fn step(
        &mut self,
        spec: &EngineBaySpec,
        inputs: &Inputs,
        front: &FrontAir,
        off_condenser_t_k: f64,
        cabin_t_k: f64,
        dt_s: f64,
    ) {
        let heat_w = if inputs.engine_on {
            spec.heat_w_per_rpm * inputs.engine_rpm + spec.heat_w_per_kmh * inputs.road_kmh
        } else {
            0.0
        };
        let store = spec.engine_j_k / dt_s;
        let radiator = front.radiator * front.flow_kg_s * CP_DRY_AIR;
        let boiling = if self.engine_t_k > BOILS_T_K { BOILING_W_K } else { 0.0 };
        self.engine_t_k = (store * self.engine_t_k
            + heat_w
            + radiator * off_condenser_t_k
            + spec.surface_w_k * self.bay_t_k
            + boiling * BOILS_T_K)
            / (store + radiator + spec.surface_w_k + boiling);

        let store = spec.bay_j_k / dt_s;
        let cores = front.pushed_kg_s * CP_DRY_AIR;
        let past = cores * spec.past_cores_share + spec.still_w_k;
        self.bay_t_k = (store * self.bay_t_k
            + cores * front.off_radiator_t_k(off_condenser_t_k, self)
            + past * inputs.ambient_t_k
            + spec.surface_w_k * self.engine_t_k
            + spec.firewall_w_k * cabin_t_k)
            / (store + cores + past + spec.surface_w_k + spec.firewall_w_k);
    }
}

#[cfg(test)]
mod tests {
    use super::super::slopes_tests::inputs;
    use super::*;
    use crate::plant::testing::rig;

    /// In steady state what the engine makes leaves through radiator, bay and firewall; common practice, from
    /// memory: the thermostat holds 80 to 100 °C.
    #[test]
    fn the_thermostat_holds_and_heat_closes() {
        let car = rig("compact_car");
        let spec = car.engine_bay;
        let mut i = inputs();
        for (rpm, kmh) in [(900.0, 0.0), (2000.0, 80.0), (3000.0, 120.0)] {
            (i.engine_rpm, i.road_kmh) = (rpm, kmh);
            let mut bay = EngineBay::at_start(&spec, true, i.ambient_t_k);
            let flow = 0.3 + 0.006 * kmh;
            let (off, cabin) = (i.ambient_t_k + 12.0, 300.0);
            let mut front = FrontAir { flow_kg_s: flow, pushed_kg_s: flow, ..FrontAir::default() };
            for _ in 0..20_000 {
                front.radiator = 0.6 * spec.thermostat(true, bay.engine_t_k);
                bay.step(&spec, &i, &front, off, cabin, 2.0);
            }
            assert!((353.0..373.0).contains(&bay.engine_t_k), "{rpm}: {bay:?}");
            let air = flow * CP_DRY_AIR;
            let made = spec.heat_w_per_rpm * rpm + spec.heat_w_per_kmh * kmh;
            let gone = air * (bay.bay_t_k - off)
                + (air * spec.past_cores_share + spec.still_w_k) * (bay.bay_t_k - i.ambient_t_k)
                + spec.firewall_w_k * (bay.bay_t_k - cabin);
            assert!((made - gone).abs() < 1e-6 * made, "{rpm}: {made} {gone}");
        }
    }

    /// An engine without any cooling boils instead of heating without bound.
    #[test]
    fn an_uncooled_engine_boils() {
        let spec = rig("compact_car").engine_bay;
        let mut i = inputs();
        i.engine_rpm = 6000.0;
        let mut bay = EngineBay::at_start(&spec, true, i.ambient_t_k);
        for _ in 0..20_000 {
            bay.step(&spec, &i, &FrontAir::default(), i.ambient_t_k, 300.0, 2.0);
        }
        assert!((BOILS_T_K..BOILS_T_K + 60.0).contains(&bay.engine_t_k), "{bay:?}");
        assert_eq!(spec.thermostat(false, 370.0), 0.0);
    }
}
