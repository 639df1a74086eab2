//! Which cautions stand at which action.

use super::{
    Caution, S1, S2, S3, S4B, S5, S6, S7, S8, S9, S10, S11, S12, S13, S14, S15, S15B, S16, S16B, S17, S18,
    S19, S20, S20B, S21, S22, S23, S24, S25, class, is_blend,
};
use crate::bay::{BayAction, CentreEnd, OilKind, StationStep, VesselValve};
use crate::bench::{Action, Relay};
use crate::circuit::Guard;
use crate::fault::{Deed, RepairId};
use crate::instrument::{PipePlace, Probe};
use crate::perceive::Sense;
use crate::plant::Vessel;

/// Nitrogen pressure from which a turn at the regulator is worth its caution again [bar gauge]: about what low sides
/// are tested at (from memory).
const TEST_BAR: f64 = 10.0;

/// How things stand when an action is asked for; what makes one act harmless and the same act dangerous a minute later.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Situation<'a> {
    /// Refrigerant of the rig, such as `R-134a`.
    pub refrigerant: &'a str,
    /// The compressor stands under traction voltage.
    pub electric: bool,
    /// The compressor turns.
    pub running: bool,
    /// Loop, hoses or what hangs on them hold more pressure than the air outside.
    pub pressure: bool,
    /// There is refrigerant in loop or hoses, more than traces.
    pub refrigerant_in: bool,
    /// The loop is under vacuum.
    pub vacuum: bool,
    /// A sample has been to the identifier.
    pub identified: bool,
    /// What the centre hose ends in.
    pub centre: CentreEnd,
    /// What hangs on the centre hose gives liquid.
    pub liquid: bool,
}

/// The cautions of an action, whatever the situation. [`before_here`] leaves out what does not apply and adds what only
/// the situation makes dangerous.
pub fn before(action: &Action) -> &'static [&'static Caution] {
    match action {
        Action::EngineOn(true) => &[&S18],
        Action::Hoses(_) => &[&S1, &S12],
        Action::Jumper(Some(Relay::Clutch)) => &[&S25, &S15],
        Action::Jumper(Some(Relay::Fan)) => &[&S15],
        // Any two points may be those of a relay: a fan or the clutch may start.
        Action::JumperBetween(Some(_)) => &[&S15, &S25],
        Action::Isolate(Guard::Traction, _) | Action::ProveDead(Guard::Traction) => &[&S13],
        Action::Isolate(Guard::Mains, _) | Action::ProveDead(Guard::Mains) => &[&S17],
        Action::Place(Probe::Pipe(PipePlace::CompressorOutlet)) => &[&S16],
        Action::Read(Probe::Sense(Sense::Touch(place))) if place.usually_hot() => &[&S16B],
        Action::Repair(id) if opens(*id) => &[&S12, &S1, &S19],
        Action::Bay(act) => before_bay(act),
        _ => &[],
    }
}

/// Does it open the loop?
fn opens(id: RepairId) -> bool {
    matches!(id.info().deed, Deed::LoopPart | Deed::Compressor)
}

fn before_bay(act: &BayAction) -> &'static [&'static Caution] {
    match act {
        BayAction::Fit { .. } => &[&S1, &S12],
        BayAction::Identify | BayAction::FreshCan => &[&S1],
        BayAction::Loosen(true) => &[&S1, &S12, &S7],
        BayAction::Centre(end) => match end {
            CentreEnd::Nothing => &[&S2, &S7],
            CentreEnd::RecoveryMachine => &[&S22, &S9],
            CentreEnd::Can => &[&S24],
            CentreEnd::Nitrogen => &[&S6, &S8],
            CentreEnd::CompressedAir => &[&S5, &S23],
            CentreEnd::Oxygen => &[&S6],
            CentreEnd::Cap | CentreEnd::VacuumPump | CentreEnd::Supply | CentreEnd::Charging => &[],
        },
        BayAction::Machine(true) => &[&S10],
        BayAction::Valve { vessel, valve: VesselValve::Liquid } if *vessel != Vessel::Recovery => &[&S20B],
        BayAction::Warm(true) => &[&S11],
        BayAction::Flame => &[&S3, &S11],
        BayAction::RegulatorBar(bar) if *bar > TEST_BAR => &[&S6],
        BayAction::Oil { kind: OilKind::Other, .. } => &[&S14, &S19],
        BayAction::Oil { .. } | BayAction::NewPartOilMl(_) | BayAction::DyeMl(_) => &[&S19],
        BayAction::Spray(true) => &[&S15B],
        BayAction::CoverPct(pct) if *pct > 0.0 => &[&S15B],
        BayAction::Station(steps) if steps.contains(&StationStep::Recover) => &[&S10, &S22, &S9],
        BayAction::Station(_) => &[&S9],
        _ => &[],
    }
}

