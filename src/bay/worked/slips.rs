//! The known slips: what an answer would be if somebody made one of them.

use super::{Verdict, value};
use crate::bay::{WorkedUnit, WorkedValue};
use crate::instrument::Reading;
use crate::refrigerant::Refrigerant;
use crate::units::{ATMOSPHERE_PA, Units, ZERO_C_K};

/// An answer in SI; none where the unit is of another kind. A difference in °C counts as one in K.
pub(super) fn to_si(what: WorkedValue, answer: f64, unit: WorkedUnit) -> Option<f64> {
    use WorkedUnit as U;
    let difference = is_difference(what);
    Some(match (what, unit) {
        (WorkedValue::Absolute, U::Bar) => answer * Units::Bar.pascals(),
        (WorkedValue::Absolute, U::Kilopascal) => answer * Units::Kpa.pascals(),
        (WorkedValue::Absolute, U::Psi) => answer * Units::Psi.pascals(),
        (WorkedValue::Saturation, U::Celsius) => answer + ZERO_C_K,
        (WorkedValue::Saturation, U::Fahrenheit) => (answer - 32.0) / 1.8 + ZERO_C_K,
        (_, U::Kelvin | U::Celsius) if difference => answer,
        (_, U::FahrenheitDegrees | U::Fahrenheit) if difference => answer / 1.8,
        _ => return None,
    })
}

/// Units in which an answer may be meant.
fn units(what: WorkedValue) -> &'static [(WorkedUnit, &'static str)] {
    match what {
        WorkedValue::Absolute => {
            &[(WorkedUnit::Bar, "bar"), (WorkedUnit::Kilopascal, "kPa"), (WorkedUnit::Psi, "psi")]
        }
        WorkedValue::Saturation => &[(WorkedUnit::Celsius, "°C"), (WorkedUnit::Fahrenheit, "°F")],
        _ => &[(WorkedUnit::Kelvin, "K"), (WorkedUnit::FahrenheitDegrees, "Fahrenheit degrees")],
    }
}

/// Say what an answer is: as given, its unit and in SI; beside the right value, its tolerance and its uncertainty.
pub(super) fn judge(
    what: WorkedValue,
    used: &[&Reading],
    (answer, unit, given): (f64, WorkedUnit, Option<f64>),
    refrigerant: &Refrigerant,
    ambient_pa: f64,
    (right, tolerance, uncertainty): (f64, f64, f64),
) -> Verdict {
    let off = |x: f64| (x - right).abs();
    let meant = || {
        let others = units(what).iter().filter(|(other, _)| *other != unit);
        others.filter_map(|&(other, name)| Some((off(to_si(what, answer, other)?), name)))
    };
    let Some(given) = given else {
        // A unit of another kind: name one that fits the number, else any that fits the value.
        let named = meant().find(|(by, _)| *by <= tolerance).map(|(_, name)| name);
        return Verdict::WrongUnit(named.unwrap_or(units(what)[0].1));
    };
    if off(given) <= tolerance {
        return Verdict::Right;
    }
    let added = |pa: f64| value(what, used, refrigerant, pa);
    let gauge_counts = what != WorkedValue::Split;
    let slips = [
        added(0.0).filter(|_| gauge_counts).map(|x| ((x - given).abs(), Verdict::GaugeAsAbsolute)),
        added(2.0 * ambient_pa)
            .filter(|_| gauge_counts)
            .map(|x| ((x - given).abs(), Verdict::AbsoluteAsGauge)),
        added(ATMOSPHERE_PA).filter(|_| gauge_counts).map(|x| ((x - given).abs(), Verdict::SeaLevel)),
        is_difference(what).then(|| ((-right - given).abs(), Verdict::SignSwapped)),
        (is_difference(what) && matches!(unit, WorkedUnit::Fahrenheit | WorkedUnit::FahrenheitDegrees))
            .then(|| (off((answer - 32.0) / 1.8), Verdict::ThirtyTwoAdded)),
    ];
    let slips = slips.into_iter().flatten().chain(meant().map(|(by, name)| (by, Verdict::WrongUnit(name))));
    let nearest = slips.filter(|(by, _)| *by <= tolerance).min_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((_, verdict)) => verdict,
        None if off(given) <= uncertainty => Verdict::Close,
        None => Verdict::ArithmeticOff,
    }
}

fn is_difference(what: WorkedValue) -> bool {
    !matches!(what, WorkedValue::Saturation | WorkedValue::Absolute)
}
