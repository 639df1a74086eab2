//! Every action and every probe with its arguments, units, ranges and a sentence: what `pintle actions` prints.
//!
//! The rows of actions are written by hand, those of probes come from the table of instruments; the tests hold them against the types themselves, so that none is forgotten, none is
//! too many and every example is read as the action it stands for. Names that an argument can have are asked of the
//! types when they are listed.

mod bay;
mod bench;
mod knobs;
mod probes;

use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::knobs::{HandValve, Range};

pub use bay::BAY;
pub use bench::BENCH;
pub use knobs::knobs;
pub use probes::PROBES;

/// What an argument can be.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// `true` or `false`.
    Yes,
    /// A number.
    Number {
        /// Unit; empty for a count or a share.
        unit: &'static str,
        /// Lowest allowed.
        min: f64,
        /// Highest allowed.
        max: f64,
    },
    /// One of some names.
    OneOf(fn() -> Vec<&'static str>),
    /// One of these names.
    Named(&'static [&'static str]),
    /// Something else, in words.
    Words(&'static str),
}

/// One argument.
#[derive(Clone, Copy, Debug)]
pub struct Arg {
    /// Its name; one that is not written in the file stands for its meaning.
    pub name: &'static str,
    /// What it can be.
    pub kind: Kind,
}

/// An action or a probe.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// Its name in files.
    pub name: &'static str,
    /// Its arguments in order.
    pub args: &'static [Arg],
    /// What it does, in a sentence.
    pub words: &'static str,
    /// How it is written.
    pub example: &'static str,
}

const fn arg(name: &'static str, kind: Kind) -> Arg {
    Arg { name, kind }
}
const fn yes(name: &'static str) -> Arg {
    arg(name, Kind::Yes)
}
const fn number(name: &'static str, unit: &'static str, min: f64, max: f64) -> Arg {
    arg(name, Kind::Number { unit, min, max })
}
const fn hand_valve(name: &'static str) -> Arg {
    let Range { unit, min, max } = HandValve::RANGE;
    number(name, unit, min, max)
}
const fn one_of(name: &'static str, names: fn() -> Vec<&'static str>) -> Arg {
    arg(name, Kind::OneOf(names))
}
const fn named(name: &'static str, names: &'static [&'static str]) -> Arg {
    arg(name, Kind::Named(names))
}
const fn words(name: &'static str, kind: &'static str) -> Arg {
    arg(name, Kind::Words(kind))
}

/// The names that the variants of a type have in files.
pub fn names<T: DeserializeOwned>() -> Vec<&'static str> {
    match ron::from_str::<T>("no_such_name_at_all").map_err(|e| e.code) {
        Err(ron::Error::NoSuchEnumVariant { expected, .. }) => expected.to_vec(),
        _ => Vec::new(),
    }
}

/// An argument as it is printed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ListedArg {
    /// Name.
    pub name: &'static str,
    /// What it can be, in words.
    pub what: &'static str,
    /// Unit of a number.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<&'static str>,
    /// Lowest allowed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub min: Option<f64>,
    /// Highest allowed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub max: Option<f64>,
    /// Names it can be.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub names: Vec<&'static str>,
}

impl Arg {
    /// As it is printed.
    pub fn listed(&self) -> ListedArg {
        let number = |unit, min, max| (Some(unit), Some(min), Some(max));
        let (what, (unit, min, max), names) = match self.kind {
            Kind::Yes => ("true or false", (None, None, None), Vec::new()),
            Kind::Number { unit, min, max } => ("number", number(unit, min, max), Vec::new()),
            Kind::OneOf(names) => ("name", (None, None, None), names()),
            Kind::Named(names) => ("name", (None, None, None), names.to_vec()),
            Kind::Words(what) => (what, (None, None, None), Vec::new()),
        };
        ListedArg { name: self.name, what, unit, min, max, names }
    }
}

impl ListedArg {
    /// As a line of text.
    pub fn line(&self) -> String {
        let range = match (self.min, self.max) {
            (Some(min), Some(max)) => format!(" {min} to {max} {}", self.unit.unwrap_or("")),
            _ => String::new(),
        };
        let names =
            if self.names.is_empty() { String::new() } else { format!(", one of {}", self.names.join(", ")) };
        format!("{}: {}{}{names}", self.name, self.what, range.trim_end())
    }
}

/// A row as it is printed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Listed {
    /// Its name in files.
    pub name: &'static str,
    /// Its arguments in order.
    pub arguments: Vec<ListedArg>,
    /// What it does, in a sentence.
    pub words: &'static str,
    /// How it stands in a file.
    pub example: String,
}

impl Row {
    /// As it is printed; what stands `inside` another action is written in its brackets.
    pub fn listed(&self, inside: Option<&str>) -> Listed {
        let example = match inside {
            Some(outer) => format!("{outer}({})", self.example),
            None => self.example.to_owned(),
        };
        let arguments = self.args.iter().map(Arg::listed).collect();
        Listed { name: self.name, arguments, words: self.words, example }
    }
}

#[cfg(test)]
mod tests {
    use strum::VariantNames;

    use super::*;
    use crate::bay::BayAction;
    use crate::bench::Action;
    use crate::instrument::Probe;
    use crate::scenario::parse;

    /// The rows are those of the type, in its order, and each example is read as what it is an example of.
    fn complete<T: DeserializeOwned + Serialize>(rows: &[Row], names: &[&str]) {
        let listed: Vec<&str> = rows.iter().map(|row| row.name).collect();
        assert_eq!(listed, names);
        for row in rows {
            let read: T = parse("example", row.example).unwrap_or_else(|e| panic!("{}: {e}", row.example));
            let text = ron::to_string(&read).unwrap();
            let name: String = text.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '_').collect();
            assert_eq!(name, row.name, "{text}");
            assert!(row.words.ends_with('.'), "{}", row.name);
            let bare = !row.example.contains('(');
            assert_eq!(bare, row.args.is_empty(), "arguments of {}", row.name);
        }
    }

    #[test]
    fn no_action_and_no_probe_is_forgotten() {
        // Its error names knobs too, which may stand alone in old files.
        complete::<Action>(BENCH, Action::VARIANTS);
        complete::<BayAction>(BAY, &names::<BayAction>());
        complete::<Probe>(&PROBES, &names::<Probe>());
    }

    #[test]
    fn arguments_have_what_they_promise() {
        for row in BENCH.iter().chain(BAY).chain(PROBES.iter()) {
            for arg in row.args {
                let listed = arg.listed();
                match arg.kind {
                    Kind::OneOf(_) | Kind::Named(_) => {
                        assert!(!listed.names.is_empty(), "{} {}", row.name, arg.name);
                    }
                    Kind::Number { .. } => {
                        assert!(listed.min < listed.max, "{} {}", row.name, arg.name);
                    }
                    Kind::Yes | Kind::Words(_) => {}
                }
            }
        }
    }
}
