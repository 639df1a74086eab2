//! Never lose a learner's work: the session is written to a file of its own while it goes on, and the newest one
//! can be taken up again. Files are ordinary records, so `pintle replay` reads them too.

use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use crate::bench::Bench;
use crate::record::new_file::Replace;
use crate::record::{NewFile, Record, replay};

/// Wall time between two writes while something was done [s].
const EVERY_S: f64 = 10.0;
/// A record of ours begins like this, so nothing else is ever written over.
const BEGINS: &str = "(\n    format: ";

/// Keeps one session, and knows the one that was kept before it.
#[derive(Debug)]
pub struct Keeper {
    last: Option<PathBuf>,
    path: Option<PathBuf>,
    written: usize,
    waited_s: f64,
}

/// Folder of kept sessions, where the system keeps a user's data: on Linux `$XDG_DATA_HOME/pintle/sessions`, else under
/// the home folder's `.local/share`.
fn folder() -> Option<PathBuf> {
    Some(directories::ProjectDirs::from("", "", "pintle")?.data_dir().join("sessions"))
}

impl Keeper {
    /// A keeper for a session that begins now; nothing is written before something was done.
    pub fn new(scenario_id: &str) -> Self {
        let name = |folder: PathBuf| {
            #[expect(
                clippy::disallowed_methods,
                reason = "the date only names a file, so that sessions sort by age"
            )]
            let now = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs());
            // Ids are checked words, but a path must not depend on that.
            let id: String = scenario_id.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '_').collect();
            folder.join(format!("{now}-{id}.ron"))
        };
        Self { last: newest(), path: folder().map(name), written: 0, waited_s: 0.0 }
    }

    /// There is a kept session that can be taken up again.
    pub fn has_last(&self) -> bool {
        self.last.is_some()
    }

    /// Take it up: it is played from its record. `None` where there is none.
    pub fn take_up_last(&self) -> Option<Result<Bench, String>> {
        self.last.as_deref().map(take_up)
    }

    /// Wall time passes. An error is told once, then keeping stops.
    pub fn pass(&mut self, wall_s: f64, bench: &Bench) -> Option<String> {
        self.waited_s += wall_s;
        if self.waited_s < EVERY_S {
            return None;
        }
        self.waited_s = 0.0;
        self.write(bench)
    }

    /// Write now, if something was done since the last time.
    pub fn write(&mut self, bench: &Bench) -> Option<String> {
        if bench.journal().len() == self.written {
            return None;
        }
        let path = self.path.as_ref()?;
        match save(path, bench) {
            Ok(()) => {
                self.written = bench.journal().len();
                None
            }
            Err(reason) => {
                self.path = None;
                Some(format!("this session cannot be kept: {reason}"))
            }
        }
    }
}

fn save(path: &Path, bench: &Bench) -> Result<(), String> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    }
    let file = NewFile::create(path, Replace::IfBeginsWith(BEGINS)).map_err(|e| e.to_string())?;
    Record::of(bench).write(file).map_err(|e| e.to_string())
}

/// The newest kept session, if there is one.
fn newest() -> Option<PathBuf> {
    let mut files: Vec<_> = std::fs::read_dir(folder()?)
        .ok()?
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .collect();
    files.sort();
    files.pop()
}

/// Take a kept session up again: it is played from its record.
///
/// # Errors
/// When the file is broken or the model has changed since.
fn take_up(path: &Path) -> Result<Bench, String> {
    let record = Record::read(path).map_err(|bad| bad.to_string())?;
    replay(&record).map_err(|e| format!("{}: {e}", path.display()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::Action;
    use crate::desk::demo;
    use crate::knobs::Change;

    #[test]
    fn a_kept_session_is_taken_up_where_it_was_left() {
        let folder = std::env::temp_dir().join(format!("pintle-keep-{}", std::process::id()));
        let path = folder.join("1-healthy.ron");
        let mut bench = Bench::new(&demo::scenario(), 3).unwrap();
        bench.advance(40);
        bench.apply(Action::Set(Change::BlowerPct(50.0))).unwrap();
        bench.advance(40);
        save(&path, &bench).unwrap();
        // A second write replaces the first, which is one of ours.
        save(&path, &bench).unwrap();
        assert_eq!(take_up(&path).unwrap().state_hash(), bench.state_hash());
        std::fs::write(&path, "my own notes").unwrap();
        assert!(save(&path, &bench).is_err(), "a foreign file is never written over");
        std::fs::remove_dir_all(folder).unwrap();
    }
}
