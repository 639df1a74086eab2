//! Where things sit: an outline with marks; a mark that is chosen says which parts of the circuit are there.

use egui::{Align2, Pos2, Rect, Sense, Shape, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::page::Page;
use crate::desk::loop_view::labels::{Field, Wish, foot};
use crate::desk::panels::parts::{BODY, choice, heading, small};
use crate::desk::theme::{FOCUS_RING, Theme};
use crate::desk::{DeskView, fonts};
use crate::rig::pictures::{Outline, SHEET};

/// Width of the list beside the picture [pt].
const LIST: f32 = 330.0;

/// The picture and its list.
pub fn location(ui: &mut Ui, view: &DeskView, page: &mut Page) {
    let area = ui.available_rect_before_wrap();
    let split = area.right() - LIST;
    let picture = Rect::from_min_max(area.min, pos2(split - 16.0, area.bottom()));
    let list = Rect::from_min_max(pos2(split, area.top()), area.max);
    ui.scope_builder(egui::UiBuilder::new().max_rect(list), |ui| places(ui, view, page));
    sheet(ui, view, page, picture);
}

fn places(ui: &mut Ui, view: &DeskView, page: &mut Page) {
    let theme = view.theme;
    heading(ui, theme, "Places");
    egui::ScrollArea::vertical().id_salt("places").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        for (n, mark) in view.rig.pictures.places.iter().enumerate() {
            let chosen = page.place.as_deref() == Some(mark.id.as_str());
            let name = format!("{} {}", n + 1, mark.name);
            if choice(ui, theme, &name, "", chosen).clicked() {
                page.place = (!chosen).then(|| mark.id.clone());
            }
            if chosen {
                small(ui, theme, &parts_at(view, &mark.id));
            }
        }
    });
}

/// Parts of the circuit at a place, as a sentence.
fn parts_at(view: &DeskView, place: &str) -> String {
    let circuit = &view.rig.circuit;
    let parts = circuit.parts.iter().filter(|p| p.place == place).map(|p| p.name.as_str());
    let units = circuit.units.iter().filter(|u| u.place == place).map(|u| u.name.as_str());
    let mut names: Vec<&str> = units.chain(parts).collect();
    names.dedup();
    if names.is_empty() { "No electrical part here.".into() } else { format!("Here: {}.", names.join(", ")) }
}

/// The picture in a rectangle.
pub fn sheet(ui: &mut Ui, view: &DeskView, page: &mut Page, rect: Rect) {
    let theme = view.theme;
    let room = Rect::from_min_max(rect.min + vec2(0.0, 24.0), rect.max);
    let s = (room.width() / SHEET.0).min(room.height() / SHEET.1);
    let origin = room.center() - vec2(SHEET.0, SHEET.1) * s / 2.0;
    let at = |p: (f32, f32)| origin + vec2(p.0, p.1) * s;
    ui.painter().text(rect.min, Align2::LEFT_TOP, &view.rig.pictures.view, fonts::regular(12.0), theme.muted);
    let mut lines = Vec::new();
    for stroke in &view.rig.pictures.outline {
        lines.extend(outline(ui.painter(), stroke, &at, s, theme));
    }
    // Labels keep off marks and pipes and off each other.
    let marks: Vec<Pos2> = view.rig.pictures.places.iter().map(|m| at(m.at)).collect();
    let taken = marks.iter().map(|&m| Rect::from_center_size(m, vec2(26.0, 26.0))).collect();
    let mut field = Field { bounds: room.shrink(2.0), taken, lines };
    let middle = marks.iter().fold(vec2(0.0, 0.0), |sum, m| sum + m.to_vec2()) / marks.len().max(1) as f32;
    for (n, (mark, &place)) in view.rig.pictures.places.iter().zip(&marks).enumerate() {
        let chosen = page.place.as_deref() == Some(mark.id.as_str());
        // The short name: what stands before the first comma or colon.
        let short = mark.name.split([',', ':']).next().unwrap_or(&mark.name);
        let ink = if chosen { theme.chosen } else { theme.text };
        let galley = ui.painter().layout_no_wrap(short.to_owned(), egui::FontId::proportional(BODY), ink);
        let away = place.to_vec2() - middle;
        let towards = if away.length() > 1.0 { away } else { vec2(0.0, -1.0) };
        let wish = Wish { anchor: place, size: galley.size() + vec2(6.0, 2.0), towards, gap: 17.0 };
        let (_, spot) = field.settle(&wish, None);
        ui.painter().line_segment([place, foot(spot, place)], Stroke::new(1.0, theme.muted));
        ui.painter().rect_filled(spot, 3.0, theme.ground);
        ui.painter().galley(spot.min + vec2(3.0, 1.0), galley, ink);
        dot(ui, theme, page, &mark.id, &mark.name, place, n + 1, chosen);
    }
}

