//! Strip charts of the last minutes, drawn with the plain painter.

use egui::{
    Align, Align2, Color32, FontId, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType,
};
use egui::{pos2, vec2};

use super::parts::{SMALL, prepare, width_of, write};
use crate::desk::history::Sample;
use crate::desk::{Command, DeskView};
use crate::units::{DeltaK, GaugePa, Kelvin};

/// Length of the strips [s].
const WINDOW_S: f64 = 240.0;

/// How a trace is drawn; the pattern tells it apart without colour.
#[derive(Clone, Copy, PartialEq)]
enum Pattern {
    Dashed,
    Solid,
    Dotted,
}

struct Trace {
    name: &'static str,
    now: String,
    color: Color32,
    pattern: Pattern,
    points: Vec<(f64, f64)>,
}

/// Pressures, and what the inside shows where it is open.
pub fn strips_ui(ui: &mut Ui, view: &DeskView, _out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let (rect, response) = ui.allocate_exact_size(ui.available_size(), Sense::hover());
    let pressures = view.snapshot.instruments.hoses_fitted;
    let inside = view.snapshot.inside.is_some();
    let mut said = Vec::new();
    let axis = Rect::from_min_max(pos2(rect.left(), rect.bottom() - 16.0), rect.max);
    let plots = Rect::from_min_max(rect.min, pos2(rect.right(), axis.top()));
    let split = plots.top() + plots.height() * if inside { 0.5 } else { 1.0 };
    let upper = Rect::from_min_max(plots.min, pos2(plots.right(), split - 2.0));
    if pressures {
        let traces = pressure_traces(view);
        strip(ui, view, upper, &format!("{} gauge", view.units.pressure_unit()), &traces, &mut said);
    } else {
        empty(ui, view, upper, "Fit the gauge set to record pressures.", &mut said);
    }
    if inside {
        let lower = Rect::from_min_max(pos2(plots.left(), split + 2.0), plots.max);
        let unit = format!("{}, {}", view.units.difference_unit(), view.units.temperature_unit());
        let unit = if view.units.difference_unit() == view.units.temperature_unit() {
            view.units.temperature_unit().to_owned()
        } else {
            unit
        };
        strip(ui, view, lower, &unit, &inside_traces(view), &mut said);
    }
    write(ui, axis, Align::Min, "−4 min", SMALL, view.theme.muted);
    write(ui, axis, Align::Max, "now", SMALL, view.theme.muted);
    response
        .widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, format!("Strips: {}", said.join(", "))));
}

