//! `tables`: makes the binary property tables from the equations of state (feature `tables` only).

use std::io::Write;
use std::path::Path;

use thiserror::Error;

use crate::refrigerant::equation::EquationError;
use crate::refrigerant::{Refrigerant, TableError, tabulate};

/// Why a table could not be made.
#[derive(Debug, Error)]
pub enum TablesError {
    /// A file could not be read or written.
    #[error("{path}: {source}")]
    File {
        /// The file.
        path: String,
        /// What happened.
        source: std::io::Error,
    },
    /// The equation could not be read or solved.
    #[error("{path}: {source}")]
    Equation {
        /// The coefficient file.
        path: String,
        /// What happened.
        source: EquationError,
    },
    /// The table that was made cannot be read back.
    #[error("the new table is not sound: {0}")]
    Unsound(#[from] TableError),
}

/// Reads `<folder>/<refrigerant>.json` and writes `<folder>/<refrigerant>.tbl` beside it.
///
/// `folder` is `assets/refrigerants` in the source tree; `refrigerant` a designation such as `R-134a`. A line
/// saying what was written goes to `out`.
pub fn run(refrigerant: &str, folder: &Path, out: &mut dyn Write) -> Result<(), TablesError> {
    let from = folder.join(format!("{refrigerant}.json"));
    let to = folder.join(format!("{refrigerant}.tbl"));
    let file = |path: &Path| {
        let path = path.display().to_string();
        move |source| TablesError::File { path, source }
    };
    let json = std::fs::read_to_string(&from).map_err(file(&from))?;
    let bytes = tabulate::make(refrigerant, &json)
        .map_err(|source| TablesError::Equation { path: from.display().to_string(), source })?;
    Refrigerant::from_bytes(&bytes)?;
    std::fs::write(&to, &bytes).map_err(file(&to))?;
    writeln!(out, "{}: {} bytes", to.display(), bytes.len()).map_err(file(Path::new("output")))
}
