//! Every kind of part against its source, and every file as a whole.

use super::*;

/// ISO 8820-3 for blade fuses (from memory): melting times [s] at multiples of the rating.
#[test]
fn a_fuse_melts_within_the_times_of_the_standard() {
    for (share, least_s, most_s) in
        [(1.35, 0.75, 600.0), (2.0, 0.15, 5.0), (3.5, 0.04, 0.5), (6.0, 0.02, 0.1)]
    {
        for rated in [10.0, 15.0, 30.0] {
            let mut fuse = memory::FuseState::default();
            let mut time = 0.0;
            while !fuse.blown && time < 1000.0 {
                fuse.carry(share * rated, rated, false, 0.001);
                time += 0.001;
            }
            assert!((least_s..=most_s).contains(&time), "{share} times {rated} A: {time} s");
        }
    }
    let mut fuse = memory::FuseState::default();
    for _ in 0..360_000 {
        fuse.carry(1.1, 1.0, false, 1.0);
    }
    assert!(!fuse.blown, "110 % for a hundred hours");
    // IEC 60269-1 for gG from 16 A up (from memory): an hour at 125 %, less than one at 160 %.
    for (share, melts) in [(1.25, false), (1.6, true)] {
        let mut fuse = memory::FuseState::default();
        for _ in 0..3600 {
            fuse.carry(share * 20.0, 20.0, true, 1.0);
        }
        assert_eq!(fuse.blown, melts, "{share}");
    }
}

/// Every file: names that exist once, relays with coil and contact, every point with its place in the drawing.
#[test]
fn every_file_fits() {
    let rigs = circuits();
    assert_eq!(rigs.len(), 5, "a circuit that does not parse is left out of this list");
    for (rig, spec) in rigs {
        assert_eq!(spec.problems(), Vec::<String>::new(), "{rig}");
    }
}

#[test]
fn what_does_not_fit_is_named() {
    let mut spec = spec("compact_car");
    spec.parts[0].to = "nowhere".into();
    spec.parts[1].id = "alternator".into();
    spec.points[1].at = spec.points[0].at;
    spec.parts.retain(|p| p.id != "fan_relay_contact");
    let problems = spec.problems().join("\n");
    for word in
        ["no point `nowhere`", "`alternator` is there twice", "share a place", "part `fan_relay_coil`"]
    {
        assert!(problems.contains(word), "{word} in\n{problems}");
    }
    let mut c = Circuit::new(&spec);
    pass(&mut c, &hot_day(), 1.0);
}

/// A hot day of the walk-in cooler: box above its wanted temperature, a little left of the pressure difference.
fn cold_room() -> CircuitInputs {
    let mut i = CircuitInputs { setting_k: 276.15, load_nm: 2.0, ..hot_day() };
    i.senses.box_t_k = 280.15;
    (i.senses.suction_gauge_pa, i.senses.discharge_gauge_pa) = (2.0e5, 8.0e5);
    i.standing_pa = 3.0e5;
    i
}

/// A fuse melts on a shorted clutch coil (MACS, undated: "low coil resistance -> fuse blows"), and no other.
#[test]
fn a_shorted_clutch_coil_blows_its_fuse() {
    let c = run("compact_car", &faulty(&[("clutch_coil", Change::ShareOfOhm(0.05))]));
    assert!(c.fuse_blown("clutch_fuse") && !c.fuse_blown("fan_fuse") && !c.drives().clutch_engaged);
    let c = run("compact_car", &faulty(&[("clutch_diode", Change::Shorted)]));
    assert!(c.fuse_blown("clutch_fuse"));
}

/// About 1.5 kohm at 25 C and 4.5 to 5 kohm at 0 C, from memory.
#[test]
fn the_evaporator_thermistor_has_the_figures_of_the_trade() {
    assert!((branches::thermistor_ohm(1500.0, 3755.0, 298.15) - 1500.0).abs() < 1e-6);
    assert!((4500.0..5000.0).contains(&branches::thermistor_ohm(1500.0, 3755.0, 273.15)));
}

/// The issue: the pickup's cycling switch opens at 1.75 and closes at 3.15 bar gauge.
#[test]
fn the_cycling_switch_cycles_at_its_figures() {
    let mut c = Circuit::new(&spec("pickup"));
    let mut at = |bar: f64| {
        let mut i = hot_day();
        i.senses.suction_gauge_pa = bar * 1e5;
        pass(&mut c, &i, 0.2);
        c.drives().clutch_engaged
    };
    let seen = [4.0, 1.8, 1.7, 3.1, 3.2].map(&mut at);
    assert_eq!(seen, [true, true, false, false, true]);
}

/// A lost signal leaves the sedan's compressor at its least stroke and sets the code that says which end it is.
#[test]
fn a_lost_sensor_is_named_by_its_volts() {
    let healthy = run("sedan", &hot_day());
    assert!(healthy.drives().stroke > 0.9 && healthy.codes().is_empty(), "{:?}", healthy.codes());
    for (change, words) in [
        (Change::Open, "pressure sensor: volts too low"),
        (Change::Shorted, "pressure sensor: volts too low"),
    ] {
        let c = run("sedan", &faulty(&[("pressure_sensor", change)]));
        assert!(c.drives().stroke < 0.01, "{change:?}");
        assert_eq!(c.codes().iter().map(|c| c.words).collect::<Vec<_>>(), [words]);
    }
    let c = run("sedan", &faulty(&[("sensor_ground_wire", Change::Open)]));
    assert_eq!(c.codes()[0].words, "pressure sensor: volts too high");
}

