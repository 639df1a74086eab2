//! Sources are cited by the publication itself, so that anyone can look them up: not by a page of notes that is no part of
//! this repository.

use std::fs;
use std::path::Path;

use super::tree::root;

/// Pages of notes beside the repository. Taken apart, so that this file does not name them.
const PAGES: [&str; 4] = ["physics", "faults", "teaching", "engineering"];
const KINDS: [&str; 3] = ["rs", "ron", "txt"];

/// Lines that cite a page, below a folder.
fn citing(folder: &Path, found: &mut Vec<String>) {
    let mut entries: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        let extension = path.extension().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_dir() {
            citing(&path, found);
        } else if KINDS.contains(&extension.as_str()) {
            let text = fs::read_to_string(&path).unwrap();
            for (number, line) in (1..).zip(text.lines()) {
                let cites = |page: &&str| line.contains(&format!("{page}.md"));
                if PAGES.iter().any(cites) || line.contains(&["shared", "reference"].join("/")) {
                    found.push(format!("{}:{number}: {}", path.display(), line.trim()));
                }
            }
        }
    }
}

#[test]
fn no_file_cites_a_page_of_notes() {
    let mut found = Vec::new();
    for folder in ["src", "tests", "assets", "scenarios"] {
        citing(&root().join(folder), &mut found);
    }
    assert!(found.is_empty(), "cite the publication (author, year, title) instead:\n{}", found.join("\n"));
}