/// The cautions of an action as things stand, worst first, each once.
pub fn before_here(action: &Action, now: &Situation) -> Vec<&'static Caution> {
    let mut found: Vec<&'static Caution> =
        before(action).iter().copied().filter(|caution| applies(caution, action, now)).collect();
    found.extend(made_by(action, now));
    let burns = class(now.refrigerant).map(|(caution, _)| caution);
    if sets_free(&found, action, now) {
        // That a refrigerant does not burn is worth a line only where there is a flame.
        let flame = matches!(action, Action::Bay(BayAction::Flame));
        found.extend(burns.filter(|caution| flame || **caution != S4B));
    }
    found.sort_by_key(|caution| (core::cmp::Reverse(caution.signal), number(caution)));
    found.dedup();
    found
}

fn number(caution: &Caution) -> usize {
    super::ALL.iter().position(|c| *c == caution).unwrap_or(super::ALL.len())
}

/// Does a caution of the action mean anything as things stand?
fn applies(caution: &Caution, action: &Action, now: &Situation) -> bool {
    match caution.id {
        // Taking a hose off an empty loop, or the cap off an empty hose, spits nothing.
        "S1" | "S12" => now.pressure || matches!(action, Action::Bay(BayAction::FreshCan)),
        "S2" | "S7" | "S8" => now.refrigerant_in,
        "S14" => now.electric,
        "S20b" => now.running,
        "S22" => !now.identified,
        _ => true,
    }
}

/// What only the situation makes dangerous.
fn made_by(action: &Action, now: &Situation) -> &'static [&'static Caution] {
    let vents = now.refrigerant_in && now.pressure;
    match action {
        Action::EngineOn(true) | Action::AcRequest(true) | Action::Jumper(Some(Relay::Clutch))
            if now.vacuum =>
        {
            &[&S20]
        }
        Action::ManifoldLowPct(v) | Action::ManifoldHighPct(v)
            if *v > 0.0 && now.centre == CentreEnd::Nothing && vents =>
        {
            &[&S1, &S2, &S7]
        }
        Action::ManifoldHighPct(v) if *v > 0.0 && now.running && holds(now.centre) => &[&S24],
        Action::ManifoldLowPct(v) if *v > 0.0 && now.running && now.liquid => &[&S20B],
        Action::Repair(id) if now.electric && *id == RepairId::ReplaceCompressor => {
            if vents {
                &[&S13, &S2, &S7]
            } else {
                &[&S13]
            }
        }
        Action::Repair(id) if opens(*id) && vents => &[&S2, &S7],
        Action::Bay(act) => match act {
            BayAction::Loosen(true) | BayAction::Fit { .. } if vents => &[&S2],
            BayAction::Pump(true) if vents && now.centre == CentreEnd::VacuumPump => &[&S2, &S7],
            BayAction::RegulatorBar(bar) if *bar > 0.0 && now.refrigerant_in => &[&S8],
            BayAction::Oil { .. } | BayAction::DyeMl(_) if now.electric => &[&S14],
            BayAction::Valve { valve: VesselValve::Gas, .. } if is_blend(now.refrigerant) => &[&S21],
            _ => &[],
        },
        _ => &[],
    }
}

/// Something closed that can burst.
fn holds(end: CentreEnd) -> bool {
    end.vessel().is_some() || end == CentreEnd::RecoveryMachine
}

/// Does refrigerant get out, or near a machine that could light it?
fn sets_free(found: &[&'static Caution], action: &Action, now: &Situation) -> bool {
    let machine = matches!(
        action,
        Action::Bay(
            BayAction::Centre(CentreEnd::RecoveryMachine | CentreEnd::VacuumPump)
                | BayAction::Flame
                | BayAction::Station(_)
        )
    );
    machine || now.refrigerant_in && found.iter().any(|c| **c == S7)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bay::Hose;
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
        assert_eq!(ids(Action::EngineOn(true)), ["S18"]);
        assert!(ids(Action::EngineOn(false)).is_empty());
        assert_eq!(ids(Action::Hoses(true)), ["S1", "S12"]);
        assert_eq!(ids(Action::Jumper(Some(Relay::Fan))), ["S15"]);
        assert_eq!(ids(Action::Jumper(Some(Relay::Clutch))), ["S25", "S15"]);
    }

    #[test]
    fn every_caution_stands_at_some_action() {
        let bay = |act| Action::Bay(act);
        let all = [
            Action::EngineOn(true),
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
                let now =
                    Situation { refrigerant, electric, running, vacuum, centre, liquid: true, ..STANDING };
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
        assert!(
            here(liquid(Vessel::Can), STANDING).is_empty(),
            "liquid into a stopped loop is the trade's way"
        );
        assert!(here(liquid(Vessel::Recovery), running).is_empty());
        let can = Situation { centre: CentreEnd::Can, ..running };
        assert_eq!(here(Action::ManifoldHighPct(50.0), can), ["S24"]);
        assert!(here(Action::ManifoldHighPct(50.0), Situation { running: false, ..can }).is_empty());
        assert!(here(Action::ManifoldHighPct(50.0), running).is_empty(), "a capped hose fills, no more");
        let open = Situation { centre: CentreEnd::Nothing, ..STANDING };
        assert_eq!(here(Action::ManifoldLowPct(10.0), open), ["S1", "S2", "S7"]);
        let vacuum = Situation { vacuum: true, pressure: false, refrigerant_in: false, ..STANDING };
        assert_eq!(here(Action::EngineOn(true), vacuum), ["S18", "S20"]);
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
}
