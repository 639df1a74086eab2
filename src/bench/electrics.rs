//! Everything a hand does to the circuit: jumper lead, plugs, relays, fuses, isolators, reader; and the mistakes made.

use serde::{Deserialize, Serialize};

use super::circuit_inputs::{JUMPER, lead};
use super::guarding::{Proof, UnsafeAct};
use super::{Action, Bench, Refusal};
use crate::circuit::{Guard, Load, spec::Kind};
use crate::instrument::Probe;
use crate::scenario::Tool;

/// Something done wrongly that hurts no one but the reading or a fuse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MistakeKind {
    /// Resistance measured in a live circuit.
    LiveOhms,
    /// The fuse of the meter's ampere socket has blown.
    MeterFuse,
    /// The fuse of the jumper lead has blown.
    JumperFuse,
    /// The relative key took a part's resistance as zero.
    RelativeOnPart,
    /// The clamp was zeroed with current in its jaws.
    ClampZeroedLive,
    /// A new fuse blew again: the short was still there.
    FuseBlewAgain,
}

impl MistakeKind {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::LiveOhms => "resistance measured in a live circuit: what the meter showed was not ohms",
            Self::MeterFuse => {
                "too much current through the meter on amperes: its fuse blew. Amperes are measured in series"
            }
            Self::JumperFuse => "too much current through the jumper lead: its fuse blew",
            Self::RelativeOnPart => {
                "the relative key was pressed on a part: its resistance counted as zero. Touch the tips together first"
            }
            Self::ClampZeroedLive => {
                "the clamp was zeroed round a wire with current in it: that current was taken off"
            }
            Self::FuseBlewAgain => "a new fuse blew again: find the short before the next one",
        }
    }
}

/// A mistake.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mistake {
    /// Which.
    pub kind: MistakeKind,
    /// When.
    pub tick: u64,
}

/// What hands have done to the circuit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Electrics {
    /// Points that the jumper lead joins.
    pub jumper_between: Option<(String, String)>,
    /// Connectors unplugged.
    pub unplugged: Vec<String>,
    /// Relays that have changed sockets.
    pub swapped: Vec<(String, String)>,
    /// Guards whose isolators are open and locked.
    pub isolated: Vec<Guard>,
    /// Guards proven dead since.
    pub proven_dead: Vec<Guard>,
    /// When the meter was last tried on a known source.
    pub meter_proven_tick: Option<u64>,
    /// The last proving.
    pub proof: Option<Proof>,
    /// The reader is plugged in.
    pub reader: bool,
    /// Fuses put in by hand; they are watched.
    pub renewed: Vec<String>,
    /// Mistakes made.
    pub mistakes: Vec<Mistake>,
    /// Acts that were stopped.
    pub unsafe_acts: Vec<UnsafeAct>,
}

impl Electrics {
    /// Nothing was done: left out of the state hash then.
    pub(super) fn is_untouched(&self) -> bool {
        *self == Self::default()
    }
}

fn no(why: impl Into<String>) -> Result<(), Refusal> {
    Err(Refusal::NotNow(why.into()))
}

