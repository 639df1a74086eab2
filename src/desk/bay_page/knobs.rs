//! What can be turned, pressed and read in the drawing. Each has a name for screen readers, takes the keyboard and shows
//! its focus.

use egui::{
    Align, Align2, Color32, EventFilter, FontId, Key, Pos2, Rect, Response, Sense, Shape, Stroke, StrokeKind,
    Ui, WidgetInfo, WidgetType, pos2, vec2,
};

use super::plan::Plan;
use crate::desk::panels::parts::{SMALL, write};
use crate::desk::theme::{FOCUS_RING, Theme};

/// A ring round a rectangle that has the keyboard.
pub fn ring(ui: &Ui, theme: &Theme, response: &Response, rect: Rect) {
    if response.has_focus() {
        let stroke = Stroke::new(FOCUS_RING, theme.chosen);
        ui.painter().rect_stroke(rect.expand(2.0), 6.0, stroke, StrokeKind::Outside);
    }
}

/// Edge of something that can be chosen.
fn edge(theme: &Theme, response: &Response, chosen: bool) -> Stroke {
    if chosen {
        Stroke::new(2.0, theme.chosen)
    } else if response.hovered() {
        Stroke::new(1.0, theme.text)
    } else {
        Stroke::new(1.0, theme.muted)
    }
}

/// A small button of a word; `name` is what it is called aloud.
pub fn key(ui: &mut Ui, theme: &Theme, rect: Rect, word: &str, name: &str) -> Response {
    pick(ui, theme, rect, word, name, false, WidgetType::Button)
}

/// One of a row of choices.
pub fn one_of(ui: &mut Ui, theme: &Theme, rect: Rect, word: &str, name: &str, chosen: bool) -> Response {
    pick(ui, theme, rect, word, name, chosen, WidgetType::RadioButton)
}

fn pick(
    ui: &mut Ui,
    theme: &Theme,
    rect: Rect,
    word: &str,
    name: &str,
    chosen: bool,
    kind: WidgetType,
) -> Response {
    let response = ui.interact(rect, ui.id().with(("key", name)), Sense::click());
    let enabled = ui.is_enabled();
    response.widget_info(|| match kind {
        WidgetType::RadioButton => WidgetInfo::selected(kind, enabled, chosen, name),
        _ => WidgetInfo::labeled(kind, enabled, name),
    });
    ui.painter().rect(rect, 4.0, theme.raised, edge(theme, &response, chosen), StrokeKind::Inside);
    let ink = if enabled { theme.text } else { theme.muted };
    write(ui, rect.shrink2(vec2(3.0, 0.0)), Align::Center, word, SMALL, ink);
    ring(ui, theme, &response, rect);
    response
}

/// A switch with its word and state: pressed in or not.
pub fn switch(ui: &mut Ui, theme: &Theme, rect: Rect, word: &str, name: &str, on: bool) -> Response {
    let response = ui.interact(rect, ui.id().with(("switch", name)), Sense::click());
    let enabled = ui.is_enabled();
    response.widget_info(|| WidgetInfo::selected(WidgetType::Checkbox, enabled, on, name));
    ui.painter().rect(rect, 4.0, theme.raised, edge(theme, &response, false), StrokeKind::Inside);
    let pill = Rect::from_center_size(pos2(rect.right() - 19.0, rect.center().y), vec2(28.0, 14.0));
    let fill = if on { theme.good } else { theme.line };
    ui.painter().rect(pill, 7.0, fill, Stroke::new(1.0, theme.muted), StrokeKind::Inside);
    let x = if on { pill.right() - 7.0 } else { pill.left() + 7.0 };
    ui.painter().circle_filled(pos2(x, pill.center().y), 5.0, theme.text);
    let words = Rect::from_min_max(rect.min + vec2(6.0, 0.0), pos2(pill.left() - 4.0, rect.bottom()));
    write(ui, words, Align::Min, word, SMALL, if enabled { theme.text } else { theme.muted });
    ring(ui, theme, &response, rect);
    response
}

