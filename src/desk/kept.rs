//! Work that was kept: the folder of sessions, what its list says of each, and the rule by which old ones go.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use crate::bench::{Action, TICK_S};
use crate::record::{self, HEAD_BYTES, Record};
use crate::units::clock;

/// So many sessions are kept; when a new one begins, the oldest ones beyond that go.
pub const MOST: usize = 200;
/// How the file of a session ends, and how it ended once.
const ENDINGS: [&str; 2] = ["session", "ron"];

/// A session of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// Its file.
    pub path: PathBuf,
    /// Title of the case; the name of the file where it cannot be read.
    pub title: String,
    /// How far it got, or why it cannot be taken up.
    pub progress: Result<String, String>,
    /// How long ago something was last written to it, in words.
    pub ago: String,
    /// An answer was handed in.
    pub handed_in: bool,
}

/// Whether and where sessions are kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// In this folder.
    In(PathBuf),
    /// They should be, but this account has no folder for data.
    Nowhere,
    /// They are not, as in tests.
    Off,
}

impl Keeping {
    /// Where the system keeps a user's data: on Linux `$XDG_DATA_HOME/pintle/sessions`, else under the home folder's
    /// `.local/share`.
    pub fn of_account() -> Self {
        match directories::ProjectDirs::from("", "", "pintle") {
            Some(dirs) => Self::In(dirs.data_dir().join("sessions")),
            None => Self::Nowhere,
        }
    }
    /// The folder, if there is one.
    pub fn folder(&self) -> Option<&Path> {
        if let Self::In(folder) = self { Some(folder) } else { None }
    }
    /// Some session lies there, at a glance.
    pub fn has_any(&self) -> bool {
        self.folder().is_some_and(|folder| !files(folder).is_empty())
    }
}

/// Files of sessions with the time they were last written, newest first.
fn files(folder: &Path) -> Vec<(SystemTime, PathBuf)> {
    let mut files: Vec<_> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| {
            let path = entry.ok()?.path();
            // Neither a folder nor a pipe is a session.
            let meta = fs::metadata(&path).ok().filter(fs::Metadata::is_file)?;
            let ours = path.extension().is_some_and(|e| ENDINGS.iter().any(|ending| e == *ending));
            ours.then(|| (meta.modified().unwrap_or(SystemTime::UNIX_EPOCH), path))
        })
        .collect();
    files.sort_by(|a, b| b.cmp(a));
    files
}

/// All sessions of the folder, newest first, but the one that is being written.
pub fn list(folder: &Path, but: Option<&Path>, now: SystemTime) -> Vec<Kept> {
    let files = files(folder).into_iter().filter(|(_, path)| Some(path.as_path()) != but);
    files.take(MOST).map(|(time, path)| told(path, time, now)).collect()
}

fn told(path: PathBuf, time: SystemTime, now: SystemTime) -> Kept {
    let ago = ago(now.duration_since(time).map_or(0, |d| d.as_secs()));
    match Record::read(&path) {
        Ok(record) => Kept {
            title: record.scenario.title.clone(),
            progress: Ok(progress(&record)),
            handed_in: handed_in(&record),
            ago,
            path,
        },
        Err(bad) => {
            let reason = match bad.problems.first() {
                Some(problem) if begins_like_ours(&path) => problem.reason.clone(),
                _ => "it is no session of this program".into(),
            };
            let name = path.file_name().unwrap_or_default().to_string_lossy().escape_debug().to_string();
            Kept {
                title: name,
                progress: Err(format!("cannot be opened: {reason}")),
                handed_in: false,
                ago,
                path,
            }
        }
    }
}

fn handed_in(record: &Record) -> bool {
    record.actions.iter().any(|(_, action)| matches!(action, Action::Diagnose(_)))
}

