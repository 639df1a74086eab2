//! Numbers of the record: what they should be, how close is right, and the slips of unit that explain the rest.

use super::Mark;
use crate::bay::RecordField;
use crate::bay::facts::Facts;
use crate::bay::oil_balance::oil_ml;
use crate::constants::{BAR_PA, FLUID_OUNCE_ML, MICRON_PA, MM_HG_PA, OUNCE_KG, POUND_KG, PSI_PA, ZERO_C_K};
use crate::instrument::{AirPlace, Probe};
use crate::units::Kelvin;

/// What kind of number a line takes.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Grams,
    Millilitres,
    Minutes,
    /// Pressure above the air [bar].
    GaugeBar,
    /// Change of pressure [bar].
    ChangeBar,
    /// Absolute pressure in vacuum, or a change of it [Pa].
    VacuumPa,
    Celsius,
}

/// A number of the record as it should be.
pub(super) struct Quantity {
    kind: Kind,
    /// In the unit of the line.
    truth: f64,
    tolerance: f64,
    ambient_pa: f64,
}

/// Scale and station: SAE J2788 lets a machine be off by 15 g (from memory); 2 % of large amounts.
fn grams(truth: f64) -> f64 {
    (0.02 * truth).max(15.0)
}

impl Quantity {
    /// What a line should hold; none for a line of words, or where there is nothing to hold it against.
    pub(super) fn of(field: RecordField, truth: &Facts) -> Option<Self> {
        use RecordField as F;
        let vacuum = truth.vacuum.unwrap_or_default();
        let hold = truth.nitrogen.unwrap_or_default();
        let value = |x: Option<(f64, f64)>| x.map_or(0.0, |(value, _)| value);
        let (before, after) = (&truth.before, &truth.after);
        let low = Probe::LowGauge.limit(0.0) / 1e5;
        let high = Probe::HighGauge.limit(0.0) / 1e5;
        let air = Probe::Air(AirPlace::Vent).limit(0.0);
        let (kind, number, tolerance) = match field {
            F::Refrigerant | F::CylinderLabel | F::PartReplaced | F::LeakPlace => return None,
            F::RecoveredG => (Kind::Grams, truth.recovered_kg * 1e3, grams(truth.recovered_kg * 1e3)),
            F::ChargedG => (Kind::Grams, truth.charged_kg * 1e3, grams(truth.charged_kg * 1e3)),
            // Graduations of the glass: 10 mL.
            F::OilRecoveredMl => (Kind::Millilitres, oil_ml(truth.recovered_oil_kg), 10.0),
            F::OilAddedMl => (Kind::Millilitres, oil_ml(truth.oil_added_kg), 10.0),
            F::NitrogenBar => (Kind::GaugeBar, hold.start_pa / 1e5, high),
            F::NitrogenHeldMin => (Kind::Minutes, hold.held_s / 60.0, (hold.held_s / 600.0).max(1.0)),
            // A change is read on one gauge: its zero cancels, half its class is left (own estimate).
            F::NitrogenChangeBar => (Kind::ChangeBar, hold.change_pa(truth.ambient_pa) / 1e5, 0.5 * high),
            // A vacuum gauge is good to 10 % (from memory); what it shows moves on, so twice that.
            F::VacuumPa => (Kind::VacuumPa, vacuum.deepest_pa, (0.2 * vacuum.deepest_pa).max(20.0)),
            F::PumpedMin => (Kind::Minutes, vacuum.pumped_s / 60.0, (vacuum.pumped_s / 600.0).max(1.0)),
            F::RisePa => {
                let rise = vacuum.rise.map_or(0.0, |(pa, _)| pa);
                (Kind::VacuumPa, rise, (0.2 * rise).max(20.0))
            }
            F::LowBeforeBar => (Kind::GaugeBar, value(before.low_pa) / 1e5, low),
            F::HighBeforeBar => (Kind::GaugeBar, value(before.high_pa) / 1e5, high),
            F::VentBeforeC => (Kind::Celsius, value(before.vent_k) - ZERO_C_K, air),
            F::LowAfterBar => (Kind::GaugeBar, value(after.low_pa) / 1e5, low),
            F::HighAfterBar => (Kind::GaugeBar, value(after.high_pa) / 1e5, high),
            F::VentAfterC => (Kind::Celsius, value(after.vent_k) - ZERO_C_K, air),
        };
        Some(Self { kind, truth: number, tolerance, ambient_pa: truth.ambient_pa })
    }

    /// Hold a written number against it.
    pub(super) fn mark(&self, written: f64) -> Mark {
        if let Some(why) = self.impossible(written) {
            return Mark::CannotBe(why.into());
        }
        let off = |x: f64| (x - self.truth).abs();
        if off(written) <= self.tolerance {
            return Mark::Right;
        }
        let bar = self.ambient_pa / 1e5;
        // The number as it would be in the unit of the line if it was written in another.
        let slips: &[(f64, &str)] = match self.kind {
            Kind::Grams => &[
                (written * POUND_KG * 1e3, "that is pounds, not grams"),
                (written * OUNCE_KG * 1e3, "that is ounces, not grams"),
                (written * 1e3, "that is kilograms, not grams"),
            ],
            Kind::Millilitres => &[
                (written * FLUID_OUNCE_ML, "that is fluid ounces, not millilitres"),
                (written * 1e3, "that is litres, not millilitres"),
            ],
            Kind::Minutes => &[
                (written / 60.0, "that is seconds, not minutes"),
                (written * 60.0, "that is hours, not minutes"),
            ],
            Kind::GaugeBar => &[
                (written - bar, "that is absolute; a gauge counts from the air"),
                (written * PSI_PA / BAR_PA, "that is psi, not bar"),
                (written / 100.0, "that is kPa, not bar"),
            ],
            Kind::ChangeBar => &[
                (written * PSI_PA / BAR_PA, "that is psi, not bar"),
                (written / 100.0, "that is kPa, not bar"),
            ],
            Kind::VacuumPa => &[
                (written * MICRON_PA, "that is microns, not pascals"),
                (written * MM_HG_PA, "that is millimetres of mercury, not pascals"),
                (written * 100.0, "that is millibars, not pascals"),
            ],
            Kind::Celsius => &[(Kelvin::from_f(written).c(), "that is degrees Fahrenheit, not Celsius")],
        };
        let nearest = slips.iter().min_by(|a, b| off(a.0).total_cmp(&off(b.0)));
        match nearest.filter(|(meant, _)| off(*meant) <= self.tolerance) {
            Some((_, why)) => Mark::CannotBe((*why).into()),
            None => Mark::Off(written - self.truth),
        }
    }

    /// Why no measurement could give this number.
    fn impossible(&self, written: f64) -> Option<&'static str> {
        let below_nothing = matches!(self.kind, Kind::Grams | Kind::Millilitres | Kind::Minutes);
        if !written.is_finite() {
            Some("that is no number")
        } else if below_nothing && written < 0.0 {
            Some("less than nothing")
        } else if self.kind == Kind::VacuumPa && written < 0.0 {
            Some(
                "an absolute pressure is never below zero; a gauge counts vacuum downward, this line does not",
            )
        } else if self.kind == Kind::GaugeBar && written * 1e5 < -self.ambient_pa - 1e3 {
            Some("nothing is emptier than empty")
        } else {
            None
        }
    }
}
