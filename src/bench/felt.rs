//! What senses meet, gathered from plant and circuit: the one place that knows where each number comes from.

use super::Bench;
use crate::moist_air;
use crate::perceive::{Felt, Place};
use crate::plant::{Drive, Plant, State};
use crate::units::ZERO_C_K;

/// Torque between clutch plate and pulley while they slip [N m]; a small automotive clutch (from memory).
const CLUTCH_HOLDS_NM: f64 = 45.0;
/// Flow that keeps a short pipe half as cold as itself against the warmth around it [kg/s]; own estimate.
const TRICKLE_KG_S: f64 = 5e-5;
/// Slip below which the plate is taken to hold, share of the pulley's speed.
const HOLDS: f64 = 0.02;

impl Felt {
    /// The numbers of a bench as it stands.
    pub fn of(bench: &Bench) -> Self {
        let now = bench.time_s();
        let (plant, circuit, controls) = (&bench.plant, &bench.circuit, &bench.controls);
        let (l, spec, inputs) = (plant.layout(), plant.spec(), plant.inputs());
        let outside_k = controls.ambient_c + ZERO_C_K;
        let at = |pick: fn(&State) -> f64| plant.at(now, pick);

        let drive = spec.compressor.drive;
        // Where a belt drives the compressor there is an engine.
        let has_engine = drive.pulley_ratio().is_some();
        let engine_rpm = if controls.engine_on && has_engine { controls.engine_rpm } else { 0.0 };
        let pulley_rpm = engine_rpm * drive.pulley_ratio().unwrap_or(0.0);
        let stuck = bench.effects.plant.seized || plant.at(now, |s| s.shell.wear) >= 1.0;
        let shaft_rpm = if stuck { 0.0 } else { inputs.compressor_rpm };
        let has_clutch = matches!(drive, Drive::Belt { .. });
        let clutch_in = has_clutch && bench.drives.clutch_engaged && controls.engine_on;
        let slip = if clutch_in { (pulley_rpm - shaft_rpm).max(0.0) } else { 0.0 };
        let slipping = slip > HOLDS * pulley_rpm;
        let pump = plant.flows().first().copied().unwrap_or_default();
        let shaft_w = pump.in_w - pump.out_w + plant.friction_w();
        let shaft_nm = if shaft_rpm > 1.0 { shaft_w / radians(shaft_rpm) } else { 0.0 };

        let inlet = plant.look(l.metering_inlet(), now);
        let metered_kg_s = plant.flows().get(2).map_or(0.0, |f| f.mass_kg_s.max(0.0));
        let drop_pa = (inlet.p_pa - plant.look(l.evaporator.start, now).p_pa).max(0.0);
        let holds_kg = spec.coil.holdup_kg_m2 * spec.coil.surface_m2;
        Self {
            engine_rpm,
            pulley_rpm,
            shaft_rpm,
            has_clutch,
            clutch_in,
            since_click_s: bench.clutch_moved_tick.map(|t| (bench.tick - t) as f64 * super::TICK_S),
            shaft_nm,
            belt_nm: match (has_engine, slipping) {
                (false, _) => 0.0,
                (true, true) => CLUTCH_HOLDS_NM,
                (true, false) => shaft_nm,
            },
            slip_w: if slipping { CLUTCH_HOLDS_NM * radians(slip) } else { 0.0 },
            wet: (1.0 - plant.look(l.suction, now).quality).clamp(0.0, 1.0),
            film: plant.at(now, |s| s.oil.film(&spec.oil)),
            wear: at(|s| s.shell.wear),
            battered: at(|s| s.shell.battered),
            fan_share: inputs.fan_share,
            // Nothing in plant or circuit unbalances the fan yet.
            fan_unbalance: 0.0,
            blower_share: (inputs.blower_pct / 100.0).clamp(0.0, 1.0),
            vent_share: plant.coil_air_kg_s() / spec.cabin.blower_kg_s * bench.effects.plant.vent_share,
            inlet_gas: if inlet.quality > 0.0 { inlet.void.clamp(0.0, 1.0) } else { 0.0 },
            metered_kg_s,
            jet_w: metered_kg_s * drop_pa / plant.node(l.metering_inlet(), now).rho_out.v.max(0.1),
            leak_kg_s: rate(plant, |s| s.released_kg()).max(0.0),
            leak_place: inputs.open_place,
            oil_lost_kg: at(|s| s.oil.lost_kg),
            surface_k: Place::ALL.map(|place| surface_k(plant, place, now)),
            dew_k: moist_air::dew_point_k(inputs.ambient_w, inputs.ambient_pa),
            air_pa: inputs.ambient_pa,
            condenser_k: l
                .condenser
                .clone()
                .chain(l.subcooler.clone())
                .map(|i| plant.at(now, |s| s.wall_k[i]))
                .collect(),
            drip_kg_s: rate(plant, |s| s.coil.drained_kg).max(0.0),
            coil_water: at(|s| s.coil.film_kg()) / holds_kg,
            coil_k: mean(l.evaporator.clone().map(|i| plant.at(now, |s| s.wall_k[i]))),
            coolant_k: has_engine.then(|| at(|s| s.bay.engine_t_k)),
            has_cabin: !matches!(drive, Drive::Hermetic { .. }),
            outside_k,
            cabin: (at(|s| s.cabin.t_k), at(|s| s.cabin.w)),
            vent: (plant.vent().0, plant.vent_humidity_ratio()),
            ignition_on: controls.engine_on,
            ac_feed_v: circuit.volts("ac_switch_out"),
            battery_v: circuit.volts("battery_plus"),
        }
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
        Place::AfterMetering => Some(after_metering_k(plant, now)),
        Place::EvaporatorOut => inside(l.evaporator.end - 1),
        Place::Accumulator => wall(l.accumulator?),
        Place::SuctionPipe => wall(l.suction),
        Place::HeaterHose => {
            plant.spec().compressor.drive.pulley_ratio()?;
            Some(plant.at(now, |s| s.bay.engine_t_k))
        }
    }
}

/// The stub of pipe right behind the metering [K]: as cold as what flashes there, as far as anything flows.
fn after_metering_k(plant: &Plant, now: f64) -> f64 {
    let l = plant.layout();
    let (fed, cell) = (plant.node(l.metering_inlet(), now), plant.node(l.evaporator.start, now));
    let flow = plant.flows().get(2).map_or(0.0, |f| f.mass_kg_s.max(0.0));
    let flashed = plant.at_pressure(cell.p_ref, fed.h_out.v);
    cell.t.v + flow / (flow + TRICKLE_KG_S) * (flashed.t.v - cell.t.v)
}

/// How fast something of the state grows over the present step [1/s].
fn rate(plant: &Plant, pick: fn(&State) -> f64) -> f64 {
    let (before, after) = plant.committed();
    let dt_s = after.time_s - before.time_s;
    if dt_s > 0.0 { (pick(after) - pick(before)) / dt_s } else { 0.0 }
}

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let (sum, n) = values.fold((0.0, 0.0), |(sum, n), v| (sum + v, n + 1.0));
    if n > 0.0 { sum / n } else { ZERO_C_K }
}

fn radians(rpm: f64) -> f64 {
    rpm * std::f64::consts::PI / 30.0
}
