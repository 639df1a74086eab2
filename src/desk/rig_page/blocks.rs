//! The functional view: blocks and arrows in columns, from requests and sensors to what is driven.

use egui::{
    Align2, Color32, FontId, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2,
    vec2,
};

use super::graph::{Graph, Role};
use crate::desk::DeskView;
use crate::desk::panels::parts::{BODY, small};
use crate::desk::theme::Theme;

/// Height of a block [pt].
const HEIGHT: f32 = 48.0;

/// The view.
pub fn blocks(ui: &mut Ui, view: &DeskView, graph: &Graph) {
    let theme = view.theme;
    small(
        ui,
        theme,
        "An arrow says “works on”. Left: hands, weather and sensors; right: what is driven. Point at a block to follow it.",
    );
    let legend = [
        (Role::Request, "request"),
        (Role::Sensor, "switch or sensor"),
        (Role::Unit, "control unit"),
        (Role::Relay, "relay or power stage"),
        (Role::Load, "driven"),
    ];
    ui.horizontal(|ui| {
        for (role, name) in legend {
            let (mark, _) = ui.allocate_exact_size(vec2(14.0, 14.0), Sense::hover());
            shape(ui, mark.shrink(1.0), role, theme, theme.raised, 1.5);
            small(ui, theme, name);
            ui.add_space(8.0);
        }
    });
    let area = ui.available_rect_before_wrap();
    ui.allocate_rect(area, Sense::hover());
    let (places, knees) = places(graph, area);
    let hovered = graph.blocks.iter().enumerate().find_map(|(n, block)| {
        let response = ui.interact(places[n], ui.id().with(("block", n)), Sense::click());
        let works_on: Vec<&str> =
            graph.arrows.iter().filter(|a| a.0 == n).map(|a| graph.blocks[a.1].name.as_str()).collect();
        let words = if works_on.is_empty() {
            block.name.clone()
        } else {
            format!("{} works on {}", block.name, works_on.join(", "))
        };
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &words));
        (response.hovered() || response.has_focus()).then_some((n, response.has_focus()))
    });
    let lit = hovered.map(|(n, _)| n);
    for (&(from, to), knees) in graph.arrows.iter().zip(&knees) {
        let on = lit.is_some_and(|n| from == n || to == n);
        let ink = if on { theme.chosen } else { Theme::mix(theme.line, theme.muted, 0.75) };
        arrow(ui, places[from], places[to], knees, ink, if on { 2.2 } else { 1.4 });
    }
    for (n, block) in graph.blocks.iter().enumerate() {
        let near =
            lit.is_some_and(|l| l == n || graph.arrows.contains(&(l, n)) || graph.arrows.contains(&(n, l)));
        let edge = if near { theme.chosen } else { theme.muted };
        draw(ui, places[n], block.role, &block.name, theme, edge, near);
    }
    if let Some((n, true)) = hovered {
        let ring = Stroke::new(2.0, theme.chosen);
        ui.painter().rect_stroke(places[n].expand(3.0), 6.0, ring, StrokeKind::Outside);
    }
}

