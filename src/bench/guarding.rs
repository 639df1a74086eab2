//! What traction voltage and mains ask for before anybody's hands or leads come near: isolate, wait, prove dead.

use serde::{Deserialize, Serialize};

use super::{Action, Bench, Refusal};
use crate::bay::BayDanger;
use crate::circuit::{Guard, spec::Kind};
use crate::instrument::Probe;

/// A meter counts as tried on a known source for so long [s] (common practice, no source).
const METER_PROVEN_S: f64 = 600.0;
/// A plug is not made to break current: with more than this through it, it stays in [A] (common practice, no source).
const ARC_A: f64 = 1.0;

/// What is dangerous, what it does, and how to keep clear of it: the words of the cautions S13 and S17.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Danger {
    /// What is dangerous.
    pub hazard: &'static str,
    /// What it does to you.
    pub consequence: &'static str,
    /// What to do about it.
    pub avoidance: &'static str,
}

/// Traction voltage.
pub const TRACTION: Danger = Danger {
    hazard: "Traction voltage stands behind orange cables, and its capacitors hold it after the plug is out.",
    consequence: "It kills or burns at a touch.",
    avoidance: "Isolate, wait, prove dead with a proven meter. Gloves. Follow local codes and licensed practice.",
};
/// Mains.
pub const MAINS: Danger = Danger {
    hazard: "Mains stand in this panel, and capacitors may hold a charge after the switch is open.",
    consequence: "It stops hearts and burns.",
    avoidance: "Lock out, wait, prove dead with a proven meter. Follow local codes and licensed practice.",
};

/// The danger under a guard, if it is one.
pub fn danger(guard: Guard) -> Option<&'static Danger> {
    match guard {
        Guard::None => None,
        Guard::Traction => Some(&TRACTION),
        Guard::Mains => Some(&MAINS),
    }
}

fn guard_name(guard: Guard) -> &'static str {
    match guard {
        Guard::None => "extra-low voltage",
        Guard::Traction => "traction voltage",
        Guard::Mains => "mains",
    }
}

/// Why an action was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum UnsafeKind {
    /// Near a guarded point that was not isolated.
    NotIsolated(Guard),
    /// Isolated, but not proven dead.
    NotProven(Guard),
    /// Proven dead once, live again.
    LiveAgain(Guard),
    /// On the supply's own terminal, which no isolator makes dead.
    Terminal(Guard),
    /// Pulling a plug under load: an arc.
    UnderLoad(Guard),
    /// Closing the isolator with tools still on guarded points.
    ToolsLeftOn(Guard),
    /// Something deadly in the service bay.
    Bay(BayDanger),
}

impl UnsafeKind {
    /// Whose danger it was.
    pub fn guard(self) -> Guard {
        match self {
            Self::NotIsolated(g)
            | Self::NotProven(g)
            | Self::LiveAgain(g)
            | Self::Terminal(g)
            | Self::UnderLoad(g)
            | Self::ToolsLeftOn(g) => g,
            Self::Bay(_) => Guard::None,
        }
    }
    /// Number of its caution in the table of cautions.
    pub fn caution_id(self) -> &'static str {
        match (self, self.guard()) {
            (Self::Bay(danger), _) => danger.caution().id,
            (_, Guard::Mains) => "S17",
            _ => "S13",
        }
    }
    /// Hazard, consequence and avoidance in one line.
    pub fn caution_words(self) -> Option<String> {
        if let Self::Bay(danger) = self {
            let d = danger.caution();
            return Some(format!("{} {} {}", d.hazard, d.consequence, d.avoidance));
        }
        danger(self.guard()).map(|d| format!("{} {} {}", d.hazard, d.consequence, d.avoidance))
    }
    /// In words.
    pub fn words(self) -> String {
        let name = guard_name(self.guard());
        match self {
            Self::NotIsolated(_) => format!("{name} was not isolated"),
            Self::NotProven(_) => format!("{name} was isolated but not proven dead"),
            Self::LiveAgain(_) => format!("{name} was live again after it had been proven dead"),
            Self::Terminal(_) => format!("this is the supply side of {name}: no isolator makes it dead"),
            Self::UnderLoad(_) => {
                format!("the plug of {name} was to be pulled under load: it would draw an arc")
            }
            Self::Bay(danger) => danger.words().into(),
            Self::ToolsLeftOn(_) => format!("{name} was to be switched on with a tool still on it"),
        }
    }
}

