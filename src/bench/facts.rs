//! What really came of the work in the bay, gathered for the work record and the debrief.

use super::action::Action;
use super::clock::TICK_S;
use super::electrical::guarding::{UnsafeAct, UnsafeKind};
use super::notebook::Notebook;
use super::now::Now;
use super::readout::subcooling_k;
use super::repairs::RepairDone;
use super::service::Service;
use crate::bay::chart::Performance;
use crate::bay::cylinder::FillLimit;
use crate::bay::facts::{Facts, NitrogenHold, RecoveryCylinder, Vacuum, Vented};
use crate::bay::{BayAction, BayMistake, Ledger, StationStep, VesselValve};
use crate::instrument::{AirPlace, Probe, SearchPlace};
use crate::plant::{Released, Vessel};

/// Refrigerant that is worth a line among what got out [kg].
const TRACE_KG: f64 = 5e-5;
/// A rise after an evacuation counts once it was watched for so long [s].
const WATCHED_S: f64 = 60.0;

/// What the facts are gathered from.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// The moment.
    pub now: Now<'a>,
    /// Hoses and bay.
    pub service: &'a Service,
    /// Where every gram is.
    pub ledger: Ledger,
    /// Everything that was done.
    pub journal: &'a [(u64, Action)],
    /// Everything that was read.
    pub notebook: &'a Notebook,
    /// Repairs.
    pub repairs: &'a [RepairDone],
    /// Acts that were stopped.
    pub unsafe_acts: &'a [UnsafeAct],
}