/// Columns by layer; in a column the order that keeps arrows short (mean height of neighbours, a few rounds). An arrow
/// past a column keeps a place of its own in it; those places come back for each arrow.
fn places(graph: &Graph, area: Rect) -> (Vec<Rect>, Vec<Vec<Pos2>>) {
    let layers = graph.blocks.iter().map(|b| b.layer).max().unwrap_or(0) + 1;
    let count = graph.blocks.len();
    // Blocks first, then the knees of long arrows.
    let mut layer: Vec<usize> = graph.blocks.iter().map(|b| b.layer).collect();
    let mut links: Vec<(usize, usize)> = Vec::new();
    let mut knees: Vec<Vec<usize>> = Vec::new();
    for &(from, to) in &graph.arrows {
        let mut before = from;
        let mut own = Vec::new();
        for between in graph.blocks[from].layer + 1..graph.blocks[to].layer {
            layer.push(between);
            links.push((before, layer.len() - 1));
            before = layer.len() - 1;
            own.push(before);
        }
        links.push((before, to));
        knees.push(own);
    }
    let mut columns: Vec<Vec<usize>> = vec![Vec::new(); layers];
    for (n, &at) in layer.iter().enumerate() {
        columns[at].push(n);
    }
    let mut height = vec![0.5_f32; layer.len()];
    let settle = |column: &[usize], height: &mut [f32]| {
        for (i, &n) in column.iter().enumerate() {
            height[n] = (i as f32 + 0.5) / column.len() as f32;
        }
    };
    for column in &columns {
        settle(column, &mut height);
    }
    for round in 0..16 {
        let forward = round % 2 == 0;
        let order: Vec<usize> = if forward { (0..layers).collect() } else { (0..layers).rev().collect() };
        for at in order {
            let mean = |n: usize| {
                let near = links.iter().filter_map(|&(a, b)| {
                    if a == n && !forward {
                        Some(height[b])
                    } else if b == n && forward {
                        Some(height[a])
                    } else {
                        None
                    }
                });
                let (sum, count) = near.fold((0.0, 0), |(s, c), h| (s + h, c + 1));
                if count > 0 { sum / count as f32 } else { height[n] }
            };
            let mut keyed: Vec<(f32, usize)> = columns[at].iter().map(|&n| (mean(n), n)).collect();
            keyed.sort_by(|a, b| a.0.total_cmp(&b.0));
            columns[at] = keyed.into_iter().map(|(_, n)| n).collect();
            settle(&columns[at], &mut height);
        }
    }
    let pitch = area.width() / layers as f32;
    let width = (pitch - 34.0).clamp(70.0, 190.0);
    let mut rects = vec![Rect::NOTHING; layer.len()];
    for (at, column) in columns.iter().enumerate() {
        let x = area.left() + pitch * (at as f32 + 0.5);
        let step = (area.height() / column.len().max(1) as f32).min(120.0);
        let top = area.center().y - step * column.len() as f32 / 2.0;
        for (i, &n) in column.iter().enumerate() {
            let y = top + step * (i as f32 + 0.5);
            rects[n] = Rect::from_center_size(pos2(x, y), vec2(width, (step - 6.0).clamp(30.0, HEIGHT)));
        }
    }
    let points = knees.iter().map(|own| own.iter().map(|&n| rects[n].center()).collect()).collect();
    rects.truncate(count);
    (rects, points)
}

/// From the right side of a block over its knees to the left side of another, in smooth pieces.
fn arrow(ui: &Ui, from: Rect, to: Rect, knees: &[Pos2], ink: Color32, width: f32) {
    let stroke = Stroke::new(width, ink);
    let end = to.left_center() - vec2(2.0, 0.0);
    let half = from.width() / 2.0;
    let mut here = from.right_center();
    let piece = |a: Pos2, b: Pos2| {
        let reach = vec2(((b.x - a.x).abs() * 0.5).clamp(8.0, 90.0), 0.0);
        let way = [a, a + reach, b - reach, b];
        let curve =
            egui::epaint::CubicBezierShape::from_points_stroke(way, false, Color32::TRANSPARENT, stroke);
        ui.painter().add(curve);
    };
    for &knee in knees {
        // Level through the column, bent between columns.
        let (inward, outward) = (knee - vec2(half, 0.0), knee + vec2(half, 0.0));
        piece(here, inward);
        ui.painter().line_segment([inward, outward], stroke);
        here = outward;
    }
    piece(here, end);
    let wing = |side: f32| end + vec2(-7.0, 4.0 * side);
    ui.painter().add(Shape::convex_polygon(vec![end, wing(1.0), wing(-1.0)], ink, Stroke::NONE));
}

fn shape(ui: &Ui, rect: Rect, role: Role, theme: &Theme, edge: Color32, width: f32) {
    let edge = if edge == theme.raised { theme.muted } else { edge };
    let stroke = Stroke::new(width, edge);
    let round = match role {
        Role::Request => rect.height() / 2.0,
        Role::Sensor => 6.0,
        Role::Unit | Role::Relay | Role::Load => 2.0,
    };
    let fill = match role {
        Role::Unit => Theme::mix(theme.raised, theme.low, 0.22),
        Role::Load => Theme::mix(theme.raised, theme.good, 0.22),
        _ => theme.raised,
    };
    ui.painter().rect(rect, round, fill, stroke, StrokeKind::Inside);
    if role == Role::Relay {
        let x = rect.left() + 4.0;
        ui.painter().line_segment([pos2(x, rect.top()), pos2(x, rect.bottom())], stroke);
    }
}

fn draw(ui: &Ui, rect: Rect, role: Role, name: &str, theme: &Theme, edge: Color32, near: bool) {
    shape(ui, rect, role, theme, edge, if near { 2.0 } else { 1.2 });
    let lines = |size: f32| {
        let mut job = egui::text::LayoutJob::simple(
            name.to_owned(),
            FontId::proportional(size),
            theme.text,
            rect.width() - 14.0,
        );
        job.halign = egui::Align::Center;
        job.wrap.max_rows = 3;
        ui.painter().layout_job(job)
    };
    let galley = lines(BODY);
    let galley = if galley.elided || galley.size().y > rect.height() { lines(12.0) } else { galley };
    let at: Pos2 = Align2::CENTER_CENTER.anchor_size(rect.center(), galley.size()).center_top();
    ui.painter().galley(at, galley, theme.text);
}
