//! How a command fails, and the exit code that goes with it.

use super::properties::PropertiesError;
use crate::record::ReplayError;
use crate::record::new_file::WriteError;
use crate::scenario::BadFile;

/// Why a command did not end well.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The input cannot be used: exit code 2, nothing was run.
    #[error("{0}")]
    Input(String),
    /// It ran, and something is wrong: exit code 1.
    #[error("{0}")]
    Wrong(String),
    /// It was told to stop: exit code 128 and the number of the signal, as shells have it (Ctrl+C: 130).
    #[error("stopped by signal {signal}; no file was written")]
    Stopped {
        /// Number of the signal.
        signal: u8,
    },
    /// Nobody reads the output any more, as after `| head`: no failure at all.
    #[error("the output was closed")]
    Closed,
}

impl Failure {
    /// Exit code of the process.
    pub fn code(&self) -> u8 {
        match self {
            Self::Input(_) => 2,
            Self::Wrong(_) => 1,
            Self::Stopped { signal } => 128_u8.saturating_add(*signal),
            Self::Closed => 0,
        }
    }
}

impl From<BadFile> for Failure {
    fn from(error: BadFile) -> Self {
        Self::Input(error.to_string())
    }
}

impl From<WriteError> for Failure {
    fn from(error: WriteError) -> Self {
        match error {
            WriteError::Io { source, .. } if source.kind() == std::io::ErrorKind::BrokenPipe => Self::Closed,
            other => Self::Input(other.to_string()),
        }
    }
}

impl From<ReplayError> for Failure {
    fn from(error: ReplayError) -> Self {
        match error {
            ReplayError::Start(_) | ReplayError::TooLong(_) => Self::Input(error.to_string()),
            _ => Self::Wrong(error.to_string()),
        }
    }
}

impl From<PropertiesError> for Failure {
    fn from(error: PropertiesError) -> Self {
        match error {
            PropertiesError::Write(source) => Self::from(source),
            PropertiesError::Read(bad) => Self::from(bad),
            other => Self::Input(other.to_string()),
        }
    }
}

#[cfg(feature = "tables")]
impl From<super::tables::TablesError> for Failure {
    fn from(error: super::tables::TablesError) -> Self {
        Self::Input(error.to_string())
    }
}

impl From<std::io::Error> for Failure {
    fn from(error: std::io::Error) -> Self {
        match error.kind() {
            std::io::ErrorKind::BrokenPipe => Self::Closed,
            _ => Self::Wrong(format!("the output cannot be written: {error}")),
        }
    }
}
