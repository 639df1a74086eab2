//! The actions of the service bay.

use super::{Row, names, number, one_of, words, yes};
use crate::bay::{CentreEnd, Hose, OilKind, RecordField, StationStep, VesselValve, WorkedUnit, WorkedValue};
use crate::plant::{Port, Vessel};

/// Every action of the service bay, in the order of its type; in files they stand in `bay(...)`.
pub const BAY: &[Row] = &[
    Row {
        name: "protect",
        args: &[yes("on")],
        words: "Put goggles and gloves on, or take them off.",
        example: "protect(true)",
    },
    Row {
        name: "ventilate",
        args: &[yes("on")],
        words: "Switch the extraction on and open the doors, or the reverse.",
        example: "ventilate(true)",
    },
    Row {
        name: "identify",
        args: &[],
        words: "Take a sample at the low side to the refrigerant identifier.",
        example: "identify",
    },
    Row {
        name: "fit",
        args: &[one_of("hose", names::<Hose>), one_of("port", names::<Port>)],
        words: "Put a hose's coupler on a port; port: None takes it off.",
        example: "fit(hose: low, port: low)",
    },
    Row {
        name: "knob",
        args: &[one_of("hose", names::<Hose>), yes("open")],
        words: "Turn the knob of a coupler, which opens the port; it is not the hand valve.",
        example: "knob(hose: low, open: true)",
    },
    Row {
        name: "centre",
        args: &[one_of("end", names::<CentreEnd>)],
        words: "Screw the centre hose to something else.",
        example: "centre(vacuum_pump)",
    },
    Row {
        name: "loosen",
        args: &[yes("loose")],
        words: "Crack the centre hose at its end to let its air out, or tighten it.",
        example: "loosen(true)",
    },
    Row { name: "pump", args: &[yes("on")], words: "Switch the vacuum pump.", example: "pump(true)" },
    Row {
        name: "machine",
        args: &[yes("on")],
        words: "Switch the recovery machine.",
        example: "machine(true)",
    },
    Row {
        name: "valve",
        args: &[one_of("vessel", names::<Vessel>), one_of("valve", names::<VesselValve>)],
        words: "Set the valve of a vessel; for a can, its tap and which way up it is held.",
        example: "valve(vessel: supply, valve: liquid)",
    },
    Row {
        name: "warm",
        args: &[yes("on")],
        words: "Stand the charging cylinder or the can in a warm bath of at most 40 °C.",
        example: "warm(true)",
    },
    Row { name: "flame", args: &[], words: "Hold a flame to a vessel: always refused.", example: "flame" },
    Row {
        name: "regulator_bar",
        args: &[number("gauge", "bar", 0.0, 40.0)],
        words: "Set the regulator of the nitrogen; 0 shuts it.",
        example: "regulator_bar(10)",
    },
    Row {
        name: "oil",
        args: &[number("ml", "mL", 0.0, 300.0), one_of("kind", names::<OilKind>)],
        words: "Put oil in through the injector.",
        example: "oil(ml: 30, kind: as_labelled)",
    },
    Row {
        name: "dye_ml",
        args: &[number("dye", "mL", 0.0, 50.0)],
        words: "Put leak dye in.",
        example: "dye_ml(7.5)",
    },
    Row { name: "spray", args: &[yes("on")], words: "Spray water on the condenser.", example: "spray(true)" },
    Row {
        name: "cover_pct",
        args: &[number("covered", "%", 0.0, 100.0)],
        words: "Cover so much of the condenser's face.",
        example: "cover_pct(60)",
    },
    Row {
        name: "new_part_oil_ml",
        args: &[number("oil", "mL", 0.0, 300.0)],
        words: "Oil that stands in the new part as it is put in.",
        example: "new_part_oil_ml(30)",
    },
    Row {
        name: "close_up",
        args: &[],
        words: "Close what a repair opened, with new seals.",
        example: "close_up",
    },
    Row { name: "fresh_can", args: &[], words: "Put a fresh can on the tap.", example: "fresh_can" },
    Row {
        name: "station",
        args: &[one_of("list of steps", names::<StationStep>)],
        words: "Run a program on the service station: a list of steps, minutes, mL or g in brackets.",
        example: "station([recover, evacuate_min(30), hold_min(5), oil_ml(20), charge_g(350)])",
    },
    Row { name: "station_stop", args: &[], words: "Stop the station where it is.", example: "station_stop" },
    Row {
        name: "write",
        args: &[
            one_of("field", names::<RecordField>),
            words("value", "number(..) in the unit of the line, or words(\"..\")"),
        ],
        words: "Fill in a line of the work record.",
        example: "write(field: recovered_g, value: number(320))",
    },
    Row {
        name: "hand_over",
        args: &[],
        words: "Hand the work record in: it is checked, and what came of the work is told.",
        example: "hand_over",
    },
    Row {
        name: "work",
        args: &[
            one_of("what", names::<WorkedValue>),
            words("readings", "list of notebook readings, counted from 0"),
            words("answer", "number"),
            one_of("unit", names::<WorkedUnit>),
        ],
        words: "Give a value worked out from notebook readings.",
        example: "work(what: superheat, readings: [0, 1], answer: 6.5, unit: kelvin)",
    },
];
