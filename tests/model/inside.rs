//! What rides with the refrigerant: water that freezes at the valve, the drier that keeps it away, oil that runs
//! short, refrigerant that comes back out of oil, liquid that reaches the compressor, and random ordeals.

use crate::common::Car;
use pintle::bench::Action;
use pintle::fault::FaultId;
use pintle::knobs::Change;
use pintle::ordeal::Ordeal;
use pintle::plant::{CentreHose, Contents, Inputs, Plant};
use pintle::refrigerant::Refrigerant;
use pintle::rig::Rig;

/// A cool day on the road: 22 °C, 2,000 rev/min, where the valve runs below zero.
fn cool_road(faults: &[(FaultId, f64)]) -> Car {
    let mut car = Car::with(|s| {
        s.start.ambient_c = 22.0;
        s.start.engine_rpm = 2000.0;
        s.start.road_speed_kmh = 60.0;
    });
    for &(id, severity) in faults {
        car.bench.apply(Action::ImposeFault { id, severity }).expect("in range");
    }
    car
}

const WET: [(FaultId, f64); 2] = [(FaultId::Moisture, 5.0), (FaultId::DesiccantSaturated, 1.0)];

/// The issue: a saturated drier and grams of water freeze a sub-zero valve shut at 22 °C and 2,000 rev/min; a
/// rest thaws it (common practice, no source: "works again after a rest").
#[test]
fn water_freezes_a_cold_valve_shut_and_a_rest_thaws_it() {
    let mut car = cool_road(&WET);
    let lowest = car.watch(600).low;
    let frozen = car.inside();
    println!(
        "low {lowest:.2} bar gauge, ice {:.3} g, valve open {:.3}",
        frozen.valve_ice_kg * 1e3,
        frozen.valve_lift
    );
    assert!(frozen.gauge_low_pa < -2e4, "{} Pa gauge", frozen.gauge_low_pa);
    assert!(frozen.valve_ice_kg > 1e-4);
    car.bench.apply(Action::Set(Change::AcRequest(false))).expect("allowed");
    let rested = car.wait(900).inside();
    assert!(rested.valve_ice_kg < 1e-5, "{} kg of ice", rested.valve_ice_kg);
    car.bench.apply(Action::Set(Change::AcRequest(true))).expect("allowed");
    // It cools again, until it freezes again.
    let again = car.wait(20).inside();
    assert!(again.gauge_low_pa > 5e4, "{} Pa gauge", again.gauge_low_pa);
    assert!(again.m_metering_kg_s > 5e-3, "{} kg/s", again.m_metering_kg_s);
}

/// The issue: at a warm idle it does not freeze; and with a sound drier the same water does no harm on the road.
#[test]
fn a_warm_valve_and_a_sound_drier_do_not_freeze() {
    let mut idle = Car::with(|_| ());
    for (id, severity) in WET {
        idle.bench.apply(Action::ImposeFault { id, severity }).expect("in range");
    }
    assert!(idle.wait(1200).inside().valve_ice_kg < 1e-6);
    let mut dry = cool_road(&[(FaultId::Moisture, 3.0)]);
    let i = dry.wait(1200).inside();
    println!(
        "{:.2} g of {:.2} g bound, ice {:.4} g",
        i.water_bound_kg * 1e3,
        i.water_kg * 1e3,
        i.valve_ice_kg * 1e3
    );
    assert!(i.water_bound_kg > 0.8 * i.water_kg && i.valve_ice_kg < 2e-5);
}

#[test]
fn a_compressor_without_oil_seizes_and_one_short_of_oil_runs_hot() {
    let run = |missing: f64| {
        let mut car = Car::with(|_| ());
        if missing > 0.0 {
            let fault = Action::ImposeFault { id: FaultId::LowOil, severity: missing };
            car.bench.apply(fault).expect("in range");
        }
        car.wait(1500).inside()
    };
    let (sound, short, dry) = (run(0.0), run(0.85), run(1.0));
    println!(
        "shell {:.0} {:.0} {:.0} K, friction {:.0} {:.0} {:.0} W",
        sound.shell_t_k, short.shell_t_k, dry.shell_t_k, sound.friction_w, short.friction_w, dry.friction_w
    );
    assert!(sound.compressor_wear == 0.0 && sound.oil_sump_kg > 0.04);
    assert!(short.friction_w > 1.3 * sound.friction_w && short.shell_t_k > sound.shell_t_k + 5.0);
    assert!(dry.compressor_wear >= 1.0 && dry.m_compressor_kg_s.abs() < 1e-9, "wear {}", dry.compressor_wear);
}

/// Parked at 25 °C, both hand valves open to a vacuum pump.
fn parked() -> Inputs {
    Inputs {
        manifold_low: 1.0,
        manifold_high: 1.0,
        centre_hose: CentreHose::VacuumPump,
        ..Inputs::parked(298.15).with_hoses(true)
    }
}

