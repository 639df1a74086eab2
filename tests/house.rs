//! The house stands on its ground: arrows between the rooms of `src` point downward only, no two files lean on
//! each other in a circle, and no file grows into two. `tests/house/table.rs` holds what is allowed.

#[path = "house/circles.rs"]
mod circles;
#[path = "house/citations.rs"]
mod citations;
#[path = "house/names.rs"]
mod names;
#[path = "house/table.rs"]
mod table;
#[path = "house/tree.rs"]
mod tree;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::sync::LazyLock;

use circles::circles;
use names::{Lean, leans};
use table::{GROUND, LONGEST_FILE, ROOMS};
use tree::{Tree, room_of};

/// What the tests look at, read once.
struct House {
    /// Paths of the files, by number.
    paths: Vec<String>,
    leans: Vec<Lean>,
    /// Files on disk that are no part of the library.
    lost: Vec<String>,
}

static HOUSE: LazyLock<House> = LazyLock::new(|| {
    let tree = Tree::read();
    let leans = leans(&tree);
    House { paths: tree.files.into_iter().map(|file| file.path).collect(), leans, lost: tree.lost }
});

/// Where each room is named by another: from, to, and the lines that do it.
fn arrows(tests: bool) -> BTreeMap<(&'static str, &'static str), Vec<String>> {
    let House { paths, leans, .. } = &*HOUSE;
    let mut arrows = BTreeMap::<_, Vec<String>>::new();
    for lean in leans.iter().filter(|lean| lean.in_tests == tests) {
        let (from, to) = (room_of(&paths[lean.from]), room_of(&paths[lean.to]));
        if from != to && to != "lib" {
            arrows.entry((from, to)).or_default().push(lean.words(paths));
        }
    }
    arrows
}

/// Each on a line of its own.
fn lines(lines: &[String]) -> String {
    lines.iter().map(|line| format!("\n        {line}")).collect()
}

/// The first of a list that may be long.
fn few(all: &[String]) -> String {
    let (first, rest) = all.split_at(all.len().min(6));
    let more = if rest.is_empty() { String::new() } else { format!("\n        and {} more", rest.len()) };
    lines(first) + &more
}

/// How high a room stands: the ground first, then the rows of the table.
fn floor(room: &str) -> Option<usize> {
    GROUND.iter().chain(ROOMS.iter().map(|(name, _)| name)).position(|name| *name == room)
}

/// Every room may stand on the ground, and the ground on what of it comes before.
fn on_the_ground(from: &str, to: &str) -> bool {
    GROUND.contains(&to) && floor(to) < floor(from)
}

#[test]
fn the_table_itself_points_downward() {
    let mut wrong = String::new();
    for (room, names) in ROOMS {
        for name in *names {
            if GROUND.contains(name) || floor(name).is_none() || floor(name) >= floor(room) {
                wrong += &format!("\n    {room} -> {name}: {name} does not stand in a row before {room}");
            }
        }
    }
    assert!(wrong.is_empty(), "in tests/house/table.rs:{wrong}");
}

#[test]
fn rooms_name_only_what_the_table_allows() {
    let found = arrows(false);
    let allowed: BTreeSet<(&str, &str)> =
        ROOMS.iter().flat_map(|(room, names)| names.iter().map(move |name| (*room, *name))).collect();
    let mut wrong = String::new();
    for ((from, to), lines) in &found {
        if floor(from).is_none() {
            wrong += &format!(
                "\n    {from} is a new room: give it a row in the table, above all that may name it"
            );
        } else if !allowed.contains(&(from, to)) && !on_the_ground(from, to) {
            let way = match (floor(from), floor(to)) {
                (Some(from), Some(to)) if to < from => {
                    "downward, but new: if it is meant, add it to the row; else use what the room below hands out"
                }
                _ => {
                    "upward: move the thing that is named down to where both may name it, or the code that names it up"
                }
            };
            wrong += &format!("\n    {from} -> {to} ({way}){}", few(lines));
        }
    }
    for (from, to) in allowed.iter().filter(|arrow| !found.contains_key(arrow)) {
        wrong += &format!("\n    {from} -> {to}: nothing uses it any more; strike it out of the table");
    }
    assert!(wrong.is_empty(), "arrows between rooms and tests/house/table.rs do not agree:{wrong}");
}

#[test]
fn tests_of_a_room_need_only_rooms_below_it() {
    let mut wrong = String::new();
    for ((from, to), lines) in &arrows(true) {
        if floor(to) >= floor(from) {
            wrong += &format!("\n    {from} -> {to}{}", few(lines));
        }
    }
    assert!(
        wrong.is_empty(),
        "tests name rooms above their own; move such a test up to the highest room that it names, or to tests/:{wrong}"
    );
}

#[test]
fn no_circle_between_files() {
    let circles = circles(&HOUSE.paths, &HOUSE.leans);
    let mut wrong = String::new();
    for circle in &circles {
        wrong += &format!("\n    {}{}", circle.files.join(" <-> "), lines(&circle.ties));
    }
    assert!(
        wrong.is_empty(),
        "files that lean on each other; most such circles go when the type that both need moves into a file of its own:{wrong}"
    );
}

#[test]
fn every_file_belongs_to_the_crate() {
    assert!(HOUSE.lost.is_empty(), "no `mod` leads to {}", HOUSE.lost.join(", "));
}

#[test]
fn no_file_is_two() {
    let mut wrong = String::new();
    for path in &HOUSE.paths {
        let lines = fs::read_to_string(tree::root().join(path)).unwrap().lines().count();
        if lines > LONGEST_FILE {
            wrong += &format!("\n    {path}: {lines} lines; which two things is it?");
        }
    }
    assert!(wrong.is_empty(), "files of more than {LONGEST_FILE} lines:{wrong}");
}

/// A record says which model made it: a fingerprint over all rooms that a run of the bench depends on. A room that
/// `src/build.rs` forgets would change the model unseen.
#[test]
fn the_fingerprint_of_the_model_covers_every_room_below_the_record() {
    let build = fs::read_to_string(tree::root().join("src/build.rs")).unwrap();
    let rooms = ROOMS.iter().map(|(room, _)| *room).take_while(|room| *room != "record");
    // How far long work is and whether somebody stops it changes no state.
    for room in GROUND.iter().copied().filter(|room| !matches!(*room, "effort" | "stop")).chain(rooms) {
        for path in [format!("src/{room}"), format!("src/{room}.rs")] {
            let there = tree::root().join(&path).exists();
            assert!(!there || build.contains(&format!("\"{path}\"")), "MODEL in src/build.rs lacks {path}");
        }
    }
}
