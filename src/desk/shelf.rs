//! Scenarios the desk can open: those embedded in the program, then the author's files in a folder
//! `scenarios` beside where it was started, broken ones with their reason.

use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use super::errand::Errand;
use crate::instrument::Tool;
use crate::rig::Rig;
use crate::scenario::{Mode, SHIPPED, Scenario, load};

/// The author's folder.
const FOLDER: &str = "scenarios";
/// More files than this are not listed.
const MOST_FILES: usize = 200;
/// More entries of the folder than this are not looked at.
const MOST_ENTRIES: usize = 20_000;

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

/// The start list. Scenarios that are embedded stand on it from the beginning; files of the folder follow when a thread of its
/// own has read them, for two hundred broken ones, or one on a slow disk, must not keep the window from opening.
pub struct Shelf {
    folder: PathBuf,
    listed: Vec<Listed>,
    coming: Errand<Vec<Listed>>,
    /// The list was on the screen when last asked; none before the first time.
    looked_at: Option<bool>,
}

impl Default for Shelf {
    fn default() -> Self {
        Self::of(Path::new(FOLDER))
    }
}

impl Shelf {
    /// With the files of a folder, which is not read yet.
    pub fn of(folder: &Path) -> Self {
        Self {
            folder: folder.to_owned(),
            listed: shipped().to_vec(),
            coming: Errand::default(),
            looked_at: None,
        }
    }
    /// What stands on it.
    pub fn listed(&self) -> &[Listed] {
        &self.listed
    }
    /// Take what has been read, and never wait for it. The folder is read once in the beginning, and again each time that the
    /// list comes on the screen, since who writes scenarios mends them beside the desk.
    pub fn collect(&mut self, looked_at: bool) {
        if self.looked_at.replace(looked_at).is_none_or(|before| looked_at && !before)
            && self.coming.share().is_none()
        {
            let folder = self.folder.clone();
            // Nobody waits for it any more: the desk has gone.
            self.coming.start(move |effort| files(&folder).take_while(|_| !effort.is_given_up()).collect());
        }
        let Some(read) = self.coming.collect() else { return };
        self.listed = shipped().to_vec();
        match read {
            Ok(mut files) => self.listed.append(&mut files),
            Err(_) => self.listed.push(lost(&self.folder, "its files could not be read to the end")),
        }
    }
}

/// The embedded scenarios, by course unit, in the order they are shipped within one; read once.
fn shipped() -> &'static [Listed] {
    static LISTED: OnceLock<Vec<Listed>> = OnceLock::new();
    LISTED.get_or_init(|| {
        let mut all: Vec<Listed> = SHIPPED.iter().map(|s| listed(s.id)).collect();
        all.sort_by_key(|l| l.case.as_ref().map_or_else(|_| String::new(), |s| s.unit.clone()));
        all
    })
}

/// The scenario files of a folder by name, each as it is read. A copy of an embedded one, as in the project's own folder,
/// stands on the list already.
fn files(folder: &Path) -> impl Iterator<Item = Listed> {
    let (names, trouble) = names(folder);
    let more = names.len().saturating_sub(MOST_FILES);
    let told = (more > 0).then(|| lost(folder, &format!("{more} more files are not listed")));
    let embedded =
        |case: &Case| shipped().iter().filter_map(|l| l.case.as_ref().ok()).any(|known| known.id == case.id);
    let read = names.into_iter().take(MOST_FILES).map(|path| listed(&path.display().to_string()));
    read.filter(move |file| !file.case.as_ref().is_ok_and(embedded)).chain(told).chain(trouble)
}

/// Paths of the scenario files of a folder, sorted, and what kept others from being found.
fn names(folder: &Path) -> (Vec<PathBuf>, Option<Listed>) {
    let entries = match std::fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(e) if e.kind() == ErrorKind::NotFound => return (Vec::new(), None),
        Err(e) => return (Vec::new(), Some(lost(folder, &format!("the folder cannot be read: {e}")))),
    };
    let mut names: Vec<PathBuf> = entries
        .take(MOST_ENTRIES)
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .collect();
    names.sort();
    (names, None)
}

/// A line of the list that is no file: what of a folder is not on it.
fn lost(folder: &Path, why: &str) -> Listed {
    Listed { key: folder.display().to_string(), case: Err(why.to_owned()) }
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
    let rig = Rig::shipped(id).map_err(|bad| bad.to_string())?;
    if base.rig == rig.id {
        return Ok(base);
    }
    let [id, title, work] = told(rig);
    let work_order = format!("{work}: {}.", rig.words.trim_end_matches('.'));
    Ok(Scenario { id, title, work_order, rig: rig.id.clone(), ..base })
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

#[cfg(test)]
#[path = "shelf_tests.rs"]
mod tests;
