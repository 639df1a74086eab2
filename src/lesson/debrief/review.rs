//! The debrief of a session, worked out by playing it again under every story.

use super::inside::inside_words;
use super::{Belief, Debrief, Hypothesis, acts, bay_review, readings};
use crate::bench::{Bench, RepairDone};
use crate::diagnosis::{self, Story, StoryError};
use crate::effort::Effort;
use crate::fault::{Fault, FaultId};
use crate::lesson::timeline::timeline;

/// Work out the debrief of a bench on which a diagnosis was handed in. `None` without one.
///
/// # Errors
/// The first story that could not be told, by its name, or that the effort was given up.
pub fn review(bench: &Bench, effort: &Effort) -> Result<Option<Debrief>, StoryError> {
    let Some(diagnosis) = bench.diagnosis() else { return Ok(None) };
    let scenario = bench.scenario();
    let stories = diagnosis::stories(bench.rig());
    // Once hands have changed what is in the loop, readings tell of their work, no longer of how the car came.
    let until = bench.work_began().unwrap_or(u64::MAX).min(bench.tick());
    let before = |tick: u64| tick <= until;
    let done = bench.journal().iter().take_while(|(tick, _)| before(*tick)).count();
    let read = bench.notebook().iter().take_while(|reading| before(reading.tick)).count();
    let (journal, notebook) = (&bench.journal()[..done], &bench.notebook()[..read]);
    let predictions = diagnosis::predict_all(scenario, bench.seed(), journal, until, &stories, effort)?;
    let belief = diagnosis::weigh(notebook, &predictions);
    let named = Hypothesis::from(diagnosis.cause);
    let best = belief.iter().find(|w| w.hypothesis == named).map_or(Story::Healthy, |w| w.best);
    let told = |story: Story| predictions.iter().find(|p| p.story == story);
    let healthy = told(Story::Healthy);
    // The truth is the scenario as it really ran, with an instructor's faults among its actions.
    let (real, truth) = readings::as_it_was(bench, journal, until, effort)?;
    let unsafe_acts = acts::unsafe_acts(bench.electrics()).into_iter();
    Ok(Some(Debrief {
        verdict_right: is_right(bench, diagnosis.cause, &truth),
        named,
        confidence: diagnosis.confidence,
        because: diagnosis.because.clone(),
        inside: inside_words(bench, healthy),
        truth,
        lines: readings::lines(notebook, diagnosis, (healthy, told(best)), &real),
        belief: belief.iter().map(|w| Belief { hypothesis: w.hypothesis, share: w.share }).collect(),
        cautions: unsafe_acts
            .chain(acts::breaches(bench.journal(), bench.scenario(), bench.tick()))
            .collect(),
        mistakes: acts::mistakes(bench.electrics()),
        bay: bay_review(bench),
        scenario_debrief: scenario.debrief.clone(),
        repairs: bench.repairs().iter().map(repair_words).collect(),
        parts_replaced: bench.parts_replaced(),
        timeline: timeline(bench.journal()),
        unsolved: bench.troubles().to_vec(),
    }))
}

/// Right when it is one of the accepted causes or, where none are listed, a fault that is present. "Nothing is wrong"
/// is right where the scenario accepts no cause and no fault was present.
fn is_right(bench: &Bench, cause: Option<FaultId>, truth: &[Fault]) -> bool {
    let accepted = &bench.scenario().accepted_causes;
    match cause {
        None => accepted.is_empty() && truth.is_empty(),
        Some(id) if accepted.is_empty() => truth.iter().any(|f| f.id == id),
        Some(id) => accepted.contains(&id),
    }
}

/// What a repair came to: what it cured, or why it did not.
fn repair_words(done: &RepairDone) -> String {
    let info = done.repair.info();
    let what = match done.cured.as_slice() {
        [] => "cured nothing".to_owned(),
        cured => {
            let names: Vec<String> = cured.iter().map(|id| id.info().name.to_lowercase()).collect();
            format!("cured {}", names.join(", "))
        }
    };
    let good = if done.good_part { "; the part taken out was good" } else { "" };
    format!("{}: {what}{good} ({:.0} min)", info.words, info.minutes)
}
