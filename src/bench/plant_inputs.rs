//! From knobs, circuit, hands and faults to what the plant is told.

use super::now::Now;
use super::service::Service;
use crate::circuit::Drives;
use crate::fault::{Effects, PlantEffects};
use crate::knobs::Controls;
use crate::moist_air;
use crate::plant::told::{crept, held, stepped};
use crate::plant::{Inputs, SOLENOID_LEAK};
use crate::units::ZERO_C_K;

/// Step in which the plant is told of an electric or hermetic compressor's speed [rev/min].
const SPEED_STEP_RPM: f64 = 50.0;
/// Steps from rest to the full grip of a clutch.
const GRIP_STEPS: f64 = 50.0;
/// Step of an electric fan's speed, share of full.
const FAN_STEP: f64 = 0.02;
/// Step of a viscous fan's flow, share of full.
const VISCOUS_STEP: f64 = 0.03;
/// Step of the blower [%].
const BLOWER_STEP_PCT: f64 = 1.0;
/// Step of a variable stroke, share of full.
const STROKE_STEP: f64 = 0.01;
/// Step of an electronic valve's opening.
const OPENING_STEP: f64 = 0.005;

/// What the plant is told as everything stands. Charge, air, oil and water go on as they were; their rates are set once a
/// second.
pub fn told(now: &Now, drives: &Drives, effects: &Effects, service: &Service) -> Inputs {
    let old = now.plant.inputs();
    let manifold = service.manifold();
    let mut inputs = still(now.controls, manifold.fitted);
    drive(&mut inputs, now, drives, &effects.plant);
    inputs.manifold_low = manifold.low_pct / 100.0;
    inputs.manifold_high = manifold.high_pct / 100.0;
    wrong(&mut inputs, now, drives, &effects.plant);
    service.tell(&mut inputs, now, effects.instruments.high_hose_shut);
    inputs.charge_kg_s = old.charge_kg_s;
    inputs.charge_h_j_kg = old.charge_h_j_kg;
    inputs.air_kg_s = old.air_kg_s;
    inputs.oil_kg_s = old.oil_kg_s;
    inputs.water_kg_s = old.water_kg_s;
    inputs
}

/// What the circuit turns and opens. It moves over seconds; the plant is told in steps.
fn drive(inputs: &mut Inputs, now: &Now, d: &Drives, wrong: &PlantEffects) {
    let (c, old, spec) = (now.controls, now.plant.inputs(), now.plant.spec());
    let engine_rpm = if c.engine_on { c.engine_rpm } else { 0.0 };
    let drive = spec.compressor.drive;
    inputs.compressor_rpm = match drive.pulley_ratio() {
        Some(ratio) if d.clutch_engaged && c.engine_on => {
            c.engine_rpm * ratio * stepped(d.clutch_grip, GRIP_STEPS) * wrong.belt_share
        }
        Some(_) => 0.0,
        None => held(old.compressor_rpm, d.electric_rpm.or(d.hermetic_rpm).unwrap_or(0.0), SPEED_STEP_RPM),
    };
    if wrong.seized {
        inputs.compressor_rpm = 0.0;
    }
    inputs.fan_share = match &spec.condenser_air.viscous_fan {
        Some(fan) => {
            let share = fan.share(engine_rpm, now.plant.condenser_air().2, wrong.coupling_grip);
            crept(old.fan_share, share, VISCOUS_STEP)
        }
        None => held(old.fan_share, d.fan_share, FAN_STEP),
    };
    inputs.blower_pct = held(old.blower_pct, 100.0 * d.blower_share, BLOWER_STEP_PCT);
    inputs.stroke = held(old.stroke, drive.stroke(wrong.stroke.unwrap_or(d.stroke)), STROKE_STEP);
    inputs.expansion_opening = held(old.expansion_opening, d.expansion_opening.unwrap_or(0.0), OPENING_STEP);
    inputs.chiller_opening = held(old.chiller_opening, d.chiller_opening.unwrap_or(0.0), OPENING_STEP);
}

/// What the faults change at once; masses follow, for they take their time.
fn wrong(inputs: &mut Inputs, now: &Now, drives: &Drives, wrong: &PlantEffects) {
    inputs.metering = wrong.metering;
    if wrong.equaliser_blocked {
        let outlet = now.plant.layout().evaporator.end - 1;
        let before = now.plant.inputs().metering.equaliser_held_pa;
        inputs.metering.equaliser_held_pa =
            before.or_else(|| Some(now.plant.look(outlet, now.time_s()).p_pa));
    }
    inputs.passages = wrong.passages;
    inputs.passages.liquid *= drives.liquid_line_open.max(SOLENOID_LEAK);
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

/// Inputs with compressor and fan at rest and nothing wrong.
pub fn still(c: &Controls, hoses_fitted: bool) -> Inputs {
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
