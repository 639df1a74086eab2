//! What the inside of the loop looked like at the end.

use crate::bench::{Bench, Inside};
use crate::diagnosis::Prediction;
use crate::units::{DeltaK, GaugePa, Kelvin, Units};

/// What the inside looked like, a line each, beside the healthy loop at the same moment.
pub(super) fn inside_words(bench: &Bench, healthy: Option<&Prediction>) -> Vec<String> {
    let units = Units::default();
    let Some(now) = bench.snapshot(true).inside else { return Vec::new() };
    let well = healthy.and_then(|p| p.bench.snapshot(true).inside);
    let both = |what: &str, show: &dyn Fn(&Inside) -> String| {
        let beside = well.as_ref().map_or_else(String::new, |w| format!(", a healthy loop {}", show(w)));
        format!("{what} {}{beside}", show(&now))
    };
    let mut lines = vec![
        both("Low side", &|i| units.pressure(GaugePa(i.gauge_low_pa))),
        both("High side", &|i| units.pressure(GaugePa(i.gauge_high_pa))),
        both("Superheat", &|i| units.difference(DeltaK(i.superheat_k))),
        both("Subcooling", &|i| units.difference(DeltaK(i.subcooling_k))),
        both("Discharge pipe", &|i| units.temperature(Kelvin(i.points[1].t_k))),
        both("Receiver filled to", &|i| format!("{:.0} %", 100.0 * i.receiver_level)),
        both("Valve opening", &|i| format!("{:.0} % of full lift", 100.0 * i.valve_lift)),
        both("Air over the condenser", &|i| format!("{:.2} kg/s", i.condenser_air_kg_s)),
        both("Refrigerant flow", &|i| format!("{:.1} g/s", 1e3 * i.m_metering_kg_s)),
        both("Vent air", &|i| units.temperature(Kelvin(i.vent_t_k))),
    ];
    if now.air_kg > 1e-5 {
        lines.push(format!("{:.1} g of air in the loop", 1e3 * now.air_kg));
    }
    for fault in &now.faults {
        lines.push(format!("{}: {}", fault.id.info().name, fault.id.info().changes));
    }
    lines
}
