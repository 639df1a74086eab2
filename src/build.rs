//! Build script: lists the files that travel inside the program (`src/assets.rs`), so that a scenario, an action file, a
//! rig or a refrigerant is a file and no code.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

/// A folder of the source tree whose files are embedded.
struct Folder {
    /// Name of its list in `src/assets.rs`, and of what its items are.
    list: (&'static str, &'static str),
    /// What the list holds.
    words: &'static str,
    path: &'static str,
    extension: &'static str,
    /// The file that lists its ids in their order, a line each; without one they follow by name, subfolders included.
    order: Option<&'static str>,
}

const FOLDERS: [Folder; 4] = [
    Folder {
        list: ("SCENARIOS", "Shipped"),
        words: "Scenarios, in the order of the course.",
        path: "scenarios",
        extension: "ron",
        order: Some("assets/order/scenarios.txt"),
    },
    Folder {
        list: ("PROCEDURES", "Shipped"),
        words: "Action files, in the order of the trade.",
        path: "assets/procedures",
        extension: "ron",
        order: Some("assets/order/procedures.txt"),
    },
    Folder {
        list: ("RIGS", "Shipped"),
        words: "Files of all rigs' folders, rig by rig; an id is `rig/file`.",
        path: "assets/rigs",
        extension: "ron",
        order: None,
    },
    Folder {
        list: ("TABLES", "ShippedBytes"),
        words: "Property tables of refrigerants, by designation.",
        path: "assets/refrigerants",
        extension: "tbl",
        order: None,
    },
];

fn main() -> io::Result<()> {
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").ok_or(io::ErrorKind::NotFound)?);
    println!("cargo::rerun-if-changed=src/build.rs");
    let mut text = String::new();
    for folder in &FOLDERS {
        for path in [Some(folder.path), folder.order].into_iter().flatten() {
            println!("cargo::rerun-if-changed={path}");
        }
        folder.write(&root, &mut text)?;
    }
    tables_to_make(&root.join("assets/refrigerants"))?;
    println!("cargo::rustc-env=PINTLE_MODEL={:016x}", model(&root)?);
    let out = PathBuf::from(env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?);
    fs::write(out.join("assets.rs"), text)
}

impl Folder {
    /// Its list as Rust.
    fn write(&self, root: &Path, text: &mut String) -> io::Result<()> {
        let (name, item) = self.list;
        // Writing to a String cannot fail.
        let _ = writeln!(text, "/// {}\npub static {name}: &[{item}] = &[", self.words);
        let (field, include) =
            if item == "Shipped" { ("text", "include_str") } else { ("bytes", "include_bytes") };
        for id in self.ids(root)? {
            let file = format!("{}/{id}.{}", self.path, self.extension);
            // The root is asked for when the list is compiled, so that a tree that was moved finds its files.
            let _ = writeln!(
                text,
                "    {item} {{ id: {id:?}, file: {file:?}, {field}: {include}!(concat!(env!(\"CARGO_MANIFEST_DIR\"), {:?})) }},",
                format!("/{file}")
            );
        }
        text.push_str("];\n");
        Ok(())
    }

    /// Ids of its files, in their order.
    fn ids(&self, root: &Path) -> io::Result<Vec<String>> {
        let mut found = Vec::new();
        self.gather(&root.join(self.path), "", &mut found)?;
        found.sort();
        let Some(order) = self.order else { return Ok(found) };
        let text = fs::read_to_string(root.join(order))?;
        let listed: Vec<String> = text
            .lines()
            .map(|line| line.trim().to_owned())
            .filter(|line| !line.is_empty() && !line.starts_with('#'))
            .collect();
        let mut sorted = listed.clone();
        sorted.sort();
        if let Some(id) = found.iter().find(|id| sorted.binary_search(id).is_err()) {
            return Err(io::Error::other(format!(
                "{order}: `{id}.{}` lies in {} and has no line here",
                self.extension, self.path
            )));
        }
        if let Some(id) = sorted.iter().find(|id| found.binary_search(id).is_err()) {
            return Err(io::Error::other(format!("{order}: there is no file for the line `{id}`")));
        }
        if let Some(twice) = sorted.windows(2).find(|pair| pair[0] == pair[1]) {
            return Err(io::Error::other(format!("{order}: `{}` stands here twice", twice[0])));
        }
        Ok(listed)
    }

    /// Ids of the files below `at`.
    fn gather(&self, at: &Path, before: &str, found: &mut Vec<String>) -> io::Result<()> {
        for entry in fs::read_dir(at)? {
            let path = entry?.path();
            let name =
                |part: Option<&std::ffi::OsStr>| part.unwrap_or_default().to_string_lossy().into_owned();
            if path.is_dir() {
                self.gather(&path, &format!("{before}{}/", name(path.file_name())), found)?;
            } else if path.extension().is_some_and(|e| e == self.extension) {
                found.push(format!("{before}{}", name(path.file_stem())));
            }
        }
        Ok(())
    }
}

/// What a run of the bench depends on: the rooms of `src` from the bench down, rigs and property tables.
const MODEL: [&str; 24] = [
    "assets/refrigerants",
    "assets/rigs",
    "src/assets.rs",
    "src/bay",
    "src/bench",
    "src/circuit",
    "src/constants.rs",
    "src/fault",
    "src/fingerprint.rs",
    "src/instrument",
    "src/knobs",
    "src/message.rs",
    "src/moist_air",
    "src/moist_air.rs",
    "src/noise.rs",
    "src/perceive",
    "src/places.rs",
    "src/plant",
    "src/refrigerant",
    "src/rig",
    "src/rig.rs",
    "src/scenario",
    "src/units.rs",
    "src/variants.rs",
];

/// A fingerprint of it: FNV-1a over names and contents in the order of names. What is tests alone does not count.
fn model(root: &Path) -> io::Result<u64> {
    let mut files = Vec::new();
    for part in MODEL {
        println!("cargo::rerun-if-changed={part}");
        under(&root.join(part), &mut files)?;
    }
    files.sort();
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    for path in files {
        let name = path.strip_prefix(root).unwrap_or(&path).to_string_lossy().replace('\\', "/");
        if name.ends_with("tests.rs") {
            continue;
        }
        // Some systems check text out with another end of line.
        let bytes = fs::read(&path)?;
        for b in name.bytes().chain(bytes).filter(|b| *b != b'\r') {
            hash = (hash ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    Ok(hash)
}

/// All files at or below a path.
fn under(path: &Path, found: &mut Vec<PathBuf>) -> io::Result<()> {
    if !path.is_dir() {
        found.push(path.to_owned());
        return Ok(());
    }
    for entry in fs::read_dir(path)? {
        under(&entry?.path(), found)?;
    }
    Ok(())
}

/// Say which refrigerants have no table yet.
fn tables_to_make(folder: &Path) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_some_and(|e| e == "json") && !path.with_extension("tbl").exists() {
            println!("cargo::warning={} has no table yet: `pintle tables` makes it", path.display());
        }
    }
    Ok(())
}
