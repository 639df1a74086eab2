//! Small parts all panels are made of. Every control has a name for screen readers, takes the keyboard
//! and shows its focus with a ring.

use std::ops::RangeInclusive;
use std::sync::Arc;

use egui::text::{LayoutJob, TextFormat, TextWrapping};
use egui::{
    Align, Color32, CornerRadius, FontId, Frame, Galley, Margin, Pos2, Rect, Response, RichText, Sense,
    Stroke, StrokeKind, TextStyle, Ui, WidgetInfo, WidgetType, pos2, vec2,
};

use crate::desk::fonts;
use crate::desk::theme::Theme;

/// Size of main text.
pub const BODY: f32 = 13.0;
/// Smallest text anywhere.
pub const SMALL: f32 = 12.0;
/// Height of a row that can be clicked.
pub const ROW: f32 = 24.0;

/// Set the sizes of one panel; colours come from [`Theme::apply`].
pub fn prepare(ui: &mut Ui, theme: &Theme) {
    let style = ui.style_mut();
    for text_style in [TextStyle::Body, TextStyle::Button] {
        style.text_styles.insert(text_style, FontId::proportional(BODY));
    }
    style.text_styles.insert(TextStyle::Small, FontId::proportional(SMALL));
    style.spacing.item_spacing = vec2(6.0, 3.0);
    style.spacing.button_padding = vec2(8.0, 3.0);
    style.spacing.interact_size.y = ROW;
    style.visuals.override_text_color = Some(theme.text);
}

/// Text of one line that fits a width, ending in dots when it must.
pub fn fit(ui: &Ui, text: &str, size: f32, color: Color32, width: f32) -> Arc<Galley> {
    fit_lines(ui, text, size, color, width, 1)
}

/// Text of so many lines at most that fits a width.
pub fn fit_lines(ui: &Ui, text: &str, size: f32, color: Color32, width: f32, lines: usize) -> Arc<Galley> {
    let mut job = LayoutJob::single_section(
        text.to_owned(),
        TextFormat { font_id: FontId::proportional(size), color, ..Default::default() },
    );
    job.wrap = TextWrapping {
        max_width: width.max(0.0),
        max_rows: lines,
        break_anywhere: lines == 1,
        ..Default::default()
    };
    ui.painter().layout_job(job)
}

/// Write a line inside a rectangle, centred in height, at its left or right end.
pub fn write(ui: &Ui, rect: Rect, align: Align, text: &str, size: f32, color: Color32) -> Rect {
    let galley = fit(ui, text, size, color, rect.width());
    let y = rect.center().y - galley.size().y / 2.0;
    let x = match align {
        Align::Min => rect.left(),
        Align::Center => rect.center().x - galley.size().x / 2.0,
        Align::Max => rect.right() - galley.size().x,
    };
    let written = Rect::from_min_size(pos2(x, y), galley.size());
    ui.painter().galley(written.min, galley, color);
    written
}

/// Width of a line of text.
pub fn width_of(ui: &Ui, text: &str, size: f32) -> f32 {
    ui.painter().layout_no_wrap(text.to_owned(), FontId::proportional(size), Color32::PLACEHOLDER).size().x
}

/// Write left and right in one row; the right text is never shortened.
fn write_both(ui: &Ui, rect: Rect, left: (&str, f32, Color32), right: (&str, f32, Color32)) {
    let written = write(ui, rect, Align::Max, right.0, right.1, right.2);
    let room = Rect::from_min_max(rect.min, pos2((written.left() - 6.0).max(rect.left()), rect.bottom()));
    write(ui, room, Align::Min, left.0, left.1, left.2);
}

/// Name of a block.
pub fn heading(ui: &mut Ui, theme: &Theme, text: &str) {
    ui.add_space(4.0);
    ui.label(RichText::new(text).font(fonts::bold(SMALL)).color(theme.muted));
}

/// A paragraph in small print.
pub fn small(ui: &mut Ui, theme: &Theme, text: &str) -> Response {
    ui.label(RichText::new(text).size(SMALL).color(theme.muted))
}

