//! A rig between two rooms of held air, with anything wrong, run until it is steady.

use super::super::QualifyError;
use crate::bench::BenchError;
use crate::moist_air;
use crate::plant::{Contents, Inputs, Plant, PlantSpec};
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;
use crate::units::{ATMOSPHERE_PA, ZERO_C_K};

/// Dry air in the evaporator's room [kg]: nothing moves its temperature.
const ROOM_AIR_KG: f64 = 1e9;
/// Length of a run [s]: everything but the body of the compressor stands still long before.
const RUN_S: f64 = 2400.0;

/// A rig and what is held.
#[derive(Clone, Debug)]
pub struct Stand {
    spec: PlantSpec,
    refrigerant: &'static Refrigerant,
    still: Inputs,
    running: Inputs,
    contents: Contents,
}

/// What instruments would show, steady.
#[derive(Clone, Copy, Debug, Default)]
pub struct Shown {
    /// Evaporating temperature at the coil's outlet [K].
    pub evaporating_k: f64,
    /// Suction pressure at the service port [Pa].
    pub low_pa: f64,
    /// Superheat at the evaporator's outlet [K].
    pub superheat_k: f64,
    /// Superheat at the compressor [K].
    pub suction_superheat_k: f64,
    /// Saturation temperature at the pressure of the condenser's outlet, air included, as a gauge there gives it [K].
    pub condensing_k: f64,
    /// That pressure [Pa].
    pub high_pa: f64,
    /// Pressure at the high service port, on the liquid line behind receiver and drier [Pa].
    pub port_pa: f64,
    /// Condensing temperature less that of the liquid at the condenser's outlet [K]: what a technician reckons.
    pub subcooling_k: f64,
    /// Discharge temperature [K].
    pub discharge_k: f64,
    /// Rise of the condenser's air [K].
    pub condenser_air_k: f64,
    /// Drop of the evaporator's air [K].
    pub evaporator_air_k: f64,
    /// Shaft power into the refrigerant [W].
    pub power_w: f64,
    /// Heat into the evaporator [W].
    pub capacity_w: f64,
    /// Temperature before the drier (the last cell of the condenser proper) [K].
    pub before_drier_k: f64,
    /// Temperature of the upper condenser, its first quarter [K].
    pub upper_condenser_k: f64,
    /// Pressure there [Pa].
    pub upper_condenser_pa: f64,
    /// Temperature at the metering's inlet [K].
    pub liquid_k: f64,
    /// Suction pipe at the compressor [K].
    pub suction_pipe_k: f64,
    /// Vapour volume share at the metering's inlet.
    pub bubbles: f64,
    /// No trouble on the way.
    pub sound: bool,
}

impl Stand {
    /// A rig with outside air at a temperature [°C], room air at 27 °C and 50 %, its compressor at a speed [rev/min] and
    /// its fan at a share.
    pub fn new(rig: &str, outside_c: f64, compressor_rpm: f64, fan_share: f64) -> Result<Self, QualifyError> {
        let rig = Rig::load(rig).map_err(BenchError::from)?;
        let mut spec = rig.plant;
        let refrigerant = Refrigerant::by_name(&spec.refrigerant)
            .ok_or_else(|| BenchError::Refrigerant(spec.refrigerant.clone()))?;
        spec.cabin.air_kg = ROOM_AIR_KG;
        spec.cabin.flap_leak = 0.0;
        let room_k = 27.0 + ZERO_C_K;
        let mut still = Inputs::parked(room_k);
        still.ambient_w = moist_air::humidity_ratio(room_k, 0.5, ATMOSPHERE_PA);
        still = still.with_hoses(true);
        still.blower_pct = 100.0;
        let mut running = still;
        running.ambient_t_k = outside_c + ZERO_C_K;
        running.compressor_rpm = compressor_rpm;
        running.fan_share = fan_share;
        let contents =
            Contents { charge_kg: spec.full_charge_kg, air_kg: 0.0, oil_kg: spec.oil.full_kg, water_kg: 0.0 };
        Ok(Self { spec, refrigerant, still, running, contents })
    }

    /// The same loop without its receiver, charged until the liquid leaves the condenser 6 K subcooled (own choice).
    pub fn without_receiver(mut self) -> Self {
        self.spec.receiver = None;
        let (mut less, mut more) = (0.2 * self.contents.charge_kg, 1.2 * self.contents.charge_kg);
        for _ in 0..14 {
            let charge_kg = 0.5 * (less + more);
            let shown = self.with(&|_, c| c.charge_kg = charge_kg);
            if shown.subcooling_k < 6.0 { less = charge_kg } else { more = charge_kg }
        }
        self.contents.charge_kg = 0.5 * (less + more);
        self
    }

    /// What instruments show with something changed.
    pub fn with(&self, change: &dyn Fn(&mut Inputs, &mut Contents)) -> Shown {
        let (mut running, mut contents) = (self.running, self.contents);
        change(&mut running, &mut contents);
        let mut plant = Plant::soaked_with(&self.spec, self.refrigerant, self.still, contents);
        plant.set_inputs(0.0, running);
        plant.advance_to(RUN_S);
        self.look(&plant)
    }
    /// The healthy loop.
    pub fn healthy(&self) -> Shown {
        self.with(&|_, _| {})
    }

    fn look(&self, plant: &Plant) -> Shown {
        let l = plant.layout();
        let node = |i: usize| plant.node(i, RUN_S);
        let (outlet, suction) = (node(l.evaporator.end - 1), node(l.suction));
        let (port, liquid) = (node(l.liquid), node(l.metering_inlet()));
        let end = node(l.condenser_outlet());
        let upper = node(l.condenser.start + l.condenser.len() / 4);
        let condensing_k = self.refrigerant.saturation(libm::log(end.p.v)).t_k;
        let (_, on_k, off_k) = plant.condenser_air();
        let compressor = plant.compressor_flow();
        let heats = l.evaporator.clone().map(|i| plant.heats_w().get(i).copied().unwrap_or(f64::NAN));
        Shown {
            evaporating_k: outlet.sat.t_k,
            low_pa: suction.p.v,
            superheat_k: outlet.superheat_k(),
            suction_superheat_k: suction.superheat_k(),
            condensing_k,
            high_pa: end.p.v,
            port_pa: port.p.v,
            subcooling_k: condensing_k - end.t.v,
            discharge_k: node(l.discharge).t.v,
            condenser_air_k: off_k - on_k,
            // The room's air is what goes in.
            evaporator_air_k: plant.at(RUN_S, |s| s.cabin.t_k) - plant.vent().0,
            power_w: compressor.in_w - compressor.out_w,
            capacity_w: heats.sum(),
            before_drier_k: node(l.condenser.end - 1).t.v,
            upper_condenser_k: upper.t.v,
            upper_condenser_pa: upper.p.v,
            liquid_k: liquid.t.v,
            suction_pipe_k: suction.t.v,
            bubbles: if liquid.quality.v > 0.0 { liquid.void } else { 0.0 },
            sound: plant.troubles().is_empty(),
        }
    }
}
