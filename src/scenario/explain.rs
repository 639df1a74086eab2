//! RON's own errors in plain words, with a hint where one helps.

use ron::error::{Error, SpannedError};

use super::nearest::hint;
use super::source::{BadFile, Position};
use crate::message::{PIECE, fit};

/// Parse strict RON, or say what is wrong with it.
pub fn parse<T: serde::de::DeserializeOwned>(file: &str, text: &str) -> Result<T, BadFile> {
    if text.trim().is_empty() {
        return Err(BadFile::one(file, Some(Position { line: 1, column: 1 }), "the file is empty", None));
    }
    ron::Options::default()
        .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
        .from_str(text)
        .map_err(|e| explain(file, text, &e))
}

fn explain(file: &str, text: &str, error: &SpannedError) -> BadFile {
    // RON points at the blank before a value; a reader looks for the value.
    let ron::error::Position { line, col } = error.span.start;
    let line_start: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    let rest = &text[line_start.min(text.len())..];
    let column_start = rest.char_indices().nth(col.saturating_sub(1)).map_or(rest.len(), |(at, _)| at);
    let trouble = rest[column_start..].trim_start();
    let at = Position::of(text, text.len() - trouble.len());
    let (reason, hint) = if trouble.is_empty() { words(&Error::Eof) } else { words(&error.code) };
    BadFile::one(file, Some(at), reason, hint)
}

/// Reason and hint for one error.
fn words(code: &Error) -> (String, Option<String>) {
    let expected = |what: &str| (format!("{what} was expected here"), None);
    match code {
        Error::NoSuchStructField { expected, found, .. } => {
            (format!("unknown field `{}`", short(found)), Some(hint(found, expected.iter().copied())))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            (format!("unknown name `{}`", short(found)), Some(hint(found, expected.iter().copied())))
        }
        Error::MissingStructField { field, .. } => (format!("the field `{field}` is missing"), None),
        Error::DuplicateStructField { field, .. } => (format!("the field `{field}` is given twice"), None),
        Error::ExpectedFloat => expected("a number"),
        Error::ExpectedInteger => expected("a whole number"),
        Error::IntegerOutOfBounds => ("this whole number is too large or negative".into(), None),
        Error::ExpectedBoolean => expected("`true` or `false`"),
        Error::ExpectedString => expected("text in double quotes"),
        Error::ExpectedArray => expected("a list in square brackets"),
        Error::ExpectedIdentifier => expected("a name"),
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => {
            expected("a group in round brackets")
        }
        Error::ExpectedDifferentStructName { expected, found } => (
            format!("found `{}` where `{expected}` was expected", short(found)),
            Some(format!("write `{expected}(` or just `(`")),
        ),
        Error::ExceededRecursionLimit => ("brackets are nested too deep".into(), None),
        Error::TrailingCharacters => {
            ("there is more text after the end".into(), Some("count the brackets".into()))
        }
        Error::Eof => ("the file ends too early".into(), Some("is a bracket or a quote left open?".into())),
        other => {
            let text = other.to_string();
            (short(text.trim_end_matches('.')), None)
        }
    }
}

/// A piece of the file, or of what the reader says of it, as a message can hold it.
fn short(text: &str) -> String {
    fit(text, PIECE)
}