/// A paragraph in main text.
pub fn body(ui: &mut Ui, theme: &Theme, text: &str) -> Response {
    ui.label(RichText::new(text).size(BODY).color(theme.text))
}

/// A row of a name and a value at the right.
pub fn row(ui: &mut Ui, theme: &Theme, left: &str, right: &str) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), Sense::hover());
    write_both(ui, rect, (left, SMALL, theme.muted), (right, BODY, theme.text));
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, format!("{left} {right}")));
    response
}

/// Ring round whatever has the keyboard.
pub fn focus_ring(ui: &Ui, theme: &Theme, response: &Response) {
    if response.has_focus() {
        let rect = response.rect;
        ui.painter().rect_stroke(rect, 5.0, Stroke::new(2.0, theme.chosen), StrokeKind::Inside);
    }
}

/// An on/off row with the state as a word and as a switch.
pub fn toggle(ui: &mut Ui, theme: &Theme, label: &str, on: bool) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::click());
    response.widget_info(|| WidgetInfo::selected(WidgetType::Checkbox, ui.is_enabled(), on, label));
    let pill = Rect::from_min_size(pos2(rect.right() - 38.0, rect.center().y - 9.0), vec2(36.0, 18.0));
    let fill = if on { theme.good } else { theme.line };
    ui.painter().rect(pill, 9.0, fill, Stroke::new(1.0, theme.muted), StrokeKind::Inside);
    let x = if on { pill.right() - 9.0 } else { pill.left() + 9.0 };
    ui.painter().circle_filled(pos2(x, pill.center().y), 7.0, theme.text);
    let words = Rect::from_min_max(rect.min, pos2(pill.left() - 6.0, rect.bottom()));
    let state = if on { "on" } else { "off" };
    write_both(ui, words, (label, BODY, theme.text), (state, SMALL, theme.muted));
    focus_ring(ui, theme, &response);
    response
}

/// A slider under its name and value. Gives the new value when a person moved it.
pub fn slider(
    ui: &mut Ui,
    theme: &Theme,
    label: &str,
    value_text: &str,
    value: f64,
    range: RangeInclusive<f64>,
    step: f64,
) -> Option<f64> {
    let width = ui.available_width();
    let (rect, _) = ui.allocate_exact_size(vec2(width, 17.0), Sense::hover());
    write_both(ui, rect, (label, BODY, theme.text), (value_text, BODY, theme.text));
    bare_slider(ui, theme, label, value_text, value, range, step)
}

/// The slider alone; its name and value are for screen readers.
pub fn bare_slider(
    ui: &mut Ui,
    theme: &Theme,
    label: &str,
    value_text: &str,
    value: f64,
    range: RangeInclusive<f64>,
    step: f64,
) -> Option<f64> {
    let mut new = value;
    let enabled = ui.is_enabled();
    let response = ui
        .scope(|ui| {
            ui.spacing_mut().slider_width = ui.available_width();
            ui.spacing_mut().interact_size.y = 18.0;
            ui.spacing_mut().slider_rail_height = 4.0;
            let visuals = ui.visuals_mut();
            visuals.selection.bg_fill = theme.muted;
            visuals.widgets.inactive.bg_fill = theme.line;
            for w in
                [&mut visuals.widgets.inactive, &mut visuals.widgets.hovered, &mut visuals.widgets.active]
            {
                w.fg_stroke = Stroke::new(1.5, theme.text);
            }
            ui.add(egui::Slider::new(&mut new, range).show_value(false).step_by(step).trailing_fill(true))
        })
        .inner;
    response.widget_info(|| WidgetInfo {
        current_text_value: Some(value_text.to_owned()),
        ..WidgetInfo::slider(enabled, value, label)
    });
    focus_ring(ui, theme, &response);
    (response.changed() && (new - value).abs() > 1e-9).then_some(new)
}

/// A button as wide as asked for; the primary one of a panel is filled with the chosen colour.
pub fn button(ui: &mut Ui, theme: &Theme, text: &str, width: f32, primary: bool) -> Response {
    let (fill, ink, face) = if primary {
        (theme.chosen, theme.on_chosen, fonts::bold(BODY))
    } else {
        (theme.raised, theme.text, fonts::regular(BODY))
    };
    let button = egui::Button::new(RichText::new(text).font(face).color(ink)).fill(fill).wrap();
    let response = ui.add_sized(vec2(width, 26.0), button.stroke(Stroke::new(1.0, theme.line)));
    focus_ring(ui, theme, &response);
    response
}

