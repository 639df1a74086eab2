//! The top bar: which scenario, what time, how fast, which view, which units.

use egui::{Align, Align2, Color32, Layout, Pos2, RichText, Stroke, vec2};

use super::{Command, DeskView, Screen, fonts, pages};
use crate::units;

/// The top bar. `buttons_pt` keeps the width of its buttons from frame to frame.
pub fn top_bar_ui(ui: &mut egui::Ui, view: &DeskView, buttons_pt: &mut Option<f32>, out: &mut Vec<Command>) {
    let theme = view.theme;
    let rect = ui.available_rect_before_wrap();
    let bench = view.ui_state.screen == Screen::Bench;
    let live = bench || pages::page(view.ui_state.screen).way.is_some();
    // The title takes what the buttons leave; their width is known from the last frame. Drawing from left to
    // right keeps the order of the Tab key the order of the eye.
    let buttons = buttons_pt.unwrap_or(720.0);
    let rect = rect.shrink2(vec2(14.0, 7.0));
    let split = (rect.right() - buttons).max(rect.left() + 100.0);
    let part = |from: f32, to: f32| egui::Rect::from_x_y_ranges(from..=to, rect.y_range());
    let row = Layout::left_to_right(Align::Center);
    let left = egui::UiBuilder::new().max_rect(part(rect.left(), split - 12.0)).layout(row);
    ui.scope_builder(left, |ui| title(ui, view, out));
    let right = egui::UiBuilder::new().max_rect(part(split, rect.right())).layout(row);
    let width = ui
        .scope_builder(right, |ui| {
            if live {
                clock(ui, view, out);
                views(ui, view, bench, out);
            }
            if button(ui, view, view.units.label(), "N", false, "Next set of units").clicked() {
                out.push(Command::NextUnits);
            }
            let (text, hint) = if theme.dark { ("Light", "Light theme") } else { ("Dark", "Dark theme") };
            if button(ui, view, text, "T", false, hint).clicked() {
                out.push(Command::ToggleTheme);
            }
            if button(ui, view, "Help", "F1", view.ui_state.help, "Shortcuts and words").clicked() {
                out.push(Command::ToggleHelp);
            }
            ui.min_rect().width()
        })
        .inner;
    if (width - buttons).abs() > 0.5 {
        *buttons_pt = Some(width);
        ui.ctx().request_discard("the buttons of the top bar changed their width");
    }
}

fn views(ui: &mut egui::Ui, view: &DeskView, bench: bool, out: &mut Vec<Command>) {
    ui.add_space(8.0);
    for (screen, way) in pages::ways() {
        let there = !screen.needs_bay() || view.snapshot.bay.is_some();
        let on = view.ui_state.screen == screen;
        if there && button(ui, view, way.name, way.key.name(), on, way.hint).clicked() {
            out.push(Command::Toggle(screen));
        }
    }
    let (text, hint) = if view.ui_state.unfolded {
        ("Fold back", "Back to the schematic")
    } else {
        ("Unfold", "Unfold the loop into the pressure-enthalpy chart")
    };
    if bench && button(ui, view, text, "U", view.ui_state.unfolded, hint).clicked() {
        out.push(Command::ToggleUnfold);
    }
    if view.brief.inside_allowed {
        let shown = view.snapshot.inside.is_some();
        let hint = if shown { "Hide what is in the pipes" } else { "Look into the pipes" };
        if button(ui, view, "Inside", "I", shown, hint).clicked() {
            out.push(Command::ToggleInside);
        }
    }
}

