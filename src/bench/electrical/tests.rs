//! Hands on the circuit of a bench: relays, fuses, plugs, mistakes, and the guard of traction voltage and mains.

use super::testing::*;
use crate::bench::{Action, Bench, MistakeKind, Refusal, UnsafeKind};
use crate::circuit::Guard;
use crate::fault::{FaultId, RepairId};
use crate::instrument::{MeterMode, Probe, is_over};
use crate::knobs::Change;

/// A bad relay moves with its place: common practice, no source.
#[test]
fn a_swapped_relay_takes_its_fault_along() {
    let mut b = bench("compact_car");
    b.apply(Action::ImposeFault { id: FaultId::ClutchRelayOpen, severity: 1.0 }).unwrap();
    wait(&mut b, 10.0);
    assert!(!b.electrical.drives().clutch_engaged && b.electrical.drives().fan_share > 0.2);
    b.apply(Action::SwapRelays("clutch_relay".into(), "fan_relay".into())).unwrap();
    wait(&mut b, 10.0);
    assert!(
        b.electrical.drives().clutch_engaged && b.electrical.drives().fan_share < 0.05,
        "the fan stands now"
    );
    b.apply(Action::SwapRelays("fan_relay".into(), "clutch_relay".into())).unwrap();
    wait(&mut b, 10.0);
    assert!(!b.electrical.drives().clutch_engaged && b.electrics().swapped.is_empty());
    let wrong = Action::SwapRelays("clutch_relay".into(), "no_relay".into());
    assert!(matches!(b.apply(wrong), Err(Refusal::NotNow(_))));
}

/// A new fuse blows again while the short is still there, and stays whole once it is gone: common practice, no source.
#[test]
fn a_new_fuse_blows_again_on_the_same_short() {
    let mut b = bench("compact_car");
    b.apply(Action::ImposeFault { id: FaultId::ClutchDiodeShorted, severity: 1.0 }).unwrap();
    wait(&mut b, 5.0);
    assert!(b.circuit().fuse_blown("clutch_fuse") && kinds(&b).is_empty());
    b.apply(Action::RenewFuse("clutch_fuse".into())).unwrap();
    wait(&mut b, 5.0);
    assert!(b.circuit().fuse_blown("clutch_fuse"));
    assert_eq!(kinds(&b), [MistakeKind::FuseBlewAgain]);
    // The short unplugged, the fuse holds.
    b.apply(Action::Unplug("clutch_plug".into(), true)).unwrap();
    b.apply(Action::RenewFuse("clutch_fuse".into())).unwrap();
    wait(&mut b, 5.0);
    assert!(!b.circuit().fuse_blown("clutch_fuse"));
    assert_eq!(kinds(&b).len(), 1);
}

/// The clamp needs no cut wire; the jumper feeds the clutch without its relay.
#[test]
fn clamp_and_jumper_between_any_points() {
    let mut b = bench("compact_car");
    b.apply(Action::Set(Change::AcRequest(false))).unwrap();
    b.apply(Action::ClampZero).unwrap();
    wait(&mut b, 5.0);
    assert!(!b.electrical.drives().clutch_engaged);
    let clamp = Probe::Clamp("clutch_coil".into());
    assert!(read(&mut b, &clamp).abs() < 0.1);
    b.apply(Action::JumperBetween(Some(("clutch_fuse_out".into(), "clutch_coil_plus".into())))).unwrap();
    wait(&mut b, 3.0);
    let amps = read(&mut b, &clamp);
    assert!(b.electrical.drives().clutch_engaged && (3.0..4.3).contains(&amps), "{amps}");
}

/// An untouched bench has the hash it had before there were such tools; a mistake changes it.
#[test]
fn mistakes_belong_to_the_state() {
    let run = |place: bool| {
        let mut b = bench("compact_car");
        wait(&mut b, 1.0);
        if place {
            b.apply(Action::Place(at(MeterMode::Ohm, "clutch_coil_plus", "ground"))).unwrap();
            b.apply(Action::Remove(at(MeterMode::Ohm, "", ""))).unwrap();
        }
        b
    };
    let (clean, touched) = (run(false), run(true));
    assert!(!serde_json::to_string(&clean.rack).unwrap().contains("electrical"));
    assert!(clean.electrics().is_untouched() && !touched.electrics().is_untouched());
    assert_ne!(clean.state_hash(), touched.state_hash());
}

/// Lock out, prove dead (caution S17; 29 CFR 1910.147); ohms on the windings are safe from then on.
#[test]
fn mains_are_locked_out_and_proven_dead() {
    let mut b = bench("walk_in_cooler");
    wait(&mut b, 30.0);
    let windings = at(MeterMode::Ohm, "compressor_r", "compressor_c");
    assert_eq!(danger(&mut b, Action::Place(windings.clone())), UnsafeKind::NotIsolated(Guard::Mains));
    let plug = Action::Unplug("compressor_plug".into(), true);
    assert_eq!(danger(&mut b, plug.clone()), UnsafeKind::NotIsolated(Guard::Mains));
    let contactor = Action::Repair(RepairId::ReplaceContactor);
    b.apply(Action::Set(Change::EngineOn(false))).unwrap();
    assert_eq!(danger(&mut b, contactor.clone()), UnsafeKind::NotIsolated(Guard::Mains));
    b.apply(Action::Isolate(Guard::Mains, true)).unwrap();
    b.apply(Action::ProveMeter).unwrap();
    wait(&mut b, 5.0);
    b.apply(Action::ProveDead(Guard::Mains)).unwrap();
    assert!(b.electrics().proof.unwrap().dead, "{:?}", b.electrics().proof);
    b.apply(contactor).unwrap();
    b.apply(plug).unwrap();
    let ohm = read(&mut b, &windings);
    assert!((2.0..2.8).contains(&ohm), "a run winding of 2.2 ohm and the leads: {ohm}");
    assert!(kinds(&b).is_empty() && !is_over(ohm));
    let feed = Action::Place(at(MeterMode::VoltsDc, "mains_l", "ground"));
    assert_eq!(danger(&mut b, feed), UnsafeKind::Terminal(Guard::Mains));
    assert_eq!(b.electrics().unsafe_acts.len(), 4);
}

/// The reader shows what a control unit believes, in plain words; codes that still hold come back.
#[test]
fn the_reader_shows_values_and_clears_codes() {
    let mut b = bench("electric_van");
    wait(&mut b, 5.0);
    let high = Probe::UnitValue { unit: "thermal".into(), id: "high".into() };
    assert!(b.apply(Action::Read(high.clone())).is_err() && b.apply(Action::ClearCodes).is_err());
    b.apply(Action::Reader(true)).unwrap();
    b.apply(Action::Unplug("pressure_plug".into(), true)).unwrap();
    wait(&mut b, 5.0);
    let codes = |b: &Bench| b.snapshot(false).instruments.electrical.reader.unwrap().codes;
    assert!(codes(&b).iter().any(|(_, words, present)| *present && words.contains("high-pressure sensor")));
    b.apply(Action::Unplug("pressure_plug".into(), false)).unwrap();
    wait(&mut b, 5.0);
    assert!(codes(&b).iter().all(|(_, _, present)| !present) && !codes(&b).is_empty());
    b.apply(Action::ClearCodes).unwrap();
    wait(&mut b, 5.0);
    assert!(codes(&b).is_empty(), "{:?}", codes(&b));
    b.apply(Action::Read(high)).unwrap();
    assert!(b.notebook().last().unwrap().value > 1e5);
}