/// An act that was stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct UnsafeAct {
    /// Why.
    pub kind: UnsafeKind,
    /// When.
    pub tick: u64,
}

/// What the last proving showed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Proof {
    /// Of what.
    pub guard: Guard,
    /// Highest volts found between any two points, or a point and ground [V].
    pub volts: f64,
    /// They are low enough to touch.
    pub dead: bool,
    /// When.
    pub tick: u64,
}

impl Bench {
    /// Parts that isolate a guard.
    pub(super) fn isolators(&self, guard: Guard) -> impl Iterator<Item = &str> {
        let circuit = &self.circuit;
        let isolates = move |p: &&crate::circuit::spec::Part| {
            matches!(p.kind, Kind::Isolator { .. })
                && (circuit.guarded(&p.from) == guard || circuit.guarded(&p.to) == guard)
        };
        circuit.parts().iter().filter(isolates).map(|p| p.id.as_str())
    }

    /// Points that an action brings hands or leads to.
    fn touched(&self, action: &Action) -> Vec<String> {
        let of_parts = |wanted: &dyn Fn(&crate::circuit::spec::Part) -> bool| {
            let parts = self.circuit.parts().iter().filter(|p| wanted(p));
            parts.flat_map(|p| [p.from.clone(), p.to.clone()]).collect::<Vec<_>>()
        };
        match action {
            Action::Place(Probe::Volts(point)) => vec![point.clone()],
            Action::Place(Probe::Meter { red: a, black: b, .. } | Probe::Lamp { tip: a, clip: b })
            | Action::JumperBetween(Some((a, b))) => vec![a.clone(), b.clone()],
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
        let e = &self.electrics;
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
    fn tools_on(&self, guard: Guard) -> bool {
        let on = |points: Vec<String>| points.iter().any(|p| self.circuit.guarded(p) == guard);
        self.rack.placed().any(|probe| on(self.touched(&Action::Place(probe))))
            || on(self.touched(&Action::JumperBetween(self.electrics.jumper_between.clone())))
    }

    /// What makes an action unsafe.
    pub(super) fn unsafe_kind(&self, action: &Action) -> Option<UnsafeKind> {
        if let Some(danger) = self.bay_danger(action) {
            return Some(UnsafeKind::Bay(danger));
        }
        match action {
            Action::Isolate(guard, true) => {
                let carries = |id| self.circuit.current(id).is_some_and(|a| a.abs() > ARC_A);
                let arcs = *guard == Guard::Traction && self.isolators(*guard).any(carries);
                arcs.then_some(UnsafeKind::UnderLoad(*guard))
            }
            Action::Isolate(guard, false) => self.tools_on(*guard).then_some(UnsafeKind::ToolsLeftOn(*guard)),
            _ => self.touched(action).iter().find_map(|point| self.unsafe_at(point)),
        }
    }

    /// The meter was tried on a known source a short while ago.
    pub(super) fn meter_is_proven(&self) -> bool {
        let since = |tick: u64| self.tick.saturating_sub(tick) as f64 * super::TICK_S;
        self.electrics.meter_proven_tick.is_some_and(|tick| since(tick) <= METER_PROVEN_S)
    }

    /// Whether proving dead may begin.
    pub(super) fn may_prove(&self, guard: Guard) -> Result<(), Refusal> {
        if !self.electrics.isolated.contains(&guard) {
            return Err(Refusal::NotNow(format!("isolate {} first", guard_name(guard))));
        }
        if !self.meter_is_proven() {
            return Err(Refusal::NotNow(
                "try the meter on a known source first: a dead meter shows zero everywhere".into(),
            ));
        }
        Ok(())
    }

    /// Measure whether everything behind the isolator is dead.
    pub(super) fn prove(&mut self, guard: Guard) {
        let dead = self.circuit.is_dead(guard);
        let e = &mut self.electrics;
        e.proven_dead.retain(|g| *g != guard);
        if dead {
            e.proven_dead.push(guard);
        }
        e.proof = Some(Proof { guard, volts: self.circuit.most_volts(guard), dead, tick: self.tick });
    }
}
