//! Sums as one does them at the car: the last readings off the notebook, a printed pressure-temperature chart, paper.
//!
//! This is the person's side. Whether the answer is right is judged elsewhere, from the same readings.

use super::Quantity;
use crate::bay::{BayAction, RecordField, RecordValue, WorkedUnit, WorkedValue};
use crate::bench::Bench;
use crate::instrument::{AirPlace, PipePlace, Probe};
use crate::units::ZERO_C_K;

/// Steps in which a gauge and a printed chart are read [Pa] and [K].
const GAUGE_PA: f64 = 5e3;
const CHART_K: f64 = 0.5;

/// The last reading of the first of some probes that was read at all: its index in the notebook and its value.
fn last(bench: &Bench, probes: &[Probe]) -> Option<(usize, f64)> {
    let found = |probe: &Probe| bench.notebook().iter().rposition(|r| r.probe == *probe);
    let index = probes.iter().find_map(found)?;
    Some((index, bench.notebook().get(index)?.value))
}

fn to(step: f64, value: f64) -> f64 {
    libm::round(value / step) * step
}

/// Work a value out from the last readings that it needs.
pub fn work(what: WorkedValue, unit: WorkedUnit, bench: &Bench) -> Option<BayAction> {
    let pipe = |places: &[PipePlace]| places.iter().map(|p| Probe::Pipe(*p)).collect::<Vec<_>>();
    let air = |place| vec![Probe::Air(place)];
    let (first, second) = match what {
        WorkedValue::Superheat => {
            (vec![Probe::LowGauge], pipe(&[PipePlace::EvaporatorOutlet, PipePlace::CompressorInlet]))
        }
        WorkedValue::Subcooling => {
            (vec![Probe::HighGauge], pipe(&[PipePlace::ValveInlet, PipePlace::CondenserOutlet]))
        }
        WorkedValue::Approach => (vec![Probe::HighGauge], air(AirPlace::Outside)),
        WorkedValue::Split => (air(AirPlace::Cabin), air(AirPlace::Vent)),
        WorkedValue::Saturation | WorkedValue::Absolute => (vec![Probe::LowGauge], Vec::new()),
    };
    let (index, value) = last(bench, &first)?;
    let mut readings = vec![index];
    let absolute_pa = to(GAUGE_PA, value) + bench.controls().ambient_pa();
    let second = if second.is_empty() {
        None
    } else {
        let (index, value) = last(bench, &second)?;
        readings.push(index);
        Some(value)
    };
    let boils_k = || {
        let refrigerant = bench.plant().refrigerant();
        let in_range = absolute_pa > refrigerant.min_p_pa() && absolute_pa < refrigerant.max_p_pa();
        in_range
            .then(|| to(CHART_K, refrigerant.saturation(libm::log(absolute_pa)).t_k - ZERO_C_K) + ZERO_C_K)
    };
    let answer = match what {
        WorkedValue::Superheat => second? - boils_k()?,
        WorkedValue::Subcooling | WorkedValue::Approach => boils_k()? - second?,
        WorkedValue::Split => value - second?,
        WorkedValue::Saturation => boils_k()?,
        WorkedValue::Absolute => absolute_pa,
    };
    Some(BayAction::Work { what, readings, answer: to(0.1, unit.of_si(answer)), unit })
}

/// A line of the work record from a reading, in the unit of the line.
pub fn write(field: RecordField, of: &Quantity, bench: &Bench) -> Option<BayAction> {
    // Nobody at the car can see the model's own books.
    if matches!(of, Quantity::Ledger(_)) {
        return None;
    }
    let value = of.value(bench)?;
    // What a scale fell by is written as so many grams, without a sign.
    let value = if of.unit() == "kg" { value.abs() } else { value };
    let per_unit = match of.unit() {
        "kg" => 1e3,
        "m3" => 1e6,
        "Pa gauge" => 1e-5,
        _ => 1.0,
    };
    // A temperature counts from freezing, a difference does not.
    let offset = if of.unit() == "K" && matches!(of, Quantity::Probe(_) | Quantity::Reading(_)) {
        ZERO_C_K
    } else {
        0.0
    };
    let value = to(0.01, (value - offset) * per_unit);
    Some(BayAction::Write { field, value: RecordValue::Number(value) })
}
