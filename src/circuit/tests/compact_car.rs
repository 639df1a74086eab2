//! The compact car: relays and switches alone.

use super::*;

const RIG: &str = "compact_car";

/// A hot day with another pressure in the liquid line [Pa gauge].
fn at(liquid_gauge_pa: f64, mut inputs: CircuitInputs) -> CircuitInputs {
    inputs.senses.liquid_gauge_pa = liquid_gauge_pa;
    inputs
}

fn fins(fin_t_k: f64) -> CircuitInputs {
    let mut inputs = hot_day();
    inputs.senses.fin_t_k = fin_t_k;
    inputs
}

#[test]
fn healthy_running_shows_the_right_volts_everywhere() {
    let c = run(RIG, &hot_day());
    assert!(c.drives().clutch_engaged && c.relay_on("clutch_relay") && c.relay_on("fan_relay"));
    assert!(!c.relay_on("high_relay"));
    for (id, volts) in c.all_volts() {
        let dead = ["_minus", "_85"].iter().any(|end| id.ends_with(end))
            || ["high_relay_86", "medium_switch_out"].contains(&id);
        let low_speed = ["fan_motor_plus", "high_relay_87"].contains(&id);
        let fits = match (dead, low_speed) {
            (true, _) => volts.abs() < 0.1,
            (_, true) => (9.0..10.0).contains(&volts),
            _ => (13.5..14.2).contains(&volts),
        };
        assert!(fits, "{id} shows {volts} V");
    }
    let fan = c.drives().fan_share;
    assert!((0.68..0.72).contains(&fan), "low speed {fan}");
    let high = run(RIG, &at(17.0e5, hot_day()));
    assert!(high.relay_on("high_relay") && (0.92..=1.0).contains(&high.drives().fan_share));
    assert!((13.0..15.0).contains(&a(&high, "fan_motor")), "{} A", a(&high, "fan_motor"));
    assert!(high.drives().blower_share > 0.99);
    let half = run(RIG, &CircuitInputs { blower_pct: 50.0, ..hot_day() });
    assert!((half.drives().blower_share - 0.5).abs() < 0.005, "{}", half.drives().blower_share);
}

#[test]
fn contact_drop_and_clutch_current_match_the_manuals() {
    // Land Rover service bulletin P92-007: at most 0.025 V per ampere.
    let c = run(RIG, &at(17.0e5, hot_day()));
    for (relay, load) in
        [("fan_relay", "fan_motor"), ("high_relay", "fan_motor"), ("clutch_relay", "clutch_coil")]
    {
        let drop = v(&c, &format!("{relay}_30")) - v(&c, &format!("{relay}_87"));
        assert!(drop > 0.0 && drop < 0.025 * a(&c, load), "{relay}: {drop} V");
    }
    // Workshop manual, as cited there: at most 4 A at 12 V.
    let rest = run(RIG, &jumped("clutch_relay", CircuitInputs { engine_on: false, ..hot_day() }));
    let at_12 = a(&rest, "clutch_coil") * 12.0 / v(&rest, "clutch_coil_plus");
    assert!((3.0..=4.0).contains(&at_12), "{at_12} A");
    let hot = run(RIG, &CircuitInputs { coil_t_k: 383.15, ..hot_day() });
    let ohm = (v(&hot, "clutch_coil_plus") - v(&hot, "clutch_coil_minus")) / a(&hot, "clutch_coil");
    assert!((ohm - 4.86).abs() < 0.03, "{ohm} ohm at 110 °C (copper, 0.39 %/K: 4.9)");
}

#[test]
fn each_fault_has_its_pattern_at_the_relay() {
    let healthy = run(RIG, &hot_day());
    let patterns = (pattern(&healthy, "fan_relay"), pattern(&healthy, "clutch_relay"));
    assert_eq!(patterns, ("+++0".into(), "+++0".into()));

    let relay = run(RIG, &faulty(&[("fan_relay_coil", Change::Open)]));
    assert_eq!(pattern(&relay, "fan_relay"), "+0+0");
    assert_eq!((a(&relay, "fan_motor").abs() < 1e-6, relay.heading("fan_motor")), (true, Some(0.0)));
    assert!(relay.drives().clutch_engaged);

    let motor = run(RIG, &faulty(&[("fan_motor", Change::Open)]));
    assert_eq!(pattern(&motor, "fan_relay"), "+++0");
    assert!(v(&motor, "fan_motor_plus") > 13.5, "no current, no drop in the resistor");
    assert_eq!(motor.heading("fan_motor"), Some(0.0));

    let coil = run(RIG, &faulty(&[("clutch_coil", Change::Open)]));
    assert_eq!(pattern(&coil, "clutch_relay"), "+++0");
    assert!(v(&coil, "clutch_coil_plus") > 13.5 && v(&coil, "clutch_coil_minus") < 0.01);
    assert!(!coil.drives().clutch_engaged && a(&coil, "clutch_coil") < 1e-5);
}

