//! The digital multimeter: 6000 counts, 10 megohm on volts, a test source on ohms, a fused shunt on amperes.
//!
//! It loads the circuit as a real one does, and it misleads as a real one does: leads count as resistance until the
//! relative key takes them off, and volts that stand in a circuit spoil a reading of ohms.

use serde::{Deserialize, Serialize};
use strum::VariantNames;

use super::character::{OVER, is_over};
use super::describe::{Facts, Holds, Instrument, Need, Placing};
use super::dial::{MeterMode, MeterRange, OHMS, SHARE, digit, limit, ranges};
use super::kit::{Kit, Shelf};
use super::say::{Say, spaced};
use crate::circuit::spec::GROUND;
use crate::circuit::{Circuit, CircuitSpec, Load};
use crate::noise::{Source, fixed_error, standard_normal};

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Multimeter",
    touches: "Two leads on any two points: volts, ohms, amperes.",
    shelf: Shelf::Wiring,
    needs_bay: false,
};

const OWN: Source = Source(7);
const LEADS: Source = Source(8);

static FACTS: Facts = Facts {
    id: "meter",
    words: "Multimeter between two points [V, ohm or A].",
    notation: "meter:v|ohm|continuity|a:RED:BLACK",
    args: &[
        ("mode", Holds::OneOf(MeterMode::VARIANTS)),
        ("red", Holds::Words(POINT)),
        ("black", Holds::Words(POINT)),
    ],
    example: "meter(mode: ohm, red: \"clutch_coil_plus\", black: \"ground\")",
    placing: Placing::Hands,
    sources: &[OWN, LEADS],
    settles_s: 1.0,
};

/// What an argument is that names a point, for whatever has leads.
pub(super) const POINT: &str = "a point of the circuit, or ground, in quotes";

/// Multimeter with its two leads on any two points (or `ground`).
#[derive(Debug)]
pub struct Meter {
    /// What the dial stands on.
    pub mode: MeterMode,
    /// Point of the red lead.
    pub red: String,
    /// Point of the black lead.
    pub black: String,
}

impl Instrument for Meter {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    /// Every point against ground, on every place of the dial.
    fn everywhere(circuit: &CircuitSpec) -> Vec<Self> {
        let at = |mode| move |red| Self { mode, red, black: GROUND.into() };
        let points = || circuit.points.iter().map(|point| point.id.clone());
        MeterMode::ALL.into_iter().flat_map(|mode| points().map(at(mode))).collect()
    }
    fn name(&self) -> String {
        format!("{} from {} to {}", self.mode.name(), spaced(&self.red), spaced(&self.black))
    }
    /// Volts need no word of the dial, and none of a black lead on ground; nothing else is left out.
    fn short(&self) -> String {
        match (self.mode, self.black.as_str()) {
            (MeterMode::VoltsDc, GROUND) => spaced(&self.red),
            (MeterMode::VoltsDc, black) => format!("{} to {}", spaced(&self.red), spaced(black)),
            _ => self.name(),
        }
    }
    fn unit(&self) -> &'static str {
        self.mode.unit()
    }
    fn text(&self, value: f64, say: &Say) -> String {
        if is_over(value) { "OL".into() } else { say.number(value, 1.0, 3, self.unit()) }
    }
    fn range(&self) -> (f64, f64) {
        let most = ranges(self.mode, MeterRange::Auto).last().copied().unwrap_or_default();
        (if self.mode.is_ohm() { 0.0 } else { -most }, most)
    }
    fn limit(&self, value: f64) -> f64 {
        limit(self.mode, MeterRange::Auto, value)
    }
    /// Ohms and amperes: a twentieth, and the drift of leads and zero.
    fn net(&self, predicted: f64) -> f64 {
        if self.mode == MeterMode::VoltsDc { 0.15 } else { 0.05 * predicted.abs() + 0.3 }
    }
    fn needs(&self) -> Vec<Need> {
        vec![Need::Point(self.red.clone()), Need::Point(self.black.clone())]
    }
}

/// What it draws on volts [ohm] (common practice, no source).
pub const BURDEN_OHM: f64 = 1.0e7;
/// Shunt with its heavy leads [ohm] and fuse [A] on amperes (common practice, no source).
pub const SHUNT_OHM: f64 = 0.05;
/// Fuse on amperes [A].
pub const FUSE_A: f64 = 10.0;
/// It shows continuity, by its tone, below this [ohm] (common practice, no source).
pub const CONTINUITY_OHM: f64 = 30.0;
/// Ohms are nonsense from these volts up [V]: a tenth of a volt is a hundred ohm at 1 mA.
pub const LIVE_V: f64 = 0.1;
/// Volts that drive the test current at most: an open circuit shows these and no more (common practice, no source).
const OPEN_V: f64 = 3.0;
/// Ticks until the first value stands, and between two values: half a second and 0.3 s (common practice, no source).
const FIRST: u8 = 10;
const EVERY: u8 = 6;

/// Resistance of this session's leads with their tips [ohm]: 0.1 to 0.3 (from memory).
pub fn lead_ohm(seed: u64) -> f64 {
    0.2 + fixed_error(seed, LEADS, 0.1)
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
        let gain = 1.0 + fixed_error(seed, OWN, SHARE / 2.0);
        let restless = 0.4 * digit * standard_normal(seed, OWN, tick / u64::from(EVERY));
        Some(((value * gain + restless) / digit).round() * digit)
    }
}

#[cfg(test)]
#[path = "meter_tests.rs"]
mod tests;
