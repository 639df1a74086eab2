//! A table of signs as rows.

use super::super::QualifyError;
use super::super::expected::Expected;
use super::super::row::{Case, Row, Standing};
use super::super::section::Section;
use super::stand::{Shown, Stand};
use crate::plant::{Contents, Inputs};

/// What a table says of one quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Up.
    Up,
    /// Down.
    Down,
    /// No significant change.
    Same,
    /// Up or no change.
    NotDown,
    /// Down or no change.
    NotUp,
    /// Contested among the sources: told only.
    Open,
}

/// A quantity of a table: its name, unit, value, neutral band and the width of "no change".
#[derive(Clone, Copy)]
pub struct Quantity {
    /// Name.
    pub name: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// Value of a moment.
    pub of: fn(&Shown) -> f64,
    /// Beyond this it has moved.
    pub neutral: f64,
    /// Within this it has not changed significantly.
    pub same: f64,
    /// Counted as a share of the healthy value [%].
    pub relative: bool,
}

const fn kelvin(name: &'static str, of: fn(&Shown) -> f64, neutral: f64, same: f64) -> Quantity {
    Quantity { name, unit: "K", of, neutral, same, relative: false }
}

/// Evaporating temperature.
pub const T_EVAPORATING: Quantity = kelvin("evaporating temperature", |s| s.evaporating_k, 0.3, 1.0);
/// Superheat at the evaporator's outlet.
pub const SUPERHEAT: Quantity = kelvin("superheat", |s| s.superheat_k, 0.5, 2.0);
/// Superheat at the compressor.
pub const SUCTION_SUPERHEAT: Quantity =
    kelvin("superheat at the compressor", |s| s.suction_superheat_k, 0.5, 2.0);
/// Condensing temperature from the high gauge.
pub const T_CONDENSING: Quantity = kelvin("condensing temperature", |s| s.condensing_k, 0.3, 1.0);
/// Subcooling from the high gauge.
pub const SUBCOOLING: Quantity = kelvin("subcooling", |s| s.subcooling_k, 0.5, 2.0);
/// Discharge temperature.
pub const T_DISCHARGE: Quantity = kelvin("discharge temperature", |s| s.discharge_k, 0.3, 1.0);
/// Rise of the condenser's air.
pub const CONDENSER_AIR: Quantity = kelvin("condenser air rise", |s| s.condenser_air_k, 0.2, 1.0);
/// Drop of the evaporator's air.
pub const EVAPORATOR_AIR: Quantity = kelvin("evaporator air drop", |s| s.evaporator_air_k, 0.2, 1.0);
/// Low gauge.
pub const LOW: Quantity = Quantity {
    name: "low side",
    unit: "bar",
    of: |s| s.low_pa / 1e5,
    neutral: 0.05,
    same: 0.15,
    relative: false,
};
/// High gauge.
pub const HIGH: Quantity = Quantity {
    name: "high side",
    unit: "bar",
    of: |s| s.high_pa / 1e5,
    neutral: 0.05,
    same: 0.5,
    relative: false,
};
/// Shaft power.
pub const POWER: Quantity =
    Quantity { name: "power", unit: "%", of: |s| s.power_w, neutral: 1.0, same: 3.0, relative: true };

impl Quantity {
    /// How far `faulty` stands from `healthy`; not a number when a run was in trouble.
    fn moved(&self, healthy: &Shown, faulty: &Shown) -> f64 {
        if !(healthy.sound && faulty.sound) {
            return f64::NAN;
        }
        let (a, b) = ((self.of)(healthy), (self.of)(faulty));
        if self.relative { 100.0 * (b / a - 1.0) } else { b - a }
    }
    fn expected(&self, sign: Sign) -> Expected {
        match sign {
            Sign::Up => Expected::AtLeast(self.neutral),
            Sign::Down => Expected::AtMost(-self.neutral),
            Sign::Same => Expected::Value { value: 0.0, tolerance: self.same },
            Sign::NotDown => Expected::AtLeast(-self.neutral),
            Sign::NotUp => Expected::AtMost(self.neutral),
            Sign::Open => Expected::Nothing,
        }
    }
}

/// What is changed, and how far: a description and the change itself.
pub type Change<'a> = (&'a str, &'a dyn Fn(&mut Inputs, &mut Contents));

/// A fault of a table with its signs.
pub struct Fault<'a> {
    /// Name of the row in the table.
    pub name: &'a str,
    /// Who prints the row, and whether that can be looked up.
    pub source: (&'static str, Standing),
    /// The severities it is tried at.
    pub at: &'a [Change<'a>],
    /// What moves which way.
    pub signs: &'a [(Quantity, Sign)],
}

/// Rows of a table at several outside temperatures, on the stand that `at` sets up for each.
pub fn rows(
    at: impl Fn(f64) -> Result<Stand, QualifyError>,
    outside_c: &[f64],
    table: &str,
    faults: &[Fault],
) -> Result<Vec<Row>, QualifyError> {
    let mut rows = Vec::new();
    for &c in outside_c {
        let stand = at(c)?;
        let healthy = stand.healthy();
        for fault in faults {
            for (how_far, change) in fault.at {
                let faulty = stand.with(change);
                for (quantity, sign) in fault.signs {
                    let (source, standing) = match sign {
                        Sign::Open => (fault.source.0, Standing::Contested),
                        _ => fault.source,
                    };
                    let case =
                        Case::new(Section::Signs, format!("{table}: {}", fault.name), source, standing);
                    let at = format!("{how_far}, outside {c:.0} °C");
                    let moved = quantity.moved(&healthy, &faulty);
                    rows.push(case.row(quantity.name, at, quantity.unit, quantity.expected(*sign), moved));
                }
            }
        }
    }
    Ok(rows)
}