fn pressure_traces(view: &DeskView) -> Vec<Trace> {
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

fn inside_traces(view: &DeskView) -> Vec<Trace> {
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

fn empty(ui: &Ui, view: &DeskView, rect: Rect, words: &str, said: &mut Vec<String>) {
    frame(ui, view, rect);
    write(ui, rect.shrink(8.0), Align::Center, words, SMALL, view.theme.text);
    said.push(words.to_owned());
}

fn frame(ui: &Ui, view: &DeskView, rect: Rect) {
    let edge = Stroke::new(1.0, view.theme.line);
    ui.painter().rect(rect, 4.0, view.theme.ground, edge, StrokeKind::Inside);
}

fn strip(ui: &Ui, view: &DeskView, rect: Rect, unit: &str, traces: &[Trace], said: &mut Vec<String>) {
    let theme = view.theme;
    let tags: Vec<String> = traces.iter().map(|t| format!("{} {}", t.name, t.now)).collect();
    said.extend(tags.iter().cloned());
    let tag_width = tags.iter().map(|t| width_of(ui, t, SMALL)).fold(0.0, f32::max).min(rect.width() * 0.4);
    let (low, high, step) = range(traces);
    let axis_width = width_of(ui, &format!("−{high:.0}"), SMALL).max(24.0);
    let plot = Rect::from_min_max(
        pos2(rect.left() + axis_width + 4.0, rect.top()),
        pos2(rect.right() - tag_width - 8.0, rect.bottom()),
    );
    frame(ui, view, plot);
    let y_of = |v: f64| plot.bottom() - 7.0 - ((v - low) / (high - low)) as f32 * (plot.height() - 14.0);
    let x_of = |t: f64| plot.right() + (t / WINDOW_S) as f32 * plot.width();
    let lines = ((high - low) / step).round() as i64;
    for i in 0..=lines {
        let v = low + i as f64 * step;
        let y = y_of(v);
        ui.painter()
            .line_segment([pos2(plot.left(), y), pos2(plot.right(), y)], Stroke::new(1.0, theme.line));
        let cell = Rect::from_min_max(pos2(rect.left(), y - 8.0), pos2(plot.left() - 4.0, y + 8.0));
        write(ui, cell, Align::Max, &format!("{v:.0}").replace('-', "−"), SMALL, theme.muted);
    }
    marks(ui, view, plot, &x_of, unit);
    for trace in traces {
        let points: Vec<Pos2> = trace
            .points
            .iter()
            .map(|&(t, v)| pos2(x_of(t).max(plot.left()), y_of(v).clamp(plot.top(), plot.bottom())))
            .collect();
        draw(ui, &points, trace);
    }
    write_tags(ui, rect, plot, traces, &tags, &y_of);
}

/// Lower end, upper end and grid step that hold all traces, in round numbers.
fn range(traces: &[Trace]) -> (f64, f64, f64) {
    let values = || traces.iter().flat_map(|t| t.points.iter().map(|p| p.1));
    let min = values().fold(0.0, f64::min);
    let max = values().fold(0.0, f64::max).max(min + 1.0);
    let rough = (max - min) / 2.0;
    let base = 10f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|m| m * base).find(|s| *s >= rough).unwrap_or(rough);
    let low = (min / step).floor() * step;
    (low, ((max / step).ceil() * step).max(low + step), step)
}

fn draw(ui: &Ui, points: &[Pos2], trace: &Trace) {
    let stroke = Stroke::new(2.0, trace.color);
    match trace.pattern {
        Pattern::Solid => {
            ui.painter().add(Shape::line(points.to_vec(), stroke));
        }
        Pattern::Dashed => {
            ui.painter().extend(Shape::dashed_line(points, stroke, 7.0, 4.0));
        }
        Pattern::Dotted => {
            ui.painter().extend(Shape::dotted_line(points, trace.color, 5.0, 1.2));
        }
    }
}

/// Present values beside the ends of their traces, pushed apart where they would meet.
fn write_tags(ui: &Ui, rect: Rect, plot: Rect, traces: &[Trace], tags: &[String], y_of: &dyn Fn(f64) -> f32) {
    const LINE: f32 = 15.0;
    let mut order: Vec<(usize, f32)> = traces
        .iter()
        .enumerate()
        .map(|(i, t)| (i, t.points.last().map_or(plot.center().y, |p| y_of(p.1))))
        .collect();
    order.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut floor = rect.top() + LINE / 2.0;
    let mut placed = Vec::new();
    for (i, y) in order {
        let y = y.max(floor);
        floor = y + LINE;
        placed.push((i, y));
    }
    let over = (floor - LINE / 2.0 - rect.bottom()).max(0.0);
    let mut ceiling = rect.bottom() - LINE / 2.0;
    for (i, y) in placed.into_iter().rev() {
        let y = if over > 0.0 { y.min(ceiling) } else { y };
        ceiling = y - LINE;
        let cell = Rect::from_min_max(pos2(plot.right() + 6.0, y - 8.0), pos2(rect.right(), y + 8.0));
        write(ui, cell, Align::Min, &tags[i], SMALL, traces[i].color);
    }
}

/// The unit in the corner, then actions as dotted lines with as many words as there is room for.
fn marks(ui: &Ui, view: &DeskView, plot: Rect, x_of: &dyn Fn(f64) -> f32, unit: &str) {
    let theme = view.theme;
    let corner =
        Align2::LEFT_TOP.anchor_size(plot.min + vec2(4.0, 1.0), vec2(width_of(ui, unit, SMALL), 15.0));
    write(ui, corner, Align::Min, unit, SMALL, theme.muted);
    let mut free = corner.right() + 6.0;
    let now = view.snapshot.time_s;
    for (time, text) in view.history.marks().iter().filter(|m| m.0 >= now - WINDOW_S) {
        let x = x_of(time - now);
        let line = [pos2(x, plot.top()), pos2(x, plot.bottom())];
        ui.painter().extend(Shape::dotted_line(&line, theme.chosen, 4.0, 0.8));
        let galley = ui.painter().layout_no_wrap(text.clone(), FontId::proportional(SMALL), theme.chosen);
        if x + 3.0 >= free && x + 3.0 + galley.size().x <= plot.right() {
            free = x + 9.0 + galley.size().x;
            ui.painter().galley(pos2(x + 3.0, plot.top() + 1.0), galley, theme.chosen);
        }
    }
}
