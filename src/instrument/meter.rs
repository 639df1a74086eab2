//! The digital multimeter: 6000 counts, 10 megohm on volts, a test source on ohms, a fused shunt on amperes.
//!
//! It loads the circuit as a real one does, and it misleads as a real one does: leads count as resistance until the
//! relative key takes them off, and volts that stand in a circuit spoil a reading of ohms.

use serde::{Deserialize, Serialize};

use super::noise::{Source, fixed_error, standard_normal};
use crate::circuit::{Circuit, Load};

/// What is shown (and written down) when a value is beyond the range: no number, the letters OL.
pub const OVER: f64 = 1.0e9;
/// What it draws on volts [ohm] (common practice, no source).
pub const BURDEN_OHM: f64 = 1.0e7;
/// Shunt with its heavy leads [ohm] and fuse [A] on amperes (common practice, no source).
pub const SHUNT_OHM: f64 = 0.05;
/// Fuse on amperes [A].
pub const FUSE_A: f64 = 10.0;
/// It sounds below this [ohm] (common practice, no source).
pub const SOUNDS_OHM: f64 = 30.0;
/// Ohms are nonsense from these volts up [V]: a tenth of a volt is a hundred ohm at 1 mA.
pub const LIVE_V: f64 = 0.1;
/// Error limit as share of the reading; two digits come on top (reference/faults.md 6, from memory).
const SHARE: f64 = 0.005;
/// Volts that drive the test current at most: an open circuit shows these and no more (common practice, no source).
const OPEN_V: f64 = 3.0;
/// Ticks until the first value stands, and between two values: half a second and 0.3 s (common practice, no source).
const FIRST: u8 = 10;
const EVERY: u8 = 6;

/// What the dial stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MeterMode {
    /// Direct volts; effective volts on mains.
    VoltsDc,
    /// Resistance.
    Ohm,
    /// Resistance up to 600 ohm, with a sound for a good joint.
    Continuity,
    /// Direct amperes through the fused 10 A socket.
    AmpsDc,
}

impl MeterMode {
    /// All modes.
    pub const ALL: [Self; 4] = [Self::VoltsDc, Self::Ohm, Self::Continuity, Self::AmpsDc];
    /// Plain name.
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

const VOLTS: [f64; 3] = [6.0, 60.0, 600.0];
const OHMS: [f64; 6] = [600.0, 6.0e3, 6.0e4, 6.0e5, 6.0e6, 6.0e7];
const AMPS: [f64; 2] = [6.0, 20.0];

/// Ends of the ranges that it may choose from.
fn ranges(mode: MeterMode, range: MeterRange) -> &'static [f64] {
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
fn digit(mode: MeterMode, range: MeterRange, value: f64) -> Option<f64> {
    let full = *ranges(mode, range).iter().find(|&&full| value.abs() <= full)?;
    // 6000 counts; the 20 A range shows hundredths.
    Some(if full == AMPS[1] { 0.01 } else { full / 6000.0 })
}

/// The letters OL.
pub fn is_over(value: f64) -> bool {
    value.is_nan() || value.abs() >= OVER
}

/// Error limit at a shown value, same unit; none of it for OL.
pub fn limit(mode: MeterMode, range: MeterRange, value: f64) -> f64 {
    digit(mode, range, value).map_or(0.0, |digit| SHARE * value.abs() + 2.0 * digit)
}

/// Resistance of this session's leads with their tips [ohm]: 0.1 to 0.3 (reference/faults.md 6, from memory).
pub fn lead_ohm(seed: u64) -> f64 {
    0.2 + fixed_error(seed, Source::Leads, 0.1)
}

/// What a meter makes of resistance [ohm] and volts [V] between its leads, leads included: test current times
/// resistance, plus whatever volts were there already.
pub fn ohms_between(mode: MeterMode, ohm: f64, volts: f64, leads_ohm: f64) -> f64 {
    for &full in ranges(mode, MeterRange::Auto) {
        // The 600 ohm range works with 1 mA, every next one with a tenth of it.
        let amps = 1e-3 * OHMS[0] / full;
        let driven = ((ohm + leads_ohm) * amps).min(OPEN_V);
        let shown = (driven + volts) / amps;
        if (0.0..=full).contains(&shown) {
            return shown;
        }
    }
    OVER
}

/// Volts of one point over another [V]; `ground` is a point too. None for a name that is no point.
pub fn volts_between(circuit: &Circuit, red: &str, black: &str) -> Option<f64> {
    let at = |point: &str| if point == "ground" { Some(0.0) } else { circuit.volts(point) };
    Some(at(red)? - at(black)?)
}

/// The meter with its leads on two points.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Leads {
    /// Mode.
    pub mode: MeterMode,
    /// Red lead.
    pub red: String,
    /// Black lead.
    pub black: String,
    wait: u8,
    /// Value that stands in the display, before its own errors; none until the first stands.
    held: Option<f64>,
}

