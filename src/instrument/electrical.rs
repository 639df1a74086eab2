//! The tools that touch the circuit, together: multimeter, test lamp, clamp ammeter.

use serde::{Deserialize, Serialize};

use super::character::is_over;
use super::clamp::ClampAmmeter;
use super::dial::MeterMode;
use super::lamp::Filament;
use super::meter::{Keys, LIVE_V, Leads, volts_between};
use super::table::Probe;
use crate::circuit::{Circuit, Load};

/// The electrical tools of one bench.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Electrical {
    /// Multimeter.
    pub leads: Option<Leads>,
    /// Its keys and fuse.
    pub keys: Keys,
    /// Test lamp.
    pub lamp: Option<Filament>,
    /// Clamp ammeter.
    pub clamp: ClampAmmeter,
}

impl Electrical {
    /// Nothing has been touched: such a set is left out of the state hash.
    pub fn is_untouched(&self) -> bool {
        *self == Self::default()
    }
    /// Put a tool on its place; a tool already there stays as it is. Says whether the place exists.
    pub fn place(&mut self, probe: &Probe, circuit: &Circuit) -> bool {
        match probe {
            Probe::Meter { mode, red, black } => {
                if volts_between(circuit, red, black).is_none() {
                    return false;
                }
                let here = |l: &Leads| (l.mode, &l.red, &l.black) == (*mode, red, black);
                if !self.leads.as_ref().is_some_and(here) {
                    // Another mode is another zero: the relative key falls out.
                    if self.leads.as_ref().is_none_or(|l| l.mode != *mode) {
                        self.keys.relative = None;
                    }
                    self.leads = Some(Leads::placed(*mode, red, black));
                }
            }
            Probe::Lamp { tip, clip } => {
                if volts_between(circuit, tip, clip).is_none() {
                    return false;
                }
                if self.lamp.as_ref().is_none_or(|l| (&l.tip, &l.clip) != (tip, clip)) {
                    self.lamp = Some(Filament::placed(tip, clip));
                }
            }
            Probe::Clamp(part) => return self.clamp.place(part, circuit),
            _ => return false,
        }
        true
    }
    /// Take the tool of this kind away.
    pub fn remove(&mut self, probe: &Probe) {
        match probe {
            Probe::Meter { .. } => self.leads = None,
            Probe::Lamp { .. } => self.lamp = None,
            Probe::Clamp(_) => self.clamp.jaws = None,
            _ => {}
        }
    }
    /// Time passes.
    pub fn advance(&mut self, dt_s: f64, circuit: &Circuit, seed: u64) {
        if let Some(leads) = &mut self.leads {
            leads.advance(circuit, &self.keys, seed);
        }
        if let Some(lamp) = &mut self.lamp {
            lamp.advance(circuit);
        }
        self.clamp.advance(dt_s, circuit);
    }
    /// What the meter hangs on the circuit.
    pub fn meter_load(&self) -> Option<Load> {
        self.leads.as_ref()?.load(self.keys.fuse_blown)
    }
    /// What the lamp hangs on it.
    pub fn lamp_load(&self) -> Option<Load> {
        self.lamp.as_ref().map(Filament::load)
    }
    /// The leads when they stand as this probe says.
    fn leads_at(&self, probe: &Probe) -> Option<&Leads> {
        let Probe::Meter { mode, red, black } = probe else { return None };
        self.leads.as_ref().filter(|l| (l.mode, &l.red, &l.black) == (*mode, red, black))
    }
    fn lamp_at(&self, probe: &Probe) -> Option<&Filament> {
        let Probe::Lamp { tip, clip } = probe else { return None };
        self.lamp.as_ref().filter(|l| (&l.tip, &l.clip) == (tip, clip))
    }
    fn clamp_at(&self, probe: &Probe) -> Option<&ClampAmmeter> {
        let Probe::Clamp(part) = probe else { return None };
        self.clamp.jaws.as_ref().filter(|j| j.part == *part).map(|_| &self.clamp)
    }
    /// What a tool shows; none when it is not on that place or has not settled.
    pub fn shown(&self, probe: &Probe, seed: u64, tick: u64) -> Option<f64> {
        let meter = || self.leads_at(probe)?.shown(&self.keys, seed, tick);
        let clamp = || Some(self.clamp_at(probe)?.shown(seed, tick));
        meter().or_else(clamp).or_else(|| Some(self.lamp_at(probe)?.brightness()))
    }
    /// The same without noise and errors of its own.
    pub fn expected(&self, probe: &Probe) -> Option<f64> {
        let meter = || self.leads_at(probe)?.expected(&self.keys);
        let clamp = || Some(self.clamp_at(probe)?.expected());
        meter().or_else(clamp).or_else(|| Some(self.lamp_at(probe)?.brightness()))
    }
    /// Tools in place.
    pub fn placed(&self) -> impl Iterator<Item = Probe> + '_ {
        let meter = self.leads.as_ref().map(|l| Probe::Meter {
            mode: l.mode,
            red: l.red.clone(),
            black: l.black.clone(),
        });
        let lamp = self.lamp.as_ref().map(|l| Probe::Lamp { tip: l.tip.clone(), clip: l.clip.clone() });
        let clamp = self.clamp.jaws.as_ref().map(|j| Probe::Clamp(j.part.clone()));
        meter.into_iter().chain(lamp).chain(clamp)
    }
    /// The dial stands on a kind of resistance and volts stand between the leads.
    pub fn live_ohms(&self, circuit: &Circuit) -> bool {
        self.leads.as_ref().is_some_and(|l| {
            l.mode.is_ohm() && volts_between(circuit, &l.red, &l.black).is_some_and(|v| v.abs() > LIVE_V)
        })
    }
    /// Press or release the relative key; says whether there was anything to take as zero.
    pub fn relative(&mut self, on: bool) -> bool {
        let held = self.leads.as_ref().and_then(Leads::held).filter(|v| !is_over(*v));
        self.keys.relative = if on { held } else { None };
        !on || held.is_some()
    }
    /// What the relative key took away [unit of the mode]; a good zero is the leads alone.
    pub fn relative_ohm(&self) -> Option<f64> {
        self.leads.as_ref().filter(|l| matches!(l.mode, MeterMode::Ohm | MeterMode::Continuity))?;
        self.keys.relative
    }
}
