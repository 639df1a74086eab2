//! What the strips draw: the last minutes of each value in the chosen units.

use egui::Color32;

use crate::desk::DeskView;
use crate::desk::history::Sample;
use crate::units::{DeltaK, GaugePa, Kelvin};

/// Length of the strips [s].
pub const WINDOW_S: f64 = 240.0;

/// How a trace is drawn; the pattern tells it apart without colour.
#[derive(Clone, Copy, PartialEq)]
pub enum Pattern {
    /// Low side.
    Dashed,
    /// High side.
    Solid,
    /// Air.
    Dotted,
}

/// One line of a strip.
pub struct Trace {
    /// What it is.
    pub name: &'static str,
    /// Present value with its unit.
    pub now: String,
    /// Colour token.
    pub color: Color32,
    /// Pattern.
    pub pattern: Pattern,
    /// Seconds before now (negative) and value.
    pub points: Vec<(f64, f64)>,
}

impl Trace {
    /// Name and present value.
    pub fn tag(&self) -> String {
        format!("{} {}", self.name, self.now)
    }
}

/// Both gauges.
pub fn pressure_traces(view: &DeskView) -> Vec<Trace> {
    let i = &view.snapshot.instruments;
    let pick = |of: fn(&Sample) -> f64| series(view, |s| Some(view.units.pressure_value(of(s))));
    vec![
        Trace {
            name: "high",
            now: view.units.pressure(GaugePa(i.high_gauge_pa)),
            color: view.theme.high,
            pattern: Pattern::Solid,
            points: pick(|s| s.high_gauge_pa),
        },
        Trace {
            name: "low",
            now: view.units.pressure(GaugePa(i.low_gauge_pa)),
            color: view.theme.low,
            pattern: Pattern::Dashed,
            points: pick(|s| s.low_gauge_pa),
        },
    ]
}

/// Superheat, subcooling and vents, where the inside is open.
pub fn inside_traces(view: &DeskView) -> Vec<Trace> {
    let Some(i) = &view.snapshot.inside else { return Vec::new() };
    let (u, theme) = (view.units, view.theme);
    vec![
        Trace {
            name: "superheat",
            now: u.difference(DeltaK(i.superheat_k)),
            color: theme.low,
            pattern: Pattern::Dashed,
            points: series(view, |s| s.inside.map(|x| u.difference_value(DeltaK(x.superheat_k)))),
        },
        Trace {
            name: "subcooling",
            now: u.difference(DeltaK(i.subcooling_k)),
            color: theme.high,
            pattern: Pattern::Solid,
            points: series(view, |s| s.inside.map(|x| u.difference_value(DeltaK(x.subcooling_k)))),
        },
        Trace {
            name: "vent",
            now: u.temperature(Kelvin(i.vent_t_k)),
            color: theme.good,
            pattern: Pattern::Dotted,
            points: series(view, |s| s.inside.map(|x| u.temperature_value(Kelvin(x.vent_t_k)))),
        },
    ]
}

/// Points of the window: seconds before now (negative) and value; not more than the strip has pixels.
fn series(view: &DeskView, of: impl Fn(&Sample) -> Option<f64>) -> Vec<(f64, f64)> {
    let now = view.snapshot.time_s;
    let recent: Vec<&Sample> =
        view.history.samples().iter().filter(|s| s.time_s >= now - WINDOW_S - 1.0).collect();
    let every = (recent.len() / 300).max(1);
    let kept = recent.iter().enumerate().filter(|(i, _)| i % every == 0 || i + 1 == recent.len());
    kept.filter_map(|(_, s)| of(s).filter(|v| v.is_finite()).map(|v| (s.time_s - now, v))).collect()
}

/// Lower end, upper end and grid step that hold all traces, in round numbers.
pub fn range(traces: &[Trace]) -> (f64, f64, f64) {
    let values = || traces.iter().flat_map(|t| t.points.iter().map(|p| p.1));
    let min = values().fold(0.0, f64::min);
    let max = values().fold(0.0, f64::max).max(min + 1.0);
    let rough = (max - min) / 2.0;
    let base = 10f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|m| m * base).find(|s| *s >= rough).unwrap_or(rough);
    let low = (min / step).floor() * step;
    (low, ((max / step).ceil() * step).max(low + step), step)
}
