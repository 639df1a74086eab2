//! Scenarios the desk can open: those embedded in the program, then the author's files in a folder
//! `scenarios` beside where it was started, broken ones with their reason.

use super::view::Listed;
use crate::rig::Rig;
use crate::scenario::{SHIPPED, Scenario, Tool, load};

/// More files than this are not listed.
const MOST_FILES: usize = 200;

/// Everything on the start list.
pub fn list() -> Vec<Listed> {
    let shipped = SHIPPED.iter().map(|s| Listed { key: s.id.to_owned(), scenario: open(s.id) });
    let mut listed: Vec<Listed> = shipped.collect();
    // By course unit, in the order they are shipped within one.
    listed.sort_by_key(|l| l.scenario.as_ref().map_or_else(|_| String::new(), |s| s.unit.clone()));
    let known: Vec<String> =
        listed.iter().filter_map(|l| l.scenario.as_ref().ok().map(|s| s.id.clone())).collect();
    let mut files: Vec<_> = std::fs::read_dir("scenarios")
        .into_iter()
        .flatten()
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .take(MOST_FILES)
        .collect();
    files.sort();
    for path in files {
        let key = path.display().to_string();
        let scenario = open(&key);
        // A copy of a shipped file, as in the project's own folder, stands on the list already.
        if !scenario.as_ref().is_ok_and(|s| known.contains(&s.id)) {
            listed.push(Listed { key, scenario });
        }
    }
    listed
}

/// The scenario behind an id or a path, or why not.
pub fn open(key: &str) -> Result<Scenario, String> {
    load(key).map_err(|bad| bad.to_string())
}

/// The healthy scenario on another rig: everything open, nothing wrong.
pub fn explore(id: &str) -> Result<Scenario, String> {
    let rig = Rig::load(id).map_err(|bad| bad.to_string())?;
    let healthy = super::demo::scenario();
    if healthy.rig == rig.id {
        return Ok(Scenario { tools: Tool::ALL.into(), ..healthy });
    }
    Ok(Scenario {
        id: format!("explore_{}", rig.id),
        title: format!("{} without a fault", rig.name),
        work_order: format!(
            "Look round and write down what normal looks like on this rig: {}.",
            rig.words.trim_end_matches('.')
        ),
        rig: rig.id,
        tools: Tool::ALL.into(),
        ..healthy
    })
}

/// The open service bay on another rig.
pub fn explore_bay(id: &str) -> Result<Scenario, String> {
    let rig = Rig::load(id).map_err(|bad| bad.to_string())?;
    let bay = open("bay_open_bench")?;
    if bay.rig == rig.id {
        return Ok(bay);
    }
    Ok(Scenario {
        id: format!("bay_{}", rig.id),
        title: format!("{} in the service bay", rig.name),
        work_order: format!(
            "Hook up, take the charge out, put it back, and account for every gram. Nothing is wrong with this rig: {}.",
            rig.words.trim_end_matches('.')
        ),
        rig: rig.id,
        ..bay
    })
}
