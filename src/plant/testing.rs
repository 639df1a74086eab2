//! Loops of the shipped rigs for the tests of this room, read from their files.

use std::fs;
use std::path::Path;

use super::PlantSpec;

/// What a test needs of `loop.ron`.
#[derive(serde::Deserialize)]
struct LoopFile {
    plant: PlantSpec,
}

/// The loop of a rig.
pub fn rig(id: &str) -> PlantSpec {
    rigs().into_iter().find(|(name, _)| name == id).expect("a folder in assets/rigs").1
}

/// Every rig's id and loop.
pub fn rigs() -> Vec<(String, PlantSpec)> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let root = here.ancestors().find(|folder| folder.join("assets/rigs").is_dir()).expect("assets");
    let mut folders: Vec<_> =
        fs::read_dir(root.join("assets/rigs")).unwrap().map(|entry| entry.unwrap().path()).collect();
    folders.sort();
    let read = |folder: &Path| {
        let text = fs::read_to_string(folder.join("loop.ron")).ok()?;
        let LoopFile { plant } = ron::from_str(&text).unwrap();
        Some((folder.file_name()?.to_string_lossy().into_owned(), plant))
    };
    folders.iter().filter_map(|folder| read(folder)).collect()
}