/// Isolate, wait, prove dead: the inverter's capacitor empties through its bleed resistor with R C = 60 s, and nothing
/// counts as dead above 60 V (ISO 6469-3 and ECE R100, from memory).
#[test]
fn traction_voltage_takes_its_time_to_go() {
    let mut c = run("electric_van", &hot_day());
    let out = CircuitInputs { isolated: vec!["service_plug".into()], engine_on: false, ..hot_day() };
    let across = |c: &Circuit| v(c, "compressor_plus") - v(c, "compressor_minus");
    assert!(!c.is_dead(Guard::Traction) && across(&c) > 300.0);
    pass(&mut c, &out, 2.0);
    assert!(!c.relay_on("contactor_plus") && !c.is_dead(Guard::Traction), "{} V", across(&c));
    let before = across(&c);
    // Insulation of two times 5 megohm beside the 120 kilohm: 59.3 s.
    pass(&mut c, &out, 59.3);
    let left = across(&c) / before;
    assert!((left - 1.0 / core::f64::consts::E).abs() < 0.01, "1/e after one time constant: {left}");
    while across(&c) > 60.5 {
        assert!(!c.is_dead(Guard::Traction), "{} V", across(&c));
        pass(&mut c, &out, 1.0);
    }
    pass(&mut c, &out, 2.0);
    assert!(c.is_dead(Guard::Traction) && across(&c) < 60.0, "{} V", across(&c));
    pass(&mut c, &out, 200.0);
    assert!(across(&c) < 10.0, "{} V", across(&c));
    // Nobody pulled the plug: the contactors alone do not make it dead.
    let mut c = run("electric_van", &hot_day());
    pass(&mut c, &CircuitInputs { engine_on: false, ..hot_day() }, 600.0);
    assert!(across(&c) < 10.0 && !c.is_dead(Guard::Traction));
}

/// Mains: dead behind the open main switch, not with the control switch alone (common practice, no source).
#[test]
fn mains_are_dead_behind_the_main_switch() {
    let mut c = run("walk_in_cooler", &cold_room());
    assert!(!c.is_dead(Guard::Mains));
    pass(&mut c, &CircuitInputs { engine_on: false, ..cold_room() }, 5.0);
    assert!(!c.relay_on("contactor") && !c.is_dead(Guard::Mains));
    let isolated = vec!["main_switch".into(), "main_switch_n".into()];
    pass(&mut c, &CircuitInputs { isolated, ..cold_room() }, 5.0);
    assert!(c.is_dead(Guard::Mains));
}

/// A locked rotor trips the overload, which closes again when cold; a weak start capacitor does the same.
#[test]
fn a_locked_hermetic_motor_trips_its_overload() {
    assert!(run("walk_in_cooler", &cold_room()).drives().hermetic_rpm == Some(2850.0));
    let mut weak = cold_room();
    weak.faults = vec![PartFault { part: "start_capacitor".into(), change: Change::WeakCapacitor(0.9) }];
    for stalled in [CircuitInputs { seized: true, ..cold_room() }, weak] {
        let mut c = Circuit::new(&spec("walk_in_cooler"));
        pass(&mut c, &stalled, 2.0);
        assert!(a(&c, "overload").abs() > 20.0 && c.drives().hermetic_rpm == Some(0.0));
        pass(&mut c, &stalled, 30.0);
        assert!(!c.closed("overload") && a(&c, "overload").abs() < 1e-3 && !c.fuse_blown("main_fuse"));
        pass(&mut c, &cold_room(), 200.0);
        assert_eq!(c.drives().hermetic_rpm, Some(2850.0));
    }
}

/// The issue: "a seized compressor blows the fuse". With a sound overload it does not; with one whose contact has stuck
/// the locked rotor's current goes on until the fuse melts.
#[test]
fn a_locked_rotor_melts_the_fuse_where_the_overload_sticks() {
    let stuck = PartFault { part: "overload".into(), change: Change::StuckClosed };
    let seized = CircuitInputs { seized: true, ..cold_room() };
    let mut c = Circuit::new(&spec("walk_in_cooler"));
    pass(&mut c, &seized, 600.0);
    assert!(!c.fuse_blown("main_fuse"), "the overload keeps it whole");
    let mut c = Circuit::new(&spec("walk_in_cooler"));
    let seized = CircuitInputs { faults: vec![stuck], ..seized };
    pass(&mut c, &seized, 20.0);
    let amps = a(&c, "main_fuse").abs();
    assert!(!c.fuse_blown("main_fuse") && amps > 26.0, "{amps} A");
    pass(&mut c, &seized, 400.0);
    assert!(c.fuse_blown("main_fuse") && !c.relay_on("contactor"), "{amps} A");
    // A sound compressor starts and runs on it for an hour.
    let mut c = Circuit::new(&spec("walk_in_cooler"));
    pass(&mut c, &cold_room(), 3600.0);
    assert!(!c.fuse_blown("main_fuse") && c.drives().hermetic_rpm == Some(2850.0));
}

/// The inverter finds its rotor locked, gives up and says so; its fuse stays whole.
#[test]
fn an_inverter_gives_up_a_locked_rotor() {
    let c = run("electric_van", &CircuitInputs { seized: true, ..hot_day() });
    assert_eq!(c.drives().electric_rpm, Some(0.0));
    assert!(!c.fuse_blown("compressor_fuse") && a(&c, "inverter").abs() < 1.0);
    assert!(c.codes().iter().any(|c| c.words == "compressor: rotor does not turn" && c.present));
}