/// Keys and fuse, which stay as they are when the leads move.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Keys {
    /// Range for volts.
    pub range: MeterRange,
    /// What counts as zero since the relative key was pressed.
    pub relative: Option<f64>,
    /// The fuse of the ampere socket has blown.
    pub fuse_blown: bool,
}

impl Leads {
    /// Leads put on two points.
    pub fn placed(mode: MeterMode, red: &str, black: &str) -> Self {
        Self { mode, red: red.into(), black: black.into(), wait: FIRST, held: None }
    }
    /// What it hangs on the circuit.
    pub fn load(&self, fuse_blown: bool) -> Option<Load> {
        let (ohm, fuse_a) = match self.mode {
            MeterMode::VoltsDc => (BURDEN_OHM, f64::INFINITY),
            MeterMode::AmpsDc if !fuse_blown => (SHUNT_OHM, FUSE_A),
            _ => return None,
        };
        Some(Load { a: self.red.clone(), b: self.black.clone(), ohm, fuse_a })
    }
    /// A tick passes.
    pub fn advance(&mut self, circuit: &Circuit, keys: &Keys, seed: u64) {
        self.wait = self.wait.saturating_sub(1);
        if self.wait == 0 {
            self.wait = EVERY;
            self.held = self.measure(circuit, keys, seed);
        }
    }
    fn measure(&self, circuit: &Circuit, keys: &Keys, seed: u64) -> Option<f64> {
        match self.mode {
            MeterMode::VoltsDc => volts_between(circuit, &self.red, &self.black),
            MeterMode::AmpsDc if keys.fuse_blown => Some(0.0),
            MeterMode::AmpsDc => Some(volts_between(circuit, &self.red, &self.black)? / SHUNT_OHM),
            mode @ (MeterMode::Ohm | MeterMode::Continuity) => {
                let port = circuit.port(&self.red, &self.black)?;
                Some(ohms_between(mode, port.ohm, port.volts, lead_ohm(seed)))
            }
        }
    }
    /// What stands in the display before the meter's own errors, the relative key reckoned in.
    pub fn expected(&self, keys: &Keys) -> Option<f64> {
        let held = self.held?;
        let value = held - if is_over(held) { 0.0 } else { keys.relative.unwrap_or(0.0) };
        Some(if digit(self.mode, keys.range, held).is_some() { value } else { OVER })
    }
    /// What the relative key would take as zero now.
    pub fn held(&self) -> Option<f64> {
        self.held
    }
    /// What it shows: a gain error fixed for the session, a restless last digit, rounding.
    pub fn shown(&self, keys: &Keys, seed: u64, tick: u64) -> Option<f64> {
        let value = self.expected(keys)?;
        let Some(digit) = digit(self.mode, keys.range, value) else { return Some(OVER) };
        let gain = 1.0 + fixed_error(seed, Source::Meter, SHARE / 2.0);
        let restless = 0.4 * digit * standard_normal(seed, Source::Meter, tick / u64::from(EVERY));
        Some(((value * gain + restless) / digit).round() * digit)
    }
}

#[cfg(test)]
#[path = "meter_tests.rs"]
mod tests;
