//! The known slips: what an answer would be if somebody made one of them.

use super::Verdict;
use super::value::value;
use crate::bay::{WorkedUnit, WorkedValue};
use crate::constants::ZERO_C_F;
use crate::instrument::Reading;
use crate::refrigerant::Refrigerant;
use crate::units::{ATMOSPHERE_PA, DeltaK};

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
        let others = what.units().iter().filter(|other| **other != unit);
        others.filter_map(|other| Some((off(what.si(answer, *other)?), other.in_a_sentence())))
    };
    let Some(given) = given else {
        // A unit of another kind: name one that fits the number, else any that fits the value.
        let named = meant().find(|(by, _)| *by <= tolerance).map(|(_, name)| name);
        return Verdict::WrongUnit(named.unwrap_or(what.units()[0].in_a_sentence()));
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
        what.is_difference().then(|| ((-right - given).abs(), Verdict::SignSwapped)),
        (what.is_difference() && matches!(unit, WorkedUnit::Fahrenheit | WorkedUnit::FahrenheitDegrees))
            .then(|| (off(DeltaK::from_f(answer - ZERO_C_F).0), Verdict::ThirtyTwoAdded)),
    ];
    let slips = slips.into_iter().flatten().chain(meant().map(|(by, name)| (by, Verdict::WrongUnit(name))));
    let nearest = slips.filter(|(by, _)| *by <= tolerance).min_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((_, verdict)) => verdict,
        None if off(given) <= uncertainty => Verdict::Close,
        None => Verdict::ArithmeticOff,
    }
}
