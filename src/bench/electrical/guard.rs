//! The guard of traction voltage and mains at work: what an act touches, whether that is safe, and how it is proved dead.

use super::guarding::{Proof, UnsafeAct, UnsafeKind, guard_name};
use super::side::ElectricalSide;
use crate::bench::action::Action;
use crate::bench::clock::TICK_S;
use crate::bench::refusal::{Refusal, no};
use crate::circuit::Guard;
use crate::circuit::spec::{Kind, Part};
use crate::instrument::{InstrumentRack, Need};

/// A meter counts as tried on a known source for so long [s] (common practice, no source).
const METER_PROVEN_S: f64 = 600.0;
/// A plug is not made to break current: with more than this through it, it stays in [A] (common practice, no source).
const ARC_A: f64 = 1.0;

impl ElectricalSide {
    /// Parts that isolate a guard.
    pub(super) fn isolators(&self, guard: Guard) -> impl Iterator<Item = &str> {
        let circuit = &self.circuit;
        let isolates = move |p: &&Part| {
            matches!(p.kind, Kind::Isolator { .. })
                && (circuit.guarded(&p.from) == guard || circuit.guarded(&p.to) == guard)
        };
        circuit.parts().iter().filter(isolates).map(|p| p.id.as_str())
    }

    /// Points that an action brings hands or leads to.
    fn touched(&self, action: &Action) -> Vec<String> {
        let of_parts = |wanted: &dyn Fn(&Part) -> bool| {
            let parts = self.circuit.parts().iter().filter(|p| wanted(p));
            parts.flat_map(|p| [p.from.clone(), p.to.clone()]).collect::<Vec<_>>()
        };
        match action {
            Action::Place(probe) => probe.needs().into_iter().filter_map(Need::point).collect(),
            Action::JumperBetween(Some((a, b))) => vec![a.clone(), b.clone()],
            Action::Unplug(plug, _) => of_parts(&|p| !plug.is_empty() && p.connector == *plug),
            Action::RenewFuse(part) => of_parts(&|p| p.id == *part),
            // A repair on guarded voltage puts hands into all of it.
            Action::Repair(id) if id.info().is_live() => {
                let points = self.circuit.points().iter().map(|p| p.id.clone());
                points
                    .filter(|p| self.circuit.guarded(p) != Guard::None && !self.circuit.is_terminal(p))
                    .collect()
            }
            Action::SwapRelays(a, b) => of_parts(
                &|p| matches!(&p.kind, Kind::Coil { relay, .. } | Kind::Contact { relay, .. } if relay == a || relay == b),
            ),
            _ => Vec::new(),
        }
    }

    /// Why it is not safe to touch this point; none when it is.
    fn unsafe_at(&self, point: &str) -> Option<UnsafeKind> {
        let guard = self.circuit.guarded(point);
        if guard == Guard::None {
            return None;
        }
        let e = &self.done;
        if !e.isolated.contains(&guard) {
            Some(UnsafeKind::NotIsolated(guard))
        } else if self.circuit.is_terminal(point) {
            Some(UnsafeKind::Terminal(guard))
        } else if !e.proven_dead.contains(&guard) {
            Some(UnsafeKind::NotProven(guard))
        } else if !self.circuit.is_dead(guard) {
            Some(UnsafeKind::LiveAgain(guard))
        } else {
            None
        }
    }

    /// Tools that sit on points under a guard.
    fn tools_on(&self, guard: Guard, rack: &InstrumentRack) -> bool {
        let on = |points: Vec<String>| points.iter().any(|p| self.circuit.guarded(p) == guard);
        let between = self.done.jumper_between.iter().flat_map(|(a, b)| [a.clone(), b.clone()]).collect();
        rack.placed().any(|probe| on(probe.needs().into_iter().filter_map(Need::point).collect()))
            || on(between)
    }

    /// What makes an action unsafe, with the tools as they sit.
    pub fn unsafe_kind(&self, action: &Action, rack: &InstrumentRack) -> Option<UnsafeKind> {
        match action {
            Action::Isolate(guard, true) => {
                let carries = |id| self.circuit.current(id).is_some_and(|a| a.abs() > ARC_A);
                let arcs = *guard == Guard::Traction && self.isolators(*guard).any(carries);
                arcs.then_some(UnsafeKind::UnderLoad(*guard))
            }
            Action::Isolate(guard, false) => {
                self.tools_on(*guard, rack).then_some(UnsafeKind::ToolsLeftOn(*guard))
            }
            _ => self.touched(action).iter().find_map(|point| self.unsafe_at(point)),
        }
    }

    /// Write down an act that was stopped.
    pub fn stopped(&mut self, kind: UnsafeKind, tick: u64) {
        self.done.unsafe_acts.push(UnsafeAct { kind, tick });
    }

    /// The meter was tried on a known source a short while ago.
    pub(super) fn meter_is_proven(&self, now_tick: u64) -> bool {
        let since_s = |tick: u64| now_tick.saturating_sub(tick) as f64 * TICK_S;
        self.done.meter_proven_tick.is_some_and(|tick| since_s(tick) <= METER_PROVEN_S)
    }

    /// Whether proving dead may begin.
    pub(super) fn may_prove(&self, guard: Guard, tick: u64) -> Result<(), Refusal> {
        if !self.done.isolated.contains(&guard) {
            return no(format!("isolate {} first", guard_name(guard)));
        }
        if !self.meter_is_proven(tick) {
            return no("try the meter on a known source first: a dead meter shows zero everywhere");
        }
        Ok(())
    }

    /// Measure whether everything behind the isolator is dead.
    pub(super) fn prove(&mut self, guard: Guard, tick: u64) {
        let dead = self.circuit.is_dead(guard);
        let e = &mut self.done;
        e.proven_dead.retain(|g| *g != guard);
        if dead {
            e.proven_dead.push(guard);
        }
        e.proof = Some(Proof { guard, volts: self.circuit.most_volts(guard), dead, tick });
    }
}
