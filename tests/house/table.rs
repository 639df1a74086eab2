//! What may name what. A room is a folder or file of `src`; it may name the rooms of its own row, in code and in tests,
//! and its tests may name any room that stands before it. Adding an arrow is a decision: keep rows short.

/// The rooms from the ground up, each with the rooms that its code names.
pub const ROOMS: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("refrigerant", &[]),
    ("moist_air", &["units"]),
    ("plant", &["units", "refrigerant", "moist_air"]),
    ("circuit", &[]),
    ("rig", &["plant", "circuit"]),
    ("perceive", &["units", "moist_air", "plant"]),
    ("instrument", &["units", "plant", "circuit", "perceive"]),
    ("fault", &["plant", "circuit", "rig", "instrument"]),
    ("bay", &["units", "refrigerant", "plant", "rig", "instrument", "fault"]),
    ("scenario", &["rig", "fault", "bay"]),
    (
        "bench",
        &[
            "units",
            "refrigerant",
            "moist_air",
            "plant",
            "circuit",
            "rig",
            "perceive",
            "instrument",
            "fault",
            "bay",
            "scenario",
        ],
    ),
    ("record", &["scenario", "bench"]),
    ("diagnosis", &["rig", "perceive", "instrument", "fault", "scenario", "bench"]),
    (
        "lesson",
        &[
            "units",
            "plant",
            "circuit",
            "perceive",
            "instrument",
            "fault",
            "bay",
            "scenario",
            "bench",
            "diagnosis",
        ],
    ),
    (
        "procedure",
        &["units", "plant", "circuit", "instrument", "fault", "bay", "scenario", "bench", "lesson"],
    ),
    (
        "qualify",
        &[
            "units",
            "refrigerant",
            "moist_air",
            "plant",
            "circuit",
            "rig",
            "fault",
            "bay",
            "scenario",
            "bench",
        ],
    ),
    ("ordeal", &["refrigerant", "plant"]),
    (
        "desk",
        &[
            "units",
            "refrigerant",
            "plant",
            "circuit",
            "rig",
            "perceive",
            "instrument",
            "fault",
            "bay",
            "scenario",
            "bench",
            "record",
            "lesson",
            "procedure",
        ],
    ),
    (
        "commands",
        &[
            "units",
            "refrigerant",
            "circuit",
            "rig",
            "perceive",
            "instrument",
            "fault",
            "bay",
            "scenario",
            "bench",
            "record",
            "diagnosis",
            "lesson",
            "procedure",
            "qualify",
            "ordeal",
            "desk",
        ],
    ),
];

/// Arrows that still point upward or past a room, with what cuts them. Empty is the goal; never add to it.
pub const WAITING_ARROWS: &[(&str, &str, &str)] = &[
    // waits for: one table of knobs, which takes `Controls` out of the bench
    ("scenario", "bench", "Controls"),
];

/// Folders in which circles between files are still to be cut. Empty is the goal; never add to it.
pub const WAITING_CIRCLES: &[&str] = &[
    // waits for: one table of instruments (`Truth` of the rack against the tools that follow it)
    "src/instrument/",
    // waits for: the bench taken apart (its parts name `Bench`)
    "src/bench/",
    // waits for: drafts and pages that move into the wish (`Page` of each)
    "src/desk/bay_page/",
    "src/desk/rig_page/",
];

/// A file past this many lines is two files.
pub const LONGEST_FILE: usize = 500;

/// Files that are longer for now.
pub const LONG_FILES: &[&str] = &[
    // waits for: the session cut by job
    "src/desk/session.rs",
];
