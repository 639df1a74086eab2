//! Build script: lists the property tables in `assets/refrigerants` and the rigs in `assets/rigs`, so that a file there is
//! all a refrigerant needs, and a folder all a rig needs.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").ok_or(io::ErrorKind::NotFound)?);
    let folder = root.join("assets").join("refrigerants");
    println!("cargo::rerun-if-changed=assets/refrigerants");
    println!("cargo::rerun-if-changed=src/build.rs");

    let mut files =
        fs::read_dir(&folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<Vec<PathBuf>>>()?;
    files.sort();
    let has = |path: &Path, extension: &str| path.extension().is_some_and(|e| e == extension);
    for json in files.iter().filter(|path| has(path, "json") && !path.with_extension("tbl").exists()) {
        println!("cargo::warning={} has no table yet: `pintle tables` makes it", json.display());
    }

    let tables: Vec<&PathBuf> = files.iter().filter(|path| has(path, "tbl")).collect();
    let count = tables.len();
    let (mut names, mut bytes) = (String::new(), String::new());
    for table in tables {
        let name = table.file_stem().unwrap_or_default().to_string_lossy();
        // Writing to a String cannot fail.
        let _ = writeln!(names, "    {name:?},");
        let _ = writeln!(bytes, "    include_bytes!({:?}),", table.to_string_lossy());
    }
    let text = format!(
        "pub(super) const COUNT: usize = {count};\n\
         pub(super) static NAMES: [&str; COUNT] = [\n{names}];\n\
         pub(super) static TABLES: [&[u8]; COUNT] = [\n{bytes}];\n"
    );
    let out = PathBuf::from(env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?);
    fs::write(out.join("refrigerants.rs"), text)?;
    fs::write(out.join("rigs.rs"), rigs(&root.join("assets").join("rigs"))?)
}

/// The files of every rig's folder, as `static FILES: &[(&str, &[(&str, &str)])]`: rig, then file name and text.
fn rigs(folder: &Path) -> io::Result<String> {
    println!("cargo::rerun-if-changed=assets/rigs");
    let sorted = |folder: &Path| -> io::Result<Vec<PathBuf>> {
        let mut paths =
            fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<Vec<PathBuf>>>()?;
        paths.sort();
        Ok(paths)
    };
    let name = |path: &Path| path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let mut text = String::from("pub(super) static FILES: &[(&str, &[(&str, &str)])] = &[\n");
    for rig in sorted(folder)?.into_iter().filter(|path| path.is_dir()) {
        let _ = writeln!(text, "    ({:?}, &[", name(&rig));
        println!("cargo::rerun-if-changed={}", rig.display());
        for file in sorted(&rig)?.into_iter().filter(|path| path.extension().is_some_and(|e| e == "ron")) {
            let _ =
                writeln!(text, "        ({:?}, include_str!({:?})),", name(&file), file.to_string_lossy());
        }
        text.push_str("    ]),\n");
    }
    text.push_str("];\n");
    Ok(text)
}
