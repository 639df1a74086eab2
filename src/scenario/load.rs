//! From text, a path or the id of an embedded scenario to a checked [`Scenario`].

use std::path::Path;

use super::check::{FORMAT, validate};
use super::explain::parse;
use super::locate::locate;
use super::nearest::hint;
use super::source::{BadFile, Position, read_text};
use super::{SHIPPED, Scenario};
use crate::assets::by_id;

/// Largest scenario file that is read [bytes].
pub const LARGEST_BYTES: u64 = 1_000_000;

/// A scenario by path, or, where no such file exists, by the id of an embedded one.
pub fn load(name: &str) -> Result<Scenario, BadFile> {
    let path = Path::new(name);
    if path.is_dir() || !path.exists() {
        if let Some(shipped) = by_id(SHIPPED, name) {
            return from_text(shipped.file, shipped.text);
        }
        let like_a_path = name.contains(['/', '\\']) || name.ends_with(".ron");
        if !path.is_dir() && !like_a_path {
            let ids = SHIPPED.iter().map(|s| s.id);
            return Err(BadFile::one(
                name,
                None,
                "there is no such file and no embedded scenario of that name",
                Some(hint(name, ids)),
            ));
        }
    }
    from_path(path)
}

/// A scenario file.
pub fn from_path(path: &Path) -> Result<Scenario, BadFile> {
    from_text(&path.display().to_string(), &read_text(path, LARGEST_BYTES)?)
}

/// A scenario from its text; `file` is only a name for messages.
pub fn from_text(file: &str, text: &str) -> Result<Scenario, BadFile> {
    // Some editors begin a text with a byte-order mark.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    check_format(file, text, FORMAT)?;
    let scenario: Scenario = parse(file, text)?;
    check(file, text, "", &scenario)?;
    Ok(scenario)
}

/// Refuse another version of a format before its unknown fields are complained about.
pub fn check_format(file: &str, text: &str, known: u32) -> Result<(), BadFile> {
    let at = locate(text, "format");
    let digits: String = text[at..].chars().take_while(char::is_ascii_digit).take(12).collect();
    match digits.parse::<u64>() {
        Ok(found) if found != u64::from(known) => Err(BadFile::one(
            file,
            Some(Position::of(text, at)),
            format!("format {found} is not known; this program reads format {known}"),
            (found > u64::from(known)).then(|| "it may come from a newer version of this program".to_owned()),
        )),
        _ => Ok(()),
    }
}

/// Validate a scenario that stands at `prefix` in a text.
pub fn check(file: &str, text: &str, prefix: &str, scenario: &Scenario) -> Result<(), BadFile> {
    BadFile::unless_sound(file, text, prefix, validate(scenario))
}
