//! What the log makes of seconds.

use super::*;

fn quiet() -> LogSees {
    LogSees {
        tick: 20,
        loop_pa: 100.0,
        loop_t_k: 300.0,
        suction_pa: 1e5,
        centre_pa: 100.0,
        ambient_pa: 101_325.0,
        centre: CentreHose::Capped,
        joined_low: true,
        joined: true,
        joint_open: false,
        cracked: false,
        running: false,
        station: false,
        ventilated: false,
        charge_kg: 0.0,
        full_kg: 0.35,
        released_kg: 0.0,
        oil_kg: 0.1,
        oil_lost_kg: 0.0,
    }
}

#[test]
fn a_vacuum_is_watched_until_something_else_is_opened() {
    let mut log = BayLog::default();
    let pump = LogSees { centre: CentreHose::VacuumPump, ..quiet() };
    for _ in 0..5 {
        log.second(&pump);
    }
    assert_eq!((log.deepest_pa, log.pumped_s), (Some(100.0), 5.0));
    for pa in [100.0, 150.0, 180.0] {
        log.second(&LogSees { loop_pa: pa, ..quiet() });
    }
    assert_eq!((log.watched_s, log.risen_to_pa), (2.0, 180.0), "the first second shuts off");
    log.second(&LogSees { centre: CentreHose::Open, loop_pa: 1e5, ..quiet() });
    assert!(log.watch_over && log.risen_to_pa == 180.0);
    log.second(&LogSees { joint_open: true, ..quiet() });
    assert_eq!(log.deepest_pa, None, "opened again");
}

#[test]
fn a_hold_under_nitrogen_ends_when_hands_touch_it() {
    let mut log = BayLog::default();
    let filling = LogSees { centre: CentreHose::Nitrogen { set_pa: 1e6 }, loop_pa: 1e6, ..quiet() };
    log.second(&filling);
    log.second(&LogSees { loop_pa: 0.99e6, tick: 60, ..quiet() });
    assert_eq!(log.nitrogen.map(|hold| (hold.end_pa, hold.end_tick, hold.over)), Some((0.99e6, 60, false)));
    log.second(&LogSees { cracked: true, loop_pa: 0.5e6, tick: 80, ..quiet() });
    assert_eq!(log.nitrogen.map(|hold| (hold.end_pa, hold.over)), Some((0.99e6, true)));
    assert!(log.mistakes.is_empty());
    log.second(&LogSees { charge_kg: 0.3, ..filling });
    assert_eq!(log.mistakes, [(BayMistake::NitrogenOnCharge, 20)]);
}
