//! Instruments put on their places and read: what is allowed now, and what each shows.

use super::action::Action;
use super::machine::Bench;
use super::now::Now;
use super::refusal::{Refusal, no};
use super::truth::Here;
use crate::instrument::{Need, Placing, Probe, Reading};
use crate::message::{WORD, fit};
use crate::places::SearchPlace;

impl Action {
    /// What hands do so that an instrument can be read.
    pub fn to_place(probe: &Probe) -> Self {
        match probe.facts().placing {
            Placing::Socket(_) => Self::Reader(true),
            Placing::Hoses | Placing::Hands | Placing::Nothing(_) => Self::Place(probe.clone()),
        }
    }
}

impl Bench {
    /// What a probe would show without noise and zero error; for the diagnosis engine's shadow benches.
    pub fn expected(&self, probe: &Probe) -> Option<f64> {
        match probe {
            Probe::Sense(sense) => self.felt().value(*sense),
            Probe::UnitValue { unit, id } => self.electrical.unit_value(unit, id),
            tool => self.rack.expected(tool),
        }
    }
    /// What a tool in place shows on this tick, or a person's own senses notice, and the half-width of its 95 % band.
    pub fn shown(&self, probe: &Probe) -> Option<(f64, f64)> {
        match probe {
            Probe::Sense(_) | Probe::UnitValue { .. } => {
                let value = self.expected(probe)?;
                Some((value, probe.uncertainty(value)))
            }
            tool => self.rack.shown(tool, self.tick),
        }
    }

    /// May an instrument be put on its place?
    pub(super) fn check_place(&self, probe: &Probe) -> Result<(), Refusal> {
        let placing = probe.facts().placing;
        if let Placing::Nothing(why) = placing {
            return no(why);
        }
        self.needs(probe.tool())?;
        if let Placing::Socket(why) = placing {
            return no(why);
        }
        for need in probe.needs() {
            match need {
                Need::Point(point) => self.electrical.point(&point)?,
                Need::Part(part) if self.circuit().current(&part).is_none() => {
                    return no(format!("there is no part {}", fit(&part, WORD)));
                }
                Need::Search(place) if !self.has_place(place) => {
                    return no(format!("there is no {} here", place.name()));
                }
                Need::Part(_) | Need::Search(_) => {}
            }
        }
        Ok(())
    }

    /// May it be read?
    pub(super) fn check_read(&self, probe: &Probe) -> Result<(), Refusal> {
        let off = probe.facts().placing == Placing::Hoses && !self.service.gauges_live();
        if off || self.shown(probe).is_none() { no(probe.silent()) } else { Ok(()) }
    }

    /// Put an instrument on its place.
    pub(super) fn put(&mut self, probe: &Probe) {
        let here = Here {
            now: Now { tick: self.tick, controls: &self.controls, plant: &self.plant },
            wrong: self.faults.effects(),
            service: &self.service,
            circuit: self.electrical.circuit(),
        };
        self.rack.place(probe, &here);
        self.electrical.watch_ohms(probe, &self.rack.electrical, self.tick);
    }

    /// Write down what it shows.
    pub(super) fn write_down(&mut self, probe: &Probe) {
        if let Some((value, uncertainty)) = self.shown(probe) {
            self.notebook.write(Reading { tick: self.tick, probe: probe.clone(), value, uncertainty });
        }
        self.electrical.watch_ohms(probe, &self.rack.electrical, self.tick);
    }

    /// The rig has such a place to search for a leak.
    fn has_place(&self, place: SearchPlace) -> bool {
        let spec = self.plant.spec();
        match place {
            SearchPlace::ShaftSeal => spec.compressor.drive.pulley_ratio().is_some(),
            SearchPlace::ReceiverJoint => spec.receiver.is_some(),
            _ => true,
        }
    }
}
