//! Is an action on the circuit possible at all?

use super::side::ElectricalSide;
use crate::bench::action::Action;
use crate::bench::refusal::{Refusal, no};
use crate::circuit::spec::{GROUND, Kind, Part};
use crate::instrument::{Electrical, Tool, is_over, meter};
use crate::message::{WORD, fit};

/// Words for the fuses of the tools themselves.
pub(super) const METER_FUSE: &str = "meter";
pub(super) const JUMPER_FUSE: &str = "jumper";

impl ElectricalSide {
    /// Is it possible? `needs` says whether a tool lies on the bench.
    pub fn check(
        &self,
        action: &Action,
        needs: &dyn Fn(Tool) -> Result<(), Refusal>,
        tools: &Electrical,
        tick: u64,
    ) -> Result<(), Refusal> {
        match action {
            Action::Jumper(Some(_)) => needs(Tool::Jumper),
            Action::JumperBetween(Some((a, b))) => {
                needs(Tool::Jumper)?;
                self.point(a)?;
                self.point(b)?;
                if a == b { no("the jumper lead needs two points") } else { Ok(()) }
            }
            Action::MeterRange(_) | Action::ProveMeter => needs(Tool::Meter),
            Action::MeterRelative(on) => {
                needs(Tool::Meter)?;
                match tools.leads.as_ref().and_then(meter::Leads::held) {
                    _ if !on => Ok(()),
                    Some(v) if !is_over(v) => Ok(()),
                    _ => no("the meter shows nothing that could count as zero"),
                }
            }
            Action::ClampZero => needs(Tool::ClampAmmeter),
            Action::Reader(_) => needs(Tool::Reader),
            Action::ClearCodes => {
                needs(Tool::Reader)?;
                if self.done.reader { Ok(()) } else { no("plug the reader in first") }
            }
            Action::Unplug(plug, _) => self.check_plug(plug),
            Action::SwapRelays(a, b) => self.check_swap(a, b),
            Action::RenewFuse(part) => {
                let fuse = |p: &Part| p.id == *part && matches!(p.kind, Kind::Fuse { .. });
                if [METER_FUSE, JUMPER_FUSE].contains(&part.as_str()) || self.circuit.parts().iter().any(fuse)
                {
                    Ok(())
                } else {
                    no(format!("there is no fuse {}", fit(part, WORD)))
                }
            }
            Action::Isolate(guard, _) => match self.isolators(*guard).next() {
                Some(_) => Ok(()),
                None => no("there is nothing of that kind to isolate on this rig"),
            },
            Action::ProveDead(guard) => {
                needs(Tool::Meter)?;
                self.may_prove(*guard, tick)
            }
            _ => Ok(()),
        }
    }

    /// A name that leads can touch.
    pub fn point(&self, point: &str) -> Result<(), Refusal> {
        if point == GROUND || self.circuit.volts(point).is_some() {
            Ok(())
        } else {
            no(format!("there is no circuit point {}", fit(point, WORD)))
        }
    }

    fn check_plug(&self, plug: &str) -> Result<(), Refusal> {
        let named = |p: &Part| !plug.is_empty() && p.connector == *plug;
        let isolates = |p: &Part| named(p) && matches!(p.kind, Kind::Isolator { .. });
        if !self.circuit.parts().iter().any(named) {
            no(format!("there is no connector {}", fit(plug, WORD)))
        } else if self.circuit.parts().iter().any(isolates) {
            no(format!("{plug} isolates: open it by isolating"))
        } else {
            Ok(())
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
            (None, _) => no(format!("there is no relay {}", fit(a, WORD))),
            (_, None) => no(format!("there is no relay {}", fit(b, WORD))),
            _ if a == b => no("it takes two relays"),
            (x, y) if x != y => no(format!("{a} and {b} are of different kinds")),
            _ => Ok(()),
        }
    }
}
