//! Units in which a worked value can be given: which fit a value, how they are written, and what they are in SI.

use strum::VariantArray;

use crate::bay::{WorkedUnit, WorkedValue};
use crate::units::{DeltaK, Kelvin, Units};
use crate::variants::all;

impl WorkedUnit {
    /// Symbol, as on a button.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Kelvin => "K",
            Self::FahrenheitDegrees => "°F difference",
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
            Self::Bar => Units::Bar.pressure_unit(),
            Self::Kilopascal => Units::Kpa.pressure_unit(),
            Self::Psi => Units::Psi.pressure_unit(),
        }
    }
    /// As a sentence says it.
    pub fn in_a_sentence(self) -> &'static str {
        if self == Self::FahrenheitDegrees { "Fahrenheit degrees" } else { self.symbol() }
    }
    /// In full, for who hears it read out.
    pub fn name(self) -> &'static str {
        match self {
            Self::Kelvin => "kelvin, a difference",
            Self::FahrenheitDegrees => "Fahrenheit degrees, a difference",
            Self::Celsius => "degrees Celsius",
            Self::Fahrenheit => "degrees Fahrenheit",
            Self::Bar => "bar",
            Self::Kilopascal => "kilopascal",
            Self::Psi => "psi",
        }
    }
    /// A number in this unit in K or Pa.
    pub fn si(self, number: f64) -> f64 {
        match self {
            Self::Kelvin => number,
            Self::FahrenheitDegrees => DeltaK::from_f(number).0,
            Self::Celsius => Kelvin::from_c(number).0,
            Self::Fahrenheit => Kelvin::from_f(number).0,
            Self::Bar => number * Units::Bar.pascals(),
            Self::Kilopascal => number * Units::Kpa.pascals(),
            Self::Psi => number * Units::Psi.pascals(),
        }
    }
    /// K or Pa in this unit.
    pub fn of_si(self, si: f64) -> f64 {
        match self {
            Self::Kelvin => si,
            Self::FahrenheitDegrees => DeltaK(si).f(),
            Self::Celsius => Kelvin(si).c(),
            Self::Fahrenheit => Kelvin(si).f(),
            Self::Bar => Units::Bar.pressure_value(si),
            Self::Kilopascal => Units::Kpa.pressure_value(si),
            Self::Psi => Units::Psi.pressure_value(si),
        }
    }
}

impl WorkedValue {
    /// All, in the order of a list.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// Is it a difference of temperatures?
    pub fn is_difference(self) -> bool {
        !matches!(self, Self::Saturation | Self::Absolute)
    }
    /// Units it can be given in, the usual one first.
    pub fn units(self) -> &'static [WorkedUnit] {
        match self {
            Self::Absolute => &[WorkedUnit::Bar, WorkedUnit::Kilopascal, WorkedUnit::Psi],
            Self::Saturation => &[WorkedUnit::Celsius, WorkedUnit::Fahrenheit],
            _ => &[WorkedUnit::Kelvin, WorkedUnit::FahrenheitDegrees],
        }
    }
    /// An answer in SI; none where the unit is of another kind. A difference in °C counts as one in K.
    pub(super) fn si(self, answer: f64, unit: WorkedUnit) -> Option<f64> {
        let unit = match unit {
            WorkedUnit::Celsius if self.is_difference() => WorkedUnit::Kelvin,
            WorkedUnit::Fahrenheit if self.is_difference() => WorkedUnit::FahrenheitDegrees,
            unit => unit,
        };
        self.units().contains(&unit).then(|| unit.si(answer))
    }
}
