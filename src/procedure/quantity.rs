//! Quantities that an action file can ask for, and their units.

use serde::{Deserialize, Serialize};

use crate::bench::Bench;
use crate::instrument::Probe;
use crate::lesson::timeline::probe_words;

/// Something with a number.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// What an instrument shows now.
    Probe(Probe),
    /// The last reading of a probe less the one before it.
    Change(Probe),
    /// The last reading of one probe less the last reading of another in the same unit.
    Between(Probe, Probe),
}

/// The last reading of a probe in the notebook, or the one `back` before it.
fn last(bench: &Bench, probe: &Probe, back: usize) -> Option<f64> {
    bench.notebook().iter().rev().filter(|r| r.probe == *probe).nth(back).map(|r| r.value)
}

impl Quantity {
    /// Its value now, if there is one.
    pub fn value(&self, bench: &Bench) -> Option<f64> {
        match self {
            Self::Probe(probe) => bench.shown(probe).map(|(value, _)| value),
            Self::Change(probe) => Some(last(bench, probe, 0)? - last(bench, probe, 1)?),
            Self::Between(a, b) => Some(last(bench, a, 0)? - last(bench, b, 0)?),
        }
    }
    /// Its name.
    pub fn words(&self) -> String {
        match self {
            Self::Probe(probe) => probe_words(probe),
            Self::Change(probe) => format!("change of {}", probe_words(probe)),
            Self::Between(a, b) => format!("{} less {}", probe_words(a), probe_words(b)),
        }
    }
    /// Its unit.
    pub fn unit(&self) -> &'static str {
        match self {
            Self::Probe(probe) | Self::Change(probe) | Self::Between(probe, _) => unit(probe),
        }
    }
}

/// Unit of what a probe shows, as it stands in the notebook; empty for what has none.
pub fn unit(probe: &Probe) -> &'static str {
    match probe {
        Probe::LowGauge | Probe::HighGauge => "Pa gauge",
        Probe::Pipe(_) | Probe::Air(_) => "K",
        Probe::Volts(_) => "V",
        Probe::Meter { mode, .. } => mode.unit(),
        Probe::Clamp(_) => "A",
        Probe::Lamp { .. } | Probe::UnitValue { .. } | Probe::SightGlass | Probe::Sense(_) => "",
    }
}