/// A hand wheel: a click opens or shuts it, dragging or the arrow keys turn it. Gives the new opening [%].
pub fn wheel(
    ui: &mut Ui,
    theme: &Theme,
    centre: Pos2,
    radius: f32,
    name: &str,
    pct: f64,
    color: Color32,
) -> (Response, Option<f64>) {
    let rect = Rect::from_center_size(centre, vec2(2.0, 2.0) * (radius + 3.0));
    let response = ui.interact(rect, ui.id().with(("wheel", name)), Sense::click_and_drag());
    let state = if pct <= 0.0 { "shut".to_owned() } else { format!("{pct:.0} % open") };
    response.widget_info(|| WidgetInfo {
        current_text_value: Some(state.clone()),
        ..WidgetInfo::slider(ui.is_enabled(), pct, name)
    });
    let mut new = None;
    if response.clicked() {
        new = Some(if pct <= 0.0 { 100.0 } else { 0.0 });
    } else if response.dragged() {
        // Up and to the right opens.
        let moved = response.drag_delta();
        let turned = f64::from(moved.x - moved.y);
        if turned != 0.0 {
            new = Some((pct + turned).clamp(0.0, 100.0).round());
        }
    }
    if response.has_focus() {
        let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|m| m.set_focus_lock_filter(response.id, arrows));
        let turn = ui.input(|i| {
            let hits = |key| f64::from(u8::from(i.key_pressed(key)));
            hits(Key::ArrowUp) + hits(Key::ArrowRight) - hits(Key::ArrowDown) - hits(Key::ArrowLeft)
        });
        if turn != 0.0 {
            new = Some((pct + 5.0 * turn).clamp(0.0, 100.0));
        }
    }
    let edge = Stroke::new(if response.hovered() { 3.0 } else { 2.0 }, color);
    ui.painter().circle(centre, radius, theme.raised, edge);
    // Lobes of the wheel turn with it; the bar across lies along the passage when it is open, as on a ball valve.
    let turn = std::f32::consts::FRAC_PI_2 * (1.0 - (pct / 100.0) as f32);
    for lobe in 0..6 {
        let angle = turn + lobe as f32 * std::f32::consts::FRAC_PI_3;
        ui.painter().circle_filled(centre + radius * vec2(angle.cos(), angle.sin()), 2.6, color);
    }
    let along = vec2(turn.cos(), turn.sin()) * (radius - 4.0);
    let bar = Stroke::new(4.0, if pct > 0.0 { theme.text } else { theme.muted });
    ui.painter().line_segment([centre - along, centre + along], bar);
    if response.has_focus() {
        ui.painter().circle_stroke(centre, radius + 5.0, Stroke::new(FOCUS_RING, theme.chosen));
    }
    let response =
        response.on_hover_text(format!("{name}, {state}. Click opens or shuts, dragging turns it."));
    (response, new)
}

/// A two-way tap: a round knob with a bar that lies along the pipe when it is open.
pub fn tap(ui: &mut Ui, theme: &Theme, centre: Pos2, name: &str, open: bool, upright: bool) -> Response {
    const R: f32 = 10.0;
    let rect = Rect::from_center_size(centre, vec2(2.0, 2.0) * (R + 2.0));
    let response = ui.interact(rect, ui.id().with(("tap", name)), Sense::click());
    response.widget_info(|| WidgetInfo::selected(WidgetType::Checkbox, ui.is_enabled(), open, name));
    let edge = Stroke::new(if response.hovered() { 3.0 } else { 2.0 }, theme.text);
    ui.painter().circle(centre, R, if open { theme.text } else { theme.raised }, edge);
    let along = if open == upright { vec2(0.0, R - 3.0) } else { vec2(R - 3.0, 0.0) };
    let ink = if open { theme.ground } else { theme.text };
    ui.painter().line_segment([centre - along, centre + along], Stroke::new(3.5, ink));
    if response.has_focus() {
        ui.painter().circle_stroke(centre, R + 4.0, Stroke::new(FOCUS_RING, theme.chosen));
    }
    response.on_hover_text(format!("{name}: {}", if open { "open" } else { "shut" }))
}

/// Minus, value, plus. Gives the new value.
pub fn stepper(
    ui: &mut Ui,
    theme: &Theme,
    rect: Rect,
    name: &str,
    text: &str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    step: f64,
) -> Option<f64> {
    let side = rect.height().min(24.0);
    let minus = Rect::from_min_size(rect.min, vec2(side, rect.height()));
    let plus = Rect::from_min_size(pos2(rect.right() - side, rect.top()), vec2(side, rect.height()));
    let middle = Rect::from_min_max(pos2(minus.right(), rect.top()), pos2(plus.left(), rect.bottom()));
    let less = key(ui, theme, minus, "−", &format!("Less {name}")).clicked();
    write(ui, middle, Align::Center, text, SMALL, theme.text);
    let more = key(ui, theme, plus, "+", &format!("More {name}")).clicked();
    let new = value + step * (f64::from(u8::from(more)) - f64::from(u8::from(less)));
    let new = new.clamp(*range.start(), *range.end());
    ((less || more) && new != value).then_some(new)
}

/// A display with a value; where it can be written down, it is pressed.
pub fn display(ui: &mut Ui, theme: &Theme, rect: Rect, text: &str, name: &str, live: bool) -> Response {
    let sense = if live { Sense::click() } else { Sense::hover() };
    let response = ui.interact(rect, ui.id().with(("display", name)), sense);
    let kind = if live { WidgetType::Button } else { WidgetType::Label };
    response.widget_info(|| WidgetInfo::labeled(kind, true, format!("{name} {text}")));
    let edge = if response.hovered() && live { theme.text } else { theme.line };
    ui.painter().rect(rect, 3.0, theme.ground, Stroke::new(1.0, edge), StrokeKind::Inside);
    write(ui, rect.shrink2(vec2(5.0, 0.0)), Align::Max, text, 13.0, theme.text);
    ring(ui, theme, &response, rect);
    response
}

/// A line of words in the drawing.
pub fn words(ui: &Ui, plan: &Plan, at: Pos2, align: Align2, text: &str, color: Color32) -> Rect {
    ui.painter().text(at, align, text, FontId::proportional(plan.text()), color)
}

/// A dashed frame round what a step is about.
pub fn frame_of_step(ui: &Ui, theme: &Theme, rect: Rect) {
    let r = rect.expand(4.0);
    let corners = [r.left_top(), r.right_top(), r.right_bottom(), r.left_bottom(), r.left_top()];
    ui.painter().extend(Shape::dashed_line(&corners, Stroke::new(2.5, theme.chosen), 9.0, 5.0));
}
