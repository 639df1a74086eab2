//! The dial of the multimeter: what it measures, in which ranges, to which digit.

use serde::{Deserialize, Serialize};

use super::word::Word;

/// Error limit as share of the reading; two digits come on top (from memory).
pub const SHARE: f64 = 0.005;

/// What the dial stands on.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, strum::VariantNames,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum MeterMode {
    /// Direct volts; effective volts on mains.
    #[default]
    VoltsDc,
    /// Resistance.
    Ohm,
    /// Resistance up to 600 ohm, with a sound for a good joint.
    Continuity,
    /// Direct amperes through the fused 10 A socket.
    AmpsDc,
}

impl MeterMode {
    /// In the order of the dial.
    pub const ALL: [Self; 4] = [Self::VoltsDc, Self::Ohm, Self::Continuity, Self::AmpsDc];
    /// What is measured, such as "volts".
    pub fn name(self) -> &'static str {
        match self {
            Self::VoltsDc => "volts",
            Self::Ohm => "ohms",
            Self::Continuity => "continuity",
            Self::AmpsDc => "amperes",
        }
    }
    /// Unit of what is shown.
    pub fn unit(self) -> &'static str {
        match self {
            Self::VoltsDc => "V",
            Self::Ohm | Self::Continuity => "ohm",
            Self::AmpsDc => "A",
        }
    }
    /// Both kinds of resistance.
    pub fn is_ohm(self) -> bool {
        matches!(self, Self::Ohm | Self::Continuity)
    }
}

/// Range for volts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MeterRange {
    /// The meter chooses.
    #[default]
    Auto,
    /// 6 V.
    Six,
    /// 60 V.
    Sixty,
    /// 600 V.
    SixHundred,
}

/// Ends of the ranges for volts [V].
const VOLTS: [f64; 3] = [6.0, 60.0, 600.0];
/// Ends of the ranges for resistance [ohm].
pub const OHMS: [f64; 6] = [600.0, 6.0e3, 6.0e4, 6.0e5, 6.0e6, 6.0e7];
/// Ends of the ranges for amperes [A].
const AMPS: [f64; 2] = [6.0, 20.0];

/// Ends of the ranges that it may choose from.
pub fn ranges(mode: MeterMode, range: MeterRange) -> &'static [f64] {
    match (mode, range) {
        (MeterMode::VoltsDc, MeterRange::Auto) => &VOLTS,
        (MeterMode::VoltsDc, MeterRange::Six) => &VOLTS[..1],
        (MeterMode::VoltsDc, MeterRange::Sixty) => &VOLTS[1..2],
        (MeterMode::VoltsDc, MeterRange::SixHundred) => &VOLTS[2..],
        (MeterMode::Ohm, _) => &OHMS,
        (MeterMode::Continuity, _) => &OHMS[..1],
        (MeterMode::AmpsDc, _) => &AMPS,
    }
}

/// Last digit [unit of the mode] at a value; none when it is over range.
pub fn digit(mode: MeterMode, range: MeterRange, value: f64) -> Option<f64> {
    let full = *ranges(mode, range).iter().find(|&&full| value.abs() <= full)?;
    // 6000 counts; the 20 A range shows hundredths.
    Some(if full == AMPS[1] { 0.01 } else { full / 6000.0 })
}

/// Error limit at a shown value, same unit; none of it for OL.
pub fn limit(mode: MeterMode, range: MeterRange, value: f64) -> f64 {
    digit(mode, range, value).map_or(0.0, |digit| SHARE * value.abs() + 2.0 * digit)
}

impl Word for MeterMode {
    fn word(&self) -> Option<String> {
        MODES.iter().find(|(mode, _)| mode == self).map(|(_, word)| (*word).into())
    }
    fn read(word: Option<&str>) -> Result<Self, String> {
        let word = word.unwrap_or_default();
        let unknown = || format!("unknown mode `{}`", word.escape_debug());
        MODES.iter().find(|(_, known)| *known == word).map(|(mode, _)| *mode).ok_or_else(unknown)
    }
}

/// Places of the dial on the command line.
const MODES: [(MeterMode, &str); 4] = [
    (MeterMode::VoltsDc, "v"),
    (MeterMode::Ohm, "ohm"),
    (MeterMode::Continuity, "continuity"),
    (MeterMode::AmpsDc, "a"),
];