/// How far a session got.
fn progress(record: &Record) -> String {
    let of = |n: usize, one: &str, many: &str| match n {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let count = |is: fn(&Action) -> bool| record.actions.iter().filter(|(_, action)| is(action)).count();
    let readings = count(|a| matches!(a, Action::Read(_)));
    let notes = count(|a| matches!(a, Action::Note(_)));
    let parts = [
        Some(format!("{} worked", clock(record.ticks as f64 * TICK_S))),
        of(record.actions.len() - readings - notes, "act", "acts"),
        of(readings, "reading", "readings"),
        of(notes, "note", "notes"),
        handed_in(record).then(|| "answer handed in".into()),
        (!record.maker().is_this()).then(|| format!("by {}", record.maker())),
        record.left_out.clone(),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// A time that went by, in the words people use.
fn ago(s: u64) -> String {
    let of =
        |n: u64, one: &str, many: &str| if n == 1 { format!("{one} ago") } else { format!("{n} {many} ago") };
    match s {
        0..60 => "just now".into(),
        60..3_600 => of(s / 60, "a minute", "minutes"),
        3_600..86_400 => of(s / 3_600, "an hour", "hours"),
        _ => of(s / 86_400, "a day", "days"),
    }
}

/// Let the oldest sessions beyond [`MOST`] go, to make room for one more. What does not begin like one of ours is nobody's to
/// remove.
pub fn make_room(folder: &Path) {
    for (_, path) in files(folder).into_iter().skip(MOST - 1) {
        if begins_like_ours(&path) {
            // One that stays is listed no more, and that is all.
            let _ = fs::remove_file(path);
        }
    }
}

fn begins_like_ours(path: &Path) -> bool {
    use std::io::Read;
    let mut head = [0; HEAD_BYTES];
    let read = fs::File::open(path).and_then(|mut file| file.read_exact(&mut head));
    read.is_ok() && record::begins_like_one(&head)
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use super::*;
    use crate::bench::Bench;
    use crate::desk::demo;
    use crate::knobs::Change;
    use crate::record::Journal;

    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("pintle-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        folder
    }

    /// One bad, foreign, newer or huge file hides nobody's work.
    #[test]
    fn bad_files_stand_beside_good_ones() {
        let folder = folder("kept");
        let mut bench = Bench::new(&demo::scenario(), 1).unwrap();
        bench.apply(Action::Set(Change::EngineOn(false))).unwrap();
        bench.advance(1_300);
        bench.apply(Action::Note("quiet".into())).unwrap();
        Journal::begin(&folder.join("good.session"), &bench, &[]).unwrap();
        let good = fs::read_to_string(folder.join("good.session")).unwrap();
        fs::write(folder.join("torn.session"), &good[..good.len() - 9]).unwrap();
        fs::write(folder.join("foreign.session"), "my own notes").unwrap();
        fs::write(folder.join("newer.session"), good.replacen("(format:2", "(format:3", 1)).unwrap();
        fs::File::create(folder.join("huge.session")).unwrap().set_len(1 << 40).unwrap();
        fs::write(folder.join("other.txt"), "not listed").unwrap();
        fs::create_dir(folder.join("a folder.session")).unwrap();
        let list = list(&folder, None, SystemTime::UNIX_EPOCH + Duration::from_secs(1 << 40));
        let of = |name: &str| list.iter().find(|kept| kept.path.ends_with(name)).map(|k| k.progress.clone());
        assert_eq!(of("good.session"), Some(Ok("1:05 worked · 1 act · 1 note".into())));
        assert_eq!(of("torn.session"), Some(Ok("0:00 worked · 1 act".into())));
        for (name, word) in
            [("foreign", "no session"), ("newer", "format 3 is not known"), ("huge", "no session")]
        {
            let told = of(&format!("{name}.session")).unwrap().unwrap_err();
            assert!(told.contains(word), "{name}: {told}");
        }
        assert_eq!(list.len(), 5);
        fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn the_oldest_go_and_foreign_files_stay() {
        let folder = folder("room");
        let bench = Bench::new(&demo::scenario(), 1).unwrap();
        for n in 0..MOST + 5 {
            let path = folder.join(format!("{n:03}.session"));
            Journal::begin(&path, &bench, &[]).unwrap();
            let time = SystemTime::UNIX_EPOCH + Duration::from_secs(1_000_000 + n as u64);
            fs::File::options().write(true).open(path).unwrap().set_modified(time).unwrap();
        }
        let foreign = folder.join("mine.session");
        fs::write(&foreign, "my own notes of long ago").unwrap();
        fs::File::options().write(true).open(&foreign).unwrap().set_modified(SystemTime::UNIX_EPOCH).unwrap();
        make_room(&folder);
        assert!(foreign.exists());
        assert!(!folder.join("005.session").exists() && folder.join("006.session").exists());
        assert_eq!(fs::read_dir(&folder).unwrap().count(), MOST);
        fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn time_is_told_as_people_do() {
        assert_eq!(ago(3), "just now");
        assert_eq!(ago(60), "a minute ago");
        assert_eq!(ago(7_300), "2 hours ago");
        assert_eq!(ago(200_000), "2 days ago");
    }
}
