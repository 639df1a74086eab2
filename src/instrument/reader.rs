//! The reader of control units: their values as they send them.

use super::describe::{Facts, Holds, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::{Say, spaced};
use crate::circuit::CircuitSpec;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Control unit reader",
    touches: "In the diagnostic socket.",
    shelf: Shelf::Wiring,
    needs_bay: false,
};

static FACTS: Facts = Facts {
    id: "unit_value",
    words: "A value as the reader of a control unit shows it [its own unit].",
    notation: "unit:UNIT:VALUE",
    args: &[("unit", Holds::Words("id of a control unit")), ("id", Holds::Words("id of a value"))],
    example: "unit_value(unit: \"thermal\", id: \"high\")",
    placing: Placing::Socket("the reader plugs in by itself: just read"),
    sources: &[],
    settles_s: 1.0,
};

/// A value as the reader of a control unit shows it.
#[derive(Debug)]
pub struct UnitValue {
    /// Control unit, by id.
    pub unit: String,
    /// Input or output, by id.
    pub id: String,
}

impl Instrument for UnitValue {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(circuit: &CircuitSpec) -> Vec<Self> {
        let mut all = Vec::new();
        for unit in &circuit.units {
            let ids = unit.inputs.iter().map(|i| &i.id).chain(unit.outputs.iter().map(|o| &o.id));
            all.extend(ids.map(|id| Self { unit: unit.id.clone(), id: id.clone() }));
        }
        all
    }
    fn name(&self) -> String {
        format!("{} of the {} unit", spaced(&self.id), spaced(&self.unit))
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, value: f64, _: &Say) -> String {
        format!("{value:.2}")
    }
    /// Digits of a number that a control unit sends, not of what it measured.
    fn limit(&self, value: f64) -> f64 {
        0.005 * value.abs()
    }
    fn net(&self, predicted: f64) -> f64 {
        0.02 * predicted.abs() + 0.1
    }
    fn silent(&self) -> String {
        "the reader is not plugged in, or the unit does not send that".into()
    }
}