#[test]
fn the_bypass_tells_relay_from_load() {
    let fan_relay = jumped("fan_relay", faulty(&[("fan_relay_coil", Change::Open)]));
    let c = run(RIG, &fan_relay);
    assert!(c.drives().fan_share > 0.65 && !c.relay_on("fan_relay") && !c.load_blown(0));
    // Also at high speed, where the current is largest, the fuse holds, from the start on.
    let c = run(RIG, &at(20.0e5, fan_relay));
    assert!(c.drives().fan_share > 0.9 && !c.load_blown(0));

    let c = run(RIG, &jumped("fan_relay", faulty(&[("fan_motor", Change::Open)])));
    assert!(c.drives().fan_share == 0.0 && a(&c, "fan_motor") < 1e-5);
    assert!(v(&c, "fan_relay_87") > 13.5 && v(&c, "fan_motor_plus") > 13.5);

    // The clutch, with its relay kept open by the pressure switch.
    let empty = at(1.0e5, hot_day());
    assert!(!run(RIG, &empty).drives().clutch_engaged);
    assert_eq!(pattern(&run(RIG, &empty), "clutch_relay"), "+000");
    let c = run(RIG, &jumped("clutch_relay", empty));
    assert!(c.drives().clutch_engaged && !c.relay_on("clutch_relay"));
    let c = run(RIG, &jumped("clutch_relay", at(1.0e5, faulty(&[("clutch_coil", Change::Open)]))));
    assert!(!c.drives().clutch_engaged && v(&c, "clutch_coil_plus") > 13.5 && a(&c, "clutch_coil") < 1e-5);
}

#[test]
fn every_link_of_the_control_chain_stops_the_clutch() {
    for broken in [
        CircuitInputs { engine_on: false, ..hot_day() },
        CircuitInputs { ac_request: false, ..hot_day() },
        CircuitInputs { blower_pct: 0.0, ..hot_day() },
        at(32.0e5, hot_day()),
        fins(273.0),
    ] {
        assert!(!run(RIG, &broken).drives().clutch_engaged, "{broken:?}");
    }
}

/// Every combination of switches, faults and jumper against plain logic.
#[test]
fn all_states_agree_with_logic() {
    let spec = spec(RIG);
    for bits in 0..512_u32 {
        let bit = |n: u32| bits >> n & 1 == 1;
        let broken = [(6, "fan_motor"), (7, "fan_relay_coil"), (8, "clutch_coil")];
        let broken: Vec<_> = broken.iter().filter(|b| bit(b.0)).map(|b| (b.1, Change::Open)).collect();
        for jumper in [None, Some("fan_relay"), Some("clutch_relay")] {
            let mut inputs = CircuitInputs {
                engine_on: bit(0),
                ac_request: bit(1),
                blower_pct: if bit(2) { 50.0 } else { 0.0 },
                ..faulty(&broken)
            };
            inputs.senses.liquid_gauge_pa = [0.5e5, 14.0e5, 20.0e5, 33.0e5][(bits >> 3 & 3) as usize];
            inputs.senses.fin_t_k = if bit(5) { 283.0 } else { 270.0 };
            if let Some(relay) = jumper {
                inputs = jumped(relay, inputs);
            }
            let mut c = Circuit::new(&spec);
            c.update(&inputs, TICK);
            let asked = bit(0) && bit(1) && bit(2);
            let pressure = bits >> 3 & 3;
            let clutch_fed = asked && (1..=2).contains(&pressure) && bit(5) || jumper == Some("clutch_relay");
            assert_eq!(c.drives().clutch_engaged, clutch_fed && !bit(8), "{inputs:?}");
            let heading = c.heading("fan_motor").unwrap();
            let fan_fed = asked && !bit(7) || jumper == Some("fan_relay");
            assert_eq!(heading > 0.3, fan_fed && !bit(6), "{inputs:?}");
            let fast = fan_fed && !bit(6) && asked && pressure >= 2;
            assert_eq!(heading > 0.8, fast, "{inputs:?}");
            assert!(!c.load_blown(0));
        }
    }
}