impl Bench {
    /// Is an action on the circuit possible at all?
    pub(super) fn check_electrics(
        &self,
        action: &Action,
        needs: &dyn Fn(Tool) -> Result<(), Refusal>,
    ) -> Result<(), Refusal> {
        let c = &self.circuit;
        match action {
            Action::JumperBetween(Some((a, b))) => {
                needs(Tool::Jumper)?;
                self.point(a)?;
                self.point(b)?;
                if a == b { no("the jumper lead needs two points") } else { Ok(()) }
            }
            Action::MeterRange(_) | Action::ProveMeter => needs(Tool::Meter),
            Action::MeterRelative(on) => {
                needs(Tool::Meter)?;
                let held =
                    self.rack.electrical.leads.as_ref().and_then(crate::instrument::meter::Leads::held);
                match held {
                    _ if !on => Ok(()),
                    Some(v) if !crate::instrument::meter::is_over(v) => Ok(()),
                    _ => no("the meter shows nothing that could count as zero"),
                }
            }
            Action::ClampZero => needs(Tool::ClampAmmeter),
            Action::Reader(_) => needs(Tool::Reader),
            Action::ClearCodes => {
                needs(Tool::Reader)?;
                if self.electrics.reader { Ok(()) } else { no("plug the reader in first") }
            }
            Action::Unplug(plug, _) => {
                let named = |p: &crate::circuit::spec::Part| !plug.is_empty() && p.connector == *plug;
                let isolates =
                    |p: &crate::circuit::spec::Part| named(p) && matches!(p.kind, Kind::Isolator { .. });
                if !c.parts().iter().any(named) {
                    no(format!("there is no connector {plug}"))
                } else if c.parts().iter().any(isolates) {
                    no(format!("{plug} isolates: open it by isolating"))
                } else {
                    Ok(())
                }
            }
            Action::SwapRelays(a, b) => self.check_swap(a, b),
            Action::RenewFuse(part) => {
                let fuse =
                    |p: &crate::circuit::spec::Part| p.id == *part && matches!(p.kind, Kind::Fuse { .. });
                if matches!(part.as_str(), "meter" | "jumper") || c.parts().iter().any(fuse) {
                    Ok(())
                } else {
                    no(format!("there is no fuse {part}"))
                }
            }
            Action::Isolate(guard, _) => match self.isolators(*guard).next() {
                Some(_) => Ok(()),
                None => no("there is nothing of that kind to isolate on this rig"),
            },
            Action::ProveDead(guard) => {
                needs(Tool::Meter)?;
                self.may_prove(*guard)
            }
            _ => Ok(()),
        }
    }

    /// A name that leads can touch.
    pub(super) fn point(&self, point: &str) -> Result<(), Refusal> {
        if point == "ground" || self.circuit.volts(point).is_some() {
            Ok(())
        } else {
            no(format!("there is no circuit point {point}"))
        }
    }

    /// Two relays fit each other's sockets when coil and contacts are alike.
    fn check_swap(&self, a: &str, b: &str) -> Result<(), Refusal> {
        let kind = |name: &str| {
            let mut coil = None;
            let mut contacts = Vec::new();
            for part in self.circuit.parts() {
                match &part.kind {
                    Kind::Coil { relay, ohm, .. } if relay == name => coil = Some(ohm.to_bits()),
                    Kind::Contact { relay, normally_closed, .. } if relay == name => {
                        contacts.push(*normally_closed);
                    }
                    _ => {}
                }
            }
            coil.map(|coil| (coil, contacts))
        };
        match (kind(a), kind(b)) {
            (None, _) => no(format!("there is no relay {a}")),
            (_, None) => no(format!("there is no relay {b}")),
            _ if a == b => no("it takes two relays"),
            (x, y) if x != y => no(format!("{a} and {b} are of different kinds")),
            _ => Ok(()),
        }
    }

