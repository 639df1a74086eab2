//! Which cautions stand where, and where they do not.

use super::*;
use crate::bay::Hose;
use crate::knobs::Change;
use crate::plant::Port;

const STANDING: Situation = Situation {
    refrigerant: "R-134a",
    electric: false,
    running: false,
    pressure: true,
    refrigerant_in: true,
    vacuum: false,
    identified: false,
    centre: CentreEnd::Cap,
    liquid: false,
};

fn ids(action: Action) -> Vec<&'static str> {
    before(&action).iter().map(|c| c.id).collect()
}
fn here(action: Action, now: Situation) -> Vec<&'static str> {
    before_here(&action, &now).iter().map(|c| c.id).collect()
}
fn fit() -> Action {
    Action::Bay(BayAction::Fit { hose: Hose::Low, port: Some(Port::Low) })
}
fn liquid(vessel: Vessel) -> Action {
    Action::Bay(BayAction::Valve { vessel, valve: VesselValve::Liquid })
}

#[test]
fn every_dangerous_action_of_the_bench_has_its_caution() {
    assert_eq!(ids(Action::Set(Change::EngineOn(true))), ["S18"]);
    assert!(ids(Action::Set(Change::EngineOn(false))).is_empty());
    assert_eq!(ids(Action::Hoses(true)), ["S1", "S12"]);
    assert_eq!(ids(Action::Jumper(Some(Relay::Fan))), ["S15"]);
    assert_eq!(ids(Action::Jumper(Some(Relay::Clutch))), ["S25", "S15"]);
}

#[test]
fn every_caution_stands_at_some_action() {
    let bay = |act| Action::Bay(act);
    let all = [
        Action::Set(Change::EngineOn(true)),
        Action::Jumper(Some(Relay::Clutch)),
        Action::Isolate(Guard::Traction, true),
        Action::Isolate(Guard::Mains, true),
        Action::Place(Probe::Pipe(PipePlace::CompressorOutlet)),
        Action::ManifoldLowPct(100.0),
        Action::ManifoldHighPct(100.0),
        Action::Repair(RepairId::ReplaceCompressor),
        fit(),
        liquid(Vessel::Can),
        bay(BayAction::Valve { vessel: Vessel::Can, valve: VesselValve::Gas }),
        bay(BayAction::Machine(true)),
        bay(BayAction::Flame),
        bay(BayAction::Oil { ml: 30.0, kind: OilKind::AsLabelled }),
        bay(BayAction::Spray(true)),
    ];
    let all: Vec<Action> =
        all.into_iter().chain(CentreEnd::ALL.map(|end| bay(BayAction::Centre(end)))).collect();
    let mut seen = vec!["S16b"]; // Of a hand on a hot place; tested where the senses are.
    for (refrigerant, electric, vacuum, centre) in [
        ("R-134a", false, false, CentreEnd::Can),
        ("R-1234yf", true, true, CentreEnd::Nothing),
        ("R-290", true, false, CentreEnd::Can),
        ("R-410A", false, false, CentreEnd::Supply),
    ] {
        for running in [true, false] {
            let now = Situation { refrigerant, electric, running, vacuum, centre, liquid: true, ..STANDING };
            seen.extend(all.iter().flat_map(|a| before_here(a, &now)).map(|c| c.id));
        }
    }
    for caution in super::super::ALL {
        assert!(seen.contains(&caution.id), "{} stands nowhere", caution.id);
    }
}

#[test]
fn harmless_acts_are_not_nagged_about() {
    let empty = Situation { pressure: false, refrigerant_in: false, identified: true, ..STANDING };
    assert!(here(fit(), empty).is_empty());
    assert!(here(Action::Bay(BayAction::Loosen(true)), empty).is_empty());
    assert!(here(Action::Bay(BayAction::Centre(CentreEnd::VacuumPump)), empty).is_empty());
    assert_eq!(here(Action::Bay(BayAction::Centre(CentreEnd::RecoveryMachine)), empty), ["S9"]);
    assert_eq!(here(Action::Bay(BayAction::Centre(CentreEnd::Nitrogen)), empty), ["S6"]);
    // Letting nitrogen go is no venting, but the hose still whips.
    let nitrogen = Situation { pressure: true, ..empty };
    assert_eq!(here(Action::Bay(BayAction::Loosen(true)), nitrogen), ["S1", "S12"]);
    for harmless in [
        BayAction::Protect(true),
        BayAction::Ventilate(true),
        BayAction::Knob { hose: Hose::High, open: true },
        BayAction::Pump(false),
        BayAction::Machine(false),
        BayAction::RegulatorBar(5.0),
        BayAction::CoverPct(0.0),
        BayAction::Centre(CentreEnd::Cap),
    ] {
        let words = format!("{harmless:?}");
        assert!(here(Action::Bay(harmless), empty).is_empty(), "{words}");
    }
}

#[test]
fn the_situation_makes_an_act_dangerous() {
    let running = Situation { running: true, ..STANDING };
    assert_eq!(here(liquid(Vessel::Can), running), ["S20b"]);
    assert!(here(liquid(Vessel::Can), STANDING).is_empty(), "liquid into a stopped loop is the trade's way");
    assert!(here(liquid(Vessel::Recovery), running).is_empty());
    let can = Situation { centre: CentreEnd::Can, ..running };
    assert_eq!(here(Action::ManifoldHighPct(50.0), can), ["S24"]);
    assert!(here(Action::ManifoldHighPct(50.0), Situation { running: false, ..can }).is_empty());
    assert!(here(Action::ManifoldHighPct(50.0), running).is_empty(), "a capped hose fills, no more");
    let open = Situation { centre: CentreEnd::Nothing, ..STANDING };
    assert_eq!(here(Action::ManifoldLowPct(10.0), open), ["S1", "S2", "S7"]);
    let vacuum = Situation { vacuum: true, pressure: false, refrigerant_in: false, ..STANDING };
    assert_eq!(here(Action::Set(Change::EngineOn(true)), vacuum), ["S18", "S20"]);
    assert_eq!(here(Action::Bay(BayAction::RegulatorBar(3.0)), STANDING), ["S8"]);
}

#[test]
fn flammability_and_traction_voltage_follow_the_rig() {
    let van = Situation { refrigerant: "R-1234yf", electric: true, ..STANDING };
    let machine = || Action::Bay(BayAction::Centre(CentreEnd::RecoveryMachine));
    assert_eq!(here(machine(), van), ["S4", "S9", "S22"]);
    assert_eq!(here(machine(), STANDING), ["S9", "S22"]);
    assert_eq!(here(Action::Bay(BayAction::Flame), STANDING), ["S3", "S11", "S4b"]);
    let dye = || Action::Bay(BayAction::DyeMl(5.0));
    assert_eq!((here(dye(), van), here(dye(), STANDING)), (vec!["S14", "S19"], vec!["S19"]));
    let compressor = || Action::Repair(RepairId::ReplaceCompressor);
    assert_eq!(here(compressor(), van)[0], "S13");
    assert!(!here(compressor(), STANDING).contains(&"S13"));
}
