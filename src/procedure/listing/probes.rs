//! The probes, from the table of instruments.

use std::sync::LazyLock;

use super::{Arg, Row, named, words, yes};
use crate::instrument::{Holds, Probe};

/// Every probe, in the order of its type; the unit of what it shows stands in its words.
pub static PROBES: LazyLock<Vec<Row>> = LazyLock::new(|| Probe::kinds().iter().map(row).collect());

fn row(kind: &Probe) -> Row {
    let facts = kind.facts();
    let args: Vec<Arg> = facts.args.iter().map(|(name, holds)| arg(name, *holds)).collect();
    // Made once and kept for the life of the program, as the rows of the other tables are.
    Row { name: facts.id, args: args.leak(), words: facts.words, example: facts.example }
}

fn arg(name: &'static str, holds: Holds) -> Arg {
    match holds {
        Holds::OneOf(names) => named(name, names),
        Holds::Yes => yes(name),
        Holds::Words(what) => words(name, what),
    }
}
