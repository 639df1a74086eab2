//! Text of a file a person wrote: read it with care, and say where in it something is wrong.

use std::fmt;
use std::fs::{self, File, FileType};
use std::io::{self, Read};
use std::path::Path;

use super::check::Finding;
use crate::message::{LINE, fit};

/// So many problems of one file are named; a reader mends those first.
const MOST_NAMED: usize = 20;
/// Longest name of a file in a message [characters]; its end says more than its beginning.
const FILE_NAME: usize = 300;

/// A place in a text, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    /// Line.
    pub line: usize,
    /// Column, in characters.
    pub column: usize,
}

impl Position {
    /// The place of a byte offset.
    pub fn of(text: &str, offset: usize) -> Self {
        let before = text.get(..offset).unwrap_or(text);
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Self { line: before.matches('\n').count() + 1, column: before[line_start..].chars().count() + 1 }
    }
    /// The place of the field at a path such as `faults[2].severity`.
    pub fn find(text: &str, path: &str) -> Self {
        Self::of(text, super::locate::locate(text, path))
    }
}

/// One thing wrong with a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// The file as the person named it.
    pub file: String,
    /// Where, when the trouble has a place.
    pub at: Option<Position>,
    /// What is wrong.
    pub reason: String,
    /// What may help.
    pub hint: Option<String>,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:", fit(&self.file, FILE_NAME))?;
        if let Some(Position { line, column }) = self.at {
            write!(f, "{line}:{column}:")?;
        }
        write!(f, " {}", fit(&self.reason, LINE))?;
        match &self.hint {
            Some(hint) => write!(f, " (hint: {})", fit(hint, LINE)),
            None => Ok(()),
        }
    }
}

/// Why a file could not be used: the problems found, one a line, at most twenty of them.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", told(.problems))]
pub struct BadFile {
    /// The problems, in the order of the file's fields; never empty.
    pub problems: Vec<Problem>,
}

impl BadFile {
    /// A file with a single problem.
    pub fn one(file: &str, at: Option<Position>, reason: impl Into<String>, hint: Option<String>) -> Self {
        let problem = Problem { file: file.to_owned(), at, reason: reason.into(), hint };
        Self { problems: vec![problem] }
    }

    /// Nothing, when nothing was found; else what was found at paths of a text, the first twenty with their places.
    ///
    /// # Errors
    /// When anything was found.
    pub fn unless_sound(file: &str, text: &str, prefix: &str, findings: Vec<Finding>) -> Result<(), Self> {
        let place = |n: usize, path: &str| {
            // To look for a place costs a walk through the text.
            (n < MOST_NAMED).then(|| Position::find(text, &format!("{prefix}{path}")))
        };
        let problem = |(n, finding): (usize, Finding)| Problem {
            file: file.to_owned(),
            at: place(n, &finding.path),
            reason: format!("{}: {}", finding.path, finding.reason),
            hint: finding.hint,
        };
        let problems: Vec<Problem> = findings.into_iter().enumerate().map(problem).collect();
        if problems.is_empty() { Ok(()) } else { Err(Self { problems }) }
    }
}

fn told(problems: &[Problem]) -> String {
    let (named, more) = problems.split_at(problems.len().min(MOST_NAMED));
    let mut lines: Vec<String> = named.iter().map(ToString::to_string).collect();
    if let Some(first) = more.first() {
        let many = if more.len() == 1 { "problem" } else { "problems" };
        lines.push(format!("{}: and {} more {many}", fit(&first.file, FILE_NAME), more.len()));
    }
    lines.join("\n")
}

/// Open an ordinary file for reading; a link to one will do. It never waits: what is no ordinary file is refused before it is
/// opened and, since it may have been put there meanwhile, afterwards too.
///
/// # Errors
/// What the system says, or that it is no ordinary file.
pub fn open_ordinary(path: &Path) -> io::Result<File> {
    refuse_unless_ordinary(fs::metadata(path)?.file_type())?;
    let mut options = File::options();
    options.read(true);
    // A pipe that nobody writes to would keep us waiting for ever, and a terminal would become ours.
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::custom_flags(&mut options, libc::O_NONBLOCK | libc::O_NOCTTY);
    let file = options.open(path)?;
    refuse_unless_ordinary(file.metadata()?.file_type())?;
    Ok(file)
}

fn refuse_unless_ordinary(kind: FileType) -> io::Result<()> {
    if kind.is_file() {
        return Ok(());
    }
    let words =
        if kind.is_dir() { "this is a directory, not a file" } else { "this is not an ordinary file" };
    Err(io::Error::new(io::ErrorKind::InvalidInput, words))
}

/// Read a text file of at most `limit` bytes. What is too large is not read, and only ordinary files are.
///
/// # Errors
/// When it is not there, is no ordinary file, is too large or holds something else than text.
pub fn read_text(path: &Path, limit: u64) -> Result<String, BadFile> {
    let file = path.display().to_string();
    let bad = |reason: String, hint: Option<&str>| BadFile::one(&file, None, reason, hint.map(str::to_owned));
    let too_large = |size: String| {
        bad(
            format!("the file is too large: {size}, at most {limit} bytes are read"),
            Some("is it the right file?"),
        )
    };
    let unread = |e: io::Error| match e.kind() {
        io::ErrorKind::NotFound => {
            bad("there is no such file".into(), Some("check the spelling of the path"))
        }
        // Said in full by who refused it.
        io::ErrorKind::InvalidInput => bad(e.to_string(), Some("name an ordinary file")),
        _ => bad(format!("the file cannot be read: {e}"), None),
    };
    let opened = open_ordinary(path).map_err(unread)?;
    let size = opened.metadata().map_err(unread)?.len();
    if size > limit {
        return Err(too_large(format!("{size} bytes")));
    }
    let mut bytes = Vec::new();
    opened.take(limit + 1).read_to_end(&mut bytes).map_err(unread)?;
    if bytes.len() as u64 > limit {
        return Err(too_large("more than the limit".into()));
    }
    String::from_utf8(bytes).map_err(|e| {
        let good = e.utf8_error().valid_up_to();
        let text = String::from_utf8_lossy(&e.as_bytes()[..good]).into_owned();
        BadFile::one(
            &file,
            Some(Position::of(&text, text.len())),
            "this is not a text file (not UTF-8)",
            Some("what is read here is plain text".into()),
        )
    })
}
