//! A record: what was run, done, read and handed in, as a file.

use serde::{Deserialize, Serialize};

use super::new_file::{NewFile, WriteError};
use super::version::Maker;
use crate::bench::{Action, Bench};
use crate::fingerprint::{FingerprintError, fingerprint, hex};
use crate::instrument::Reading;
use crate::scenario::Scenario;

/// Version of the record format. Format 1 (before records held readings and a hash of their own) is read too.
pub const FORMAT: u32 = 2;

/// Everything needed to run a session again, and to see what came of it when that is no longer possible.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Version of the record format.
    pub format: u32,
    /// Version of the program that wrote it.
    pub engine: String,
    /// Fingerprint of that program's model, 16 hexadecimal digits; empty in format 1.
    #[serde(default)]
    pub model: String,
    /// Programs that worked on the session before and whose model was another, oldest first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub earlier: Vec<Maker>,
    /// State hash at the end, 16 hexadecimal digits; empty where the session was cut off.
    #[serde(default)]
    pub state: String,
    /// Hash of everything else in this record, 16 hexadecimal digits; empty in format 1 and where the session was cut off.
    pub hash: String,
    /// Seed of the instrument noise.
    pub seed: u64,
    /// Length of the session in ticks of 50 ms.
    pub ticks: u64,
    /// What was done, with the tick it was done on.
    pub actions: Vec<(u64, Action)>,
    /// What was read, as the instruments showed it; empty in format 1.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<Reading>,
    /// The scenario, whole.
    pub scenario: Scenario,
    /// What of the file could not be read, in words.
    #[serde(skip)]
    pub left_out: Option<String>,
}

/// State hash as it is printed and recorded.
///
/// # Errors
/// Something in the state cannot be written down.
pub fn hash_text(bench: &Bench) -> Result<String, FingerprintError> {
    bench.state_hash().map(hex)
}

impl Record {
    /// The record of a bench as it stands; `earlier` names programs with another model that worked on it before.
    ///
    /// # Errors
    /// Something in the state cannot be written down.
    pub fn of(bench: &Bench, earlier: &[Maker]) -> Result<Self, FingerprintError> {
        let Maker { engine, model } = Maker::this();
        let mut record = Self {
            format: FORMAT,
            engine,
            model,
            earlier: earlier.to_vec(),
            state: hash_text(bench)?,
            hash: String::new(),
            seed: bench.seed(),
            ticks: bench.tick(),
            actions: bench.journal().to_vec(),
            readings: bench.notebook().to_vec(),
            scenario: bench.scenario().clone(),
            left_out: None,
        };
        record.hash = record.own_hash()?;
        Ok(record)
    }

    /// Who wrote it.
    pub fn maker(&self) -> Maker {
        Maker { engine: self.engine.clone(), model: self.model.clone() }
    }

    /// Hash of what stands in it: the scenario with its words, what was done, written, read and asked, and the state it ended in.
    ///
    /// # Errors
    /// Something in it cannot be written down.
    pub fn own_hash(&self) -> Result<String, FingerprintError> {
        let bare = Self { hash: String::new(), ..self.clone() };
        fingerprint(&bare).map(hex)
    }

    /// Does its hash fit what stands in it? `None` where it has none to compare with.
    pub fn is_untouched(&self) -> Option<bool> {
        (!self.hash.is_empty()).then(|| self.own_hash().is_ok_and(|own| own.eq_ignore_ascii_case(&self.hash)))
    }

    /// As RON text.
    pub fn to_text(&self) -> Result<String, ron::Error> {
        let style = ron::ser::PrettyConfig::new().depth_limit(3);
        Ok(ron::Options::default().to_string_pretty(self, style)? + "\n")
    }

    /// Write it to a file begun earlier.
    pub fn write(&self, mut file: NewFile) -> Result<(), WriteError> {
        let text = self.to_text().map_err(|e| file.refuse(e.to_string()))?;
        file.write(&text)?;
        file.finish()
    }
}
