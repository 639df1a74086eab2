//! The circuit as a technician would measure it.

use super::*;
use crate::bench::Relay;

const TICK: f64 = 0.05;

fn hot_day() -> CircuitInputs {
    CircuitInputs {
        engine_on: true,
        ac_request: true,
        blower_pct: 100.0,
        liquid_line_gauge_pa: 14.0e5,
        evaporator_fin_t_k: 283.0,
        coil_t_k: 293.15,
        jumper: None,
        fan_motor_open: false,
        fan_relay_open: false,
        clutch_coil_open: false,
    }
}

fn run(inputs: &CircuitInputs) -> Circuit {
    let mut c = Circuit::compact_car();
    for _ in 0..400 {
        c.update(inputs, TICK);
    }
    c
}

fn v(c: &Circuit, id: &str) -> f64 {
    c.volts(id).unwrap_or_else(|| panic!("no point {id}"))
}

/// Points of a relay in the order 30, 87, 86, 85: live above 11 V, dead below 0.2 V.
fn pattern(c: &Circuit, relay: &str) -> String {
    let sign = |pin: &str| match v(c, &format!("{relay}_{pin}")) {
        x if x > 11.0 => '+',
        x if x.abs() < 0.2 => '0',
        _ => '?',
    };
    ["30", "87", "86", "85"].into_iter().map(sign).collect()
}

#[test]
fn healthy_running_shows_the_right_volts_everywhere() {
    let c = run(&hot_day());
    assert!(c.clutch_engaged() && c.relay_closed(Relay::Clutch) && c.relay_closed(Relay::Fan));
    assert!(!c.high_relay_closed());
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
    assert!((0.68..0.72).contains(&c.fan_speed_fraction()), "low speed {}", c.fan_speed_fraction());
    let high = run(&CircuitInputs { liquid_line_gauge_pa: 17.0e5, ..hot_day() });
    assert!(high.high_relay_closed() && (0.92..=1.0).contains(&high.fan_speed_fraction()));
    assert!((13.0..15.0).contains(&high.fan_current_a()), "{} A", high.fan_current_a());
}

#[test]
fn contact_drop_and_clutch_current_match_the_manuals() {
    // Land Rover bulletin P92-007, as cited in reference/faults.md 3.3: at most 0.025 V per ampere.
    let c = run(&CircuitInputs { liquid_line_gauge_pa: 17.0e5, ..hot_day() });
    for (relay, amps) in [
        ("fan_relay", c.fan_current_a()),
        ("high_relay", c.fan_current_a()),
        ("clutch_relay", c.clutch_current_a()),
    ] {
        let drop = v(&c, &format!("{relay}_30")) - v(&c, &format!("{relay}_87"));
        assert!(drop > 0.0 && drop < 0.025 * amps, "{relay}: {drop} V at {amps} A");
    }
    // Workshop manual, as cited there: at most 4 A at 12 V.
    let rest = run(&CircuitInputs { engine_on: false, jumper: Some(Relay::Clutch), ..hot_day() });
    let at_12 = rest.clutch_current_a() * 12.0 / v(&rest, "clutch_coil_plus");
    assert!((3.0..=4.0).contains(&at_12), "{at_12} A");
    let hot = run(&CircuitInputs { coil_t_k: 383.15, ..hot_day() });
    let ohm = (v(&hot, "clutch_coil_plus") - v(&hot, "clutch_coil_minus")) / hot.clutch_current_a();
    assert!((ohm - 4.86).abs() < 0.03, "{ohm} ohm at 110 °C (4.9 in reference/faults.md 3.3)");
}

#[test]
fn each_fault_has_its_pattern_at_the_relay() {
    let healthy = run(&hot_day());
    assert_eq!(
        (pattern(&healthy, "fan_relay"), pattern(&healthy, "clutch_relay")),
        ("+++0".into(), "+++0".into())
    );

    let relay = run(&CircuitInputs { fan_relay_open: true, ..hot_day() });
    assert_eq!(pattern(&relay, "fan_relay"), "+0+0");
    assert_eq!((relay.fan_current_a().abs() < 1e-6, relay.fan_speed_target()), (true, 0.0));
    assert!(relay.clutch_engaged());

    let motor = run(&CircuitInputs { fan_motor_open: true, ..hot_day() });
    assert_eq!(pattern(&motor, "fan_relay"), "+++0");
    assert!(v(&motor, "fan_motor_plus") > 13.5, "no current, no drop in the resistor");
    assert_eq!(motor.fan_speed_target(), 0.0);

    let coil = run(&CircuitInputs { clutch_coil_open: true, ..hot_day() });
    assert_eq!(pattern(&coil, "clutch_relay"), "+++0");
    assert!(v(&coil, "clutch_coil_plus") > 13.5 && v(&coil, "clutch_coil_minus") < 0.01);
    assert!(!coil.clutch_engaged() && coil.clutch_current_a() < 1e-5);
}

