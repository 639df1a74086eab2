//! What senses meet, gathered from plant and circuit: the one place that knows where each number comes from.

use super::clock::TICK_S;
use super::electrical::ElectricalSide;
use super::now::Now;
use crate::circuit::point;
use crate::fault::PlantEffects;
use crate::moist_air;
use crate::perceive::{Felt, Place};
use crate::plant::{CLUTCH_HOLDS_NM, Drive, Plant, State, rad_s, torque_nm};
use crate::units::ZERO_C_K;

/// Slip below which the plate is taken to hold, share of the pulley's speed.
const HOLDS: f64 = 0.02;

/// The numbers of a bench as it stands.
pub fn felt(now: &Now, electrical: &ElectricalSide, wrong: &PlantEffects) -> Felt {
    let (plant, circuit, controls) = (now.plant, electrical.circuit(), now.controls);
    let (l, spec, inputs, time_s) = (plant.layout(), plant.spec(), plant.inputs(), now.time_s());
    let at = |pick: fn(&State) -> f64| plant.at(time_s, pick);

    let drive = spec.compressor.drive;
    // Where a belt drives the compressor there is an engine.
    let has_engine = drive.pulley_ratio().is_some();
    let engine_rpm = if controls.engine_on && has_engine { controls.engine_rpm } else { 0.0 };
    let pulley_rpm = engine_rpm * drive.pulley_ratio().unwrap_or(0.0);
    let stuck = wrong.seized || plant.compressor_seized(time_s);
    let shaft_rpm = if stuck { 0.0 } else { inputs.compressor_rpm };
    let has_clutch = matches!(drive, Drive::Belt { .. });
    let clutch_in = has_clutch && electrical.drives().clutch_engaged && controls.engine_on;
    let slip = if clutch_in { (pulley_rpm - shaft_rpm).max(0.0) } else { 0.0 };
    let slipping = slip > HOLDS * pulley_rpm;
    let shaft_nm = torque_nm(plant.compression_w() + plant.friction_w(), shaft_rpm);

    let inlet = plant.look(l.metering_inlet(), time_s);
    Felt {
        engine_rpm,
        pulley_rpm,
        shaft_rpm,
        has_clutch,
        clutch_in,
        since_click_s: electrical.clutch_moved_tick().map(|t| (now.tick - t) as f64 * TICK_S),
        shaft_nm,
        belt_nm: match (has_engine, slipping) {
            (false, _) => 0.0,
            (true, true) => CLUTCH_HOLDS_NM,
            (true, false) => shaft_nm,
        },
        slip_w: if slipping { CLUTCH_HOLDS_NM * rad_s(slip) } else { 0.0 },
        wet: (1.0 - plant.look(l.suction, time_s).quality).clamp(0.0, 1.0),
        film: plant.at(time_s, |s| s.oil.film(&spec.oil)),
        wear: at(|s| s.shell.wear),
        battered: at(|s| s.shell.battered),
        fan_share: inputs.fan_share,
        // Nothing in plant or circuit unbalances the fan yet.
        fan_unbalance: 0.0,
        blower_share: (inputs.blower_pct / 100.0).clamp(0.0, 1.0),
        vent_share: plant.coil_air_kg_s() / spec.cabin.blower_kg_s * wrong.vent_share,
        inlet_gas: if inlet.quality > 0.0 { inlet.void.clamp(0.0, 1.0) } else { 0.0 },
        metered_kg_s: plant.metered_kg_s(),
        jet_w: plant.metering_jet_w(time_s),
        leak_kg_s: plant.growth(|s| s.released_kg()).max(0.0),
        leak_place: inputs.open_place,
        oil_lost_kg: at(|s| s.oil.lost_kg),
        surface_k: Place::ALL.map(|place| surface_k(plant, place, time_s)),
        dew_k: moist_air::dew_point_k(inputs.ambient_w, inputs.ambient_pa),
        air_pa: inputs.ambient_pa,
        condenser_k: l
            .condenser
            .clone()
            .chain(l.subcooler.clone())
            .map(|i| plant.at(time_s, |s| s.wall_k[i]))
            .collect(),
        drip_kg_s: plant.growth(|s| s.coil.drained_kg).max(0.0),
        coil_water: at(|s| s.coil.film_kg()) / (spec.coil.holdup_kg_m2 * spec.coil.surface_m2),
        coil_k: mean(l.evaporator.clone().map(|i| plant.at(time_s, |s| s.wall_k[i]))),
        coolant_k: has_engine.then(|| at(|s| s.engine_bay.engine_t_k)),
        has_cabin: !matches!(drive, Drive::Hermetic { .. }),
        outside_k: now.ambient_k(),
        cabin: (at(|s| s.cabin.t_k), at(|s| s.cabin.w)),
        vent: (plant.vent().0, plant.vent_humidity_ratio()),
        ignition_on: controls.engine_on,
        ac_feed_v: circuit.volts(point::AC_SWITCH_OUT),
        battery_v: circuit.volts(point::BATTERY_PLUS),
    }
}

/// Wall of a place [K]; none where the rig has no such part.
fn surface_k(plant: &Plant, place: Place, now: f64) -> Option<f64> {
    let l = plant.layout();
    let wall = |i: usize| Some(plant.at(now, |s| s.wall_k[i]));
    // Short bare pipes that are no volumes of their own are as warm as what runs in them.
    let inside = |i: usize| Some(plant.look(i, now).t_k);
    let behind_drier = l.subcooler.clone().next().unwrap_or(l.liquid);
    match place {
        Place::CompressorBody => Some(plant.at(now, |s| s.shell.t_k)),
        Place::DischargePipe => wall(l.discharge),
        Place::CondenserIn => wall(l.condenser.start),
        Place::CondenserMiddle => wall(l.condenser.start + l.condenser.len() / 2),
        Place::CondenserOut => wall(l.condenser.clone().chain(l.subcooler.clone()).last()?),
        Place::DrierIn => wall(l.receiver?),
        Place::DrierOut => l.receiver.and(inside(behind_drier)),
        Place::LiquidPipe => wall(l.liquid),
        Place::BeforeMetering => inside(l.metering_inlet()),
        Place::AfterMetering => Some(plant.after_metering_k(now)),
        Place::EvaporatorOut => inside(l.evaporator.end - 1),
        Place::Accumulator => wall(l.accumulator?),
        Place::SuctionPipe => wall(l.suction),
        Place::HeaterHose => {
            plant.spec().compressor.drive.pulley_ratio()?;
            Some(plant.at(now, |s| s.engine_bay.engine_t_k))
        }
    }
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, n) = values.fold((0.0, 0.0), |(sum, n), v| (sum + v, n + 1.0));
    if n > 0.0 { sum / n } else { ZERO_C_K }
}
