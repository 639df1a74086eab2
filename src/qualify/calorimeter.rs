//! The loop of a rig between two rooms whose air is held, as on a test stand: the evaporator draws air of a fixed
//! temperature and humidity, the condenser air of another temperature, the compressor turns at a fixed speed. It is
//! the same plant as in the car, with a cabin so large that nothing moves it and a flap that is shut.

use crate::bench::Bench;
use crate::moist_air;
use crate::plant::Plant;
use crate::refrigerant::Refrigerant;
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// Dry air in the evaporator's room [kg]: its temperature then moves by less than a millikelvin a day.
const ROOM_AIR_KG: f64 = 1e9;

/// What is held.
#[derive(Clone, Copy, Debug)]
pub struct Held {
    /// Air into the evaporator [°C].
    pub room_c: f64,
    /// Its relative humidity [%].
    pub room_rh_pct: f64,
    /// Air into the condenser [°C].
    pub outside_c: f64,
    /// Compressor speed [rev/min].
    pub compressor_rpm: f64,
    /// Condenser fan, share of full.
    pub fan_share: f64,
    /// Charge, share of the rig's full charge.
    pub charge_share: f64,
}

/// 27 °C and 50 % into the evaporator, 35 °C into the condenser, 1800 rev/min, full fan and charge.
pub const STANDARD: Held = Held {
    room_c: 27.0,
    room_rh_pct: 50.0,
    outside_c: 35.0,
    compressor_rpm: 1800.0,
    fan_share: 1.0,
    charge_share: 1.0,
};

/// The stand.
#[derive(Clone, Debug)]
pub struct Calorimeter {
    plant: Plant,
    time_s: f64,
}

/// One moment.
#[derive(Clone, Copy, Debug)]
pub struct Moment {
    /// Time [s].
    pub time_s: f64,
    /// Heat into the evaporator [W].
    pub capacity_w: f64,
    /// Shaft power into the refrigerant [W].
    pub power_w: f64,
    /// Suction and liquid-line pressure [Pa absolute].
    pub low_pa: f64,
    /// See above.
    pub high_pa: f64,
    /// Discharge temperature [K].
    pub discharge_k: f64,
    /// Air off the evaporator [K].
    pub vent_k: f64,
    /// Water condensing [kg/s].
    pub condensate_kg_s: f64,
}

impl Moment {
    /// Capacity over shaft power.
    pub fn cop(&self) -> f64 {
        self.capacity_w / self.power_w
    }
}

impl Calorimeter {
    /// The rig of a bench with a refrigerant between the two rooms, soaked, the compressor running from now on. All
    /// that is not held here stays as the bench has it.
    pub fn new(like: &Bench, refrigerant: &'static Refrigerant, held: Held) -> Self {
        let mut spec = like.plant().spec().clone();
        spec.cabin.air_kg = ROOM_AIR_KG;
        spec.cabin.flap_leak = 0.0;
        let room_k = held.room_c + ZERO_C_K;
        let mut inputs = *like.plant().inputs();
        inputs.ambient_t_k = room_k;
        inputs.ambient_w = moist_air::humidity_ratio(room_k, held.room_rh_pct / 100.0, ATMOSPHERE_PA);
        inputs.recirculate = true;
        inputs.blower_pct = 100.0;
        (inputs.compressor_rpm, inputs.fan_share, inputs.road_kmh) = (0.0, 0.0, 0.0);
        let charge_kg = spec.full_charge_kg * held.charge_share;
        let mut plant = Plant::soaked(&spec, refrigerant, inputs, charge_kg, 0.0);
        inputs.ambient_t_k = held.outside_c + ZERO_C_K;
        inputs.compressor_rpm = held.compressor_rpm;
        inputs.fan_share = held.fan_share;
        plant.set_inputs(0.0, inputs);
        Self { plant, time_s: 0.0 }
    }

    /// Let seconds pass and look.
    pub fn run(&mut self, seconds: f64) -> Moment {
        self.time_s += seconds;
        self.plant.advance_to(self.time_s);
        self.look()
    }

    /// The plant.
    pub fn plant(&self) -> &Plant {
        &self.plant
    }

    fn look(&self) -> Moment {
        let (p, l) = (&self.plant, self.plant.layout());
        let node = |i: usize| p.node(i, self.time_s);
        let compressor = p.compressor_flow();
        let (vent_k, condensate_kg_s) = p.vent();
        // A solver in trouble gives no value rather than a wrong one.
        let sound = if p.troubles().is_empty() { 1.0 } else { f64::NAN };
        let heats = l.evaporator.clone().map(|i| p.heats_w().get(i).copied().unwrap_or(f64::NAN));
        Moment {
            time_s: self.time_s,
            capacity_w: sound * heats.sum::<f64>(),
            power_w: sound * (compressor.in_w - compressor.out_w),
            low_pa: node(l.suction).p.v,
            high_pa: node(l.liquid).p.v,
            discharge_k: node(l.discharge).t.v,
            vent_k,
            condensate_kg_s,
        }
    }
}
