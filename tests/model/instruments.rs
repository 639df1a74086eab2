//! The service bay's instruments on a car: what they show, what they hide, and that they leave no trace.

use crate::common::{Car, IDLE, PER_S, Setting};
use pintle::bench::{Action, Bench};
use pintle::fault::FaultId;
use pintle::instrument::{AirPlace, DetectorScale, PipePlace, Probe, SearchPlace, Tool};
use pintle::knobs::Change;
use pintle::moist_air;
use pintle::scenario;
use pintle::units::ZERO_C_K;

/// Put a tool on its place, leave it there as long as a careful hand does, and read it.
fn read(bench: &mut Bench, probe: &Probe) -> f64 {
    bench.apply(Action::Place(probe.clone())).unwrap_or_else(|e| panic!("{probe:?}: {e}"));
    bench.advance((probe.facts().settles_s * f64::from(PER_S)) as u32 + 1);
    bench.apply(Action::Read(probe.clone())).unwrap_or_else(|e| panic!("{probe:?}: {e}"));
    let reading = bench.notebook().last().expect("just read");
    // What a shadow bench of the diagnosis reckons with lies within the limit.
    let expected = bench.expected(probe).expect("in place");
    let limit = probe.limit(reading.value);
    assert!((reading.value - expected).abs() <= 1.001 * limit + 1e-9, "{probe:?}: {reading:?} {expected}");
    reading.value
}

/// A car at rest with a leak of so many grams an hour at 10 bar, soaked at 35 °C.
fn leaking(id: FaultId, g_h: f64) -> Bench {
    let mut car = Car::faulty(Setting { ambient_c: 35.0, ..IDLE }, &[(id, g_h)]);
    for action in [
        Action::Set(Change::EngineOn(false)),
        Action::Set(Change::AcRequest(false)),
        Action::Set(Change::BlowerPct(0.0)),
    ] {
        car.act(action);
    }
    car.wait(60);
    car.into_bench()
}

#[test]
fn tape_shows_an_infrared_thermometer_the_cold_pipe() {
    let mut car = Car::faulty(IDLE, &[]);
    car.wait(600);
    let place = PipePlace::EvaporatorOutlet;
    let true_k = car.inside().points[5].t_k;
    let mut aim = |taped| read(&mut car.bench, &Probe::Infrared { place, taped });
    let (bare, taped) = (aim(false), aim(true));
    // The pipe is some 25 K colder than the air about it; bright metal hides most of that.
    assert!(bare - true_k > 10.0, "bare {bare} K, pipe {true_k} K");
    assert!((taped - true_k).abs() < 4.0, "taped {taped} K, pipe {true_k} K");
}

#[test]
fn air_tools_show_the_state_of_the_air() {
    let mut car = Car::faulty(IDLE, &[]);
    car.wait(300);
    let controls = car.bench.snapshot(false).controls;
    let (t, p) = (controls.ambient_c + ZERO_C_K, controls.ambient_pa());
    let w = moist_air::humidity_ratio(t, controls.relative_humidity_pct / 100.0, p);
    let outside = read(&mut car.bench, &Probe::WetBulb(AirPlace::Outside));
    assert!((outside - moist_air::wet_bulb_k(t, w, p)).abs() < 0.7, "{outside}");
    // Air that leaves a wet coil is nearly saturated: its wet bulb lies close below its temperature.
    let vent = read(&mut car.bench, &Probe::WetBulb(AirPlace::Vent));
    let dry = car.inside().vent_t_k;
    assert!(vent < dry + 0.6 && dry - vent < 3.0, "wet {vent} K, dry {dry} K");
    let flow = read(&mut car.bench, &Probe::Airflow);
    let kg_s = car.inside().evaporator_air_kg_s;
    assert!((flow / kg_s - 0.82).abs() < 0.05, "{flow} m3/s for {kg_s} kg/s");
    car.act(Action::Set(Change::BlowerPct(30.0)));
    car.wait(60);
    assert!(read(&mut car.bench, &Probe::Airflow) < 0.6 * flow);
}

#[test]
fn detector_and_soap_find_the_place_of_a_leak_and_no_other() {
    let here = SearchPlace::CondenserJoint;
    let mut bench = leaking(FaultId::LeakCondenserJoint, 5.0);
    for place in SearchPlace::ALL {
        // After a leak this large the tip takes its 20 s to clear (SAE J2791).
        let tip = Probe::LeakDetector { place, scale: DetectorScale::G7 };
        bench.apply(Action::Place(tip.clone())).unwrap();
        bench.advance(20 * PER_S);
        let alarm = read(&mut bench, &tip);
        assert_eq!(alarm >= 0.5, place == here, "{place:?}: {alarm}");
        let bubbles = read(&mut bench, &Probe::Soap(place));
        assert_eq!(bubbles >= 0.5, place == here, "{place:?}: {bubbles}");
    }
    // No dye was put in.
    let mut bench = in_bay();
    bench.apply(Action::ImposeFault { id: FaultId::LeakCondenserJoint, severity: 5.0 }).unwrap();
    assert_eq!(read(&mut bench, &Probe::UvLamp(here)), 0.0);
}

