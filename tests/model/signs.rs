//! A quick subset of the signs of faults, and what `pintle compare` tells of pairs. The whole tables are a section of
//! `pintle qualify`.

use crate::common::{Car, IDLE, PER_S, Setting};
use pintle::bench::{Action, Bench};
use pintle::diagnosis::compare::{distance, pair, readings_apart};
use pintle::diagnosis::{Protocol, Story};
use pintle::fault::{Fault, FaultId};
use pintle::knobs::Change;
use pintle::rig::Rig;
use pintle::scenario;

fn protocol() -> Protocol {
    Protocol::new(&Rig::load("compact_car").unwrap(), 35.0)
}

fn story(id: FaultId, severity: f64) -> Story {
    Story::Fault(Fault { id, severity })
}

/// Clutch starts in five minutes with a share of the charge missing.
fn starts(rig: &str, missing: f64) -> u32 {
    let mut s = scenario::load("healthy").unwrap();
    s.rig = rig.into();
    s.start.engine_rpm = 1500.0;
    let mut bench = Bench::new(&s, 1).unwrap();
    bench.apply(Action::ImposeFault { id: FaultId::Undercharge, severity: missing }).unwrap();
    bench.advance(120 * PER_S);
    let engaged = |bench: &Bench| bench.snapshot(false).outside.clutch_engaged;
    let (mut was, mut count) = (engaged(&bench), 0);
    for _ in 0..300 * PER_S {
        bench.advance(1);
        let now = engaged(&bench);
        count += u32::from(now && !was);
        was = now;
    }
    count
}

#[test]
fn a_low_charge_cycles_the_pickup_fast_and_locks_the_compact_car_out() {
    // Suction-side switch of an orifice-tube car, 1.75 and 3.15 bar gauge (a service manual, not named in our notes).
    assert!(starts("pickup", 0.5) >= 15, "a start every 20 s or less (common practice)");
    assert!(starts("pickup", 0.0) <= 5);
    assert_eq!(starts("compact_car", 0.97), 0, "liquid-side switch open below 2 bar");
}

#[test]
fn air_adds_to_the_pressure_at_rest_and_charge_does_not() {
    // The trade's static test for air; saturation whatever the charge.
    let rest = |faults: &[(FaultId, f64)]| {
        let mut car = Car::faulty(Setting { ambient_c: 35.0, ..IDLE }, faults);
        for action in [
            Action::Set(Change::EngineOn(false)),
            Action::Set(Change::AcRequest(false)),
            Action::Set(Change::BlowerPct(0.0)),
        ] {
            car.act(action);
        }
        car.wait(60);
        car.inside().gauge_high_pa / 1e5
    };
    let full = rest(&[]);
    assert!(rest(&[(FaultId::AirInLoop, 3.0)]) > full + 0.2);
    for charge in [(FaultId::Overcharge, 0.4), (FaultId::Undercharge, 0.3)] {
        assert!((rest(&[charge]) - full).abs() < 0.05);
    }
}

#[test]
fn a_story_is_no_distance_from_itself_and_the_same_both_ways() {
    let p = protocol();
    let leak = story(FaultId::CompressorLeak, 0.4);
    let (a, b) = pair(&p, leak, Some(FaultId::CompressorLeak), Some(0.4)).unwrap();
    assert_eq!(distance(&p, &a, &b).best, 0.0);
    let (a, b) = pair(&p, leak, None, None).unwrap();
    let (there, back) = (distance(&p, &a, &b), distance(&p, &b, &a));
    assert!(there.best > 5.0 && (there.best - back.best).abs() < 1e-12);
    assert!(there.together >= there.best);
}

#[test]
fn a_leaking_compressor_is_told_by_a_warm_suction_and_by_meeting_pressures() {
    let p = protocol();
    let (a, b) = pair(&p, story(FaultId::CompressorLeak, 0.4), Some(FaultId::Undercharge), None).unwrap();
    let all = readings_apart(&p, &a, &b);
    assert!(all.windows(2).all(|w| w[0].sigmas >= w[1].sigmas), "best first");
    assert!(all.iter().any(|r| r.moment == "half a minute after the stop" && r.sigmas > 3.0));
}

#[test]
fn a_fitted_look_alike_is_nearer_than_any_severity_asked_for() {
    let p = protocol();
    let first = story(FaultId::CondenserFinsBlocked, 0.5);
    let far = |severity| {
        let (a, b) = pair(&p, first, Some(FaultId::Overcharge), severity).unwrap();
        distance(&p, &a, &b).best
    };
    let fitted = far(None);
    for severity in [0.25, 0.4, 0.9] {
        assert!(fitted <= far(Some(severity)) + 1e-9, "at {severity}");
    }
}
