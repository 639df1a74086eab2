//! The probes: tools on their places, and a person's own senses.

use super::{Row, names, one_of, words};
use crate::instrument::{AirPlace, MeterMode, PipePlace};

const POINT: &str = "a point of the circuit, or ground, in quotes";
const SENSE: &str = "what is attended to, such as touch(suction_pipe) or listen(hiss)";

/// Every probe, in the order of its type; the unit of what it shows stands in its words.
pub const PROBES: &[Row] = &[
    Row {
        name: "low_gauge",
        args: &[],
        words: "Low-side gauge of the manifold [Pa gauge].",
        example: "low_gauge",
    },
    Row {
        name: "high_gauge",
        args: &[],
        words: "High-side gauge of the manifold [Pa gauge].",
        example: "high_gauge",
    },
    Row {
        name: "pipe",
        args: &[one_of("place", names::<PipePlace>)],
        words: "Clamp thermometer on a pipe [K].",
        example: "pipe(compressor_inlet)",
    },
    Row {
        name: "air",
        args: &[one_of("place", names::<AirPlace>)],
        words: "Thermometer in air [K].",
        example: "air(vent)",
    },
    Row {
        name: "volts",
        args: &[words("point", POINT)],
        words: "Voltmeter between a point and battery minus [V].",
        example: "volts(\"clutch_coil_plus\")",
    },
    Row {
        name: "meter",
        args: &[one_of("mode", names::<MeterMode>), words("red", POINT), words("black", POINT)],
        words: "Multimeter between two points [V, ohm or A].",
        example: "meter(mode: ohm, red: \"clutch_coil_plus\", black: \"ground\")",
    },
    Row {
        name: "lamp",
        args: &[words("tip", POINT), words("clip", POINT)],
        words: "Test lamp between two points [brightness, 0 to 1].",
        example: "lamp(tip: \"clutch_coil_plus\", clip: \"ground\")",
    },
    Row {
        name: "clamp",
        args: &[words("part", "id of a part in quotes")],
        words: "Clamp ammeter round the wire of a part [A].",
        example: "clamp(\"clutch_coil\")",
    },
    Row {
        name: "unit_value",
        args: &[words("unit", "id of a control unit"), words("id", "id of a value")],
        words: "A value as the reader of a control unit shows it [its own unit].",
        example: "unit_value(unit: \"thermal\", id: \"high\")",
    },
    Row {
        name: "sight_glass",
        args: &[],
        words: "A look into the sight glass [share of bubbles, 0 to 1].",
        example: "sight_glass",
    },
    Row {
        name: "sense",
        args: &[words("sense", SENSE)],
        words: "A person's own senses, without any tool [as each sense has it].",
        example: "sense(sweep)",
    },
];