#[test]
fn the_bypass_tells_relay_from_load() {
    let fan_relay = CircuitInputs { fan_relay_open: true, jumper: Some(Relay::Fan), ..hot_day() };
    let c = run(&fan_relay);
    assert!(c.fan_speed_fraction() > 0.65 && !c.relay_closed(Relay::Fan) && !c.jumper_fuse_blown());
    // Also at high speed, where the current is largest, the fuse holds.
    let c = run(&CircuitInputs { liquid_line_gauge_pa: 20.0e5, ..fan_relay });
    assert!(c.fan_speed_fraction() > 0.9 && !c.jumper_fuse_blown());

    let c = run(&CircuitInputs { fan_motor_open: true, jumper: Some(Relay::Fan), ..hot_day() });
    assert!(c.fan_speed_fraction() == 0.0 && c.fan_current_a() < 1e-5);
    assert!(v(&c, "fan_relay_87") > 13.5 && v(&c, "fan_motor_plus") > 13.5);

    // The clutch, with its relay kept open by the pressure switch.
    let empty = CircuitInputs { liquid_line_gauge_pa: 1.0e5, ..hot_day() };
    assert!(!run(&empty).clutch_engaged());
    assert_eq!(pattern(&run(&empty), "clutch_relay"), "+000");
    let c = run(&CircuitInputs { jumper: Some(Relay::Clutch), ..empty });
    assert!(c.clutch_engaged() && !c.relay_closed(Relay::Clutch));
    let c = run(&CircuitInputs { jumper: Some(Relay::Clutch), clutch_coil_open: true, ..empty });
    assert!(!c.clutch_engaged() && v(&c, "clutch_coil_plus") > 13.5 && c.clutch_current_a() < 1e-5);
}

#[test]
fn every_link_of_the_control_chain_stops_the_clutch() {
    for broken in [
        CircuitInputs { engine_on: false, ..hot_day() },
        CircuitInputs { ac_request: false, ..hot_day() },
        CircuitInputs { blower_pct: 0.0, ..hot_day() },
        CircuitInputs { liquid_line_gauge_pa: 32.0e5, ..hot_day() },
        CircuitInputs { evaporator_fin_t_k: 273.0, ..hot_day() },
    ] {
        assert!(!run(&broken).clutch_engaged(), "{broken:?}");
    }
}

/// Every combination of switches, faults and jumper against plain logic.
#[test]
fn all_states_agree_with_logic() {
    for bits in 0..512_u32 {
        let bit = |n: u32| bits >> n & 1 == 1;
        for jumper in [None, Some(Relay::Fan), Some(Relay::Clutch)] {
            let inputs = CircuitInputs {
                engine_on: bit(0),
                ac_request: bit(1),
                blower_pct: if bit(2) { 50.0 } else { 0.0 },
                liquid_line_gauge_pa: [0.5e5, 14.0e5, 20.0e5, 33.0e5][(bits >> 3 & 3) as usize],
                evaporator_fin_t_k: if bit(5) { 283.0 } else { 270.0 },
                fan_motor_open: bit(6),
                fan_relay_open: bit(7),
                clutch_coil_open: bit(8),
                jumper,
                ..hot_day()
            };
            let mut c = Circuit::compact_car();
            c.update(&inputs, TICK);
            let asked = bit(0) && bit(1) && bit(2);
            let pressure = bits >> 3 & 3;
            let clutch_fed = asked && (1..=2).contains(&pressure) && bit(5) || jumper == Some(Relay::Clutch);
            assert_eq!(c.clutch_engaged(), clutch_fed && !bit(8), "{inputs:?}");
            let fan_fed = asked && !bit(7) || jumper == Some(Relay::Fan);
            assert_eq!(c.fan_speed_target() > 0.3, fan_fed && !bit(6), "{inputs:?}");
            let fast = fan_fed && !bit(6) && asked && pressure >= 2;
            assert_eq!(c.fan_speed_target() > 0.8, fast, "{inputs:?}");
            assert!(!c.jumper_fuse_blown());
        }
    }
}

