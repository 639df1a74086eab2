//! What may name what. A room is a folder or file of `src`; it may name the ground and the rooms of its own row, in code
//! and in tests, and its tests may name any room that stands before it. Adding an arrow is a decision: keep rows short.

/// What every room may stand on: embedded files, constants, lists of variants, chance, units, text for messages. They name
/// none but each other, each the ones before it.
pub const GROUND: &[&str] =
    &["assets", "constants", "variants", "fingerprint", "effort", "stop", "noise", "units", "message"];

/// The rooms above it, from the ground up, each with the rooms that its code names.
#[rustfmt::skip]
pub const ROOMS: &[(&str, &[&str])] = &[
    ("knobs", &[]),
    ("refrigerant", &[]),
    ("moist_air", &[]),
    ("plant", &["refrigerant", "moist_air"]),
    ("places", &["plant"]),
    ("circuit", &[]),
    ("rig", &["plant", "circuit"]),
    ("perceive", &["moist_air", "plant"]),
    ("instrument", &["places", "circuit", "perceive"]),
    ("fault", &["places", "plant", "circuit", "rig"]),
    ("bay", &["places", "refrigerant", "plant", "rig", "instrument", "fault"]),
    ("scenario", &["knobs", "rig", "instrument", "fault", "bay"]),
    ("bench", &[
        "knobs", "places", "refrigerant", "moist_air", "plant", "circuit", "rig", "perceive", "instrument", "fault", "bay",
        "scenario",
    ]),
    ("record", &["instrument", "scenario", "bench"]),
    ("diagnosis", &["knobs", "places", "circuit", "rig", "perceive", "instrument", "fault", "scenario", "bench"]),
    ("lesson", &[
        "knobs", "places", "plant", "circuit", "perceive", "instrument", "fault", "bay", "scenario", "bench", "diagnosis",
    ]),
    ("procedure", &[
        "knobs", "places", "plant", "circuit", "instrument", "fault", "bay", "scenario", "bench", "lesson",
    ]),
    ("qualify", &[
        "knobs", "refrigerant", "moist_air", "plant", "circuit", "rig", "fault", "bay", "scenario", "bench",
    ]),
    ("ordeal", &["refrigerant", "plant"]),
    ("desk", &[
        "knobs", "places", "refrigerant", "plant", "circuit", "rig", "perceive", "instrument", "fault", "bay", "scenario",
        "bench", "record", "diagnosis", "lesson", "procedure",
    ]),
    ("commands", &[
        "knobs", "refrigerant", "circuit", "rig", "perceive", "instrument", "fault", "bay", "scenario", "bench", "record",
        "diagnosis", "lesson", "procedure", "qualify", "ordeal", "desk",
    ]),
];

/// A file past this many lines is two files.
pub const LONGEST_FILE: usize = 500;