    /// Do something to the circuit.
    pub(super) fn carry_out_electrics(&mut self, action: &Action) {
        let (tick, seed) = (self.tick, self.seed);
        let e = &mut self.electrics;
        match action {
            Action::JumperBetween(points) => {
                e.jumper_between.clone_from(points);
                self.jumper = None;
            }
            Action::Remove(probe) => self.rack.remove(probe),
            Action::MeterRange(range) => self.rack.electrical.keys.range = *range,
            Action::MeterRelative(on) => {
                self.rack.electrical.relative(*on);
                // Leads have three tenths of an ohm at most; anything more was a part.
                if *on && self.rack.electrical.relative_ohm().is_some_and(|ohm| ohm > 0.5) {
                    self.mistake(MistakeKind::RelativeOnPart);
                }
            }
            Action::ClampZero => {
                self.rack.electrical.clamp.zero(seed, tick);
                if self.rack.electrical.clamp.amps().abs() > 0.1 {
                    self.mistake(MistakeKind::ClampZeroedLive);
                }
            }
            Action::Reader(on) => e.reader = *on,
            Action::ClearCodes => self.circuit.clear_codes(),
            Action::Unplug(plug, out) => {
                e.unplugged.retain(|p| p != plug);
                if *out {
                    e.unplugged.push(plug.clone());
                }
                self.circuit_inputs.unplugged.clone_from(&e.unplugged);
            }
            Action::SwapRelays(a, b) => {
                let same = |(x, y): &(String, String)| (x == a && y == b) || (x == b && y == a);
                match e.swapped.iter().rposition(same) {
                    // Only the last swap can be undone without the others in between.
                    Some(n) if n + 1 == e.swapped.len() => drop(e.swapped.pop()),
                    _ => e.swapped.push((a.clone(), b.clone())),
                }
                self.circuit_inputs.swapped.clone_from(&e.swapped);
            }
            Action::RenewFuse(part) => match part.as_str() {
                "meter" => self.rack.electrical.keys.fuse_blown = false,
                // The lead comes off for it; what hangs on next has a new fuse.
                "jumper" => {
                    e.jumper_between = None;
                    self.jumper = None;
                }
                _ => {
                    self.circuit.renew_fuse(part);
                    e.renewed.retain(|p| p != part);
                    e.renewed.push(part.clone());
                }
            },
            Action::Isolate(guard, open) => {
                let ids: Vec<String> = self.isolators(*guard).map(str::to_owned).collect();
                let e = &mut self.electrics;
                e.isolated.retain(|g| g != guard);
                e.proven_dead.retain(|g| g != guard);
                self.circuit_inputs.isolated.retain(|id| !ids.contains(id));
                if *open {
                    e.isolated.push(*guard);
                    self.circuit_inputs.isolated.extend(ids);
                }
            }
            Action::ProveMeter => e.meter_proven_tick = Some(tick),
            Action::ProveDead(guard) => self.prove(*guard),
            Action::Stopped(stopped) => {
                if let Some(kind) = self.unsafe_kind(stopped) {
                    self.electrics.unsafe_acts.push(UnsafeAct { kind, tick });
                }
            }
            _ => {}
        }
    }

    /// Write a mistake down, once for each tick.
    pub(super) fn mistake(&mut self, kind: MistakeKind) {
        let mistake = Mistake { kind, tick: self.tick };
        if self.electrics.mistakes.last() != Some(&mistake) {
            self.electrics.mistakes.push(mistake);
        }
    }

    /// Volts between the meter's leads while its dial stands on ohms.
    pub(super) fn watch_ohms(&mut self, probe: &Probe) {
        if matches!(probe, Probe::Meter { .. }) && self.rack.electrical.live_ohms(&self.circuit) {
            self.mistake(MistakeKind::LiveOhms);
        }
    }

    /// Hang the tools on the circuit: jumper lead, meter, lamp, in this order.
    pub(super) fn hang_tools(&mut self) {
        let between = self.electrics.jumper_between.as_ref();
        let between =
            between.map(|(a, b)| Load { a: a.clone(), b: b.clone(), ohm: JUMPER.0, fuse_a: JUMPER.1 });
        let tools = &self.rack.electrical;
        let loads = self.jumper.map(lead).or(between).into_iter();
        let loads: Vec<Load> = loads.chain(tools.meter_load()).chain(tools.lamp_load()).collect();
        if self.circuit_inputs.loads != loads {
            self.circuit_inputs.loads = loads;
        }
    }

    /// See which fuses have blown in this tick.
    pub(super) fn watch_fuses(&mut self) {
        let lead = self.jumper.is_some() || self.electrics.jumper_between.is_some();
        if lead && self.circuit.load_blown(0) && !self.jumper_blown {
            self.mistake(MistakeKind::JumperFuse);
        }
        self.jumper_blown = lead && self.circuit.load_blown(0);
        if self.rack.electrical.meter_load().is_some_and(|l| l.fuse_a.is_finite())
            && self.circuit.load_blown(usize::from(lead))
        {
            self.rack.electrical.keys.fuse_blown = true;
            self.mistake(MistakeKind::MeterFuse);
        }
        if !self.electrics.renewed.is_empty() {
            let circuit = &self.circuit;
            let before = self.electrics.renewed.len();
            self.electrics.renewed.retain(|part| !circuit.fuse_blown(part));
            if self.electrics.renewed.len() < before {
                self.mistake(MistakeKind::FuseBlewAgain);
            }
        }
    }
}