impl Work<'_> {
    /// What came of the work so far; none without a bay.
    pub fn facts(&self) -> Option<Facts> {
        let bay = self.service.bay()?;
        let (now, plant, log) = (self.now.time_s(), self.now.plant, &bay.log);
        let spec = plant.spec();
        let (ledger, ambient_pa) = (&self.ledger, self.now.ambient_pa());
        let start = |vessel: Vessel| bay.setup.start_kg(vessel);
        let gone = |vessel: Vessel| start(vessel) - ledger.vessels_kg[vessel];
        let from_cans = log.cans_kg.0 - log.cans_kg.1;
        let recovered_kg = (-gone(Vessel::Recovery)).max(0.0);
        let repaired = self.repairs.iter().rev().find(|done| done.repair.info().deed.recharges());
        let mut leaks: Vec<String> = Vec::new();
        let places = self.service.leaked_at().iter().filter_map(|place| SearchPlace::of(*place));
        for place in places.map(|place| place.name().to_owned()) {
            if !leaks.contains(&place) {
                leaks.push(place);
            }
        }
        let (work_tick, filled_tick) = work_span(self.journal);
        let r = |pick: &dyn Fn(&Released) -> f64| plant.at(now, |s| pick(&s.released));
        let vented = [
            ("the leak", r(&|r| r.leaked_kg), false),
            ("hoses and joints opened under pressure", r(&|r| r.vented_kg), true),
            ("the vacuum pump", r(&|r| r.pumped_kg), true),
            ("a relief valve or coupler that let go", r(&|r| r.relieved_kg), true),
        ];
        let mut vented: Vec<Vented> = vented
            .into_iter()
            .filter(|(_, kg, _)| *kg > TRACE_KG)
            .map(|(how, kg, by_hand)| Vented { how: how.into(), kg, by_hand })
            .collect();
        vented.sort_by(|a, b| b.kg.total_cmp(&a.kg));
        let subcooling_k = subcooling_k(plant, now);
        Some(Facts {
            refrigerant: spec.refrigerant.clone(),
            label_charge_kg: spec.full_charge_kg,
            label_oil_kg: spec.oil.full_kg,
            receiver: spec.receiver.is_some(),
            ambient_pa,
            identified: bay.sample.is_some()
                && log.mistakes.iter().all(|(kind, _)| *kind != BayMistake::NotIdentified),
            charge_kg: ledger.loop_kg,
            hoses_kg: ledger.hoses_kg,
            oil_kg: ledger.oil_loop_kg,
            before: self.performance(0, work_tick.unwrap_or(u64::MAX)),
            after: filled_tick.map_or_else(Performance::default, |tick| self.performance(tick, u64::MAX)),
            subcooling_k: filled_tick.map(|_| subcooling_k),
            recovered_kg,
            recovered_oil_kg: ledger.oil_vessels_kg,
            drained_oil_kg: log.oil_taken_kg,
            left_in_kg: log.left_in_kg.unwrap_or(0.0),
            cylinder: (recovered_kg > 0.0).then(|| RecoveryCylinder {
                gross_kg: plant.vessel_gross_kg(Vessel::Recovery, now),
                limit: FillLimit::of_recovery(plant.refrigerant()),
            }),
            repair: repaired.map(|done| done.repair),
            leaks,
            nitrogen: log.nitrogen.map(|hold| NitrogenHold {
                start_pa: hold.start_pa - ambient_pa,
                start_t_k: hold.start_t_k,
                end_pa: hold.end_pa - ambient_pa,
                end_t_k: hold.end_t_k,
                held_s: hold.end_tick.saturating_sub(hold.start_tick) as f64 * TICK_S,
            }),
            vacuum: log.deepest_pa.map(|deepest_pa| Vacuum {
                deepest_pa,
                pumped_s: log.pumped_s,
                rise: log
                    .shut_off
                    .filter(|_| log.watched_s >= WATCHED_S)
                    .map(|(pa, _)| (log.risen_to_pa - pa, log.watched_s)),
            }),
            oil_added_kg: log.oil_added_kg + log.new_part_oil_kg,
            charged_kg: (gone(Vessel::Supply) + gone(Vessel::Charging) + gone(Vessel::Can) + from_cans)
                .max(0.0),
            weighed: self.weighed(),
            vented,
            battered: plant.at(now, |s| s.shell.battered),
            mistakes: log.mistakes.clone(),
            stopped: self
                .unsafe_acts
                .iter()
                .filter_map(|act| match act.kind {
                    UnsafeKind::Bay(danger) => Some((danger, act.tick)),
                    _ => None,
                })
                .collect(),
        })
    }

    /// The last readings of a running check between two ticks.
    fn performance(&self, from: u64, to: u64) -> Performance {
        let last = |probe: &Probe| self.notebook.last(probe, from..to).map(|r| (r.value, r.uncertainty));
        Performance {
            low_pa: last(&Probe::LowGauge),
            high_pa: last(&Probe::HighGauge),
            vent_k: last(&Probe::Air(AirPlace::Vent)),
        }
    }

    /// A scale was read, or the station weighed, while refrigerant went in.
    fn weighed(&self) -> bool {
        let station = self.journal.iter().any(|(_, action)| match action {
            Action::Bay(BayAction::Station(steps)) => {
                steps.iter().any(|step| matches!(step, StationStep::ChargeG(_)))
            }
            _ => false,
        });
        station || self.notebook.has_read(&Probe::ChargingScale)
    }
}

/// When the work on the loop began, and when it was last filled.
pub fn work_span(journal: &[(u64, Action)]) -> (Option<u64>, Option<u64>) {
    let begins = |action: &Action| match action {
        Action::Repair(id) => id.info().deed.recharges(),
        Action::Bay(act) => matches!(act, BayAction::Machine(true) | BayAction::Station(_)) || fills(act),
        _ => false,
    };
    let fill = |action: &Action| matches!(action, Action::Bay(act) if fills(act));
    let first = journal.iter().find(|(_, action)| begins(action)).map(|(tick, _)| *tick);
    let last = journal.iter().rev().find(|(_, action)| fill(action)).map(|(tick, _)| *tick);
    (first, last)
}

/// Does an act let refrigerant in?
fn fills(act: &BayAction) -> bool {
    match act {
        BayAction::Valve { vessel, valve } => *vessel != Vessel::Recovery && *valve != VesselValve::Shut,
        BayAction::Station(steps) => steps.iter().any(|step| matches!(step, StationStep::ChargeG(_))),
        _ => false,
    }
}
