//! Strip charts of the last minutes, drawn with the plain painter.

use std::ops::RangeInclusive;

use egui::{Align, Align2, FontId, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType};
use egui::{pos2, vec2};

use super::parts::{SMALL, prepare, width_of, write};
use super::traces::{Pattern, Trace, WINDOW_S, inside_traces, pressure_traces, range};
use crate::desk::{Command, DeskView, Papers};

/// One strip before it is drawn: its unit and its traces.
struct Strip {
    unit: String,
    traces: Vec<Trace>,
}

/// Pressures, and what the inside shows where it is open.
pub fn strips_ui(ui: &mut Ui, view: &DeskView, _papers: &mut Papers, _out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let (rect, response) = ui.allocate_exact_size(ui.available_size(), Sense::hover());
    let mut strips = Vec::new();
    if view.snapshot.instruments.hoses_fitted {
        strips.push(Strip {
            unit: format!("{} gauge", view.units.pressure_unit()),
            traces: pressure_traces(view),
        });
    }
    let fitted = !strips.is_empty();
    if view.snapshot.inside.is_some() {
        let (k, c) = (view.units.difference_unit(), view.units.temperature_unit());
        let unit = if k == c { k.to_owned() } else { format!("{k}, {c}") };
        strips.push(Strip { unit, traces: inside_traces(view) });
    }
    // Strips share their time axis, so their plots share left and right ends.
    let widest = |texts: Vec<String>| texts.iter().map(|t| width_of(ui, t, SMALL)).fold(0.0, f32::max);
    let tag_width = widest(strips.iter().flat_map(|s| s.traces.iter().map(Trace::tag)).collect());
    let axis_width = widest(strips.iter().map(|s| format!("−{:.0}", range(&s.traces).1)).collect());
    let left = rect.left() + axis_width.max(20.0) + 4.0;
    let right = rect.right() - tag_width.min(rect.width() * 0.5) - 8.0;
    let axis = Rect::from_min_max(pos2(left, rect.bottom() - 16.0), pos2(right, rect.bottom()));
    let count = strips.len().max(1) + usize::from(!fitted && !strips.is_empty());
    let height = (axis.top() - rect.top() + 4.0) / count as f32;
    let nth = |i: usize| {
        let top = rect.top() + i as f32 * height;
        Rect::from_min_max(pos2(rect.left(), top), pos2(rect.right(), top + height - 4.0))
    };
    let mut said = Vec::new();
    if !fitted {
        empty(ui, view, nth(0), "Fit the gauge set to record pressures.");
        said.push("Fit the gauge set to record pressures.".to_owned());
    }
    for (i, strip) in strips.iter().enumerate() {
        let area = nth(i + usize::from(!fitted));
        draw_strip(ui, view, area, left..=right, strip);
        said.extend(strip.traces.iter().map(Trace::tag));
    }
    if !strips.is_empty() {
        write(ui, axis, Align::Min, "−4 min", SMALL, view.theme.muted);
        write(ui, axis, Align::Max, "now", SMALL, view.theme.muted);
    }
    response
        .widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, format!("Strips: {}", said.join(", "))));
}

fn empty(ui: &Ui, view: &DeskView, rect: Rect, words: &str) {
    frame(ui, view, rect);
    write(ui, rect.shrink(8.0), Align::Center, words, SMALL, view.theme.text);
}

fn frame(ui: &Ui, view: &DeskView, rect: Rect) {
    let edge = Stroke::new(1.0, view.theme.line);
    ui.painter().rect(rect, 4.0, view.theme.ground, edge, StrokeKind::Inside);
}

fn draw_strip(ui: &Ui, view: &DeskView, rect: Rect, across: RangeInclusive<f32>, strip: &Strip) {
    let (theme, traces) = (view.theme, &strip.traces);
    let plot = Rect::from_x_y_ranges(across, rect.y_range());
    let (low, high, step) = range(traces);
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
    for trace in traces {
        let points: Vec<Pos2> = trace
            .points
            .iter()
            .map(|&(t, v)| pos2(x_of(t).max(plot.left()), y_of(v).clamp(plot.top(), plot.bottom())))
            .collect();
        draw(ui, &points, trace);
    }
    marks(ui, view, plot, &x_of, &strip.unit);
    write_tags(ui, rect, plot, traces, &y_of);
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
fn write_tags(ui: &Ui, rect: Rect, plot: Rect, traces: &[Trace], y_of: &dyn Fn(f64) -> f32) {
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
        write(ui, cell, Align::Min, &traces[i].tag(), SMALL, traces[i].color);
    }
}

/// Actions as dotted lines, the unit in the corner, and as many words on the actions as there is room for.
fn marks(ui: &Ui, view: &DeskView, plot: Rect, x_of: &dyn Fn(f64) -> f32, unit: &str) {
    let theme = view.theme;
    let now = view.snapshot.time_s;
    let recent = || view.history.marks().iter().filter(|m| m.0 >= now - WINDOW_S);
    for (time, _) in recent() {
        let x = x_of(time - now);
        let line = [pos2(x, plot.top()), pos2(x, plot.bottom())];
        ui.painter().extend(Shape::dotted_line(&line, theme.chosen, 4.0, 0.8));
    }
    let corner =
        Align2::LEFT_TOP.anchor_size(plot.min + vec2(4.0, 1.0), vec2(width_of(ui, unit, SMALL), 15.0));
    backing(ui, view, corner);
    write(ui, corner, Align::Min, unit, SMALL, theme.muted);
    let mut free = corner.right() + 6.0;
    for (time, text) in recent() {
        let at = pos2(x_of(time - now) + 3.0, plot.top() + 1.0);
        let galley = ui.painter().layout_no_wrap(text.clone(), FontId::proportional(SMALL), theme.chosen);
        if at.x >= free && at.x + galley.size().x <= plot.right() {
            free = at.x + 6.0 + galley.size().x;
            backing(ui, view, Rect::from_min_size(at, galley.size()));
            ui.painter().galley(at, galley, theme.chosen);
        }
    }
}

/// A trace must not run through words.
fn backing(ui: &Ui, view: &DeskView, rect: Rect) {
    ui.painter().rect_filled(rect.shrink2(vec2(0.0, 1.0)), 2.0, view.theme.ground);
}
