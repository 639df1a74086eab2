//! Which readings tell two faults apart, and by how many standard deviations: both are run through the same work on
//! the same car, and their readings are held against each other with the instruments' own uncertainty.
//!
//! A fault is only as distinct as its nearest look-alike: of the second fault that severity counts that is hardest to
//! tell from the first.

use std::collections::BTreeMap;

use serde::Serialize;

use super::hypothesis::Story;
use super::protocol::{Protocol, Watched};
use super::shadow::{Prediction, StoryError, predict_all, severities};
use crate::effort::Effort;
use crate::fault::{Fault, FaultId};
use crate::instrument::Probe;
use crate::rig::Rig;

/// Two stories closer than this many standard deviations on every reading are not told apart (common practice: about
/// the 95 % band).
pub const TOLD_APART: f64 = 2.0;

/// The most that a person's own senses count for [standard deviations]: what a single reading may count for in the
/// diagnosis (8 log units), since a word is no number.
const SENSE_MOST: f64 = 4.0;

/// One instrument through one moment, under two stories.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Apart {
    /// When in the protocol.
    pub moment: &'static str,
    /// Tool and place.
    pub probe: Probe,
    /// What it shows under the first story: of the range it moves through, the end nearer to the second's; in the
    /// unit of [`crate::instrument::Reading`].
    pub first: f64,
    /// The same under the second.
    pub second: f64,
    /// The gap between both ranges in standard deviations of a reading about a prediction; 0 when they overlap, so that
    /// two phases of one cycle are no difference.
    pub sigmas: f64,
}

/// How far two stories lie apart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Distance {
    /// By the best single reading [standard deviations].
    pub best: f64,
    /// By the best reading of each kind of instrument together, root of the sum of squares; readings of one instrument
    /// share its zero error, so only one of each counts.
    pub together: f64,
}

/// A look-alike at the severity that is hardest to tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LookAlike {
    /// Its severity; `None` for nothing wrong.
    pub severity: Option<f64>,
    /// How far it lies apart.
    pub distance: Distance,
}

/// Every pair of a rig.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Matrix {
    /// Faults in catalogue order.
    pub faults: Vec<FaultId>,
    /// How far each at its usual severity lies from nothing wrong.
    pub shows: Vec<Distance>,
    /// From each fault at its usual severity to each other at the severity nearest to it, of those that show at all;
    /// `None` on the diagonal and where one of both does not show.
    pub cells: Vec<Vec<Option<LookAlike>>>,
}

/// The range of the readings of an instrument through a moment; `None` where one was not to be had.
fn range(prediction: &Prediction, watched: &Watched) -> Option<(f64, f64)> {
    watched.readings.iter().try_fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), &i| {
        let value = (*prediction.expected.get(i)?)?;
        Some((low.min(value), high.max(value)))
    })
}

/// One instrument through one moment.
fn apart(watched: &Watched, first: &Prediction, second: &Prediction) -> Option<Apart> {
    let (a, b) = (range(first, watched)?, range(second, watched)?);
    // The ends that face each other; where the ranges overlap, both at the same value.
    let (first, second) = match () {
        () if a.1 < b.0 => (a.1, b.0),
        () if b.1 < a.0 => (a.0, b.1),
        () => {
            let common = a.0.max(b.0);
            (common, common)
        }
    };
    let probe = watched.probe.clone();
    let sigma = probe.spread(first, second).max(probe.spread(second, first));
    let sigmas = (first - second).abs() / sigma;
    let sigmas = if matches!(probe, Probe::Sense(_)) { sigmas.min(SENSE_MOST) } else { sigmas };
    Some(Apart { moment: watched.moment, probe, first, second, sigmas })
}

/// All readings under both stories, the one that tells most first.
pub fn readings_apart(protocol: &Protocol, first: &Prediction, second: &Prediction) -> Vec<Apart> {
    let mut all: Vec<Apart> =
        protocol.watched().iter().filter_map(|watched| apart(watched, first, second)).collect();
    all.sort_by(|x, y| y.sigmas.total_cmp(&x.sigmas));
    all
}

/// How far two stories lie apart.
pub fn distance(protocol: &Protocol, first: &Prediction, second: &Prediction) -> Distance {
    // Each instrument has errors of its own; they go with it from place to place.
    let mut best: BTreeMap<&str, f64> = BTreeMap::new();
    for apart in protocol.watched().iter().filter_map(|watched| apart(watched, first, second)) {
        let most = best.entry(apart.probe.facts().id).or_default();
        *most = most.max(apart.sigmas);
    }
    Distance {
        best: best.values().fold(0.0, |x: f64, y| x.max(*y)),
        together: best.values().map(|x| x * x).sum::<f64>().sqrt(),
    }
}

/// The one of `others` that is nearest to a story.
pub fn nearest<'a>(
    protocol: &Protocol,
    first: &Prediction,
    others: impl Iterator<Item = &'a Prediction>,
) -> Option<(&'a Prediction, Distance)> {
    others
        .map(|p| (p, distance(protocol, first, p)))
        .min_by(|x, y| x.1.best.total_cmp(&y.1.best).then(x.1.together.total_cmp(&y.1.together)))
}

/// Faults a rig can have.
pub fn faults_of(rig: &Rig) -> Vec<FaultId> {
    FaultId::on(rig).collect()
}

/// Severities a look-alike is tried at: the net of the diagnosis, the usual one, half way up its range and its end.
fn ladder(id: FaultId) -> Vec<f64> {
    let mut net = severities(id);
    net.push(id.default_severity());
    if let Some(range) = id.info().severity {
        net.extend([f64::midpoint(range.min, range.max), range.max]);
    }
    net.sort_by(f64::total_cmp);
    net.dedup();
    net
}

