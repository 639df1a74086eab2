//! Repairs, right and wrong, and what the model makes of them.

use crate::common::{Car, IDLE};
use pintle::bench::{Action, Bench};
use pintle::fault::{FaultId, RepairId};
use pintle::knobs::Change;
use pintle::scenario::load;

/// Switch off, repair, switch on again.
fn repair(car: &mut Car, id: RepairId) {
    car.act(Action::Set(Change::EngineOn(false)));
    car.act(Action::Repair(id));
    car.wait(120).act(Action::Set(Change::EngineOn(true)));
}

/// refrigeration-engineer.com, blog 355 (undated): a restriction and someone who topped it up: high side and subcooling rise, and the
/// cold does not come back.
#[test]
fn topping_up_a_restricted_loop_overfills_it() {
    let clogged = [(FaultId::TxvScreenClogged, 0.9)];
    let healthy = Car::healthy(IDLE).after(480);
    let before = Car::faulty(IDLE, &clogged).after(480);
    let mut car = Car::faulty(IDLE, &clogged);
    car.wait(60);
    car.act(Action::Repair(RepairId::TopUp));
    car.act(Action::Repair(RepairId::TopUp));
    let after = car.after(420);
    assert!(before.low < healthy.low - 0.3, "low side {} and {}", before.low, healthy.low);
    assert!(after.high > before.high + 1.0, "high side {} and {}", before.high, after.high);
    assert!(after.subcooling > before.subcooling + 2.0, "{} and {}", after.subcooling, before.subcooling);
    assert!(after.low < healthy.low - 0.2, "still starved: {}", after.low);
    assert_eq!((car.bench.parts_replaced(), car.bench.repairs().len()), (0, 2));
}

#[test]
fn the_right_repair_brings_the_cold_back() {
    let healthy = Car::healthy(IDLE).after(900);
    for (id, severity, cure) in [
        (FaultId::CondenserFanRelayOpen, 1.0, RepairId::ReplaceFanRelay),
        (FaultId::Undercharge, 0.6, RepairId::RechargeByWeight),
        (FaultId::TxvStuckClosed, 0.0, RepairId::ReplaceExpansionValve),
        (FaultId::CompressorLeak, 0.5, RepairId::ReplaceCompressor),
    ] {
        let mut car = Car::faulty(IDLE, &[(id, severity)]);
        car.wait(180);
        repair(&mut car, cure);
        assert_eq!(car.bench.faults().iter().count(), 0);
        assert_eq!(car.bench.repairs()[0].cured, [id]);
        assert_eq!(car.bench.parts_replaced(), 0);
        let seen = car.after(900);
        assert!((seen.low - healthy.low).abs() < 0.2, "{id:?} low {} and {}", seen.low, healthy.low);
        assert!((seen.high - healthy.high).abs() < 0.8, "{id:?} high {} and {}", seen.high, healthy.high);
    }
}

#[test]
fn a_good_part_replaced_is_counted_and_changes_the_hash() {
    let mut car = Car::faulty(IDLE, &[(FaultId::CondenserFanMotorOpen, 1.0)]);
    car.wait(30).act(Action::Set(Change::EngineOn(false)));
    let before = car.bench.state_hash();
    car.act(Action::Repair(RepairId::ReplaceFanRelay));
    assert_ne!(before, car.bench.state_hash());
    assert_eq!(car.bench.parts_replaced(), 1);
    assert_eq!(car.bench.snapshot(false).instruments.parts_replaced, 1);
    assert!(car.bench.faults().has(FaultId::CondenserFanMotorOpen));
}

#[test]
fn nobody_works_on_what_runs_or_is_not_there() {
    let mut bench = Bench::new(&load("healthy").expect("shipped"), 1).expect("a bench");
    let running = bench.apply(Action::Repair(RepairId::ReplaceBelt)).expect_err("the engine runs");
    assert!(running.to_string().contains("switch off first"), "{running}");
    bench.apply(Action::Set(Change::EngineOn(false))).expect("allowed");
    assert!(bench.apply(Action::Repair(RepairId::ReplaceOrificeTube)).is_err(), "this car has none");
    assert!(bench.apply(Action::Repair(RepairId::ReplaceBelt)).is_ok());
}

/// A leak that is only topped up loses its charge again; mended, it keeps what was weighed in.
#[test]
fn a_leak_comes_back_until_it_is_mended() {
    let mut car = Car::faulty(IDLE, &[(FaultId::LeakCondenserJoint, 2000.0)]);
    let full = car.inside().charge_kg;
    car.wait(240);
    let lost = full - car.inside().charge_kg;
    assert!(lost > 0.03, "lost {lost} kg");
    repair(&mut car, RepairId::RechargeByWeight);
    car.wait(120);
    assert!(car.bench.faults().has(FaultId::LeakCondenserJoint));
    let charge = car.inside().charge_kg;
    car.wait(120);
    assert!(car.inside().charge_kg < charge - 0.01, "it leaks on");
    repair(&mut car, RepairId::MendJoints);
    car.wait(60);
    let charge = car.inside().charge_kg;
    assert!((charge / full - 1.0).abs() < 0.02, "{charge} of {full} kg");
    car.wait(120);
    assert!((car.inside().charge_kg - charge).abs() < 1e-6, "and stays");
}

/// A shorted diode melts the fuse; a new fuse melts as well until the diode is replaced too.
#[test]
fn a_fuse_melts_again_until_its_cause_is_gone() {
    let mut car = Car::faulty(IDLE, &[(FaultId::ClutchDiodeShorted, 1.0)]);
    car.wait(10);
    assert!(!car.engaged());
    repair(&mut car, RepairId::ReplaceClutchFuse);
    car.wait(10);
    assert!(!car.engaged(), "melted again");
    assert_eq!(car.bench.parts_replaced(), 0, "the fuse was not good");
    repair(&mut car, RepairId::ReplaceClutchDiode);
    repair(&mut car, RepairId::ReplaceClutchFuse);
    car.wait(10);
    assert!(car.engaged());
}
