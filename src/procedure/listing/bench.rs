//! The actions of the bench.

use super::{Row, hand_valve, names, number, one_of, words, yes};
use crate::bench::{Relay, Standing};
use crate::circuit::Guard;
use crate::fault::{FaultId, Group, RepairId};
use crate::instrument::MeterRange;

const SEVERITY: &str = "number in the range that `pintle faults` gives";
const PROBE: &str = "a probe, from the list below";
const RECURS: &str = "what makes it come and go, such as when_hot(above_c: 70, place: compressor_outlet)";

/// Every action of the bench, in the order of its type.
pub const BENCH: &[Row] = &[
    Row {
        name: "set",
        args: &[words("knob", "a knob and its value, from the list below")],
        words: "Turn a knob.",
        example: "set(engine_rpm(1500))",
    },
    Row {
        name: "hoses",
        args: &[yes("on")],
        words: "Fit both service hoses, or take them off.",
        example: "hoses(true)",
    },
    Row {
        name: "manifold_low_pct",
        args: &[hand_valve("open")],
        words: "Turn the low-side hand valve of the manifold.",
        example: "manifold_low_pct(100)",
    },
    Row {
        name: "manifold_high_pct",
        args: &[hand_valve("open")],
        words: "Turn the high-side hand valve of the manifold.",
        example: "manifold_high_pct(100)",
    },
    Row {
        name: "jumper",
        args: &[one_of("relay", names::<Relay>)],
        words: "Bridge a relay contact with the fused jumper lead; None takes it away.",
        example: "jumper(clutch)",
    },
    Row {
        name: "jumper_between",
        args: &[words("points", "two points of the circuit, or ground, in brackets")],
        words: "Bridge two points with the fused jumper lead; None takes it away.",
        example: "jumper_between((\"clutch_coil_plus\", \"ground\"))",
    },
    Row {
        name: "remove",
        args: &[words("probe", PROBE)],
        words: "Take the tool of this kind away.",
        example: "remove(sight_glass)",
    },
    Row {
        name: "meter_range",
        args: &[one_of("range", names::<MeterRange>)],
        words: "Set the range of the multimeter for volts.",
        example: "meter_range(auto)",
    },
    Row {
        name: "meter_relative",
        args: &[yes("on")],
        words: "Let what the multimeter shows now count as zero.",
        example: "meter_relative(true)",
    },
    Row {
        name: "clamp_zero",
        args: &[],
        words: "Press the zero key of the clamp ammeter.",
        example: "clamp_zero",
    },
    Row {
        name: "reader",
        args: &[yes("in")],
        words: "Plug the reader of the control units in, or take it out.",
        example: "reader(true)",
    },
    Row {
        name: "clear_codes",
        args: &[],
        words: "Clear the codes of the control units.",
        example: "clear_codes",
    },
    Row {
        name: "unplug",
        args: &[words("connector", "name of a connector"), yes("out")],
        words: "Unplug a connector, or plug it in.",
        example: "unplug(\"clutch_plug\", true)",
    },
    Row {
        name: "swap_relays",
        args: &[words("relay", "id of a relay"), words("other", "id of a relay of the same kind")],
        words: "Swap two relays.",
        example: "swap_relays(\"fan_relay\", \"clutch_relay\")",
    },
    Row {
        name: "renew_fuse",
        args: &[words("fuse", "id of a fuse, or meter, or jumper")],
        words: "Put in a new fuse.",
        example: "renew_fuse(\"fan_fuse\")",
    },
    Row {
        name: "isolate",
        args: &[one_of("guard", names::<Guard>), yes("open")],
        words: "Open and lock the isolators of traction voltage or mains, or close them.",
        example: "isolate(Traction, true)",
    },
    Row {
        name: "prove_meter",
        args: &[],
        words: "Try the multimeter on a known source.",
        example: "prove_meter",
    },
    Row {
        name: "prove_dead",
        args: &[one_of("guard", names::<Guard>)],
        words: "Measure between all points behind the isolator whether they are dead.",
        example: "prove_dead(Mains)",
    },
    Row {
        name: "stopped",
        args: &[words("action", "the action that was stopped")],
        words: "An action that was stopped because it was not safe; the bench writes it, no file does it.",
        example: "stopped(prove_dead(Mains))",
    },
    Row {
        name: "impose_fault",
        args: &[one_of("id", names::<FaultId>), words("severity", SEVERITY)],
        words: "Impose a fault at once, as an instructor does.",
        example: "impose_fault(id: undercharge, severity: 0.5)",
    },
    Row {
        name: "impose_intermittent",
        args: &[one_of("id", names::<FaultId>), words("severity", SEVERITY), words("recurs", RECURS)],
        words: "Impose a fault that comes and goes.",
        example: "impose_intermittent(id: clutch_coil_open, severity: 1, recurs: when_hot(above_c: 70, place: compressor_outlet))",
    },
    Row {
        name: "ramp_fault",
        args: &[
            one_of("id", names::<FaultId>),
            words("severity", SEVERITY),
            number("over_s", "s", 0.0, 36_000.0),
        ],
        words: "Move a fault to a severity over some seconds.",
        example: "ramp_fault(id: undercharge, severity: 0.5, over_s: 600)",
    },
    Row {
        name: "clear_fault",
        args: &[one_of("id", names::<FaultId>)],
        words: "Take a fault away, as an instructor does.",
        example: "clear_fault(id: undercharge)",
    },
    Row {
        name: "bay",
        args: &[words("action", "an action of the service bay, from the list below")],
        words: "Do something in the service bay.",
        example: "bay(pump(true))",
    },
    Row {
        name: "repair",
        args: &[one_of("repair", names::<RepairId>)],
        words: "Carry out a repair, right or wrong; in a bay it swaps the part and leaves the loop open.",
        example: "repair(replace_drier)",
    },
    Row {
        name: "place",
        args: &[words("probe", PROBE)],
        words: "Put a tool on a place; it settles with its own lag.",
        example: "place(pipe(compressor_inlet))",
    },
    Row {
        name: "read",
        args: &[words("probe", PROBE)],
        words: "Write what a tool shows into the notebook.",
        example: "read(low_gauge)",
    },
    Row {
        name: "note",
        args: &[words("text", "up to 2000 characters in quotes")],
        words: "Write a remark or what is expected next.",
        example: "note(\"I expect 2 bar\")",
    },
    Row { name: "hint", args: &[], words: "Take the next hint of the scenario.", example: "hint" },
    Row {
        name: "suspect",
        args: &[one_of("group", names::<Group>), one_of("standing", names::<Standing>)],
        words: "Move a suspect card.",
        example: "suspect(group: condenser_airflow, standing: cleared)",
    },
    Row {
        name: "diagnose",
        args: &[
            words("cause", "a fault, or None: nothing is wrong"),
            words("evidence", "list of notebook readings, counted from 0"),
            number("confidence", "", 0.0, 1.0),
            words("because", "text in quotes"),
        ],
        words: "Name the cause.",
        example: "diagnose((cause: undercharge, evidence: [0], confidence: 0.8, because: \"bubbles\"))",
    },
];