fn clock(ui: &mut egui::Ui, view: &DeskView, out: &mut Vec<Command>) {
    if let Some(actual) = view.lagging_at {
        let text = RichText::new(format!("running at {actual:.1}×")).small().color(view.theme.chosen);
        ui.label(text)
            .on_hover_text("This machine cannot keep up with the speed you chose. No time is lost.");
    } else if view.paused {
        ui.label(RichText::new("paused").small().color(view.theme.chosen));
    }
    let time =
        RichText::new(units::clock(view.snapshot.time_s)).font(fonts::bold(18.0)).color(view.theme.text);
    ui.label(time).on_hover_text("Time since the scenario began");
    ui.add_space(4.0);
    let (text, hint) =
        if view.paused { ("Go on", "Let time run (Space)") } else { ("Pause", "Stop time (Space)") };
    if chip(ui, view, text, view.paused, hint).clicked() {
        out.push(Command::TogglePause);
    }
    for (speed, key) in [(1, "1"), (2, "2"), (5, "5"), (20, "0")] {
        let hint = format!("{speed} times real time (key {key})");
        let chosen = view.speed == speed;
        if chip(ui, view, &format!("{speed}×"), chosen, &hint).clicked() {
            out.push(Command::Speed(speed));
        }
    }
}

fn title(ui: &mut egui::Ui, view: &DeskView, out: &mut Vec<Command>) {
    let theme = view.theme;
    let (mark, response) = ui.allocate_exact_size(vec2(92.0, 30.0), egui::Sense::click());
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::WidgetType::Button, true, "Pintle: list of scenarios")
    });
    paint_mark(ui.painter(), mark.left_center() + vec2(12.0, 0.0), theme.high, theme.text);
    let name = mark.left_center() + vec2(30.0, 0.0);
    ui.painter().text(name, Align2::LEFT_CENTER, "Pintle", fonts::bold(17.0), theme.text);
    focus_ring(ui, &response, view);
    if response.on_hover_text("List of scenarios").clicked() {
        let start = view.ui_state.screen == Screen::Start;
        out.push(Command::Show(if start { Screen::Bench } else { Screen::Start }));
    }
    let text = RichText::new(&view.brief.title).color(theme.muted);
    ui.add(egui::Label::new(text).truncate()).on_hover_text(&view.brief.trains);
}

/// The mark: a pintle in its seat.
fn paint_mark(painter: &egui::Painter, centre: Pos2, seat: Color32, pintle: Color32) {
    let at = |x: f32, y: f32| centre + vec2(x, y);
    for side in [-1.0, 1.0] {
        let points = vec![at(side * 10.0, -9.0), at(side * 2.6, 9.0)];
        painter.add(egui::Shape::line(points, Stroke::new(3.0, seat)));
    }
    let needle = vec![at(-3.6, -10.0), at(3.6, -10.0), at(0.0, 4.0)];
    painter.add(egui::Shape::convex_polygon(needle, pintle, Stroke::NONE));
}

/// A button with its key shown, lit while `on`.
fn button(ui: &mut egui::Ui, view: &DeskView, text: &str, key: &str, on: bool, hint: &str) -> egui::Response {
    let theme = view.theme;
    let mut job = egui::text::LayoutJob::default();
    let format = |font, color| egui::TextFormat { font_id: font, color, ..Default::default() };
    job.append(text, 0.0, format(fonts::regular(fonts::BODY), theme.text));
    job.append(key, 7.0, format(fonts::regular(fonts::SMALL), theme.muted));
    let stroke = if on { Stroke::new(1.5, theme.chosen) } else { Stroke::new(1.0, theme.line) };
    let response = ui.add(egui::Button::new(job).stroke(stroke).min_size(vec2(0.0, 28.0)));
    focus_ring(ui, &response, view);
    response.on_hover_text(format!("{hint} ({key})"))
}

/// A small button without a key of its own on it.
fn chip(ui: &mut egui::Ui, view: &DeskView, text: &str, on: bool, hint: &str) -> egui::Response {
    let stroke = if on { Stroke::new(1.5, view.theme.chosen) } else { Stroke::new(1.0, view.theme.line) };
    let text = RichText::new(text).color(view.theme.text);
    let response = ui.add(egui::Button::new(text).stroke(stroke).min_size(vec2(32.0, 28.0)));
    focus_ring(ui, &response, view);
    response.on_hover_text(hint)
}

/// A ring round whatever has the keyboard.
fn focus_ring(ui: &egui::Ui, response: &egui::Response, view: &DeskView) {
    if response.has_focus() {
        let stroke = Stroke::new(super::theme::FOCUS_RING, view.theme.text);
        ui.painter().rect_stroke(response.rect.expand(2.0), 6.0, stroke, egui::StrokeKind::Outside);
    }
}
