//! What hands do to the circuit, and what comes of it: the jumper, plugs, relays, fuses, isolators, keys of the tools.

use super::check::{JUMPER_FUSE, METER_FUSE};
use super::done::MistakeKind;
use super::side::ElectricalSide;
use crate::bench::action::{Action, Relay};
use crate::circuit::{Guard, Load, point};
use crate::instrument::{Electrical, Probe, jumper};

/// Ohms of a pair of test leads at most; anything more that the relative key took off was a part [ohm].
const LEADS_OHM: f64 = 0.5;
/// Current in the jaws from which zeroing the clamp was a mistake [A].
const JAWS_A: f64 = 0.1;

impl ElectricalSide {
    /// Do it.
    pub fn carry_out(&mut self, action: &Action, tools: &mut Electrical, seed: u64, tick: u64) {
        let e = &mut self.done;
        match action {
            Action::Jumper(relay) => {
                self.jumper = *relay;
                e.jumper_between = None;
            }
            Action::JumperBetween(points) => {
                e.jumper_between.clone_from(points);
                self.jumper = None;
            }
            Action::MeterRange(range) => tools.keys.range = *range,
            Action::MeterRelative(on) => {
                tools.relative(*on);
                if *on && tools.relative_ohm().is_some_and(|ohm| ohm > LEADS_OHM) {
                    e.mistake(MistakeKind::RelativeOnPart, tick);
                }
            }
            Action::ClampZero => {
                tools.clamp.zero(seed, tick);
                if tools.clamp.amps().abs() > JAWS_A {
                    e.mistake(MistakeKind::ClampZeroedLive, tick);
                }
            }
            Action::Reader(on) => e.reader = *on,
            Action::ClearCodes => self.circuit.clear_codes(),
            Action::Unplug(plug, out) => {
                e.unplugged.retain(|p| p != plug);
                if *out {
                    e.unplugged.push(plug.clone());
                }
                self.told.unplugged.clone_from(&e.unplugged);
            }
            Action::SwapRelays(a, b) => {
                let same = |(x, y): &(String, String)| (x == a && y == b) || (x == b && y == a);
                match e.swapped.iter().rposition(same) {
                    // Only the last swap can be undone without the others in between.
                    Some(n) if n + 1 == e.swapped.len() => drop(e.swapped.pop()),
                    _ => e.swapped.push((a.clone(), b.clone())),
                }
                self.told.swapped.clone_from(&e.swapped);
            }
            Action::RenewFuse(part) => match part.as_str() {
                METER_FUSE => tools.keys.fuse_blown = false,
                // The lead comes off for it; what hangs on next has a new fuse.
                JUMPER_FUSE => {
                    e.jumper_between = None;
                    self.jumper = None;
                }
                _ => {
                    self.circuit.renew_fuse(part);
                    e.renewed.retain(|p| p != part);
                    e.renewed.push(part.clone());
                }
            },
            Action::Isolate(guard, open) => self.isolate(*guard, *open),
            Action::ProveMeter => e.meter_proven_tick = Some(tick),
            Action::ProveDead(guard) => self.prove(*guard, tick),
            _ => {}
        }
    }

    fn isolate(&mut self, guard: Guard, open: bool) {
        let ids: Vec<String> = self.isolators(guard).map(str::to_owned).collect();
        self.done.live_again(guard);
        self.told.isolated.retain(|id| !ids.contains(id));
        if open {
            self.done.isolated.push(guard);
            self.told.isolated.extend(ids);
        }
    }

    /// A meter was put on or read: was its dial on ohms in a live circuit?
    pub fn watch_ohms(&mut self, probe: &Probe, tools: &Electrical, tick: u64) {
        if matches!(probe, Probe::Meter { .. }) && tools.live_ohms(&self.circuit) {
            self.done.mistake(MistakeKind::LiveOhms, tick);
        }
    }

    /// The jumper lead is on something.
    fn has_lead(&self) -> bool {
        self.jumper.is_some() || self.done.jumper_between.is_some()
    }
    /// The lead is on and its fuse has blown.
    pub fn lead_blown(&self) -> bool {
        self.has_lead() && self.circuit.load_blown(0)
    }

    /// Hang the tools on the circuit: jumper lead, meter, lamp, in this order.
    pub(super) fn hang(&mut self, tools: &Electrical) {
        let between = self.done.jumper_between.as_ref();
        let lead = self.jumper.map(across).or(between.map(|(a, b)| jumper::lead(a, b)));
        let loads: Vec<Load> = lead.into_iter().chain(tools.meter_load()).chain(tools.lamp_load()).collect();
        if self.told.loads != loads {
            self.told.loads = loads;
        }
    }

    /// See which fuses have blown in this tick.
    pub(super) fn watch_fuses(&mut self, tools: &mut Electrical, tick: u64) {
        let lead = self.has_lead();
        let blown = self.lead_blown();
        if blown && !self.jumper_blown {
            self.done.mistake(MistakeKind::JumperFuse, tick);
        }
        self.jumper_blown = blown;
        if tools.meter_load().is_some_and(|l| l.fuse_a.is_finite())
            && self.circuit.load_blown(usize::from(lead))
        {
            tools.keys.fuse_blown = true;
            self.done.mistake(MistakeKind::MeterFuse, tick);
        }
        if !self.done.renewed.is_empty() {
            let circuit = &self.circuit;
            let before = self.done.renewed.len();
            self.done.renewed.retain(|part| !circuit.fuse_blown(part));
            if self.done.renewed.len() < before {
                self.done.mistake(MistakeKind::FuseBlewAgain, tick);
            }
        }
    }
}

/// The jumper lead across contact 30 to 87 of a relay.
fn across(relay: Relay) -> Load {
    match relay {
        Relay::Clutch => jumper::lead(point::CLUTCH_RELAY_30, point::CLUTCH_RELAY_87),
        Relay::Fan => jumper::lead(point::FAN_RELAY_30, point::FAN_RELAY_87),
    }
}
