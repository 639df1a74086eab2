//! The clamp thermometer for bare pipes.

use strum::VariantNames;

use super::describe::{Facts, Holds, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::thermometer::{Kind, PIPE_LAG_S, PIPE_LIMIT_K};
use crate::circuit::CircuitSpec;
use crate::places::PipePlace;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Pipe thermometer",
    touches: "Clamps on a bare metal pipe.",
    shelf: Shelf::Air,
    needs_bay: false,
};

static FACTS: Facts = Facts {
    id: "pipe",
    words: "Clamp thermometer on a pipe [K].",
    notation: "pipe:PIPE",
    args: &[("place", Holds::OneOf(PipePlace::VARIANTS))],
    example: "pipe(compressor_inlet)",
    placing: Placing::Hands,
    sources: &[Kind::Pipe.source()],
    settles_s: 5.0 * PIPE_LAG_S,
};

/// What a meter of this kind can show [K] (common practice, no source).
const RANGE_K: (f64, f64) = (223.15, 473.15);

/// On one place.
#[derive(Debug)]
pub struct Pipe(pub PipePlace);

impl Instrument for Pipe {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        PipePlace::ALL.map(Self).into()
    }
    fn name(&self) -> String {
        self.0.name().into()
    }
    fn short(&self) -> String {
        self.0.short().into()
    }
    fn choice(&self) -> String {
        format!("{} {}", self.0.point(), self.0.short())
    }
    fn unit(&self) -> &'static str {
        "K"
    }
    fn text(&self, k: f64, say: &Say) -> String {
        say.temperature(k)
    }
    fn range(&self) -> (f64, f64) {
        RANGE_K
    }
    fn limit(&self, _: f64) -> f64 {
        PIPE_LIMIT_K
    }
    fn net(&self, _: f64) -> f64 {
        1.0
    }
}
