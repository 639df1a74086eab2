//! Every fault of the catalogue on every rig that can have it: five minutes at default severity without trouble, and
//! something true is not as on a healthy rig.

use pintle::bench::{Action, Bench};
use pintle::fault::{Fault, FaultId};
use pintle::rig::Rig;
use pintle::scenario::load;

/// A rig on the bench, run as an ordinary day asks; the clutch pulls in after some seconds.
fn bench(rig: &str, fault: Option<Fault>) -> Bench {
    let mut scenario = load("healthy").expect("the healthy scenario loads");
    scenario.rig = rig.into();
    let mut bench = Bench::new(&scenario, 1).expect("a bench");
    if let Some(Fault { id, severity }) = fault {
        bench.apply(Action::ImposeFault { id, severity }).expect("a fault that the rig can have");
    }
    bench.apply(Action::Hoses(true)).expect("gauges are on the bench");
    let pipe = pintle::instrument::Probe::Pipe(pintle::instrument::PipePlace::CompressorOutlet);
    bench.apply(Action::Place(pipe)).expect("a clamp is on the bench");
    bench.advance(300 * 20);
    bench
}

/// Everything that is true or shown, in words, without the list of faults.
fn seen(bench: &Bench) -> String {
    let mut snapshot = bench.snapshot(true);
    if let Some(inside) = &mut snapshot.inside {
        inside.faults.clear();
    }
    format!("{:?} {:?} {:?}", snapshot.inside, snapshot.outside, snapshot.instruments)
        + &format!("{:?}", snapshot.perceived)
}

/// Faults that nothing shows in this weather and time, each for its reason.
const QUIET: [(FaultId, &str); 11] = [
    (FaultId::BatteryWeak, "while it is charged a weak battery is as good as any"),
    (FaultId::DrainBlocked, "the fins hold their water for longer than five minutes"),
    (FaultId::ClutchContactWelded, "it shows only where the clutch should have let go"),
    (
        FaultId::ViscousCouplingWorn,
        "it shows only where the air off the cores is hot enough for the coupling",
    ),
    (FaultId::DefrostClockStuck, "the clock goes round in hours"),
    (FaultId::FanHighSpeedMissing, "it shows only where the high side calls for it"),
    (
        FaultId::ClutchDiodeOpen,
        "the kick of a coil is over in a millisecond and no part of the circuit's model",
    ),
    (FaultId::LowPressureSwitchClosed, "a switch that never opens shows only where it should have opened"),
    (FaultId::HighPressureSwitchClosed, "the same"),
    (FaultId::ThermistorShorted, "it shows only once the coil is cold enough to freeze"),
    (FaultId::DesiccantSaturated, "a drier that holds no water shows only once there is water"),
];

fn check(rig: &str) {
    let healthy = seen(&bench(rig, None));
    let mut inert = Vec::new();
    let mut troubled = Vec::new();
    for id in FaultId::on(&Rig::load(rig).expect("a rig")) {
        let bench = bench(rig, Some(Fault { id, severity: id.default_severity() }));
        if !bench.troubles().is_empty() {
            troubled.push((id, bench.troubles()[0].clone()));
        }
        let quiet = QUIET.iter().any(|(other, _)| *other == id);
        if seen(&bench) == healthy && !quiet {
            inert.push(id.info().key);
        }
    }
    assert!(troubled.is_empty(), "{rig}: {troubled:?}");
    assert!(inert.is_empty(), "{rig}: nothing comes of {inert:?}");
}

#[test]
fn every_fault_of_the_compact_car_shows() {
    check("compact_car");
}

#[test]
fn every_fault_of_the_pickup_shows() {
    check("pickup");
}

#[test]
fn every_fault_of_the_sedan_shows() {
    check("sedan");
}

#[test]
fn every_fault_of_the_electric_van_shows() {
    check("electric_van");
}

#[test]
fn every_fault_of_the_walk_in_cooler_shows() {
    check("walk_in_cooler");
}
