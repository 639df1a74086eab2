//! Which cautions stand at which action.

use super::situation::Situation;
use super::{
    Caution, S1, S2, S3, S4B, S5, S6, S7, S8, S9, S10, S11, S12, S13, S14, S15, S15B, S16, S16B, S17, S18,
    S19, S20, S20B, S21, S22, S23, S24, S25, class, is_blend,
};
use crate::bay::{BayAction, CentreEnd, OilKind, StationStep, VesselValve};
use crate::bench::{Action, Relay};
use crate::circuit::Guard;
use crate::fault::{Deed, RepairId};
use crate::instrument::{PipePlace, Probe};
use crate::knobs::Change;
use crate::perceive::Sense;
use crate::plant::Vessel;

/// Nitrogen pressure from which a turn at the regulator is worth its caution again [bar gauge]: about what low sides
/// are tested at (from memory).
const TEST_BAR: f64 = 10.0;

/// The cautions of an action, whatever the situation. [`before_here`] leaves out what does not apply and adds what only
/// the situation makes dangerous.
pub fn before(action: &Action) -> &'static [&'static Caution] {
    match action {
        Action::Set(Change::EngineOn(true)) => &[&S18],
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
        Action::Set(Change::EngineOn(true))
        | Action::Set(Change::AcRequest(true))
        | Action::Jumper(Some(Relay::Clutch))
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
#[path = "at_tests.rs"]
mod tests;