/// A row to choose from a list, with a word on its right; the chosen one has a ring. A long name takes a
/// second line.
pub fn choice(ui: &mut Ui, theme: &Theme, text: &str, right: &str, chosen: bool) -> Response {
    let ink = if ui.is_enabled() { theme.text } else { theme.muted };
    let state = fit(ui, right, SMALL, theme.muted, ui.available_width() * 0.6);
    let gap = if right.is_empty() { 0.0 } else { 6.0 };
    let room = ui.available_width() - 16.0 - state.size().x - gap;
    let name = fit_lines(ui, text, BODY, ink, room, 2);
    let height = (name.size().y + 7.0).max(ROW);
    let (_, rect) = ui.allocate_space(vec2(ui.available_width(), height));
    // Named, so that it keeps the keyboard when rows above it come and go.
    let response = ui.interact(rect, ui.id().with(("choice", text)), Sense::click());
    let words = if right.is_empty() { text.to_owned() } else { format!("{text}, {right}") };
    response.widget_info(|| WidgetInfo::selected(WidgetType::RadioButton, ui.is_enabled(), chosen, &words));
    let edge = if chosen {
        Stroke::new(2.0, theme.chosen)
    } else if response.hovered() {
        Stroke::new(1.0, theme.muted)
    } else {
        Stroke::new(1.0, theme.line)
    };
    ui.painter().rect(rect, 4.0, theme.raised, edge, StrokeKind::Inside);
    let inner = rect.shrink2(vec2(8.0, 0.0));
    ui.painter().galley(pos2(inner.left(), inner.center().y - name.size().y / 2.0), name, ink);
    let at = inner.right_center() - vec2(state.size().x, state.size().y / 2.0);
    ui.painter().galley(at, state, theme.muted);
    focus_ring(ui, theme, &response);
    response
}

/// A raised card.
pub fn card<R>(ui: &mut Ui, theme: &Theme, edge: Color32, inside: impl FnOnce(&mut Ui) -> R) -> R {
    Frame::new()
        .fill(theme.raised)
        .stroke(Stroke::new(1.0, edge))
        .corner_radius(CornerRadius::same(4))
        .inner_margin(Margin::symmetric(8, 5))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            inside(ui)
        })
        .inner
}

/// A one-line text entry with a name for screen readers; true when Enter ends it with something in it.
pub fn entry(ui: &mut Ui, theme: &Theme, name: &str, hint: &str, text: &mut String, width: f32) -> bool {
    let hint = RichText::new(hint).color(theme.muted);
    let edit = egui::TextEdit::singleline(text).hint_text(hint).desired_width(width - 8.0).char_limit(280);
    let response = ui.add(edit);
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(name));
    focus_ring(ui, theme, &response);
    response.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter)) && !text.trim().is_empty()
}

/// A line of dashes.
pub fn dashes(ui: &Ui, points: &[Pos2], stroke: Stroke) {
    ui.painter().extend(egui::Shape::dashed_line(points, stroke, 6.0, 4.0));
}

/// A tab of a page at `cell`; says whether it was clicked. `id` tells it from tabs of other pages, `spoken` is its name for
/// screen readers.
pub fn tab(
    ui: &Ui,
    theme: &Theme,
    cell: Rect,
    id: impl egui::AsIdSalt,
    (text, spoken): (&str, &str),
    open: bool,
) -> bool {
    let response = ui.interact(cell, ui.id().with(id), Sense::click());
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, open, spoken));
    let edge = if open { Stroke::new(2.0, theme.chosen) } else { Stroke::new(1.0, theme.line) };
    ui.painter().rect(cell, 4.0, theme.raised, edge, StrokeKind::Inside);
    write(ui, cell, Align::Center, text, BODY, theme.text);
    focus_ring(ui, theme, &response);
    response.clicked()
}

/// With a capital letter at its head.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
