//! What can be wrong with a property table.

use thiserror::Error;

/// Why a property table could not be read.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TableError {
    /// The file does not begin with the mark of a property table.
    #[error("not a refrigerant table: it does not begin with \"PINTLE-R\"")]
    NotATable,
    /// The file was written for another layout.
    #[error(
        "table layout {found} cannot be read, only layout {expected} (make it again with `pintle tables`)"
    )]
    Version {
        /// The layout the file names.
        found: u32,
        /// The layout this program reads.
        expected: u32,
    },
    /// The file ends too soon.
    #[error("the table ends at byte {at}, in the middle of {part}")]
    Truncated {
        /// Where it ends, in bytes from the start.
        at: usize,
        /// What was being read.
        part: &'static str,
    },
    /// Bytes follow the end of the table.
    #[error("{count} unexpected bytes follow the end of the table")]
    Trailing {
        /// How many.
        count: usize,
    },
    /// The check sum over the file is wrong.
    #[error("the table is damaged: its check sum is wrong")]
    CheckSum,
    /// A part is readable but makes no sense.
    #[error("the table is damaged: {part} {problem}")]
    Malformed {
        /// Which part.
        part: &'static str,
        /// What is wrong with it.
        problem: &'static str,
    },
}
