//! Ear, hand, eye and nose: what a person notices without any tool.

use super::describe::{Facts, Holds, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use crate::circuit::CircuitSpec;
use crate::perceive;

/// A person's own; always there, whether or not a scenario lists them.
pub const TOOL: Kit = Kit {
    name: "Your own senses",
    touches: "See Look, listen, touch below.",
    shelf: Shelf::Bench,
    needs_bay: false,
};

static FACTS: Facts = Facts {
    id: "sense",
    words: "A person's own senses, without any tool [as each sense has it].",
    notation: "sense:SENSE",
    args: &[("sense", Holds::Words("what is attended to, such as touch(suction_pipe) or listen(hiss)"))],
    example: "sense(sweep)",
    placing: Placing::Nothing("your own senses are not put anywhere: just read"),
    sources: &[],
    settles_s: 1.0,
};

/// A person's own senses.
#[derive(Debug)]
pub struct Sense(pub perceive::Sense);

impl Instrument for Sense {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        perceive::Sense::all().map(Self).collect()
    }
    fn name(&self) -> String {
        format!("{}: {}", self.0.organ().name().to_lowercase(), self.0.name())
    }
    fn short(&self) -> String {
        self.0.name().into()
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, value: f64, _: &Say) -> String {
        self.0.words(value).into()
    }
    /// About half the width of a word.
    fn limit(&self, _: f64) -> f64 {
        self.0.limit()
    }
    fn net(&self, _: f64) -> f64 {
        0.5 * self.0.limit()
    }
    fn silent(&self) -> String {
        format!("there is no {} here", self.0.name())
    }
}
