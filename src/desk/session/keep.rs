//! Never lose a learner's work: every act goes to a journal of the session as it is made.

use std::collections::hash_map::RandomState;
use std::hash::{BuildHasher, Hasher};
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use crate::bench::Bench;
use crate::desk::kept::{self, Keeping};
use crate::record::{Journal, Maker};

/// Wall time between two notes of how far time went, and between two tries where writing failed [s].
const EVERY_S: f64 = 5.0;

/// Keeps one session.
#[derive(Debug)]
pub struct Keeper {
    place: Keeping,
    id: String,
    journal: Option<(PathBuf, Journal)>,
    /// Acts that were done when the session was taken up: they are kept already.
    kept: usize,
    /// The file that this session was taken up from; it goes once the new one holds all of it.
    from: Option<PathBuf>,
    earlier: Vec<Maker>,
    waited_s: f64,
    trouble: Option<String>,
    left: bool,
}

impl Keeper {
    /// A keeper for a session that begins now; nothing is written before something was done.
    pub fn new(place: Keeping, scenario_id: &str) -> Self {
        // Ids are checked words, but a path must not depend on that.
        let id = scenario_id.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '_').take(40).collect();
        let (journal, from, trouble) = (None, None, None);
        Self { place, id, journal, kept: 0, from, earlier: Vec::new(), waited_s: 0.0, trouble, left: false }
    }

    /// For a session that was taken up with so many acts in it; `earlier` names programs with another model that worked on
    /// it. The file it came from, if given, goes once a new one holds all of it and more.
    pub fn go_on(&mut self, acts: usize, from: Option<PathBuf>, earlier: Vec<Maker>) {
        (self.kept, self.from, self.earlier) = (acts, from, earlier);
    }

    /// Where sessions are kept.
    pub fn place(&self) -> &Keeping {
        &self.place
    }

    /// The file being written.
    pub fn file(&self) -> Option<&Path> {
        self.journal.as_ref().map(|(path, _)| path.as_path())
    }

    /// Why the session is not being kept now, as a lasting word for the person.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// Something may have been done: write it down.
    pub fn follow(&mut self, bench: &Bench) {
        if self.trouble.is_none() {
            self.write(bench, Journal::follow);
        }
    }

    /// Wall time passes.
    pub fn pass(&mut self, wall_s: f64, bench: &Bench) {
        self.waited_s += wall_s;
        if self.waited_s >= EVERY_S {
            self.waited_s = 0.0;
            self.write(bench, Journal::note_time);
        }
    }

    /// The session is left in order.
    pub fn leave(&mut self, bench: &Bench) {
        let earlier = self.earlier.clone();
        if !std::mem::replace(&mut self.left, true) {
            self.write(bench, |journal, bench| journal.leave(bench, &earlier));
        }
    }

    fn write(&mut self, bench: &Bench, how: impl FnOnce(&mut Journal, &Bench) -> std::io::Result<()>) {
        if bench.journal().len() <= self.kept || self.place == Keeping::Off {
            return;
        }
        match self.begun(bench).and_then(|(_, journal)| how(journal, bench)) {
            Ok(()) => {
                self.trouble = None;
                if let Some(old) = self.from.take() {
                    // Twice on the list is better than not at all.
                    let _ = std::fs::remove_file(old);
                }
            }
            Err(error) => {
                self.trouble = Some(format!(
                    "This session is not being kept: {error}. You can work on; keeping goes on as soon as it can."
                ));
            }
        }
    }

    /// The journal, begun if need be: somebody who clears the folder out does not end the keeping.
    fn begun(&mut self, bench: &Bench) -> std::io::Result<&mut (PathBuf, Journal)> {
        let journal = match self.journal.take().filter(|(path, _)| path.exists()) {
            Some(journal) => journal,
            None => {
                let Some(folder) = self.place.folder() else {
                    return Err(std::io::Error::other("this account has no folder for data"));
                };
                std::fs::create_dir_all(folder)?;
                kept::make_room(folder);
                let path = folder.join(name(&self.id));
                let journal = Journal::begin(&path, bench, &self.earlier)?;
                (path, journal)
            }
        };
        Ok(self.journal.insert(journal))
    }
}

