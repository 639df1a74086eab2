//! Shadow benches: the learner's session played again with another fault hidden in it.

use std::num::NonZero;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicUsize, Ordering};

use super::hypothesis::Story;
use crate::bench::{Action, Bench, BenchError};
use crate::effort::{Effort, GivenUp};
use crate::fault::{Fault, FaultId};
use crate::rig::Rig;
use crate::scenario::{HiddenFault, Scenario};

/// Severities at which a fault is tried; a coarse net over its range.
pub(super) fn severities(id: FaultId) -> Vec<f64> {
    let own: &[f64] = match id {
        FaultId::CondenserFinsBlocked => &[0.3, 0.5, 0.7, 0.85],
        FaultId::TxvStuckOpen => &[0.7, 1.0, 1.6, 2.5],
        FaultId::TxvStuckClosed => &[0.0, 0.06, 0.15],
        FaultId::Undercharge => &[0.25, 0.4, 0.5, 0.6, 0.8, 0.95],
        FaultId::Overcharge => &[0.25, 0.4, 0.6, 0.9],
        FaultId::AirInLoop => &[1.5, 3.0, 6.0],
        FaultId::CompressorLeak => &[0.2, 0.4, 0.6, 0.8],
        FaultId::LowOil => &[0.6, 0.9],
        FaultId::Moisture => &[8.0, 14.0],
        FaultId::LeakShaftSeal
        | FaultId::LeakHose
        | FaultId::LeakCondenserJoint
        | FaultId::LeakEvaporator
        | FaultId::LeakServiceValve => &[100.0, 800.0],
        FaultId::TxvScreenClogged | FaultId::OrificeTubeClogged => &[0.6, 0.8, 0.95],
        FaultId::DischargeLineRestricted
        | FaultId::CondenserBlockedInside
        | FaultId::DrierClogged
        | FaultId::LiquidLineKinked
        | FaultId::SuctionLineRestricted
        | FaultId::ExchangerRestricted => &[0.85, 0.93, 0.97],
        FaultId::CabinFilterClogged | FaultId::EvaporatorFouled | FaultId::BlendDoorStuck => &[0.4, 0.7],
        FaultId::BeltSlip => &[0.2, 0.5],
        FaultId::ClutchContactWorn | FaultId::ClutchGroundBad | FaultId::ClutchPlugCorroded => &[1.0, 5.0],
        FaultId::CondenserFanContactWorn | FaultId::CondenserFanGroundBad => &[0.4, 1.5],
        FaultId::PressureSensorOff
        | FaultId::ThermistorOff
        | FaultId::OutletThermistorOff
        | FaultId::BoxThermostatOff
        | FaultId::LowGaugeOff
        | FaultId::HighGaugeOff => {
            let off = id.default_severity();
            return vec![-off, off];
        }
        _ => return vec![id.default_severity()],
    };
    own.to_vec()
}

/// All stories of a rig, the healthy one first.
pub fn stories(rig: &Rig) -> Vec<Story> {
    let told =
        |id: FaultId| severities(id).into_iter().map(move |severity| Story::Fault(Fault { id, severity }));
    std::iter::once(Story::Healthy).chain(FaultId::on(rig).flat_map(told)).collect()
}

/// What a story predicts for each reading of a session, in notebook order; `None` where the tool would not
/// have been in place.
#[derive(Clone, Debug)]
pub struct Prediction {
    /// The story told.
    pub story: Story,
    /// Expected readings without noise.
    pub expected: Vec<Option<f64>>,
    /// The shadow bench at the end of the session.
    pub bench: Bench,
}

/// Why there are no predictions. One story that cannot be told would make the others look likelier than they are, so it
/// is never left out in silence.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum StoryError {
    /// The bench of a story cannot be set up.
    #[error("the story “{}” cannot be told: {reason}", .story.words())]
    Bench {
        /// Which.
        story: Story,
        /// Why.
        reason: BenchError,
    },
    /// The model stopped while a story was played.
    #[error("the model stopped in the story “{}”", .0.words())]
    Stopped(Story),
    /// Nobody waits for them any more.
    #[error(transparent)]
    GivenUp(#[from] GivenUp),
}

/// Play a session again under another story. The fault sets in when the scenario's own fault would, so that
/// only its nature differs; an instructor's faults are left out.
///
/// # Errors
/// When the scenario's rig cannot be set up, or the effort was given up.
pub fn predict(
    scenario: &Scenario,
    seed: u64,
    journal: &[(u64, Action)],
    end_tick: u64,
    story: Story,
    effort: &Effort,
) -> Result<Prediction, StoryError> {
    let mut told = scenario.clone();
    let pattern = scenario.faults.first();
    told.faults = story
        .fault()
        .map(|f| HiddenFault {
            id: f.id,
            severity: Some(f.severity),
            onset: pattern.map(|p| p.onset).unwrap_or_default(),
            grows_over_s: pattern.map_or(0.0, |p| p.grows_over_s),
            comes_and_goes: pattern.and_then(|p| p.comes_and_goes),
        })
        .into_iter()
        .collect();
    let mut bench = Bench::new(&told, seed).map_err(|reason| StoryError::Bench { story, reason })?;
    let mut expected = Vec::new();
    for (tick, action) in journal {
        bench.advance_until(*tick, effort)?;
        match action {
            Action::ImposeFault { .. }
            | Action::ImposeIntermittent { .. }
            | Action::RampFault { .. }
            | Action::ClearFault { .. }
            | Action::Diagnose(_) => {}
            Action::Read(probe) => expected.push(bench.expected(probe)),
            // A refusal in the shadow changes nothing, as it would have on the bench.
            other => drop(bench.apply(other.clone())),
        }
    }
    bench.advance_until(end_tick, effort)?;
    Ok(Prediction { story, expected, bench })
}

/// Play a session under many stories, on as many threads as the machine has but one; results in the stories' order.
///
/// # Errors
/// The first story that could not be told, by its name; none is left out.
pub fn predict_all(
    scenario: &Scenario,
    seed: u64,
    journal: &[(u64, Action)],
    end_tick: u64,
    stories: &[Story],
    effort: &Effort,
) -> Result<Vec<Prediction>, StoryError> {
    let workers = std::thread::available_parallelism()
        .map_or(1, NonZero::get)
        .saturating_sub(1)
        .clamp(1, stories.len().max(1));
    effort.plan(stories.len() as u64 * end_tick);
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        loop {
            let i = next.fetch_add(1, Ordering::Relaxed);
            let Some(&story) = stories.get(i) else { return done };
            // A panic in one story must not take the others of its thread along.
            let told = AssertUnwindSafe(|| predict(scenario, seed, journal, end_tick, story, effort));
            done.push((i, catch_unwind(told).unwrap_or(Err(StoryError::Stopped(story)))));
        }
    };
    let mut all = std::thread::scope(|scope| {
        let handles: Vec<_> = (0..workers).map(|_| scope.spawn(work)).collect();
        handles.into_iter().flat_map(|h| h.join().unwrap_or_default()).collect::<Vec<_>>()
    });
    // Threads finish as they like; order is the stories'.
    all.sort_by_key(|(i, _)| *i);
    let told: Vec<Prediction> =
        all.into_iter().map(|(_, prediction)| prediction).collect::<Result<_, _>>()?;
    match stories.get(told.len()) {
        None => Ok(told),
        Some(&missing) => Err(StoryError::Stopped(missing)),
    }
}
