//! Read a record, of today's format or an older one, or the journal of a session as the desk keeps it.

use std::path::Path;

use super::file::{FORMAT, Record};
use super::passing::MOST_TICKS;
use super::{journal, old};
use crate::scenario::load::{check, check_format};
use crate::scenario::source::{Position, read_text};
use crate::scenario::{BadFile, parse};

/// Largest record that is read [bytes].
pub const LARGEST_BYTES: u64 = 16_000_000;

/// So many bytes tell whether a file is one of ours.
pub const HEAD_BYTES: usize = 12;

/// Does a file that begins so hold a journal, or a record as it is written?
pub fn begins_like_one(head: &[u8; HEAD_BYTES]) -> bool {
    journal::BEGINS.as_bytes().starts_with(head) || b"(\n    format: ".starts_with(head)
}

impl Record {
    /// Read a record, or the journal of a session as the desk keeps it.
    pub fn read(path: &Path) -> Result<Self, BadFile> {
        Self::from_text(&path.display().to_string(), &read_text(path, LARGEST_BYTES)?)
    }

    /// A record from its text; `file` is only a name for messages.
    pub fn from_text(file: &str, text: &str) -> Result<Self, BadFile> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if journal::is_one(text) {
            return journal::read(file, text);
        }
        let modern = old::modernised(text);
        let text = modern.as_deref().unwrap_or(text);
        if modern.is_none() {
            check_format(file, text, FORMAT)?;
        }
        let mut record: Self = parse(file, text)?;
        if modern.is_some() {
            old::complete(&mut record);
        }
        check(file, text, "scenario.", &record.scenario)?;
        let bad = |path: &str, reason: String| {
            Err(BadFile::one(file, Some(Position::find(text, path)), format!("{path}: {reason}"), None))
        };
        if record.ticks > MOST_TICKS {
            return bad("ticks", format!("{} is more than {MOST_TICKS}", record.ticks));
        }
        let mut last = 0;
        for (index, &(tick, _)) in record.actions.iter().enumerate() {
            let path = format!("actions[{index}]");
            if tick < last {
                return bad(&path, format!("actions are out of order: tick {tick} comes after {last}"));
            }
            if tick > record.ticks {
                return bad(
                    &path,
                    format!("tick {tick} lies after the end of the session, {}", record.ticks),
                );
            }
            last = tick;
        }
        for (name, hash) in [("state", &record.state), ("hash", &record.hash)] {
            let blank = hash.is_empty() && name == "hash" && modern.is_some();
            if !blank && (hash.len() != 16 || !hash.bytes().all(|b| b.is_ascii_hexdigit())) {
                return bad(name, "a hash is 16 hexadecimal digits".to_owned());
            }
        }
        Ok(record)
    }
}

#[cfg(test)]
#[path = "reading_tests.rs"]
mod tests;