/// A numbered mark.
fn dot(
    ui: &mut Ui,
    theme: &Theme,
    page: &mut Page,
    id: &str,
    name: &str,
    place: Pos2,
    n: usize,
    chosen: bool,
) {
    let rect = Rect::from_center_size(place, vec2(24.0, 24.0));
    let response = ui.interact(rect, ui.id().with(("mark", id)), Sense::click());
    response
        .widget_info(|| WidgetInfo::selected(WidgetType::Button, true, chosen, format!("Mark {n}: {name}")));
    let (fill, ink) = if chosen { (theme.chosen, theme.on_chosen) } else { (theme.panel, theme.text) };
    ui.painter().circle(place, 11.0, fill, Stroke::new(1.5, if chosen { theme.chosen } else { theme.text }));
    ui.painter().text(place, Align2::CENTER_CENTER, n.to_string(), fonts::bold(12.0), ink);
    if response.has_focus() {
        let stroke = Stroke::new(FOCUS_RING, theme.chosen);
        ui.painter().rect_stroke(rect.expand(3.0), 8.0, stroke, egui::StrokeKind::Outside);
    }
    if response.clicked() {
        page.place = (!chosen).then(|| id.to_owned());
    }
    response.on_hover_text(name);
}

/// One stroke; gives the points of pipes, which labels keep off.
fn outline(
    painter: &egui::Painter,
    stroke: &Outline,
    at: &impl Fn((f32, f32)) -> Pos2,
    s: f32,
    theme: &Theme,
) -> Vec<Pos2> {
    let edge = Stroke::new(1.6, theme.muted);
    let points = |list: &[(f32, f32)]| -> Vec<Pos2> { list.iter().map(|&p| at(p)).collect() };
    match stroke {
        Outline::Round(list) => {
            let line = rounded(&points(list));
            painter.add(Shape::closed_line(line, edge));
        }
        Outline::Closed(list) => {
            painter.add(Shape::closed_line(points(list), edge));
        }
        Outline::Line(list) => {
            painter.add(Shape::line(points(list), Stroke::new(1.2, theme.muted)));
        }
        Outline::Circle(centre, r) => {
            painter.circle_stroke(at(*centre), r * s, edge);
        }
        Outline::High(list) => {
            let line = points(list);
            painter.add(Shape::line(line.clone(), Stroke::new(3.0, theme.high)));
            return dotted(&line);
        }
        Outline::Low(list) => {
            let line = points(list);
            painter.extend(Shape::dashed_line(&line, Stroke::new(3.0, theme.low), 8.0, 5.0));
            return dotted(&line);
        }
    }
    Vec::new()
}

fn dotted(line: &[Pos2]) -> Vec<Pos2> {
    let mut out = Vec::new();
    for pair in line.windows(2) {
        let n = ((pair[1] - pair[0]).length() / 6.0).ceil().clamp(1.0, 500.0) as usize;
        out.extend((0..n).map(|i| pair[0].lerp(pair[1], i as f32 / n as f32)));
    }
    out
}

/// Corners cut twice (Chaikin): a closed line that looks pressed from sheet.
fn rounded(corners: &[Pos2]) -> Vec<Pos2> {
    let mut line = corners.to_vec();
    for _ in 0..3 {
        let n = line.len();
        line = (0..n)
            .flat_map(|i| {
                let (a, b) = (line[i], line[(i + 1) % n]);
                [a.lerp(b, 0.25), a.lerp(b, 0.75)]
            })
            .collect();
    }
    line
}
