//! The debrief of a session: plain data, drawn and printed as it stands. It is worked out in `debrief/review.rs` from the
//! session itself (`readings.rs`: what each reading says; `inside.rs`: what the loop looked like; `acts.rs`: what was
//! unsafe or a mistake) and, where there is one, from the work in the service bay (`bay.rs`).

pub mod acts;
mod bay;
mod inside;
mod readings;
mod review;

pub use bay::{bay_review, checked};
pub use review::review;

use serde::{Deserialize, Serialize};

pub use crate::diagnosis::Hypothesis;
use crate::fault::Fault;
use crate::instrument::Reading;

/// One reading set against what each story predicts. Values are SI, as in [`Reading::value`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DebriefLine {
    /// The reading as it was written down.
    pub reading: Reading,
    /// What a healthy loop would have shown.
    pub healthy: f64,
    /// What the cause the learner named would have shown.
    pub named: f64,
    /// What the true cause predicts.
    pub truth: f64,
    /// Standard deviation of the reading about a prediction.
    pub sigma: f64,
    /// The learner gave it as evidence.
    pub used_as_evidence: bool,
    /// What it says, in words; may be empty.
    #[serde(default)]
    pub note: String,
}

impl DebriefLine {
    /// How many standard deviations the reading lies from a prediction, with sign.
    pub fn deviations(&self, prediction: f64) -> f64 {
        (self.reading.value - prediction) / self.sigma.max(f64::MIN_POSITIVE)
    }
}

/// How sure the readings alone make a careful reader of a hypothesis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Belief {
    /// Which story.
    pub hypothesis: Hypothesis,
    /// Its share, 0 to 1; all shares sum to 1.
    pub share: f64,
}

/// Everything the debrief screen shows.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Debrief {
    /// The learner named an accepted cause.
    pub verdict_right: bool,
    /// The cause the learner named.
    pub named: Hypothesis,
    /// How sure the learner was, 0 to 1.
    pub confidence: f64,
    /// The learner's own reason.
    pub because: String,
    /// What was wrong with the car; empty when nothing was.
    pub truth: Vec<Fault>,
    /// Each reading against each story.
    pub lines: Vec<DebriefLine>,
    /// What the readings alone allow to believe, likeliest first.
    pub belief: Vec<Belief>,
    /// What the inside looked like, a line each.
    pub inside: Vec<String>,
    /// Cautions that were breached, in words.
    pub cautions: Vec<String>,
    /// Mistakes made with tools, in words.
    #[serde(default)]
    pub mistakes: Vec<String>,
    /// How the work in the service bay went, in words.
    #[serde(default)]
    pub bay: Vec<String>,
    /// The author's words.
    pub scenario_debrief: String,
    /// What each repair came to, in words.
    #[serde(default)]
    pub repairs: Vec<String>,
    /// Good parts that were replaced.
    #[serde(default)]
    pub parts_replaced: usize,
    /// Steps of the model that did not solve, in words; what was read near them is in doubt.
    #[serde(default)]
    pub unsolved: Vec<String>,
    /// What was done and when [s].
    pub timeline: Vec<(f64, String)>,
}

/// Share of belief from which an answer counts as reasoned rather than guessed. Common practice, no source.
const REASONED: f64 = 0.8;

impl Debrief {
    /// Share of belief the readings alone give the named cause.
    pub fn carried(&self) -> f64 {
        let named = |b: &&Belief| b.hypothesis == self.named;
        self.belief.iter().find(named).map_or(0.0, |b| b.share)
    }
    /// Was the answer reasoned, or a guess? In a sentence.
    pub fn reasoning(&self) -> String {
        let share = format!("{:.0} %", 100.0 * self.carried());
        let rival = self.belief.iter().find(|b| b.hypothesis != self.named);
        match (self.verdict_right, self.carried() >= REASONED) {
            (true, true) => format!("Your readings alone make it {share} likely: that was reasoned."),
            (true, false) => {
                let rival = rival.map_or("another cause", |b| b.hypothesis.name()).to_lowercase();
                format!(
                    "But your readings alone make it only {share} likely: part of that was luck. \
                     Which reading would tell it from {rival}?"
                )
            }
            (false, _) => format!("Your readings alone make it {share} likely."),
        }
    }
}
