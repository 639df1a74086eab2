//! Quantities that an action file can ask for, and their units.

use serde::{Deserialize, Serialize};

use crate::bay::Ledger;
use crate::bench::Bench;
use crate::instrument::Probe;
use crate::plant::Vessel;

/// Something with a number.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// What an instrument shows now.
    Probe(Probe),
    /// The last reading of a probe in the notebook.
    Reading(Probe),
    /// The last reading of a probe less the one before it.
    Change(Probe),
    /// The last reading of one probe less the last reading of another in the same unit.
    Between(Probe, Probe),
    /// A line of the bay's ledger [kg].
    Ledger(Line),
}

/// A line of the bay's ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Line {
    /// Refrigerant in the loop.
    Loop,
    /// Refrigerant in the hoses.
    Hoses,
    /// Refrigerant in the supply cylinder.
    Supply,
    /// Refrigerant in the recovery cylinder.
    Recovery,
    /// Refrigerant in the charging cylinder.
    Charging,
    /// Refrigerant in the small can.
    Can,
    /// Refrigerant let out.
    Released,
    /// Refrigerant that should be there less what is found.
    Unaccounted,
    /// Oil in the loop.
    OilLoop,
    /// Oil that came along into vessels.
    OilVessels,
    /// Oil lost with what leaked or was let out.
    OilLost,
    /// Oil that came out with parts.
    OilTaken,
    /// Oil poured in, new parts included.
    OilAdded,
    /// Oil that should be there less what is found.
    OilUnaccounted,
}

impl Line {
    /// All of them.
    pub const ALL: [Self; 14] = [
        Self::Loop,
        Self::Hoses,
        Self::Supply,
        Self::Recovery,
        Self::Charging,
        Self::Can,
        Self::Released,
        Self::Unaccounted,
        Self::OilLoop,
        Self::OilVessels,
        Self::OilLost,
        Self::OilTaken,
        Self::OilAdded,
        Self::OilUnaccounted,
    ];
    /// Its value [kg].
    pub fn value(self, ledger: &Ledger) -> f64 {
        let vessel = |vessel: Vessel| ledger.vessels_kg[vessel];
        match self {
            Self::Loop => ledger.loop_kg,
            Self::Hoses => ledger.hoses_kg,
            Self::Supply => vessel(Vessel::Supply),
            Self::Recovery => vessel(Vessel::Recovery),
            Self::Charging => vessel(Vessel::Charging),
            Self::Can => vessel(Vessel::Can),
            Self::Released => ledger.released_kg,
            Self::Unaccounted => ledger.unaccounted_kg(),
            Self::OilLoop => ledger.oil_loop_kg,
            Self::OilVessels => ledger.oil_vessels_kg,
            Self::OilLost => ledger.oil_lost_kg,
            Self::OilTaken => ledger.oil_taken_kg,
            Self::OilAdded => ledger.oil_added_kg,
            Self::OilUnaccounted => ledger.oil_unaccounted_kg(),
        }
    }
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Loop => "in the loop",
            Self::Hoses => "in the hoses",
            Self::Supply => "in the supply cylinder",
            Self::Recovery => "in the recovery cylinder",
            Self::Charging => "in the charging cylinder",
            Self::Can => "in the can",
            Self::Released => "let out",
            Self::Unaccounted => "unaccounted for",
            Self::OilLoop => "oil in the loop",
            Self::OilVessels => "oil in vessels",
            Self::OilLost => "oil lost",
            Self::OilTaken => "oil out with parts",
            Self::OilAdded => "oil put in",
            Self::OilUnaccounted => "oil unaccounted for",
        }
    }
}

/// The last reading of a probe in the notebook, or the one `back` before it.
pub(super) fn last(bench: &Bench, probe: &Probe, back: usize) -> Option<f64> {
    bench.notebook().iter().rev().filter(|r| r.probe == *probe).nth(back).map(|r| r.value)
}

impl Quantity {
    /// Its value now, if there is one.
    pub fn value(&self, bench: &Bench) -> Option<f64> {
        match self {
            Self::Probe(probe) => bench.shown(probe).map(|(value, _)| value),
            Self::Reading(probe) => last(bench, probe, 0),
            Self::Change(probe) => Some(last(bench, probe, 0)? - last(bench, probe, 1)?),
            Self::Between(a, b) => Some(last(bench, a, 0)? - last(bench, b, 0)?),
            Self::Ledger(line) => bench.ledger().map(|ledger| line.value(&ledger)),
        }
    }
    /// Its name.
    pub fn words(&self) -> String {
        match self {
            Self::Probe(probe) | Self::Reading(probe) => probe.name(),
            Self::Change(probe) => format!("change of {}", probe.name()),
            Self::Between(a, b) => format!("{} less {}", a.name(), b.name()),
            Self::Ledger(line) => line.words().to_owned(),
        }
    }
    /// Its unit.
    pub fn unit(&self) -> &'static str {
        match self {
            Self::Probe(probe) | Self::Reading(probe) | Self::Change(probe) | Self::Between(probe, _) => {
                probe.unit()
            }
            Self::Ledger(_) => "kg",
        }
    }
}
