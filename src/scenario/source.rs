//! Text of a file a person wrote: read it with care, and say where in it something is wrong.

use std::fmt;
use std::io::Read;
use std::path::Path;

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
        write!(f, "{}:", self.file)?;
        if let Some(Position { line, column }) = self.at {
            write!(f, "{line}:{column}:")?;
        }
        write!(f, " {}", self.reason)?;
        match &self.hint {
            Some(hint) => write!(f, " (hint: {hint})"),
            None => Ok(()),
        }
    }
}

/// Why a file could not be used: every problem found, one a line.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", .problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))]
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
}

/// Read a text file of at most `limit` bytes. What is too large is not read.
pub fn read_text(path: &Path, limit: u64) -> Result<String, BadFile> {
    let file = path.display().to_string();
    let bad = |reason: String, hint: Option<&str>| BadFile::one(&file, None, reason, hint.map(str::to_owned));
    let too_large = |size: String| {
        bad(
            format!("the file is too large: {size}, at most {limit} bytes are read"),
            Some("is it the right file?"),
        )
    };
    let meta = std::fs::metadata(path).map_err(|e| match e.kind() {
        std::io::ErrorKind::NotFound => {
            bad("there is no such file".into(), Some("check the spelling of the path"))
        }
        _ => bad(format!("the file cannot be read: {e}"), None),
    })?;
    if meta.is_dir() {
        return Err(bad("this is a directory, not a file".into(), Some("name a file in it")));
    }
    if meta.len() > limit {
        return Err(too_large(format!("{} bytes", meta.len())));
    }
    let mut bytes = Vec::new();
    std::fs::File::open(path)
        .and_then(|f| f.take(limit + 1).read_to_end(&mut bytes))
        .map_err(|e| bad(format!("the file cannot be read: {e}"), None))?;
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
            Some("scenarios and records are plain text in RON".into()),
        )
    })
}
