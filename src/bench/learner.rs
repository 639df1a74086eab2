//! What a learner thinks: suspect cards, hints taken, the answer. Nothing of it touches the rig.

use serde::Serialize;

use super::action::{Action, Diagnosis, Standing};
use super::refusal::{Refusal, in_range, no};
use crate::fault::Group;

/// Longest note [characters].
const NOTE_CHARS: usize = 2000;

/// The learner at a bench.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Learner {
    suspects: [Standing; Group::ALL.len()],
    diagnosis: Option<Diagnosis>,
    hints_taken: usize,
}

impl Learner {
    /// The answer, once given.
    pub fn diagnosis(&self) -> Option<&Diagnosis> {
        self.diagnosis.as_ref()
    }
    /// The cards.
    pub fn suspects(&self) -> impl Iterator<Item = (Group, Standing)> {
        Group::ALL.iter().copied().zip(self.suspects)
    }

    /// Does it make sense, with so many readings in the notebook and so many hints in the scenario?
    pub fn check(&self, action: &Action, readings: usize, hints: usize) -> Result<(), Refusal> {
        match action {
            Action::Diagnose(d) => {
                if d.evidence.is_empty() || d.evidence.iter().any(|&i| i >= readings) {
                    return no("name at least one notebook reading as evidence");
                }
                if d.evidence.len() > readings {
                    return no("each notebook reading is evidence once");
                }
                if d.because.chars().count() > NOTE_CHARS {
                    return no(format!("the reasons may have {NOTE_CHARS} characters at most"));
                }
                in_range("confidence", d.confidence, 0.0, 1.0, "")
            }
            Action::Hint if self.hints_taken >= hints => no("there are no more hints"),
            Action::Note(text) if text.chars().count() > NOTE_CHARS => {
                no(format!("a note may have {NOTE_CHARS} characters at most"))
            }
            _ => Ok(()),
        }
    }
    /// Take it down. Notes and hints stand in the journal.
    pub fn carry_out(&mut self, action: &Action) {
        match action {
            Action::Hint => self.hints_taken += 1,
            Action::Suspect { group, standing } => {
                if let Some(i) = Group::ALL.iter().position(|g| g == group) {
                    self.suspects[i] = *standing;
                }
            }
            Action::Diagnose(d) => self.diagnosis = Some(d.clone()),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hints_run_out_and_an_answer_needs_evidence() {
        let mut learner = Learner::default();
        assert!(learner.check(&Action::Hint, 0, 1).is_ok());
        learner.carry_out(&Action::Hint);
        assert!(learner.check(&Action::Hint, 0, 1).is_err());
        let answer = |evidence, confidence| {
            Action::Diagnose(Diagnosis { cause: None, evidence, confidence, because: String::new() })
        };
        assert!(learner.check(&answer(vec![], 0.5), 3, 0).is_err(), "no evidence");
        assert!(learner.check(&answer(vec![3], 0.5), 3, 0).is_err(), "no such reading");
        assert!(learner.check(&answer(vec![2], 1.5), 3, 0).is_err(), "surer than sure");
        assert!(learner.check(&answer(vec![2], 0.5), 3, 0).is_ok());
        assert!(learner.check(&answer(vec![2; 4], 0.5), 3, 0).is_err(), "one reading four times");
        assert!(learner.check(&answer(vec![2], f64::NAN), 3, 0).is_err());
        let because = "x".repeat(NOTE_CHARS + 1);
        let long = Action::Diagnose(Diagnosis { cause: None, evidence: vec![0], confidence: 0.5, because });
        assert!(learner.check(&long, 3, 0).is_err(), "a book of reasons");
    }

    #[test]
    fn a_card_moves_alone() {
        let mut learner = Learner::default();
        let group = Group::ALL[1];
        learner.carry_out(&Action::Suspect { group, standing: Standing::Cleared });
        let moved: Vec<Group> =
            learner.suspects().filter(|(_, s)| *s != Standing::Open).map(|(g, _)| g).collect();
        assert_eq!(moved, [group]);
    }
}