#[test]
fn a_weak_supply_holds_a_hot_clutch_but_does_not_pull_it_in() {
    let at = |volts: f64| Parts { alternator_v: volts, ..Parts::COMPACT_CAR };
    let hot = CircuitInputs { coil_t_k: 383.15, ..hot_day() };
    let engaged = |volts: f64, inputs: &CircuitInputs| {
        let mut c = Circuit::with_parts(at(volts));
        c.update(inputs, TICK);
        c.clutch_engaged()
    };
    assert!(engaged(9.9, &hot_day()) && !engaged(9.9, &hot), "a hot coil draws less");
    let mut c = Circuit::with_parts(at(9.9));
    c.update(&hot_day(), TICK);
    c.update(&hot, TICK);
    assert!(c.clutch_engaged(), "once in, it stays in");
    assert!(!engaged(7.0, &hot_day()), "below 8 V the relay itself does not pull in");
}

#[test]
fn a_short_blows_the_jumper_fuse_until_the_lead_is_taken_away() {
    let mut c = Circuit::with_parts(Parts { clutch_ohm: 0.2, ..Parts::COMPACT_CAR });
    let jumped = CircuitInputs { liquid_line_gauge_pa: 1.0e5, jumper: Some(Relay::Clutch), ..hot_day() };
    c.update(&jumped, TICK);
    assert!(c.jumper_fuse_blown() && c.clutch_current_a() < 1e-6);
    c.update(&jumped, TICK);
    assert!(c.jumper_fuse_blown());
    c.update(&CircuitInputs { jumper: None, ..jumped }, TICK);
    assert!(!c.jumper_fuse_blown());
}

#[test]
fn changed_is_said_once_and_a_quiet_tick_keeps_everything() {
    let mut c = Circuit::compact_car();
    c.update(&hot_day(), TICK);
    assert!(c.changed());
    c.update(&hot_day(), TICK);
    assert!(!c.changed());
    let volts: Vec<_> = c.all_volts().collect();
    c.update(&hot_day(), TICK);
    assert_eq!(volts, c.all_volts().collect::<Vec<_>>());
    c.update(&CircuitInputs { liquid_line_gauge_pa: 17.0e5, ..hot_day() }, TICK);
    assert!(c.changed() && c.fan_speed_fraction() < 0.2, "the fan needs time");
}

#[test]
fn strange_inputs_do_no_harm() {
    let strange = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -1e300, 1e300];
    let mut c = Circuit::compact_car();
    for a in strange {
        for b in strange {
            for jumper in [None, Some(Relay::Fan), Some(Relay::Clutch)] {
                let inputs = CircuitInputs {
                    blower_pct: a,
                    liquid_line_gauge_pa: b,
                    evaporator_fin_t_k: a,
                    coil_t_k: b,
                    jumper,
                    ..hot_day()
                };
                c.update(&inputs, a);
                assert!(c.all_volts().all(|(_, v)| v.is_finite() && (-0.1..14.3).contains(&v)));
                assert!((0.0..=1.0).contains(&c.fan_speed_fraction()));
            }
        }
    }
    assert!(c.volts("no such point").is_none());
}

#[test]
fn point_names_are_unique() {
    let points = Circuit::compact_car().points();
    for (n, p) in points.iter().enumerate() {
        assert!(points[..n].iter().all(|q| q.id != p.id && q.label != p.label), "{}", p.id);
    }
}

/// Run with `--ignored --nocapture` to see the cost of a tick.
#[test]
#[ignore = "prints timings"]
fn cost_of_a_tick() {
    let mut c = run(&hot_day());
    let start = std::time::Instant::now();
    for _ in 0..10_000_000 {
        c.update(std::hint::black_box(&hot_day()), TICK);
    }
    let quiet = start.elapsed().as_secs_f64() * 100.0;
    let start = std::time::Instant::now();
    for n in 0..100_000 {
        let inputs = CircuitInputs { ac_request: n % 2 == 0, ..hot_day() };
        c.update(std::hint::black_box(&inputs), TICK);
    }
    println!("quiet tick {quiet:.1} ns; changing tick {:.1} us", start.elapsed().as_secs_f64() * 10.0);
}
