//! From text, a path or the id of an embedded action file to a checked [`Procedure`].

use std::path::Path;

use super::check::{FORMAT, validate};
use super::{Procedure, SHIPPED};
use crate::assets::by_id;
use crate::scenario::load::check_format;
use crate::scenario::nearest::hint;
use crate::scenario::source::read_text;
use crate::scenario::{BadFile, parse};

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
    if let Some(shipped) = by_id(SHIPPED, id.unwrap_or(name)) {
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
    BadFile::unless_sound(file, text, "", validate(&procedure))?;
    Ok(procedure)
}