/// A name that no other window takes: when, which process, and chance.
fn name(id: &str) -> String {
    #[expect(clippy::disallowed_methods, reason = "the date only names a file, so that sessions sort by age")]
    let now = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs());
    let chance = RandomState::new().build_hasher().finish() & 0xffff;
    format!("{now}-{}-{chance:04x}-{id}.session", std::process::id())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::Action;
    use crate::desk::demo;
    use crate::effort::Effort;
    use crate::knobs::Change;
    use crate::record::{Record, reopen};

    fn folder(name: &str) -> PathBuf {
        std::env::temp_dir().join(format!("pintle-{name}-{}", std::process::id()))
    }

    fn files(folder: &Path) -> Vec<PathBuf> {
        std::fs::read_dir(folder).into_iter().flatten().filter_map(|e| Some(e.ok()?.path())).collect()
    }

    #[test]
    fn a_kept_session_is_taken_up_where_it_was_left() {
        let folder = folder("keep");
        let mut keeper = Keeper::new(Keeping::In(folder.clone()), "healthy");
        let mut bench = Bench::new(&demo::scenario(), 3).unwrap();
        bench.advance(40);
        keeper.follow(&bench);
        assert!(files(&folder).is_empty(), "nothing was done yet");
        bench.apply(Action::Set(Change::BlowerPct(50.0))).unwrap();
        keeper.follow(&bench);
        let [file] = files(&folder).try_into().unwrap();
        assert_eq!(Record::read(&file).unwrap().actions, bench.journal());
        bench.advance(40);
        keeper.pass(6.0, &bench);
        let record = Record::read(&file).unwrap();
        let taken = reopen(&record, &Effort::default()).unwrap();
        assert_eq!((taken.bench.state_hash(), taken.parting), (bench.state_hash(), None));
        // Whoever goes on writes a new file with all of it, and the old one goes.
        let mut keeper = Keeper::new(Keeping::In(folder.clone()), "healthy");
        keeper.go_on(1, Some(file.clone()), Vec::new());
        keeper.pass(6.0, &taken.bench);
        assert_eq!(files(&folder), std::slice::from_ref(&file));
        bench.apply(Action::Note("on".into())).unwrap();
        keeper.follow(&bench);
        let [new] = files(&folder).try_into().unwrap();
        assert_ne!(new, file);
        keeper.leave(&bench);
        assert_eq!(Record::read(&new).unwrap(), Record::of(&bench, &[]).unwrap());
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn windows_of_one_second_have_files_of_their_own() {
        let names: std::collections::BTreeSet<String> = (0..50).map(|_| name("healthy")).collect();
        assert!(names.len() > 40, "{}", names.len());
    }

    /// Where nothing can be written the person is told as long as it lasts, and nothing is lost once it can.
    #[test]
    fn keeping_resumes_when_it_can() {
        let folder = folder("resumes");
        // A file stands where the folder should be.
        std::fs::write(&folder, "in the way").unwrap();
        let mut keeper = Keeper::new(Keeping::In(folder.clone()), "healthy");
        let mut bench = Bench::new(&demo::scenario(), 3).unwrap();
        bench.apply(Action::Note("one".into())).unwrap();
        keeper.follow(&bench);
        assert!(keeper.trouble().is_some_and(|t| t.starts_with("This session is not being kept")));
        bench.apply(Action::Note("two".into())).unwrap();
        keeper.follow(&bench);
        std::fs::remove_file(&folder).unwrap();
        keeper.pass(6.0, &bench);
        assert_eq!(keeper.trouble(), None);
        assert_eq!(Record::read(keeper.file().unwrap()).unwrap().actions.len(), 2);
        // Somebody clears the folder out.
        std::fs::remove_dir_all(&folder).unwrap();
        bench.apply(Action::Note("three".into())).unwrap();
        keeper.follow(&bench);
        assert_eq!(Record::read(keeper.file().unwrap()).unwrap().actions.len(), 3);
        std::fs::remove_dir_all(folder).unwrap();
        let mut homeless = Keeper::new(Keeping::Nowhere, "healthy");
        homeless.follow(&bench);
        assert!(homeless.trouble().is_some_and(|t| t.contains("no folder for data")));
    }
}
