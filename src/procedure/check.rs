//! What RON cannot check in an action file: names, times, which fields go together.

use super::row::whole;
use super::{Procedure, Quantity, Step, Turn};
use crate::bench::Action;
use crate::knobs::out_of_range;
use crate::lesson::cautions;
use crate::message::{WORD, fault_in_text, fit, number};
use crate::scenario::SHIPPED;
use crate::scenario::check::Finding;
use crate::scenario::nearest::hint;

/// Version of the format this program reads.
pub const FORMAT: u32 = 1;
/// Longest time a step may take or wait [s]: a day.
const LONGEST_S: f64 = 86_400.0;
/// Most steps of a file; nobody follows more.
const MOST_STEPS: usize = 200;
/// Most entries of each list of a step.
const MOST_ENTRIES: usize = 100;
/// Longest text [characters].
const LONGEST_TEXT: usize = 2_000;

/// Everything wrong with an action file; empty when it can be played.
pub fn validate(procedure: &Procedure) -> Vec<Finding> {
    let mut found = Findings(Vec::new());
    found.names(procedure);
    if procedure.steps.is_empty() || procedure.steps.len() > MOST_STEPS {
        found.add("steps", format!("a procedure has 1 to {MOST_STEPS} steps"), None);
    }
    let mut at_s = 0.0;
    for (i, step) in procedure.steps.iter().take(MOST_STEPS).enumerate() {
        let path = format!("steps[{i}]");
        found.step(&path, step);
        if let Some(at) = step.at_s {
            if at < at_s {
                found.add(
                    &format!("{path}.at_s"),
                    format!("{} s comes before {} s", number(at), number(at_s)),
                    None,
                );
            }
            at_s = at;
        }
    }
    found.0
}

struct Findings(Vec<Finding>);

impl Findings {
    fn add(&mut self, path: &str, reason: impl Into<String>, hint: Option<String>) {
        self.0.push(Finding { path: path.to_owned(), reason: reason.into(), hint });
    }

    fn words(&mut self, path: &str, text: &str) {
        if text.trim().is_empty() {
            self.add(path, "it says nothing", None);
        }
        if let Some(reason) = fault_in_text(text, LONGEST_TEXT) {
            self.add(path, reason, None);
        }
    }

    fn seconds(&mut self, path: &str, value: f64) {
        if let Some(reason) = out_of_range(value, "s", 0.0, LONGEST_S) {
            self.add(path, reason, None);
        }
    }

    fn names(&mut self, procedure: &Procedure) {
        if procedure.format != FORMAT {
            let reason = format!("format {} is not known; this program reads {FORMAT}", procedure.format);
            self.add("format", reason, None);
        }
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
        if procedure.id.is_empty() || procedure.id.len() > 60 || !procedure.id.chars().all(plain) {
            self.add("id", "an id is 1 to 60 small letters, digits and underscores", None);
        }
        self.words("title", &procedure.title);
        self.words("when", &procedure.when);
        self.words("needs", &procedure.needs);
        let ids = SHIPPED.iter().map(|s| s.id);
        if !ids.clone().any(|id| id == procedure.scenario) {
            let reason = format!("there is no embedded scenario `{}`", fit(&procedure.scenario, WORD));
            self.add("scenario", reason, Some(hint(&procedure.scenario, ids)));
        }
        if let Err(reason) = whole(procedure) {
            self.add("after", reason, None);
        }
    }

    fn counts(&mut self, path: &str, step: &Step) {
        for (field, count) in [
            ("caution", step.caution.len()),
            ("do", step.acts.len()),
            ("refused", step.refused.len()),
            ("read", step.read.len()),
            ("work", step.work.len()),
            ("write", step.write.len()),
            ("expect", step.expect.len()),
        ] {
            if count > MOST_ENTRIES {
                let reason = format!("{count} entries; a step has at most {MOST_ENTRIES} of a kind");
                self.add(&format!("{path}.{field}"), reason, None);
            }
        }
    }

    fn step(&mut self, path: &str, step: &Step) {
        self.words(&format!("{path}.say"), &step.say);
        self.words(&format!("{path}.why"), &step.why);
        self.counts(path, step);
        for (i, id) in step.caution.iter().take(MOST_ENTRIES).enumerate() {
            if cautions::by_id(id).is_none() {
                let ids = cautions::ALL.into_iter().map(|caution| caution.id);
                let reason = format!("there is no caution `{}`", fit(id, WORD));
                self.add(&format!("{path}.caution[{i}]"), reason, Some(hint(id, ids)));
            }
        }
        for (field, acts) in [("do", &step.acts), ("refused", &step.refused)] {
            for (i, act) in acts.iter().enumerate() {
                if matches!(act, Action::Stopped(_)) {
                    let reason = "`stopped` is written by the bench itself, nobody does it";
                    self.add(&format!("{path}.{field}[{i}]"), reason, None);
                }
            }
        }
        if let Some(at_s) = step.at_s {
            self.seconds(&format!("{path}.at_s"), at_s);
        }
        self.seconds(&format!("{path}.wait_s"), step.wait_s);
        if let Some(until) = &step.until {
            let path = format!("{path}.until");
            self.seconds(&format!("{path}.at_most_s"), until.at_most_s);
            match until.turn() {
                None => self.add(&path, "give one of below, above, falls_by, rises_by", None),
                Some(Turn::Below(v) | Turn::Above(v)) if v.is_finite() => {}
                Some(Turn::FallsBy(v) | Turn::RisesBy(v)) if v.is_finite() && v > 0.0 => {}
                Some(turn) => self.add(&path, format!("{} is nothing to wait for", turn.words()), None),
            }
        }
        for (i, expect) in step.expect.iter().enumerate() {
            // Not-a-number fails this too.
            if !(expect.from.is_finite() && expect.to.is_finite() && expect.from <= expect.to) {
                let reason = format!("nothing lies from {} to {}", number(expect.from), number(expect.to));
                self.add(&format!("{path}.expect[{i}]"), reason, None);
            }
        }
        for (i, (_, of)) in step.write.iter().enumerate() {
            if matches!(of, Quantity::Ledger(_)) {
                let reason = "nobody at the car sees the ledger: write what an instrument shows";
                self.add(&format!("{path}.write[{i}]"), reason, None);
            }
        }
        let empty = step.acts.is_empty()
            && step.refused.is_empty()
            && step.wait_s == 0.0
            && step.until.is_none()
            && step.read.is_empty()
            && step.work.is_empty()
            && step.write.is_empty()
            && step.expect.is_empty();
        if empty {
            self.add(
                path,
                "this step does nothing",
                Some("give it `do`, `wait_s`, `until` or `read`".into()),
            );
        }
    }
}
