//! Mistakes and unsafe acts at the circuit as they are told afterwards, and as a record brings them back.

use super::*;
use crate::bench::testing::*;
use crate::bench::{Action, MistakeKind, Refusal, UnsafeKind};
use crate::circuit::Guard;
use crate::instrument::{MeterMode, Probe};
use crate::knobs::Change;
use crate::record::{Record, replay};

/// Mistakes are written down with their moment and stand in the debrief's words.
#[test]
fn mistakes_are_written_down() {
    let mut b = bench("compact_car");
    wait(&mut b, 5.0);
    read(&mut b, &at(MeterMode::Ohm, "clutch_coil_plus", "clutch_coil_minus"));
    assert!(kinds(&b).contains(&MistakeKind::LiveOhms));
    read(&mut b, &at(MeterMode::AmpsDc, "battery_plus", "ground"));
    assert!(kinds(&b).contains(&MistakeKind::MeterFuse));
    assert!(b.snapshot(false).instruments.electrical.meter_fuse_blown);
    b.apply(Action::RenewFuse("meter".into())).unwrap();
    b.apply(Action::Remove(at(MeterMode::AmpsDc, "", ""))).unwrap();
    assert!(!b.snapshot(false).instruments.electrical.meter_fuse_blown);
    b.apply(Action::JumperBetween(Some(("battery_plus".into(), "ground".into())))).unwrap();
    wait(&mut b, 1.0);
    assert!(kinds(&b).contains(&MistakeKind::JumperFuse));
    assert!(b.snapshot(false).instruments.jumper_fuse_blown);
    b.apply(Action::Place(Probe::Clamp("clutch_coil".into()))).unwrap();
    b.apply(Action::ClampZero).unwrap();
    assert!(kinds(&b).contains(&MistakeKind::ClampZeroedLive));
    let words = mistakes(b.electrics());
    assert_eq!(words.len(), 4, "{words:?}");
}

/// Isolate, wait, prove dead (caution S13; 60 V: ISO 6469-3). The capacitor of the inverter is 500 uF
/// across 120 kohm: from 355 V it takes about 107 s to come below 60.
#[test]
fn traction_voltage_is_isolated_waited_for_and_proven_dead() {
    let mut b = bench("electric_van");
    wait(&mut b, 20.0);
    let traction = Guard::Traction;
    let volts = Action::Place(at(MeterMode::VoltsDc, "compressor_plus", "compressor_minus"));
    assert_eq!(danger(&mut b, volts.clone()), UnsafeKind::NotIsolated(traction));
    assert_eq!(danger(&mut b, Action::Isolate(traction, true)), UnsafeKind::UnderLoad(traction));
    b.apply(Action::Set(Change::EngineOn(false))).unwrap();
    wait(&mut b, 2.0);
    assert!(matches!(b.apply(Action::ProveDead(traction)), Err(Refusal::NotNow(_))));
    b.apply(Action::Isolate(traction, true)).unwrap();
    assert!(matches!(b.apply(Action::ProveDead(traction)), Err(Refusal::NotNow(_))), "a meter not proved");
    b.apply(Action::ProveMeter).unwrap();
    wait(&mut b, 10.0);
    b.apply(Action::ProveDead(traction)).unwrap();
    let proof = b.electrics().proof.unwrap();
    assert!(!proof.dead && proof.volts > 200.0, "{proof:?}");
    assert_eq!(danger(&mut b, volts.clone()), UnsafeKind::NotProven(traction));
    wait(&mut b, 150.0);
    assert_eq!(danger(&mut b, volts.clone()), UnsafeKind::NotProven(traction), "dead, but nobody knows");
    b.apply(Action::ProveDead(traction)).unwrap();
    assert!(b.electrics().proof.unwrap().dead);
    b.apply(volts.clone()).unwrap();
    let terminal = Action::Place(at(MeterMode::VoltsDc, "pack_plus", "ground"));
    assert_eq!(danger(&mut b, terminal), UnsafeKind::Terminal(traction));
    assert_eq!(danger(&mut b, Action::Isolate(traction, false)), UnsafeKind::ToolsLeftOn(traction));
    b.apply(Action::Remove(at(MeterMode::VoltsDc, "", ""))).unwrap();
    b.apply(Action::Isolate(traction, false)).unwrap();
    assert_eq!(danger(&mut b, volts), UnsafeKind::NotIsolated(traction), "all over again");
    assert_eq!(b.electrics().unsafe_acts.len(), 7);
    assert_eq!(unsafe_acts(b.electrics()).len(), 7);
    // What was stopped is part of the record, and a record replays to the same state.
    let record = Record::of(&b, &[]).unwrap();
    let again = replay(&record).unwrap();
    assert_eq!(again.electrics(), b.electrics());
}
