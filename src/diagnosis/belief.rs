//! From predictions to belief.

use super::hypothesis::{Hypothesis, Story};
use super::shadow::Prediction;
use crate::fault::FaultId;
use crate::instrument::Reading;

/// Prior of nothing being wrong; the faults share the rest by their base rates.
const HEALTHY_PRIOR: f64 = 0.05;
/// No single reading may count for more than this many log units: instruments are sometimes misused.
const MOST_PER_READING: f64 = 8.0;

/// Belief in a fault (or in nothing being wrong), summed over its severities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// Which.
    pub hypothesis: Hypothesis,
    /// Share of belief, 0 to 1.
    pub share: f64,
    /// The severity that fits best.
    pub best: Story,
}

/// Weigh all stories by the notebook. Sorted, likeliest first; shares sum to 1.
pub fn weigh(notebook: &[Reading], predictions: &[Prediction]) -> Vec<Weighed> {
    let count =
        |id: FaultId| predictions.iter().filter(|p| p.story.fault().is_some_and(|f| f.id == id)).count();
    // The faults told of are those of the rig; their weights become shares.
    let mut told: Vec<FaultId> = predictions.iter().filter_map(|p| p.story.fault()).map(|f| f.id).collect();
    told.dedup();
    let total: f64 = told.iter().map(|id| id.info().base_rate.weight).sum();
    let scores: Vec<(Story, f64)> = predictions
        .iter()
        .map(|p| {
            let prior = match p.story.fault() {
                None => HEALTHY_PRIOR,
                Some(f) => {
                    (1.0 - HEALTHY_PRIOR) * f.id.info().base_rate.weight / total / count(f.id).max(1) as f64
                }
            };
            let mut log = libm::log(prior);
            for (reading, expected) in notebook.iter().zip(&p.expected) {
                let Some(expected) = expected else { continue };
                let z = (reading.value - expected) / reading.probe.spread(reading.value, *expected);
                log -= (0.5 * z * z).min(MOST_PER_READING);
            }
            (p.story, log)
        })
        .collect();
    let top = scores.iter().map(|s| s.1).fold(f64::NEG_INFINITY, f64::max);
    let total: f64 = scores.iter().map(|s| libm::exp(s.1 - top)).sum();
    let mut weighed: Vec<(Weighed, f64)> = Vec::new();
    for (story, log) in scores {
        let hypothesis = story.hypothesis();
        let share = libm::exp(log - top) / total;
        match weighed.iter_mut().find(|(w, _)| w.hypothesis == hypothesis) {
            Some((w, best)) => {
                w.share += share;
                if log > *best {
                    (w.best, *best) = (story, log);
                }
            }
            None => weighed.push((Weighed { hypothesis, share, best: story }, log)),
        }
    }
    let mut weighed: Vec<Weighed> = weighed.into_iter().map(|(w, _)| w).collect();
    weighed.sort_by(|a, b| b.share.total_cmp(&a.share));
    weighed
}
