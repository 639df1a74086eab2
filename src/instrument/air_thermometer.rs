//! The thermometer that hangs in air.

use strum::VariantNames;

use super::describe::{Facts, Holds, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::thermometer::{AIR_LAG_S, AIR_LIMIT_K, Kind};
use crate::circuit::CircuitSpec;
use crate::places::AirPlace;

/// The tool.
pub const TOOL: Kit =
    Kit { name: "Air thermometer", touches: "Hangs in an air stream.", shelf: Shelf::Air, needs_bay: false };

static FACTS: Facts = Facts {
    id: "air",
    words: "Thermometer in air [K].",
    notation: "air:AIR",
    args: &[("place", Holds::OneOf(AirPlace::VARIANTS))],
    example: "air(vent)",
    placing: Placing::Hands,
    sources: &[Kind::Air.source()],
    settles_s: 5.0 * AIR_LAG_S,
};

/// What a meter of this kind can show [K] (common practice, no source).
const RANGE_K: (f64, f64) = (233.15, 393.15);

/// On one place.
#[derive(Debug)]
pub struct Air(pub AirPlace);

impl Instrument for Air {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        AirPlace::ALL.map(Self).into()
    }
    fn name(&self) -> String {
        self.0.name().into()
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
        AIR_LIMIT_K
    }
    fn net(&self, _: f64) -> f64 {
        1.0
    }
}
