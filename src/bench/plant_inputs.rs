//! From knobs, circuit and faults to what the plant is told, and to what it is soaked with.

use super::Bench;
use crate::knobs::Controls;
use crate::moist_air;
use crate::plant::{Contents, Drive, Inputs, Plant, Vessel};
use crate::units::ZERO_C_K;

impl Bench {
    /// Start over from rest with what stands now; only at tick 0, so that whatever is done before the first
    /// tick belongs to the soaked car.
    pub(super) fn soak(&mut self) {
        let spec = self.plant.spec().clone();
        let refrigerant = self.plant.refrigerant();
        self.soaked_offset_kg = self.charge_offset_kg();
        let charge = spec.full_charge_kg + self.soaked_offset_kg;
        let inputs = still_inputs(&self.controls, self.hoses_fitted);
        let mut inputs = inputs;
        inputs.desiccant_taken = self.effects.plant.desiccant_taken;
        let left_open = self.scenario.bay.is_some_and(|setup| setup.left_open);
        let open_air_kg = if left_open { self.room_full_of_air_kg(&inputs) } else { 0.0 };
        let contents = Contents {
            charge_kg: if left_open { 0.0 } else { charge },
            air_kg: self.air_target_kg() + open_air_kg,
            oil_kg: self.oil_target_kg(),
            water_kg: self.water_target_kg(),
        };
        self.soaked_water_kg = contents.water_kg;
        self.plant = match self.scenario.bay {
            Some(setup) => {
                let vessels_kg = Vessel::ALL.map(|vessel| setup.start_kg(vessel));
                Plant::in_bay_with(&spec, refrigerant, inputs, contents, vessels_kg)
            }
            None => Plant::soaked_with(&spec, refrigerant, inputs, contents),
        };
        self.begin_books();
        self.coil_t_k = self.controls.ambient_c + ZERO_C_K;
    }

    /// Air at outside pressure in the whole loop [kg].
    fn room_full_of_air_kg(&self, inputs: &Inputs) -> f64 {
        let l = self.plant.layout();
        let room_m3: f64 = (0..l.low_hose).map(|i| l.volumes_m3[i]).sum();
        inputs.ambient_pa * room_m3 / (moist_air::R_DRY_AIR * inputs.ambient_t_k)
    }

    pub(super) fn charge_offset_kg(&self) -> f64 {
        // Nothing less than an empty loop.
        self.plant.spec().full_charge_kg * self.effects.plant.charge_share.max(-1.0)
    }

    pub(super) fn air_target_kg(&self) -> f64 {
        self.effects.plant.air_kg
    }

    pub(super) fn oil_target_kg(&self) -> f64 {
        self.plant.spec().oil.full_kg * self.effects.plant.oil_share
    }

    pub(super) fn water_target_kg(&self) -> f64 {
        self.effects.plant.water_kg
    }

    /// What the circuit turns and opens. It moves over seconds; the plant is told in steps.
    fn drive(&self, inputs: &mut Inputs) {
        let (d, wrong, old) = (&self.drives, &self.effects.plant, self.plant.inputs());
        let belt = self.plant.spec().compressor.drive.pulley_ratio();
        inputs.compressor_rpm = match belt {
            Some(ratio) if d.clutch_engaged && self.controls.engine_on => {
                self.controls.engine_rpm * ratio * stepped(d.clutch_grip, 50.0) * wrong.belt_share
            }
            Some(_) => 0.0,
            None => {
                held(old.compressor_rpm, d.electric_rpm.or(d.hermetic_rpm).unwrap_or(0.0), SPEED_STEP_RPM)
            }
        };
        if wrong.seized {
            inputs.compressor_rpm = 0.0;
        }
        inputs.fan_share = held(old.fan_share, d.fan_share, 0.02);
        if let Some(fan) = &self.plant.spec().condenser_air.viscous_fan {
            let rpm = if self.controls.engine_on { self.controls.engine_rpm } else { 0.0 };
            let goal = fan.share(rpm, self.plant.condenser_air().2, wrong.coupling_grip);
            let old = old.fan_share;
            // It creeps all the time; the plant is told when it has moved.
            inputs.fan_share =
                if (goal - old).abs() < 0.03 && (goal > 0.0) == (old > 0.0) { old } else { goal };
        }
        inputs.blower_pct = held(old.blower_pct, 100.0 * d.blower_share, 1.0);
        let least = match self.plant.spec().compressor.drive {
            Drive::VariableBelt { least_stroke, .. } => least_stroke,
            _ => 0.0,
        };
        inputs.stroke = held(old.stroke, least + (1.0 - least) * wrong.stroke.unwrap_or(d.stroke), 0.01);
        inputs.expansion_opening = held(old.expansion_opening, d.expansion_opening.unwrap_or(0.0), 0.005);
        inputs.chiller_opening = held(old.chiller_opening, d.chiller_opening.unwrap_or(0.0), 0.005);
    }