#[test]
fn a_weak_supply_holds_a_hot_clutch_but_does_not_pull_it_in() {
    // Charging at 9.9 V is below what a battery at rest has: a flat battery and no charging give about that.
    let at = |volts: f64| {
        let mut spec = spec(RIG);
        spec.supplies[0].kind =
            spec::SupplyKind::Battery { rest_v: volts, ohm: 0.0111, charging_v: volts, charging_ohm: 0.0111 };
        spec
    };
    let hot = CircuitInputs { coil_t_k: 383.15, ..hot_day() };
    let engaged = |volts: f64, inputs: &CircuitInputs| {
        let mut c = Circuit::new(&at(volts));
        c.update(inputs, TICK);
        c.update(inputs, TICK);
        c.drives().clutch_engaged
    };
    assert!(engaged(9.9, &hot_day()) && !engaged(9.9, &hot), "a hot coil draws less");
    let mut c = Circuit::new(&at(9.9));
    c.update(&hot_day(), TICK);
    c.update(&hot, TICK);
    assert!(c.drives().clutch_engaged, "once in, it stays in");
    assert!(!engaged(7.0, &hot_day()), "below 8 V the relay itself does not pull in");
}

/// The pull goes with (V / R) squared over the gap squared, so a hot coil at 10.5 V
/// with a wide gap lets the compressor go; each of the three alone does not.
#[test]
fn hot_coil_low_volts_and_wide_gap_together_lose_the_clutch() {
    let at = |coil_t_k: f64, flat: bool, gap_mm: f64| {
        let mut faults = vec![("clutch_coil", Change::Gap(gap_mm))];
        if flat {
            faults.push(("alternator", Change::Open));
            faults.push(("battery", Change::WeakBattery(0.27)));
        }
        let c = run(RIG, &CircuitInputs { coil_t_k, ..faulty(&faults) });
        if flat {
            let volts = v(&c, "clutch_coil_plus");
            assert!((9.8..10.8).contains(&volts), "about 10.5 V, {volts}");
        }
        c.drives().clutch_engaged
    };
    let (cold, hot) = (293.15, 383.15);
    assert!(at(hot, false, 0.60) && at(cold, true, 0.60) && at(hot, true, 0.45));
    assert!(!at(hot, true, 0.60));
}

#[test]
fn a_short_blows_the_jumper_fuse_until_the_lead_is_taken_away() {
    let mut c = Circuit::new(&spec(RIG));
    let short =
        at(1.0e5, faulty(&[("clutch_coil", Change::ShareOfOhm(0.05)), ("clutch_fuse", Change::StuckClosed)]));
    let lead = jumped("clutch_relay", short.clone());
    pass(&mut c, &lead, 1.0);
    assert!(c.load_blown(0) && a(&c, "clutch_coil") < 1e-6);
    pass(&mut c, &lead, 1.0);
    assert!(c.load_blown(0));
    pass(&mut c, &short, 0.1);
    pass(&mut c, &lead, 0.1);
    assert!(!c.load_blown(0), "a new lead has a new fuse");
}

#[test]
fn changed_is_said_once_and_a_quiet_tick_keeps_everything() {
    let mut c = Circuit::new(&spec(RIG));
    c.update(&hot_day(), TICK);
    assert!(c.changed());
    pass(&mut c, &hot_day(), 60.0);
    c.update(&hot_day(), TICK);
    assert!(!c.changed());
    let before = serde_json::to_string(&c).unwrap();
    pass(&mut c, &hot_day(), 1.0);
    assert_eq!(before, serde_json::to_string(&c).unwrap());
    c.update(&at(17.0e5, hot_day()), TICK);
    assert!(c.changed() && c.drives().fan_share < 0.8, "the fan needs time");
}

#[test]
fn strange_inputs_do_no_harm() {
    let strange = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -1e300, 1e300];
    let mut c = Circuit::new(&spec(RIG));
    for x in strange {
        for y in strange {
            for relay in ["fan_relay", "clutch_relay", "no_such_relay"] {
                let mut inputs = CircuitInputs { blower_pct: x, coil_t_k: y, ..jumped(relay, hot_day()) };
                inputs.senses.liquid_gauge_pa = y;
                inputs.senses.fin_t_k = x;
                inputs.faults.push(PartFault { part: "clutch_coil".into(), change: Change::AddedOhm(x) });
                inputs.faults.push(PartFault { part: "clutch_coil".into(), change: Change::Gap(y) });
                inputs.faults.push(PartFault { part: "battery".into(), change: Change::WeakBattery(y) });
                c.update(&inputs, x);
                assert!(c.all_volts().all(|(_, v)| v.is_finite() && (-0.1..14.3).contains(&v)));
                assert!((0.0..=1.0).contains(&c.drives().fan_share));
            }
        }
    }
    assert!(c.volts("no such point").is_none() && c.port("ground", "no such point").is_none());
}
