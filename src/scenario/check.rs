//! What RON cannot check: ranges, known names, order. All findings at once, not just the first.

use std::collections::BTreeSet;

use super::nearest::hint;
use super::{HiddenFault, Mode, Onset, Scenario};
use crate::bay::most_kg;
use crate::fault::FaultId;
use crate::instrument::Tool;
use crate::knobs::{Controls, Knob, out_of_range};
use crate::message::{WORD, fault_in_text, fit, number};
use crate::rig::Rig;

/// Version of the scenario format this program reads.
pub const FORMAT: u32 = 1;
/// Longest time a scenario may name [s]: a day.
const LONGEST_S: f64 = 86_400.0;
/// Most moments.
const MOST_MOMENTS: usize = 10_000;
/// Most hints; nobody takes more.
const MOST_HINTS: usize = 50;
/// Tasks there are.
const TASKS: usize = 21;
/// Longest line that stands in a list [characters].
const LONGEST_LINE: usize = 200;
/// Longest sentence or two [characters].
const LONGEST_SENTENCES: usize = 2_000;
/// Longest account [characters].
const LONGEST_ACCOUNT: usize = 20_000;

/// One thing wrong with a scenario that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Path of the field, such as `faults[0].severity`.
    pub path: String,
    /// What is wrong.
    pub reason: String,
    /// What may help.
    pub hint: Option<String>,
}

/// Everything wrong with a scenario; empty when it can be used.
pub fn validate(scenario: &Scenario) -> Vec<Finding> {
    let mut found = Findings(Vec::new());
    found.counts(scenario);
    found.names(scenario);
    found.texts(scenario);
    found.start(&scenario.start);
    found.range("comes_on_after_s", scenario.comes_on_after_s, "s", 0.0, LONGEST_S);
    found.moments(scenario);
    let rig = Rig::shipped(&scenario.rig).ok();
    found.bay(scenario, rig);
    for (index, fault) in scenario.faults.iter().take(FaultId::COUNT).enumerate() {
        if rig.is_some_and(|rig| !fault.id.info().applies_to(rig)) {
            let reason =
                format!("the rig `{}` cannot have the fault `{}`", scenario.rig, fault.id.info().key);
            let help = format!("`pintle faults --rig {}` lists those that it can have", scenario.rig);
            found.add(&format!("faults[{index}].id"), reason, Some(help));
        }
        let earlier = &scenario.faults[..index];
        found.fault(&format!("faults[{index}]"), fault, earlier.iter().any(|other| other.id == fault.id));
    }
    found.learner(scenario);
    found.0
}

struct Findings(Vec<Finding>);

impl Findings {
    fn add(&mut self, path: &str, reason: impl Into<String>, hint: Option<String>) {
        self.0.push(Finding { path: path.to_owned(), reason: reason.into(), hint });
    }

    fn range(&mut self, path: &str, value: f64, unit: &'static str, min: f64, max: f64) {
        if let Some(reason) = out_of_range(value, unit, min, max) {
            self.add(path, reason, None);
        }
    }

    fn names(&mut self, scenario: &Scenario) {
        if scenario.format != FORMAT {
            self.add(
                "format",
                format!("format {} is not known; this program reads {FORMAT}", scenario.format),
                None,
            );
        }
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
        if scenario.id.is_empty() || scenario.id.len() > 60 || !scenario.id.chars().all(plain) {
            let reason = "an id is 1 to 60 small letters, digits and underscores";
            self.add("id", reason, Some("for example warm_at_the_lights".into()));
        }
        let task_ids: Vec<String> = (1..=TASKS).map(|n| format!("T{n}")).collect();
        let unknown = |(_, task): &(usize, &String)| !task_ids.contains(task);
        for (index, task) in scenario.tasks.iter().take(TASKS).enumerate().filter(unknown) {
            let help = hint(task, task_ids.iter().map(String::as_str));
            self.add(&format!("tasks[{index}]"), format!("unknown task `{}`", fit(task, WORD)), Some(help));
        }
        if !Rig::ids().any(|id| id == scenario.rig) {
            let known: Vec<&str> = Rig::ids().collect();
            let help = hint(&scenario.rig, known.iter().copied());
            self.add("rig", format!("unknown rig `{}`", fit(&scenario.rig, WORD)), Some(help));
        }
    }

    /// What is beyond a count is not looked at.
    fn counts(&mut self, scenario: &Scenario) {
        for (path, count, most) in [
            ("tasks", scenario.tasks.len(), TASKS),
            ("moments", scenario.moments.len(), MOST_MOMENTS),
            ("faults", scenario.faults.len(), FaultId::COUNT),
            ("tools", scenario.tools.len(), Tool::ALL.len()),
            ("accepted_causes", scenario.accepted_causes.len(), FaultId::COUNT),
            ("hints", scenario.hints.len(), MOST_HINTS),
        ] {
            if count > most {
                self.add(path, format!("{count} entries; at most {most} are read"), None);
            }
        }
    }

