//! The functional view: blocks and arrows in columns, from requests and sensors to what is driven.

use std::sync::Arc;

use egui::{
    Align2, Color32, FontId, Id, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType,
    pos2, vec2,
};

use super::graph::{Graph, Role};
use crate::desk::DeskView;
use crate::desk::panels::parts::{BODY, small};
use crate::desk::theme::Theme;

/// Height of a block [pt].
const HEIGHT: f32 = 38.0;

/// The view.
pub fn blocks(ui: &mut Ui, view: &DeskView) {
    let theme = view.theme;
    let key = Id::new(("rig graph", &view.rig.id));
    let graph: Arc<Graph> = match ui.data(|d| d.get_temp(key)) {
        Some(graph) => graph,
        None => {
            let graph = Arc::new(Graph::of(&view.rig.circuit));
            ui.data_mut(|d| d.insert_temp(key, graph.clone()));
            graph
        }
    };
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
    let places = places(&graph, area);
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
    for &(from, to) in &graph.arrows {
        let on = lit.is_some_and(|n| from == n || to == n);
        let ink = if on { theme.chosen } else { Theme::mix(theme.line, theme.muted, 0.75) };
        arrow(ui, places[from], places[to], &places, ink, if on { 2.2 } else { 1.4 });
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

/// Columns by layer; in a column the order that keeps arrows short (mean height of neighbours, a few rounds).
fn places(graph: &Graph, area: Rect) -> Vec<Rect> {
    let layers = graph.blocks.iter().map(|b| b.layer).max().unwrap_or(0) + 1;
    let mut columns: Vec<Vec<usize>> = vec![Vec::new(); layers];
    for (n, block) in graph.blocks.iter().enumerate() {
        columns[block.layer].push(n);
    }
    let mut height = vec![0.5_f32; graph.blocks.len()];
    let spread = |columns: &[Vec<usize>], height: &mut [f32]| {
        for column in columns {
            for (i, &n) in column.iter().enumerate() {
                height[n] = (i as f32 + 0.5) / column.len() as f32;
            }
        }
    };
    spread(&columns, &mut height);
    for round in 0..12 {
        let forward = round % 2 == 0;
        let order: Vec<usize> = if forward { (0..layers).collect() } else { (0..layers).rev().collect() };
        for layer in order {
            let mean = |n: usize| {
                let near = graph.arrows.iter().filter_map(|&(a, b)| {
                    if a == n {
                        Some(height[b])
                    } else if b == n {
                        Some(height[a])
                    } else {
                        None
                    }
                });
                let (sum, count) = near.fold((0.0, 0), |(s, c), h| (s + h, c + 1));
                if count > 0 { sum / count as f32 } else { height[n] }
            };
            let mut keyed: Vec<(f32, usize)> = columns[layer].iter().map(|&n| (mean(n), n)).collect();
            keyed.sort_by(|a, b| a.0.total_cmp(&b.0));
            columns[layer] = keyed.into_iter().map(|(_, n)| n).collect();
            for (i, &n) in columns[layer].iter().enumerate() {
                height[n] = (i as f32 + 0.5) / columns[layer].len() as f32;
            }
        }
    }
    let pitch = area.width() / layers as f32;
    let width = (pitch - 34.0).clamp(70.0, 190.0);
    let mut rects = vec![Rect::NOTHING; graph.blocks.len()];
    for (layer, column) in columns.iter().enumerate() {
        let x = area.left() + pitch * (layer as f32 + 0.5);
        // Blocks of neighbouring columns are staggered, so that arrows past a column find gaps.
        let step = (area.height() / column.len().max(1) as f32).min(96.0);
        let top = area.center().y - step * column.len() as f32 / 2.0;
        for (i, &n) in column.iter().enumerate() {
            let y = top + step * (i as f32 + 0.5);
            rects[n] = Rect::from_center_size(pos2(x, y), vec2(width, HEIGHT.min(step - 6.0).max(30.0)));
        }
    }
    rects
}

/// From the right side of a block to the left side of another, in a smooth line.
fn arrow(ui: &Ui, from: Rect, to: Rect, _all: &[Rect], ink: Color32, width: f32) {
    let (a, b) = (from.right_center(), to.left_center() - vec2(2.0, 0.0));
    let reach = ((b.x - a.x).abs() * 0.5).clamp(14.0, 90.0);
    let stroke = Stroke::new(width, ink);
    let curve = egui::epaint::CubicBezierShape::from_points_stroke(
        [a, a + vec2(reach, 0.0), b - vec2(reach, 0.0), b],
        false,
        Color32::TRANSPARENT,
        stroke,
    );
    ui.painter().add(curve);
    let wing = |side: f32| b + vec2(-7.0, 4.0 * side);
    ui.painter().add(Shape::convex_polygon(vec![b, wing(1.0), wing(-1.0)], ink, Stroke::NONE));
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
        job.wrap.max_rows = 2;
        ui.painter().layout_job(job)
    };
    let galley = lines(BODY);
    let galley = if galley.elided || galley.size().y > rect.height() { lines(12.0) } else { galley };
    let at: Pos2 = Align2::CENTER_CENTER.anchor_size(rect.center(), galley.size()).center_top();
    ui.painter().galley(at, galley, theme.text);
}
