//! Files that lean on each other in a circle, whether directly or through others.

use std::collections::{BTreeMap, BTreeSet};

use super::names::Lean;

/// Files each of which leads to all the others.
pub struct Circle {
    /// Their paths.
    pub files: Vec<String>,
    /// Who names what of whom among them.
    pub ties: Vec<String>,
}

/// All circles of more than one file; what only tests need ties nothing.
pub fn circles(paths: &[String], leans: &[Lean]) -> Vec<Circle> {
    let ties_files = |lean: &&Lean| !lean.in_tests && !lean.module_alone;
    let mut next = vec![BTreeSet::new(); paths.len()];
    for lean in leans.iter().filter(ties_files) {
        next[lean.from].insert(lean.to);
    }
    let reach: Vec<BTreeSet<usize>> = (0..next.len()).map(|file| reached(&next, file)).collect();
    let mut circles = vec![];
    for (file, reached) in reach.iter().enumerate() {
        let circle: Vec<usize> =
            reached.iter().copied().filter(|other| reach[*other].contains(&file)).collect();
        if circle.len() < 2 || circle[0] != file {
            continue;
        }
        let mut ties = BTreeMap::<(usize, usize), BTreeSet<&str>>::new();
        for lean in leans.iter().filter(ties_files) {
            if circle.contains(&lean.from) && circle.contains(&lean.to) {
                ties.entry((lean.from, lean.to)).or_default().insert(&lean.name);
            }
        }
        let words = |((from, to), names): (&(usize, usize), &BTreeSet<&str>)| {
            let names: Vec<&str> = names.iter().copied().collect();
            format!("{} names of {}: {}", paths[*from], paths[*to], names.join(", "))
        };
        circles.push(Circle {
            files: circle.iter().map(|file| paths[*file].clone()).collect(),
            ties: ties.iter().map(words).collect(),
        });
    }
    circles
}

/// Every file that one leads to; itself only through others.
fn reached(next: &[BTreeSet<usize>], from: usize) -> BTreeSet<usize> {
    let mut seen = BTreeSet::new();
    let mut open = vec![from];
    while let Some(file) = open.pop() {
        open.extend(next[file].iter().copied().filter(|other| seen.insert(*other)));
    }
    seen
}