fn stories_of(id: FaultId) -> impl Iterator<Item = Story> {
    ladder(id).into_iter().map(move |severity| Story::Fault(Fault { id, severity }))
}

/// Run stories through the protocol.
fn tell(protocol: &Protocol, stories: &[Story]) -> Result<Vec<Prediction>, StoryError> {
    predict_all(protocol.scenario(), 1, protocol.journal(), protocol.end_tick(), stories, &Effort::default())
}

/// A story with its severity left to be fitted: `None` is nothing wrong.
pub type Suspect = Option<FaultId>;

/// Two stories as they were run, the second at the severity asked for, or at the one nearest to the first.
///
/// # Errors
/// The first story that could not be told.
pub fn pair(
    protocol: &Protocol,
    first: Story,
    second: Suspect,
    severity: Option<f64>,
) -> Result<(Prediction, Prediction), StoryError> {
    let mut stories = vec![first];
    stories.extend(match (second, severity) {
        (None, _) => vec![Story::Healthy],
        (Some(id), Some(severity)) => vec![Story::Fault(Fault { id, severity })],
        (Some(id), None) => stories_of(id).collect(),
    });
    let mut told = tell(protocol, &stories)?;
    let first = told.remove(0);
    // Twice closer around the nearest one.
    if let (Some(id), None) = (second, severity) {
        for _ in 0..2 {
            told.sort_by(|x, y| level(x).total_cmp(&level(y)));
            let Some((near, _)) = nearest(protocol, &first, told.iter()) else { break };
            let at = level(near);
            let below = told.iter().map(level).filter(|s| *s < at).fold(f64::NAN, f64::max);
            let above = told.iter().map(level).filter(|s| *s > at).fold(f64::NAN, f64::min);
            let more: Vec<Story> =
                [(below, 1.0 / 3.0), (below, 2.0 / 3.0), (above, 1.0 / 3.0), (above, 2.0 / 3.0)]
                    .into_iter()
                    .filter(|(edge, _)| edge.is_finite())
                    .map(|(edge, f)| Story::Fault(Fault { id, severity: at + f * (edge - at) }))
                    .collect();
            told.extend(tell(protocol, &more)?);
        }
    }
    let at = nearest(protocol, &first, told.iter())
        .and_then(|(near, _)| told.iter().position(|p| std::ptr::eq(p, near)))
        .unwrap_or(0);
    Ok((first, told.swap_remove(at)))
}

/// Severity of a story; 0 for nothing wrong.
fn level(prediction: &Prediction) -> f64 {
    prediction.story.fault().map_or(0.0, |f| f.severity)
}

/// Every pair of the faults a rig can have.
///
/// # Errors
/// The first story that could not be told.
pub fn matrix(protocol: &Protocol, faults: &[FaultId]) -> Result<Matrix, StoryError> {
    let stories: Vec<Story> =
        std::iter::once(Story::Healthy).chain(faults.iter().flat_map(|&id| stories_of(id))).collect();
    let told = tell(protocol, &stories)?;
    let shown: Vec<Distance> = told.iter().map(|p| distance(protocol, p, &told[0])).collect();
    let of = |id: FaultId| {
        told.iter().zip(&shown).filter(move |(p, _)| p.story.fault().is_some_and(|f| f.id == id))
    };
    let usual: Vec<(&Prediction, Distance)> = faults
        .iter()
        .filter_map(|&id| of(id).find(|(p, _)| level(p) == id.default_severity()))
        .map(|(p, d)| (p, *d))
        .collect();
    let cells = usual
        .iter()
        .map(|(first, shows)| {
            faults
                .iter()
                .map(|&b| {
                    let same = first.story.fault().is_some_and(|f| f.id == b);
                    if same || shows.best < TOLD_APART {
                        return None;
                    }
                    let others = of(b).filter(|(_, d)| d.best >= TOLD_APART).map(|(p, _)| p);
                    let (near, distance) = nearest(protocol, first, others)?;
                    Some(LookAlike { severity: Some(level(near)), distance })
                })
                .collect()
        })
        .collect();
    Ok(Matrix { faults: faults.to_vec(), shows: usual.iter().map(|(_, d)| *d).collect(), cells })
}

impl Matrix {
    /// Faults that show on no reading at their usual severity.
    pub fn silent(&self) -> Vec<(FaultId, Distance)> {
        let all = self.faults.iter().copied().zip(self.shows.iter().copied());
        all.filter(|(_, d)| d.best < TOLD_APART).collect()
    }
    /// Pairs that no reading tells apart, each once, in the direction in which they are nearest: the fault at its
    /// usual severity, and its look-alike.
    pub fn alike(&self) -> Vec<(FaultId, FaultId, LookAlike)> {
        let cell = |i: usize, j: usize| self.cells.get(i)?.get(j).copied().flatten();
        let best = |c: Option<LookAlike>| c.map_or(f64::INFINITY, |c| c.distance.best);
        let mut pairs = Vec::new();
        for i in 0..self.faults.len() {
            for j in i + 1..self.faults.len() {
                let (a, b) = if best(cell(i, j)) <= best(cell(j, i)) { (i, j) } else { (j, i) };
                if let Some(near) = cell(a, b).filter(|c| c.distance.best < TOLD_APART) {
                    pairs.push((self.faults[a], self.faults[b], near));
                }
            }
        }
        pairs
    }
}