/// Common practice, no source: after recovery the pressure comes back, as refrigerant boils out of the oil.
#[test]
fn pressure_rebounds_out_of_the_oil_after_recovery() {
    let spec = Rig::load("compact_car").expect("the rig").plant;
    let contents = Contents { charge_kg: 0.2, air_kg: 0.0, oil_kg: spec.oil.full_kg, water_kg: 0.0 };
    let mut inputs = parked();
    let mut plant = Plant::soaked_with(&spec, Refrigerant::r134a(), inputs, contents);
    let mut time = 0.0;
    let suction = plant.layout().suction;
    // Down to 20 kPa, then shut.
    while plant.look(suction, time).p_pa > 2e4 && time < 3600.0 {
        time += 1.0;
        plant.advance_to(time);
    }
    let emptied_s = time;
    inputs.centre_hose = CentreHose::Capped;
    plant.set_inputs(time, inputs);
    let before = (plant.look(suction, time).p_pa, plant.at(time, |s| s.oil.dissolved_kg));
    time += 900.0;
    plant.advance_to(time);
    let after = (plant.look(suction, time).p_pa, plant.at(time, |s| s.oil.dissolved_kg));
    println!("emptied in {emptied_s} s; {before:?} then {after:?}");
    assert!(emptied_s < 3600.0);
    assert!(after.0 > 1.5 * before.0 && after.1 < before.1, "{before:?} {after:?}");
    assert_eq!(plant.troubles(), [] as [String; 0]);
}

/// Deep vacuum: an empty loop on the pump comes down to 10 Pa at the hose, and stays finite.
#[test]
fn a_vacuum_pump_reaches_ten_pascal() {
    let spec = Rig::load("compact_car").expect("the rig").plant;
    let contents = Contents { charge_kg: 0.002, air_kg: 1e-3, oil_kg: 0.02, water_kg: 0.0 };
    let mut plant = Plant::soaked_with(&spec, Refrigerant::r134a(), parked(), contents);
    let centre = plant.layout().centre;
    let mut time = 0.0;
    while plant.look(centre, time).p_pa > 10.0 && time < 7200.0 {
        time += 10.0;
        plant.advance_to(time);
    }
    println!(
        "10 Pa at the hose after {time} s, suction line at {:.0} Pa",
        plant.look(plant.layout().suction, time).p_pa
    );
    assert!(time < 7200.0);
    assert_eq!(plant.troubles(), [] as [String; 0]);
}

/// Liquid poured into a running compressor from an upturned cylinder: it slugs, and the reeds suffer.
#[test]
fn liquid_into_a_running_compressor_batters_its_reeds() {
    let spec = Rig::load("compact_car").expect("the rig").plant;
    let mut inputs =
        Inputs { centre_hose: CentreHose::Capped, manifold_low: 0.0, manifold_high: 0.0, ..parked() };
    let mut plant = Plant::soaked(&spec, Refrigerant::r134a(), inputs, 0.3, 0.0);
    inputs.engine_on = true;
    (inputs.compressor_rpm, inputs.fan_share, inputs.blower_pct) = (2500.0, 1.0, 100.0);
    plant.set_inputs(0.0, inputs);
    plant.advance_to(120.0);
    let before = plant.at(120.0, |s| s.shell.battered);
    (inputs.centre_hose, inputs.manifold_low) = (CentreHose::CylinderLiquid, 1.0);
    plant.set_inputs(120.0, inputs);
    plant.advance_to(300.0);
    let after = plant.at(300.0, |s| s.shell.battered);
    println!(
        "battered {before:.3} then {after:.3}, from the cylinder {:.3} kg",
        plant.at(300.0, |s| s.from_cylinder_kg)
    );
    assert!(before < 0.02 && after > before + 0.02, "{before} {after}");
}

/// A short run of the ordeals; `pintle ordeal --sequences 10000` is the long one. `PINTLE_ORDEALS=1000` asks for more.
#[test]
fn ordeals_do_no_harm() {
    let many = std::env::var("PINTLE_ORDEALS").ok().and_then(|n| n.parse().ok()).unwrap_or(60);
    let spec = Rig::load("compact_car").expect("the rig").plant;
    for number in 0..many {
        let mut ordeal = Ordeal::new(&spec, Refrigerant::r134a(), 1, number);
        for _ in 0..25 {
            let seconds = ordeal.operate();
            ordeal.advance(seconds);
            let verdict = ordeal.check();
            assert!(
                verdict.is_ok(),
                "sequence {number} at {} s: {verdict:?}\n{:?}",
                ordeal.time_s(),
                ordeal.log()
            );
        }
    }
}
