//! The probes: tools on their places, and a person's own senses.

use super::{Row, names, one_of, words, yes};
use crate::instrument::{AirPlace, DetectorScale, MeterMode, PipePlace, SearchPlace};

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
        name: "vacuum_gauge",
        args: &[],
        words: "Absolute vacuum gauge at the centre hose [Pa absolute].",
        example: "vacuum_gauge",
    },
    Row {
        name: "recovery_scale",
        args: &[],
        words: "Scale under the recovery cylinder [kg, cylinder and contents].",
        example: "recovery_scale",
    },
    Row {
        name: "charging_scale",
        args: &[],
        words: "Scale under the vessel last put on the centre hose [kg, vessel and contents].",
        example: "charging_scale",
    },
    Row {
        name: "oil_graduation",
        args: &[],
        words: "Oil in the measuring glass of the recovery machine [m3].",
        example: "oil_graduation",
    },
    Row {
        name: "infrared",
        args: &[one_of("place", names::<PipePlace>), yes("taped")],
        words: "Infrared thermometer aimed at a pipe, at black tape or at bright metal [K].",
        example: "infrared(place: compressor_inlet, taped: true)",
    },
    Row {
        name: "wet_bulb",
        args: &[one_of("place", names::<AirPlace>)],
        words: "Wet bulb of a psychrometer [K].",
        example: "wet_bulb(outside)",
    },
    Row { name: "airflow", args: &[], words: "Airflow meter over the vents [m3/s].", example: "airflow" },
    Row {
        name: "leak_detector",
        args: &[one_of("place", names::<SearchPlace>), one_of("scale", names::<DetectorScale>)],
        words: "Electronic leak detector [strength of the sign, 0 to 1].",
        example: "leak_detector(place: shaft_seal, scale: g7)",
    },
    Row {
        name: "soap",
        args: &[one_of("place", names::<SearchPlace>)],
        words: "Soap solution on a place [strength of the sign, 0 to 1].",
        example: "soap(discharge_hose)",
    },
    Row {
        name: "uv_lamp",
        args: &[one_of("place", names::<SearchPlace>)],
        words: "Ultraviolet lamp shone on a place [strength of the sign, 0 to 1].",
        example: "uv_lamp(discharge_hose)",
    },
    Row {
        name: "identifier",
        args: &[],
        words: "Refrigerant identifier: share of refrigerant in the sample [0 to 1].",
        example: "identifier",
    },
    Row {
        name: "identifier_air",
        args: &[],
        words: "Refrigerant identifier: share of air in the sample [0 to 1].",
        example: "identifier_air",
    },
    Row {
        name: "sense",
        args: &[words("sense", SENSE)],
        words: "A person's own senses, without any tool [as each sense has it].",
        example: "sense(sweep)",
    },
];