    fn texts(&mut self, scenario: &Scenario) {
        for (path, text, most) in [
            ("title", &scenario.title, LONGEST_LINE),
            ("unit", &scenario.unit, LONGEST_LINE),
            ("trains", &scenario.trains, LONGEST_SENTENCES),
            ("work_order", &scenario.work_order, LONGEST_SENTENCES),
        ] {
            if text.trim().is_empty() {
                self.add(path, format!("`{path}` must not be empty"), None);
            }
            self.text(path, text, most);
        }
        self.text("debrief", &scenario.debrief, LONGEST_ACCOUNT);
        for (index, text) in scenario.hints.iter().take(MOST_HINTS).enumerate() {
            let path = format!("hints[{index}]");
            if text.trim().is_empty() {
                self.add(&path, "a hint must not be empty", None);
            }
            self.text(&path, text, LONGEST_SENTENCES);
        }
    }

    fn text(&mut self, path: &str, text: &str, most: usize) {
        if let Some(reason) = fault_in_text(text, most) {
            self.add(path, reason, None);
        }
    }

    /// Amounts in the vessels of the bay: nothing less than nothing, and no cylinder fuller than it may be.
    fn bay(&mut self, scenario: &Scenario, rig: Option<&Rig>) {
        let Some((setup, rig)) = scenario.bay.zip(rig) else { return };
        for (field, vessel, kg) in setup.given() {
            self.range(&format!("bay.{field}"), kg, "kg", 0.0, most_kg(vessel, rig));
        }
    }

    fn start(&mut self, start: &Controls) {
        for knob in Knob::ALL.iter().map(|&knob| start.get(knob)) {
            if let Some(reason) = knob.fault_in_value() {
                self.add(&format!("start.{}", knob.key()), reason, None);
            }
        }
    }

    fn moments(&mut self, scenario: &Scenario) {
        let mut last = 0.0;
        for (index, moment) in scenario.moments.iter().take(MOST_MOMENTS).enumerate() {
            let path = format!("moments[{index}].at_s");
            if let Some(reason) = out_of_range(moment.at_s, "s", 0.0, LONGEST_S) {
                self.add(&path, reason, None);
            } else if moment.at_s < last {
                let reason = format!("moments are out of order: {} s comes after {last} s", moment.at_s);
                self.add(&path, reason, Some("sort them by at_s".into()));
            }
            last = moment.at_s.max(last);
            if let Some(reason) = moment.change.fault_in_value() {
                self.add(
                    &format!("moments[{index}].change"),
                    format!("{}: {reason}", moment.change.key()),
                    None,
                );
            }
        }
    }

    fn fault(&mut self, path: &str, fault: &HiddenFault, twice: bool) {
        let info = fault.id.info();
        if twice {
            self.add(&format!("{path}.id"), format!("the fault `{}` is given twice", info.key), None);
        }
        if let Some(reason) = fault.severity.and_then(|severity| severity_problem(fault.id, severity)) {
            self.add(&format!("{path}.severity"), reason, None);
        }
        let onset = format!("{path}.onset");
        match fault.onset {
            Onset::Start => {}
            Onset::AfterS(s) => self.range(&onset, s, "s", 0.0, LONGEST_S),
            Onset::WhenDischargeAboveC(c) => self.range(&onset, c, "°C", -20.0, 150.0),
            Onset::WhenSlowerThanKmh(v) => self.range(&onset, v, "km/h", 0.1, 180.0),
        }
        self.range(&format!("{path}.grows_over_s"), fault.grows_over_s, "s", 0.0, LONGEST_S);
        if let Some(recurs) = fault.comes_and_goes {
            let path = format!("{path}.comes_and_goes");
            for (value, unit, min, max) in recurs.numbers() {
                self.range(&path, value, unit, min, max);
            }
            if fault.id.is_contents() {
                let reason = format!("what is in the loop does not come and go: {}", fault.id.info().name);
                self.add(&path, reason, None);
            }
            if fault.grows_over_s > 0.0 {
                self.add(&path, "a fault that grows cannot come and go as well", None);
            }
        }
    }

    fn learner(&mut self, scenario: &Scenario) {
        let mut seen = BTreeSet::new();
        for (index, &tool) in scenario.tools.iter().take(Tool::ALL.len()).enumerate() {
            if !seen.insert(tool) {
                self.add(
                    &format!("tools[{index}]"),
                    format!("the tool `{}` is given twice", tool.name()),
                    None,
                );
            }
        }
        let no_cause = scenario.accepted_causes.is_empty();
        if scenario.nothing_wrong && !(no_cause && scenario.faults.is_empty()) {
            self.add("nothing_wrong", "with nothing wrong there is no fault and no accepted cause", None);
        } else if scenario.mode == Mode::Practice && no_cause && !scenario.nothing_wrong {
            let help = Some("or `nothing_wrong: true`".into());
            self.add("accepted_causes", "a practice scenario needs at least one accepted cause", help);
        }
    }
}

/// Why a severity is not allowed for a fault, if it is not.
pub fn severity_problem(id: FaultId, severity: f64) -> Option<String> {
    let info = id.info();
    match info.severity {
        Some(s) => out_of_range(severity, "", s.min, s.max)
            .map(|reason| format!("severity of {}: {reason} ({})", info.key, s.meaning)),
        None => (!id.accepts(severity)).then(|| {
            format!("severity of {}: {} is not 1; this fault is there or not", info.key, number(severity))
        }),
    }
}
