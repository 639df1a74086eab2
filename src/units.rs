//! Units at the edge: inside everything is SI; here pressures and temperatures become types that
//! cannot be mixed up, and numbers become text in the units a reader chose.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

pub use crate::constants::{ATMOSPHERE_PA, ZERO_C_K};
use crate::constants::{BAR_PA, FAHRENHEIT_PER_K, PSI_PA, ZERO_C_F};
use crate::variants::all;

/// Absolute pressure [Pa].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct AbsolutePa(pub f64);

/// Gauge pressure [Pa above the standard atmosphere]; negative in vacuum.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct GaugePa(pub f64);

impl AbsolutePa {
    /// The same pressure as a gauge at sea level would show it.
    pub fn gauge(self) -> GaugePa {
        GaugePa(self.0 - ATMOSPHERE_PA)
    }
}

impl GaugePa {
    /// The same pressure counted from vacuum.
    pub fn absolute(self) -> AbsolutePa {
        AbsolutePa(self.0 + ATMOSPHERE_PA)
    }
}

/// Temperature [K].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Kelvin(pub f64);

/// Temperature difference [K]; never converted with an offset.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct DeltaK(pub f64);

impl Kelvin {
    /// From degrees Celsius.
    pub fn from_c(celsius: f64) -> Self {
        Self(celsius + ZERO_C_K)
    }
    /// In degrees Celsius.
    pub fn c(self) -> f64 {
        self.0 - ZERO_C_K
    }
    /// From degrees Fahrenheit.
    pub fn from_f(fahrenheit: f64) -> Self {
        Self::from_c((fahrenheit - ZERO_C_F) / FAHRENHEIT_PER_K)
    }
    /// In degrees Fahrenheit.
    pub fn f(self) -> f64 {
        self.c() * FAHRENHEIT_PER_K + ZERO_C_F
    }
}

impl DeltaK {
    /// From a difference in Fahrenheit degrees.
    pub fn from_f(fahrenheit: f64) -> Self {
        Self(fahrenheit / FAHRENHEIT_PER_K)
    }
    /// In Fahrenheit degrees.
    pub fn f(self) -> f64 {
        self.0 * FAHRENHEIT_PER_K
    }
}

impl std::ops::Sub for Kelvin {
    type Output = DeltaK;
    fn sub(self, other: Self) -> DeltaK {
        DeltaK(self.0 - other.0)
    }
}

/// The set of units a reader wants to see.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, VariantArray)]
pub enum Units {
    /// bar and °C.
    #[default]
    Bar,
    /// kPa and °C.
    Kpa,
    /// psi and °F.
    Psi,
}

impl Units {
    /// All choices, in the order the desk steps through them.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();

    /// Short label, such as `bar · °C`.
    pub fn label(self) -> &'static str {
        match self {
            Self::Bar => "bar · °C",
            Self::Kpa => "kPa · °C",
            Self::Psi => "psi · °F",
        }
    }
    /// Unit of pressure alone.
    pub fn pressure_unit(self) -> &'static str {
        match self {
            Self::Bar => "bar",
            Self::Kpa => "kPa",
            Self::Psi => "psi",
        }
    }
    /// Unit of temperature alone.
    pub fn temperature_unit(self) -> &'static str {
        if self == Self::Psi { "°F" } else { "°C" }
    }
    /// Pascals in one unit of pressure.
    pub fn pascals(self) -> f64 {
        match self {
            Self::Bar => BAR_PA,
            Self::Kpa => 1e3,
            Self::Psi => PSI_PA,
        }
    }
    /// A pressure (gauge or difference, in Pa) as a number in this unit.
    pub fn pressure_value(self, pa: f64) -> f64 {
        pa / self.pascals()
    }
    /// A temperature as a number in this unit.
    pub fn temperature_value(self, t: Kelvin) -> f64 {
        if self == Self::Psi { t.f() } else { t.c() }
    }
    /// A temperature difference as a number in this unit.
    pub fn difference_value(self, d: DeltaK) -> f64 {
        if self == Self::Psi { d.f() } else { d.0 }
    }
    /// Unit of a temperature difference.
    pub fn difference_unit(self) -> &'static str {
        if self == Self::Psi { "°F" } else { "K" }
    }
    /// Gauge pressure as text with its unit.
    pub fn pressure(self, p: GaugePa) -> String {
        let v = self.pressure_value(p.0);
        match self {
            Self::Bar => format!("{v:.1} bar"),
            Self::Kpa => format!("{v:.0} kPa"),
            Self::Psi => format!("{v:.0} psi"),
        }
    }
    /// Temperature as text with its unit.
    pub fn temperature(self, t: Kelvin) -> String {
        format!("{:.1} {}", self.temperature_value(t), self.temperature_unit())
    }
    /// Temperature difference as text with its unit.
    pub fn difference(self, d: DeltaK) -> String {
        format!("{:.1} {}", self.difference_value(d), self.difference_unit())
    }
    /// The next choice, round and round.
    pub fn next(self) -> Self {
        match self {
            Self::Bar => Self::Kpa,
            Self::Kpa => Self::Psi,
            Self::Psi => Self::Bar,
        }
    }
}

/// A time [s] as minutes and seconds, for people.
pub fn clock(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    format!("{}:{:02}", whole / 60, whole % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gauge_and_absolute_differ_by_one_atmosphere() {
        assert!((AbsolutePa(ATMOSPHERE_PA).gauge().0).abs() < 1e-9);
        assert_eq!(GaugePa(0.0).absolute(), AbsolutePa(ATMOSPHERE_PA));
    }

    #[test]
    fn differences_take_no_offset() {
        assert!((Units::Psi.difference_value(DeltaK(10.0)) - 18.0).abs() < 1e-12);
        assert!((Units::Psi.temperature_value(Kelvin::from_c(100.0)) - 212.0).abs() < 1e-9);
        // NIST SP 811: 1 psi = 6894.757 Pa.
        assert_eq!(Units::Psi.pressure(GaugePa(689_475.73)), "100 psi");
    }
}
