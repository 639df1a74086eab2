//! Which program made a record: its version, and what its model is made of.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::message::{WORD, fit};

/// Version of the program.
pub const ENGINE: &str = env!("CARGO_PKG_VERSION");
/// Fingerprint of the sources of the model and of its data (rigs, property tables), as `src/build.rs` takes it. Records of one
/// fingerprint replay to the same hash; of two fingerprints they may.
pub const MODEL: &str = env!("PINTLE_MODEL");

/// A program that worked on a session.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Maker {
    /// Its version.
    pub engine: String,
    /// Fingerprint of its model, 16 hexadecimal digits; empty in records from before there was one.
    #[serde(default)]
    pub model: String,
}

impl Maker {
    /// This program.
    pub fn this() -> Self {
        Self { engine: ENGINE.into(), model: MODEL.into() }
    }
    /// It is this program, as far as the model goes.
    pub fn is_this(&self) -> bool {
        *self == Self::this()
    }
}

impl fmt::Display for Maker {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // A record may say anything.
        let engine = fit(&self.engine, WORD);
        match self.model.get(..6) {
            Some(model) => write!(f, "version {engine} (model {})", fit(model, WORD)),
            None => write!(f, "version {engine}"),
        }
    }
}