    /// Inputs of the plant as knobs, circuit and faults stand.
    pub(super) fn inputs(&self, now: f64) -> Inputs {
        let c = &self.controls;
        let old = *self.plant.inputs();
        let mut inputs = still_inputs(c, self.hoses_fitted);
        self.drive(&mut inputs);
        inputs.manifold_low = self.manifold_low_pct / 100.0;
        inputs.manifold_high = self.manifold_high_pct / 100.0;
        self.faults_into(&mut inputs, now);
        // Charge and air move towards what the faults ask for, set anew once a second.
        self.bay_into(&mut inputs);
        if self.tick.is_multiple_of(20) && self.bay.is_none() {
            let due = self.charge_offset_kg() + self.added_kg
                - self.soaked_offset_kg
                - self.plant.at(now, |s| s.serviced_kg);
            inputs.charge_kg_s = if due.abs() < 1e-7 { 0.0 } else { due.clamp(-0.01, 0.01) };
            let ambient = self.plant.refrigerant();
            let u = libm::log(ambient.saturation_p_pa(inputs.ambient_t_k));
            inputs.charge_h_j_kg = ambient.saturation(u).h_l;
            let air = self.air_target_kg() - self.plant.at(now, |s| s.air_kg.iter().sum());
            // What a hole lets in or out is no service.
            inputs.air_kg_s =
                if air.abs() < 1e-9 || inputs.open_m2 > 0.0 { 0.0 } else { air.clamp(-2e-4, 2e-4) };
            let oil = self.oil_target_kg() + self.added_oil_kg
                - self.plant.at(now, |s| s.oil.total_kg() + s.oil.lost_kg);
            inputs.oil_kg_s = if oil.abs() < 1e-6 { 0.0 } else { oil.clamp(-5e-3, 5e-3) };
            let water = self.water_target_kg() - self.soaked_water_kg - self.plant.at(now, |s| s.water.in_kg);
            inputs.water_kg_s = if water.abs() < 1e-7 { 0.0 } else { water.clamp(-2e-4, 2e-4) };
        } else {
            inputs.charge_kg_s = old.charge_kg_s;
            inputs.charge_h_j_kg = old.charge_h_j_kg;
            inputs.air_kg_s = old.air_kg_s;
            inputs.oil_kg_s = old.oil_kg_s;
            inputs.water_kg_s = old.water_kg_s;
        }
        inputs
    }

    /// What the faults change at once; masses follow in [`Self::inputs`], for they take their time.
    fn faults_into(&self, inputs: &mut Inputs, now: f64) {
        let wrong = &self.effects.plant;
        inputs.metering = wrong.metering;
        if wrong.equaliser_blocked {
            let outlet = self.plant.layout().evaporator.end - 1;
            let before = self.plant.inputs().metering.equaliser_held_pa;
            inputs.metering.equaliser_held_pa = before.or_else(|| Some(self.plant.look(outlet, now).p_pa));
        }
        inputs.passages = wrong.passages;
        // A shut solenoid leaks a little (own estimate).
        inputs.passages.liquid *= self.drives.liquid_line_open.max(1e-4);
        inputs.condenser_film = wrong.condenser_film;
        inputs.fins_blocked = wrong.fins_blocked;
        inputs.recirculated_extra = wrong.recirculated_extra;
        inputs.radiator = wrong.radiator;
        inputs.evaporator_film = wrong.evaporator_film;
        inputs.evaporator_air = wrong.evaporator_air;
        inputs.heater_share = wrong.heater_share;
        inputs.recirculate = inputs.recirculate && !wrong.fresh_air;
        inputs.drain = wrong.drain;
        inputs.exchanger_film = wrong.exchanger_film;
        inputs.reed_leak = wrong.reed_leak;
        inputs.desiccant_taken = wrong.desiccant_taken;
        inputs.oil_film = wrong.oil_film;
        if let Some((m2, place)) = wrong.hole {
            (inputs.open_m2, inputs.open_place) = (m2, place);
        }
    }
}

/// Steps in which the plant is told of an electric or hermetic compressor's speed [rev/min].
const SPEED_STEP_RPM: f64 = 50.0;

/// What the plant has been told, until the value is more than half a step away or comes to rest or away from it; then the nearest
/// whole step. A value that dithers about the border of two steps so cuts no solver step.
fn held(told: f64, value: f64, step: f64) -> f64 {
    let near = (value - told).abs() < 0.6 * step && (value > 0.0) == (told > 0.0);
    if near { told } else { libm::round(value / step) * step }
}

/// Nearest whole step of so many.
fn stepped(share: f64, steps: f64) -> f64 {
    libm::round(share * steps) / steps
}

/// Inputs with compressor and fan at rest and nothing wrong.
pub(super) fn still_inputs(c: &Controls, hoses_fitted: bool) -> Inputs {
    let ambient_t_k = c.ambient_c + ZERO_C_K;
    Inputs {
        engine_on: c.engine_on,
        engine_rpm: c.engine_rpm,
        road_kmh: c.road_speed_kmh,
        blower_pct: c.blower_pct,
        recirculate: c.recirculate,
        ambient_w: moist_air::humidity_ratio(ambient_t_k, c.relative_humidity_pct / 100.0, c.ambient_pa()),
        ambient_pa: c.ambient_pa(),
        doors_open: c.doors_open_pct / 100.0,
        battery_w: c.battery_heat_w,
        solar_w_m2: c.solar_w_m2,
        people: c.people,
        ..Inputs::parked(ambient_t_k).with_hoses(hoses_fitted)
    }
}
