//! `tables`: makes the binary property tables from the equations of state (feature `tables` only).

use std::io::Write;
use std::path::Path;

use thiserror::Error;

use crate::record::NewFile;
use crate::record::new_file::{Replace, WriteError};
use crate::refrigerant::equation::EquationError;
use crate::refrigerant::{Refrigerant, TableError, tabulate};
use crate::scenario::BadFile;
use crate::scenario::source::read_text;

/// Largest file of coefficients that is read [bytes].
const LARGEST_BYTES: u64 = 1_000_000;
/// What every table begins with.
const BEGINS: &str = "PINTLE-R";

/// Why a table could not be made.
#[derive(Debug, Error)]
pub enum TablesError {
    /// The coefficients could not be read.
    #[error(transparent)]
    Read(#[from] BadFile),
    /// The table could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// What was written could not be told.
    #[error("the output cannot be written: {0}")]
    Output(#[from] std::io::Error),
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
    let json = read_text(&from, LARGEST_BYTES)?;
    let bytes = tabulate::make(refrigerant, &json)
        .map_err(|source| TablesError::Equation { path: from.display().to_string(), source })?;
    Refrigerant::from_bytes(&bytes)?;
    let mut file = NewFile::create(&to, Replace::IfBeginsWith(BEGINS))?;
    file.write_bytes(&bytes)?;
    file.finish()?;
    Ok(writeln!(out, "{}: {} bytes", to.display(), bytes.len())?)
}