/// A bench whose scenario has a service bay.
fn in_bay() -> Bench {
    let mut scenario = scenario::load("healthy").unwrap();
    scenario.bay = Some(pintle::bay::BaySetup::default());
    (scenario.start.engine_on, scenario.start.ac_request) = (false, false);
    let mut bench = Bench::new(&scenario, 1).unwrap();
    bench.advance(5 * PER_S);
    bench
}

#[test]
fn soap_is_no_use_in_a_drain_and_wind_hides_from_the_detector() {
    let drain = SearchPlace::EvaporatorDrain;
    let mut bench = leaking(FaultId::LeakEvaporator, 5.0);
    assert_eq!(read(&mut bench, &Probe::Soap(drain)), 0.0);
    let gas = Probe::LeakDetector { place: drain, scale: DetectorScale::G14 };
    let still = read(&mut bench, &gas);
    assert!(still > 0.9, "{still}");
    // The blower thins the gas: the same leak on the same scale gives a weaker sign.
    bench.apply(Action::Set(Change::EngineOn(true))).unwrap();
    bench.apply(Action::Set(Change::BlowerPct(100.0))).unwrap();
    bench.advance(10 * PER_S);
    let windy = read(&mut bench, &gas);
    assert!(windy < still, "{windy} against {still}");
}

#[test]
fn tools_of_the_bay_are_refused_where_there_is_none() {
    let healthy = scenario::load("healthy").unwrap();
    let mut bench = Bench::new(&healthy, 1).unwrap();
    for probe in [Probe::VacuumGauge, Probe::RecoveryScale, Probe::OilGraduation, Probe::Identifier] {
        let words = bench.apply(Action::Place(probe)).unwrap_err().to_string();
        assert!(words.contains("is not on the bench"), "{words}");
    }
    assert!(!healthy.bench_tools().any(Tool::needs_bay) && healthy.has(Tool::LeakDetector));
    let mut bench = in_bay();
    let vacuum = read(&mut bench, &Probe::VacuumGauge);
    assert!(pintle::instrument::is_over(vacuum), "an atmosphere is over its range: {vacuum}");
    bench.apply(Action::Place(Probe::Identifier)).unwrap();
    bench.advance(PER_S);
    assert!(bench.apply(Action::Read(Probe::Identifier)).is_err(), "there is no sample yet");
    // A full-sized cylinder that comes evacuated weighs what is stamped on it.
    let recovery = read(&mut bench, &Probe::RecoveryScale);
    if recovery > 0.0 {
        let tare_kg = pintle::plant::Vessel::Recovery.spec().tare_kg;
        assert!((recovery - tare_kg).abs() < 0.02, "{recovery}");
    }
}

#[test]
fn tools_taken_away_leave_no_trace() {
    let healthy = scenario::load("healthy").unwrap();
    let (mut used, mut plain) = (Bench::new(&healthy, 1).unwrap(), Bench::new(&healthy, 1).unwrap());
    let probes = [
        Probe::Airflow,
        Probe::WetBulb(AirPlace::Cabin),
        Probe::LeakDetector { place: SearchPlace::ValveJoint, scale: DetectorScale::G4 },
    ];
    for probe in &probes {
        used.apply(Action::Place(probe.clone())).unwrap();
    }
    used.advance(100);
    plain.advance(100);
    assert_ne!(used.state_hash(), plain.state_hash());
    for probe in &probes {
        used.apply(Action::Remove(probe.clone())).unwrap();
    }
    assert_eq!(used.state_hash(), plain.state_hash());
}

/// A hermetic cooler has no shaft that comes out of its compressor.
#[test]
fn places_that_a_rig_has_not_are_refused() {
    let mut scenario = scenario::load("healthy").unwrap();
    scenario.rig = "walk_in_cooler".into();
    let mut bench = Bench::new(&scenario, 1).unwrap();
    let words = bench.apply(Action::Place(Probe::Soap(SearchPlace::ShaftSeal))).unwrap_err().to_string();
    assert!(words.contains("no shaft seal"), "{words}");
}
