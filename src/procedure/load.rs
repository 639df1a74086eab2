//! From text, a path or the id of an embedded action file to a checked [`Procedure`].

use std::path::Path;

use super::check::validate;
use super::shipped::{SHIPPED, by_id};
use super::{Procedure, Step};
use crate::scenario::load::check_format;
use crate::scenario::nearest::hint;
use crate::scenario::source::{Position, Problem, read_text};
use crate::scenario::{BadFile, parse};

/// Version of the format this program reads.
pub const FORMAT: u32 = 1;
/// Largest action file that is read [bytes].
const LARGEST_BYTES: u64 = 1_000_000;
/// Begins the name of an embedded file where a path could stand too.
const BUILTIN: &str = "builtin:";

/// An action file by path; or, where no such file exists or after `builtin:`, by the id of an embedded one.
pub fn load(name: &str) -> Result<Procedure, BadFile> {
    let id = name.strip_prefix(BUILTIN);
    let path = Path::new(name);
    if id.is_none() && path.is_file() {
        return from_text(name, &read_text(path, LARGEST_BYTES)?);
    }
    if let Some(shipped) = by_id(id.unwrap_or(name)) {
        return from_text(shipped.file, shipped.text);
    }
    if id.is_none() && (name.contains(['/', '\\']) || name.ends_with(".ron")) {
        return from_text(name, &read_text(path, LARGEST_BYTES)?);
    }
    let ids = SHIPPED.iter().map(|s| s.id);
    let hint = hint(id.unwrap_or(name), ids);
    Err(BadFile::one(
        name,
        None,
        "there is no such file and no embedded action file of that name",
        Some(hint),
    ))
}

/// An action file from its text; `file` is only a name for messages.
pub fn from_text(file: &str, text: &str) -> Result<Procedure, BadFile> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    check_format(file, text, FORMAT)?;
    let procedure: Procedure = parse(file, text)?;
    let problems: Vec<Problem> = validate(&procedure)
        .into_iter()
        .map(|finding| Problem {
            file: file.to_owned(),
            at: Some(Position::find(text, &finding.path)),
            reason: format!("{}: {}", finding.path, finding.reason),
            hint: finding.hint,
        })
        .collect();
    if problems.is_empty() { Ok(procedure) } else { Err(BadFile { problems }) }
}

/// Longest row of action files that begin where another ends.
const LONGEST_ROW: usize = 12;

/// A step to be played, with the file it stands in.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// Id of its file.
    pub file: String,
    /// Its number there, counted from 1.
    pub number: usize,
    /// The step.
    pub step: Step,
}

/// The steps of a procedure with those of the files it begins after, in order; or what is wrong with that row.
///
/// # Errors
/// When a file of the row does not exist, is broken, or the row bites its own tail.
pub fn whole(procedure: &Procedure) -> Result<Vec<Planned>, String> {
    let mut row = vec![procedure.clone()];
    while let Some(id) = row.last().and_then(|last| last.after.clone()) {
        let Some(shipped) = by_id(&id) else {
            let ids = SHIPPED.iter().map(|s| s.id);
            return Err(format!("there is no embedded action file `{id}` ({})", hint(&id, ids)));
        };
        // Read without checks: they would walk this row again.
        let before: Procedure = parse(shipped.file, shipped.text).map_err(|e| e.to_string())?;
        if row.len() >= LONGEST_ROW {
            return Err(format!(
                "`{id}` comes round again, or more than {LONGEST_ROW} files follow each other"
            ));
        }
        row.push(before);
    }
    let planned = |p: Procedure| {
        let file = p.id;
        p.steps.into_iter().enumerate().map(move |(i, step)| Planned {
            file: file.clone(),
            number: i + 1,
            step,
        })
    };
    Ok(row.into_iter().rev().flat_map(planned).collect())
}
