//! Build script: lists the property tables in `assets/refrigerants`, so that a file there is all a refrigerant needs.

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
    fs::write(out.join("refrigerants.rs"), text)
}
