//! The notebook: readings with their uncertainty and the remarks between them. Rows can be picked as
//! evidence; nothing is ever lost.

use egui::{Align, Rect, ScrollArea, Sense, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::parts::{BODY, ROW, SMALL, entry, fit_lines, focus_ring, small, width_of, write};
use super::{Draft, words};
use crate::bench::{Action, TICK_S};
use crate::desk::{Command, DeskView};
use crate::instrument::Reading;

enum Line<'a> {
    Reading(usize, &'a Reading),
    Remark(u64, &'a str),
}

/// Readings and remarks in a scroll of a given height, and a line to write a remark.
pub fn notebook(ui: &mut Ui, view: &DeskView, draft: &mut Draft, height: f32, out: &mut Vec<Command>) {
    head(ui, view, draft);
    let lines = lines(view, draft.by_place);
    ScrollArea::vertical()
        .id_salt("notebook")
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink([false, false])
        .stick_to_bottom(true)
        .show(ui, |ui| {
            if lines.is_empty() {
                small(ui, view.theme, "Nothing written yet. Read a tool, or click a gauge.");
            }
            for line in &lines {
                match line {
                    Line::Reading(index, reading) => reading_row(ui, view, draft, *index, reading),
                    Line::Remark(tick, text) => {
                        small(ui, view.theme, &format!("{}  “{text}”", words::clock(*tick as f64 * TICK_S)));
                    }
                }
            }
        });
    let width = ui.available_width();
    if entry(
        ui,
        view.theme,
        "Remark or prediction",
        "I expect ... / I notice ...  (Enter)",
        &mut draft.remark,
        width,
    ) {
        out.push(Command::Act(Action::Note(draft.remark.trim().to_owned())));
        draft.remark.clear();
    }
}

/// Heading and the choice of order.
fn head(ui: &mut Ui, view: &DeskView, draft: &mut Draft) {
    let theme = view.theme;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 24.0), Sense::click());
    let order = if draft.by_place { "by place" } else { "by time" };
    response.widget_info(|| {
        WidgetInfo::labeled(
            WidgetType::Button,
            true,
            format!("Notebook, sorted {order}. Click to sort the other way"),
        )
    });
    let picked = draft.evidence.len();
    let title = if picked > 0 { format!("Notebook · {picked} as evidence") } else { "Notebook".to_owned() };
    write(ui, rect, Align::Min, &title, SMALL, theme.muted);
    write(ui, rect, Align::Max, &format!("sorted {order}"), SMALL, theme.text);
    focus_ring(ui, theme, &response);
    if response.clicked() {
        draft.by_place = !draft.by_place;
    }
}

fn lines<'a>(view: &'a DeskView, by_place: bool) -> Vec<Line<'a>> {
    let readings = view.snapshot.instruments.notebook.iter().enumerate();
    let mut lines: Vec<Line> = readings.map(|(i, r)| Line::Reading(i, r)).collect();
    lines.extend(view.log.remarks.iter().map(|(tick, text)| Line::Remark(*tick, text)));
    if by_place {
        // Remarks have no place: they stand after the readings.
        lines.sort_by_key(|line| match line {
            Line::Reading(index, r) => (false, Some(&r.probe), r.tick, *index),
            Line::Remark(tick, _) => (true, None, *tick, 0),
        });
    } else {
        lines.sort_by_key(|line| match line {
            Line::Reading(index, r) => (r.tick, *index),
            Line::Remark(tick, _) => (*tick, 0),
        });
    }
    lines
}

/// One reading; a click picks it as evidence or lets it go.
fn reading_row(ui: &mut Ui, view: &DeskView, draft: &mut Draft, index: usize, reading: &Reading) {
    let theme = view.theme;
    let picked = draft.evidence.contains(&index);
    let (time, place) = (words::clock(reading.tick as f64 * TICK_S), reading.probe.short());
    let value = words::value_with_uncertainty(view.units, reading);
    // Tick box, time, place, value; a long place takes a second line, and a third.
    let width = ui.available_width();
    let time_end = 22.0 + width_of(ui, &time, SMALL).max(34.0) + 6.0;
    let room = width - time_end - width_of(ui, &value, BODY) - 10.0;
    let name = fit_lines(ui, &place, BODY, theme.text, room, 3);
    let height = (name.size().y + 6.0).max(ROW);
    let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click());
    let words = format!("Evidence: {time}, {place}, {value}");
    response.widget_info(|| WidgetInfo::selected(WidgetType::Checkbox, true, picked, &words));
    if picked || response.hovered() {
        ui.painter().rect_filled(rect, 3.0, theme.raised);
    }
    let tick_box = Rect::from_center_size(pos2(rect.left() + 9.0, rect.center().y), vec2(13.0, 13.0));
    let edge = Stroke::new(1.5, if picked { theme.chosen } else { theme.muted });
    ui.painter().rect_stroke(tick_box, 2.0, edge, egui::StrokeKind::Inside);
    if picked {
        let (l, b, r) = (tick_box.left_center(), tick_box.center_bottom(), tick_box.right_top());
        let points = vec![l + vec2(3.0, 0.0), b + vec2(-1.0, -3.0), r + vec2(-2.0, 3.0)];
        ui.painter().add(egui::Shape::line(points, Stroke::new(2.0, theme.chosen)));
    }
    let inner =
        Rect::from_min_max(pos2(rect.left() + 22.0, rect.top()), pos2(rect.right() - 4.0, rect.bottom()));
    write(ui, inner, Align::Min, &time, SMALL, theme.muted);
    write(ui, inner, Align::Max, &value, BODY, theme.text);
    let at = pos2(rect.left() + time_end, rect.center().y - name.size().y / 2.0);
    ui.painter().galley(at, name, theme.text);
    focus_ring(ui, theme, &response);
    if response.clicked() {
        match draft.evidence.iter().position(|&i| i == index) {
            Some(at) => {
                draft.evidence.remove(at);
            }
            None => draft.evidence.push(index),
        }
    }
}
