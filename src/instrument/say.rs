//! A value in words: digits, unit and, where it is known, the half-width of its band.

use super::character::is_over;
use crate::constants::BAR_PA;
use crate::units::{DeltaK, Kelvin, Units};

/// How a value is to be said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Say {
    /// Units of the reader.
    pub units: Units,
    /// Half-width of its 95 % band, in the unit of the reading.
    pub band: Option<f64>,
    /// As a column of figures (the command line) rather than as the eye reads an instrument (the desk).
    pub figures: bool,
}

/// Strength from which a leak detector sounds its alarm, soap bubbles well and dye glows clearly.
pub const CLEAR_SIGN: f64 = 0.5;

impl Say {
    /// As the desk says it.
    pub fn read(units: Units, band: Option<f64>) -> Self {
        Self { units, band, figures: false }
    }
    /// As the command line says it.
    pub fn listed(band: Option<f64>) -> Self {
        Self { units: Units::Bar, band, figures: true }
    }
    /// A number of digits after the point, with its unit; both value and band were scaled by the caller's `scale`.
    pub fn number(&self, value: f64, scale: f64, digits: usize, unit: &str) -> String {
        self.both(scale * value, self.band.map(|band| scale * band), digits, unit)
    }
    fn both(&self, value: f64, band: Option<f64>, digits: usize, unit: &str) -> String {
        match band {
            Some(band) => format!("{value:.digits$} ± {band:.digits$} {unit}"),
            None => format!("{value:.digits$} {unit}"),
        }
    }
    /// The same, or that it is over range.
    pub fn ranged(&self, value: f64, digits: usize, unit: &str) -> String {
        if is_over(value) { "over range".into() } else { self.number(value, 1.0, digits, unit) }
    }
    /// A gauge pressure [Pa].
    pub fn pressure(&self, pa: f64) -> String {
        if self.figures {
            return self.both(pa / BAR_PA, self.band.map(|band| band / BAR_PA), 2, "bar");
        }
        let digits = usize::from(self.units == Units::Bar);
        let scaled = |pa| self.units.pressure_value(pa);
        self.both(scaled(pa), self.band.map(scaled), digits, self.units.pressure_unit())
    }
    /// A temperature [K].
    pub fn temperature(&self, k: f64) -> String {
        let band = self.band.map(|band| self.units.difference_value(DeltaK(band)));
        self.both(self.units.temperature_value(Kelvin(k)), band, 1, self.units.temperature_unit())
    }
}

/// Words for the strength of a sign, 0 to 1: nothing, a hint, clear, strong.
pub fn sign(strength: f64, words: [&'static str; 4]) -> String {
    let word = match strength {
        s if s < 0.1 => words[0],
        s if s < CLEAR_SIGN => words[1],
        s if s < 0.9 => words[2],
        s if s.is_nan() => words[0],
        _ => words[3],
    };
    word.into()
}

/// A name of the files as words.
pub fn spaced(name: &str) -> String {
    name.replace('_', " ")
}
