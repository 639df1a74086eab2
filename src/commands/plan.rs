//! What a run will do, worked out and checked before anything is run or written.

use super::failure::Failure;
use super::run_args::RunArgs;
use super::tools::ReadSpec;
use crate::bench::{Action, TICK_S};
use crate::procedure::{self, Procedure};
use crate::scenario::{Scenario, load};

/// Length of a run that says nothing of it [min].
const MINUTES: f64 = 10.0;

/// A run as planned.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The scenario, its start as the command line has it.
    pub scenario: Scenario,
    /// Length [ticks]; an action file that takes longer is played to its end.
    pub ticks: u64,
    /// The action file to play.
    pub procedure: Option<Procedure>,
    /// What happens when, in order.
    pub actions: Vec<(u64, Action)>,
    /// Time between two rows of the trace [s].
    every_s: f64,
}

/// The tick nearest to a time. Times were checked to be finite and not negative.
fn tick_of(seconds: f64) -> u64 {
    (seconds / TICK_S).round() as u64
}

impl Plan {
    /// Work out a run.
    pub fn new(args: &RunArgs) -> Result<Self, Failure> {
        let procedure = args.actions.as_deref().map(procedure::load).transpose()?;
        let own = procedure.as_ref().map(|procedure| procedure.scenario.as_str());
        let mut scenario = load(args.scenario.as_deref().or(own).unwrap_or_default())?;
        let usual = if procedure.is_some() { 0.0 } else { MINUTES };
        let ticks = tick_of(args.minutes.unwrap_or(usual) * 60.0).max(1);
        let mut actions = Vec::new();
        for spec in &args.set {
            let tick = tick_of(spec.at_s);
            match &spec.action {
                // Driving and weather at the start are part of the start: the car soaks in that weather.
                Action::Set(change) if tick == 0 => scenario.start.turn(*change),
                action => actions.push((tick, action.clone())),
            }
        }
        for spec in &args.clear {
            actions.push((tick_of(spec.at_s), Action::ClearFault { id: spec.id }));
        }
        for spec in &args.fault {
            let action = Action::ImposeFault { id: spec.id, severity: spec.severity };
            actions.push((tick_of(spec.at_s), action));
        }
        for spec in &args.act {
            actions.push((tick_of(spec.at_s), spec.action.clone()));
        }
        for (at_s, action) in args.read.iter().flat_map(ReadSpec::actions) {
            actions.push((tick_of(at_s), action));
        }
        actions.sort_by_key(|(tick, _)| *tick);
        if let Some((tick, _)) = actions.last().filter(|(tick, _)| *tick > ticks && procedure.is_none()) {
            return Err(Failure::Input(format!(
                "something is to happen at {} s, but the run ends at {} s (hint: raise --minutes)",
                *tick as f64 * TICK_S,
                ticks as f64 * TICK_S
            )));
        }
        Ok(Self { scenario, ticks, procedure, actions, every_s: args.every })
    }

    /// Tick of a row of the trace, counted from 0; one more stands at the end.
    pub fn row_tick(&self, row: u64) -> u64 {
        tick_of(row as f64 * self.every_s)
    }
}
