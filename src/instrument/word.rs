//! Places of instruments as words of the command line.

use std::str::FromStr;

use crate::perceive;
use crate::places::{AirPlace, PipePlace, SearchPlace};

/// Something that one word of the command line stands for.
pub trait Word: Sized {
    /// The word; none where it is left out.
    fn word(&self) -> Option<String>;
    /// From the word; none stands for one that is left out.
    ///
    /// # Errors
    /// When it must not be left out, or there is no such thing.
    fn read(word: Option<&str>) -> Result<Self, String>;
}

fn there(word: Option<&str>) -> Result<&str, String> {
    word.filter(|word| !word.is_empty()).ok_or_else(|| "a word is missing".into())
}

impl Word for String {
    fn word(&self) -> Option<String> {
        Some(self.clone())
    }
    fn read(word: Option<&str>) -> Result<Self, String> {
        there(word).map(str::to_owned)
    }
}

/// Of all that is either so or not, only tape round a pipe is said on the command line.
impl Word for bool {
    fn word(&self) -> Option<String> {
        self.then(|| "taped".into())
    }
    fn read(word: Option<&str>) -> Result<Self, String> {
        match word {
            None => Ok(false),
            Some("taped") => Ok(true),
            Some(other) => Err(format!("unknown word `{other}`, it is taped or nothing")),
        }
    }
}

impl Word for perceive::Sense {
    fn word(&self) -> Option<String> {
        ron::to_string(self).ok()
    }
    fn read(word: Option<&str>) -> Result<Self, String> {
        let word = there(word)?;
        ron::from_str(word).map_err(|_| {
            format!("nobody has a sense `{}`, it is such as touch(suction_pipe)", word.escape_debug())
        })
    }
}

/// One of some names.
///
/// # Errors
/// When there is no such name.
pub fn named<T: FromStr>(word: Option<&str>, names: &[&str]) -> Result<T, String> {
    let word = there(word)?;
    let unknown = |_| format!("unknown name `{}`, it is one of {}", word.escape_debug(), names.join(", "));
    word.parse().map_err(unknown)
}

/// Words for types that have names by `strum`.
macro_rules! words_by_name {
    ($($type:ty),*) => {$(
        impl $crate::instrument::word::Word for $type {
            fn word(&self) -> Option<String> {
                Some(<&'static str>::from(*self).into())
            }
            fn read(word: Option<&str>) -> Result<Self, String> {
                $crate::instrument::word::named(word, <Self as strum::VariantNames>::VARIANTS)
            }
        }
    )*};
}
pub(in crate::instrument) use words_by_name;

words_by_name!(PipePlace, AirPlace, SearchPlace);
