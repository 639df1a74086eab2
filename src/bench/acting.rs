//! Actions: each is checked and carried out by the part it belongs to; here they are only passed on.

use super::action::Action;
use super::electrical::UnsafeKind;
use super::faults::Faults;
use super::machine::Bench;
use super::refusal::{Refusal, allowed};
use super::repairs::{self, Hands};
use super::service::Service;
use crate::instrument::Tool;

impl Bench {
    /// Do something now, on the current tick.
    ///
    /// # Errors
    /// When the action is out of range or makes no sense; nothing has changed then. When it is not safe it is not done
    /// either, but written down: the journal holds it as [`Action::Stopped`].
    pub fn apply(&mut self, action: Action) -> Result<(), Refusal> {
        self.check(&action)?;
        if let Some(kind) = self.unsafe_kind(&action) {
            let stopped = Action::Stopped(Box::new(action));
            self.carry_out(&stopped);
            self.journal.push((self.tick, stopped));
            return Err(Refusal::Danger(kind));
        }
        self.carry_out(&action);
        // What hands do in the bay is no part of how the car was found.
        let by_hand = self.bay().is_some() && matches!(action, Action::Bay(_) | Action::Repair(_));
        self.journal.push((self.tick, action));
        self.faults.follow(&self.rig);
        if self.tick == 0 && !by_hand {
            self.soak();
        }
        Ok(())
    }

    /// Does it make sense now?
    fn check(&self, action: &Action) -> Result<(), Refusal> {
        let notes = self.notebook().len();
        match action {
            Action::Set(change) => match change.number().zip(change.knob().info().range()) {
                Some((value, range)) => allowed(change.key(), value, range),
                None => Ok(()),
            },
            Action::ManifoldLowPct(_) | Action::ManifoldHighPct(_) => Service::check_manifold(action),
            Action::Hoses(true) => self.needs(Tool::GaugeSet),
            Action::Bay(act) => self.service.check(act, self.rig.plant.like_fittings, notes),
            Action::ImposeFault { .. } | Action::RampFault { .. } | Action::ImposeIntermittent { .. } => {
                Faults::check(action, &self.rig)
            }
            Action::Repair(id) => repairs::check(*id, &self.rig, self.controls.engine_on, &self.service),
            Action::Place(_) | Action::Read(_) => self.check_tool(action),
            Action::Diagnose(_) | Action::Hint | Action::Note(_) => {
                self.learner.check(action, notes, self.scenario.hints.len())
            }
            other => self.electrical.check(other, &|tool| self.needs(tool), &self.rack.electrical, self.tick),
        }
    }

    /// What makes it deadly.
    fn unsafe_kind(&self, action: &Action) -> Option<UnsafeKind> {
        let in_bay = self.service.danger(action, &self.now()).map(UnsafeKind::Bay);
        in_bay.or_else(|| self.electrical.unsafe_kind(action, &self.rack))
    }

    /// Do it.
    fn carry_out(&mut self, action: &Action) {
        let tick = self.tick;
        match action {
            Action::Set(change) => self.controls.turn(*change),
            Action::ManifoldLowPct(_) | Action::ManifoldHighPct(_) | Action::Hoses(_) => {
                self.service.turn_manifold(action, tick);
            }
            Action::Bay(act) => self.service.carry_out(act, &mut self.plant, tick),
            Action::ImposeFault { .. } | Action::RampFault { .. } | Action::ClearFault { .. } => {
                self.faults.carry_out(action, tick);
            }
            Action::ImposeIntermittent { .. } => {
                self.faults.carry_out(action, tick);
                self.disturb();
            }
            Action::Repair(id) => {
                let hands = Hands {
                    tick,
                    plant: &mut self.plant,
                    faults: &mut self.faults,
                    fill: &mut self.fill,
                    electrical: &mut self.electrical,
                    service: &mut self.service,
                };
                self.repairs.push(hands.repair(*id));
            }
            Action::Place(_) | Action::Read(_) | Action::Remove(_) => self.use_tool(action),
            Action::Note(_) | Action::Hint | Action::Suspect { .. } | Action::Diagnose(_) => {
                self.learner.carry_out(action);
            }
            Action::Stopped(stopped) => {
                if let Some(kind) = self.unsafe_kind(stopped) {
                    self.electrical.stopped(kind, tick);
                }
            }
            other => self.electrical.carry_out(other, &mut self.rack.electrical, self.seed, tick),
        }
    }

    /// The tool lies on the bench.
    pub(super) fn needs(&self, tool: Tool) -> Result<(), Refusal> {
        if self.scenario.has(tool) {
            Ok(())
        } else {
            Err(Refusal::NotNow(format!("{} is not on the bench in this scenario", tool.name())))
        }
    }

    /// Can a tool be put there, or read?
    fn check_tool(&self, action: &Action) -> Result<(), Refusal> {
        match action {
            Action::Place(probe) => self.check_place(probe),
            Action::Read(probe) => self.check_read(probe),
            _ => Ok(()),
        }
    }

    fn use_tool(&mut self, action: &Action) {
        match action {
            Action::Place(probe) => self.put(probe),
            Action::Read(probe) => self.write_down(probe),
            Action::Remove(probe) => self.rack.remove(probe),
            _ => {}
        }
    }
}
