//! Scenarios the desk can open: those embedded in the program, then the author's files in a folder
//! `scenarios` beside where it was started, broken ones with their reason.

use crate::instrument::Tool;
use crate::rig::Rig;
use crate::scenario::{Mode, SHIPPED, Scenario, load};

/// More files than this are not listed.
const MOST_FILES: usize = 200;

/// One scenario file of the start list.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// What [`Command::OpenScenario`](crate::desk::Command::OpenScenario) takes: id or path.
    pub key: String,
    /// What the list says of it, or why the file is broken.
    pub case: Result<Case, String>,
}

/// A scenario as the start list tells it: nothing of what is wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// Short name.
    pub id: String,
    /// Title for people.
    pub title: String,
    /// Course unit it belongs to.
    pub unit: String,
    /// What it trains, one sentence.
    pub trains: String,
    /// Everything open, or something to find.
    pub mode: Mode,
    /// Rig by id.
    pub rig: String,
}

impl Case {
    /// Of a scenario.
    pub fn of(scenario: &Scenario) -> Self {
        Self {
            id: scenario.id.clone(),
            title: scenario.title.clone(),
            unit: scenario.unit.clone(),
            trains: scenario.trains.clone(),
            mode: scenario.mode,
            rig: scenario.rig.clone(),
        }
    }
}

/// Everything on the start list.
pub fn list() -> Vec<Listed> {
    let shipped = SHIPPED.iter().map(|s| listed(s.id));
    let mut all: Vec<Listed> = shipped.collect();
    // By course unit, in the order they are shipped within one.
    all.sort_by_key(|l| l.case.as_ref().map_or_else(|_| String::new(), |s| s.unit.clone()));
    let known: Vec<String> = all.iter().filter_map(|l| l.case.as_ref().ok().map(|s| s.id.clone())).collect();
    let mut files: Vec<_> = std::fs::read_dir("scenarios")
        .into_iter()
        .flatten()
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .take(MOST_FILES)
        .collect();
    files.sort();
    for path in files {
        let file = listed(&path.display().to_string());
        // A copy of a shipped file, as in the project's own folder, stands on the list already.
        if !file.case.as_ref().is_ok_and(|case| known.contains(&case.id)) {
            all.push(file);
        }
    }
    all
}

fn listed(key: &str) -> Listed {
    Listed { key: key.to_owned(), case: open(key).map(|scenario| Case::of(&scenario)) }
}

/// The scenario behind an id or a path, or why not.
pub fn open(key: &str) -> Result<Scenario, String> {
    load(key).map_err(|bad| bad.to_string())
}

/// A scenario on another rig; on its own rig as it is. `told` gives it id, title and the first words of its work order there.
fn on_rig(base: Scenario, id: &str, told: impl Fn(&Rig) -> [String; 3]) -> Result<Scenario, String> {
    let rig = Rig::load(id).map_err(|bad| bad.to_string())?;
    if base.rig == rig.id {
        return Ok(base);
    }
    let [id, title, work] = told(&rig);
    let work_order = format!("{work}: {}.", rig.words.trim_end_matches('.'));
    Ok(Scenario { id, title, work_order, rig: rig.id, ..base })
}

/// The healthy scenario on another rig: everything open, nothing wrong.
pub fn explore(id: &str) -> Result<Scenario, String> {
    let open = Scenario { tools: Tool::ALL.into(), ..super::demo::scenario() };
    on_rig(open, id, |rig| {
        [
            format!("explore_{}", rig.id),
            format!("{} without a fault", rig.name),
            "Look round and write down what normal looks like on this rig".into(),
        ]
    })
}

/// The open service bay on another rig.
pub fn explore_bay(id: &str) -> Result<Scenario, String> {
    on_rig(open("bay_open_bench")?, id, |rig| {
        [
            format!("bay_{}", rig.id),
            format!("{} in the service bay", rig.name),
            "Hook up, take the charge out, put it back, and account for every gram. Nothing is wrong with this rig".into(),
        ]
    })
}
