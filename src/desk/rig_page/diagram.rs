//! The wiring as a drawing: symbols on wires, terminals by number. Leads are put on points; wires show nothing until
//! measured, or, where the inside is open, volts and amperes.

use std::collections::BTreeMap;

use egui::{Align2, Pos2, Rect, ScrollArea, Sense, Shape, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::column::column;
use super::grid::Node;
use super::hold::Hold;
use super::page::Page;
use super::route::{Drawing, Of, full_volts, unit_of};
use super::sheet::Sheet;
use super::symbols;
use super::symbols::{Pen, Symbol};
use super::touch::{has_meter, red_lead, touch};
use super::words::{amps_words, volts_words};
use crate::bench::Action;
use crate::circuit::Guard;
use crate::desk::panels::Draft;
use crate::desk::theme::{FOCUS_RING, Theme};
use crate::desk::{Command, DeskView, fonts};
use crate::instrument::Probe;

/// Width of the column beside the drawing [pt].
const COLUMN: f32 = 288.0;
/// Least height of a fine step [pt]; below it the drawing scrolls.
const LEAST_STEP: f32 = 11.0;

/// The page.
pub fn wiring(
    ui: &mut Ui,
    view: &DeskView,
    drawing: &Drawing,
    page: &mut Page,
    draft: &mut Draft,
    out: &mut Vec<Command>,
) {
    let area = ui.available_rect_before_wrap();
    let split = area.right() - COLUMN;
    let left = Rect::from_min_max(area.min, pos2(split - 14.0, area.bottom()));
    let right = Rect::from_min_max(pos2(split, area.top()), area.max);
    ui.scope_builder(egui::UiBuilder::new().max_rect(left).id_salt("drawing"), |ui| {
        ScrollArea::vertical().id_salt("wiring").auto_shrink([false, false]).show(ui, |ui| {
            sheet(ui, view, drawing, left.height(), page, draft, out);
        });
    });
    ui.scope_builder(egui::UiBuilder::new().max_rect(right).id_salt("column"), |ui| {
        column(ui, view, page, draft, out);
    });
}

fn sheet(
    ui: &mut Ui,
    view: &DeskView,
    drawing: &Drawing,
    height: f32,
    page: &mut Page,
    draft: &mut Draft,
    out: &mut Vec<Command>,
) {
    let size = drawing.size;
    let step = vec2(
        (ui.available_width() - 4.0) / size.0.max(1) as f32,
        (height / (size.1 + 1).max(1) as f32).max(LEAST_STEP),
    );
    let whole = vec2(ui.available_width(), step.y * (size.1 + 1) as f32 - 2.0);
    let (rect, _) = ui.allocate_exact_size(whole, Sense::hover());
    let mut sheet = Sheet {
        painter: ui.painter().with_clip_rect(ui.clip_rect()),
        view,
        drawing,
        origin: rect.min,
        step,
        full_v: full_volts(&view.rig.circuit),
        taken: Vec::new(),
        wires: Vec::new(),
    };
    sheet.runs(page);
    sheet.dots();
    let points: Vec<Pos2> = drawing.points.iter().map(|&n| sheet.at(n)).collect();
    sheet.taken.extend(points.iter().map(|&p| Rect::from_center_size(p, vec2(10.0, 10.0))));
    for (n, &at) in points.iter().enumerate() {
        point(ui, &mut sheet, n, at, page, draft, out);
    }
    sheet.names(ui, page, draft, out);
}

impl Sheet<'_> {
    fn runs(&mut self, page: &Page) {
        let drawing = self.drawing;
        let theme = self.view.theme;
        for run in &drawing.runs {
            let nodes = &run.way.nodes;
            let (a, b) =
                run.way.symbol.unwrap_or((nodes.len().saturating_sub(1), nodes.len().saturating_sub(1)));
            let flows = match run.of {
                Of::Part(n) => self.view.amps.get(n).is_some_and(|amps| amps.abs() > 0.02),
                Of::Supply(_) | Of::Third(_) => false,
            };
            let width = if flows { 2.6 } else { 1.6 };
            for (piece, net) in [(&nodes[..=a], run.ends.0), (&nodes[b..], run.ends.1)] {
                let net = if run.grounded && net.is_none() { None } else { net };
                let ink = if run.grounded && net.is_none() && self.view.snapshot.inside.is_some() {
                    Theme::mix(theme.line, theme.muted, 0.6)
                } else {
                    self.ink(net)
                };
                let line: Vec<Pos2> = piece.iter().map(|&n| self.at(n)).collect();
                for pair in line.windows(2) {
                    self.wires.push(Rect::from_two_pos(pair[0], pair[1]).expand(1.0));
                }
                if line.len() > 1 {
                    self.painter.add(Shape::line(line, Stroke::new(width, ink)));
                }
            }
            if run.grounded
                && let Some(&last) = nodes.last()
            {
                let drop = self.step.y * 0.6;
                symbols::ground(&self.painter, self.at(last), drop, self.ink(None));
                let at = self.at(last) + vec2(0.0, drop + 4.0);
                self.taken.push(Rect::from_center_size(at, vec2(18.0, 12.0)));
            }
            if run.way.symbol.is_some() {
                self.symbol(run.of, self.at(nodes[a]), self.at(nodes[b]), page);
            }
        }
    }

    fn symbol(&mut self, of: Of, a: Pos2, b: Pos2, page: &Page) {
        let circuit = &self.view.rig.circuit;
        let (symbol, id) = match of {
            Of::Part(n) => {
                (symbols::of(&circuit.parts[n].kind, unit_of(circuit, n).is_some()), &circuit.parts[n].id)
            }
            Of::Supply(n) => (symbols::of_supply(&circuit.supplies[n].kind), &circuit.supplies[n].id),
            Of::Third(_) => return,
        };
        let theme = self.view.theme;
        let chosen = page.part.as_ref() == Some(id);
        let ink = if chosen { theme.chosen } else { theme.text };
        let pen = Pen { painter: &self.painter, a, b, ink, fill: theme.panel, half: 8.0 };
        pen.draw(symbol);
        let boxed = matches!(symbol, Symbol::Box(_));
        let across = if a.y == b.y { vec2(0.0, 18.0) } else { vec2(if boxed { 32.0 } else { 20.0 }, 0.0) };
        let mut body = Rect::from_two_pos(a, b).expand2(across * 0.5);
        if matches!(symbol, Symbol::Make(by) | Symbol::Break(by) if !by.is_empty()) {
            // The sign of what moves a contact stands above or to the right of it.
            let along = (b - a).normalized();
            let sign = a.lerp(b, 0.5) + vec2(along.y, -along.x) * 17.0;
            body = body.union(Rect::from_center_size(sign, vec2(14.0, 12.0)));
        }
        self.taken.push(body);
    }

    /// A dot where three or more wires of one net meet away from a point.
    fn dots(&self) {
        let mut ways: BTreeMap<(Node, usize), Vec<Node>> = BTreeMap::new();
        for run in &self.drawing.runs {
            let (a, b) = run.way.symbol.unwrap_or((usize::MAX, 0));
            for (n, pair) in run.way.nodes.windows(2).enumerate() {
                let net = if n < a {
                    run.ends.0
                } else if n >= b {
                    run.ends.1
                } else {
                    None
                };
                let Some(net) = net else { continue };
                for (here, there) in [(pair[0], pair[1]), (pair[1], pair[0])] {
                    let list = ways.entry((here, net)).or_default();
                    if !list.contains(&there) {
                        list.push(there);
                    }
                }
            }
        }
        for ((node, net), list) in ways {
            if list.len() >= 3 && !self.drawing.points.contains(&node) {
                self.painter.circle_filled(self.at(node), 3.0, self.ink(Some(net)));
            }
        }
    }

    /// Texts: names of parts in full where they fit, else their designation; numbers of terminals; volts.
    fn names(&mut self, ui: &mut Ui, page: &mut Page, draft: &mut Draft, out: &mut Vec<Command>) {
        let circuit = &self.view.rig.circuit;
        let theme = self.view.theme;
        for run in &self.drawing.runs {
            let Some((a, b)) = run.way.symbol else { continue };
            let (short, long, id, amps) = match run.of {
                Of::Part(n) => (
                    self.drawing.names[n].clone(),
                    circuit.parts[n].name.clone(),
                    circuit.parts[n].id.clone(),
                    self.view.amps.get(n).filter(|a| a.abs() >= 0.0005),
                ),
                Of::Supply(n) => (
                    self.drawing.supply_names[n].clone(),
                    circuit.supplies[n].name.clone(),
                    circuit.supplies[n].id.clone(),
                    None,
                ),
                Of::Third(_) => continue,
            };
            let (from, to) = (self.at(run.way.nodes[a]), self.at(run.way.nodes[b]));
            let wide = if from.x == to.x { 15.0 } else { 9.0 };
            let body = Rect::from_two_pos(from, to).expand2(vec2(wide, 9.0));
            let amps = amps.map(|a| amps_words(*a));
            let chosen = page.part.as_ref() == Some(&id);
            self.caption(body, &short, amps.as_deref(), chosen);
            let response = ui.interact(body, ui.id().with(("part", &id)), Sense::click());
            let words = format!("{short} {long}");
            response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, chosen, &words));
            if response.has_focus() {
                let stroke = Stroke::new(FOCUS_RING, theme.chosen);
                self.painter.rect_stroke(body, 4.0, stroke, egui::StrokeKind::Outside);
            }
            if response.clicked() {
                if page.hold == Hold::Clamp
                    && let Of::Part(_) = run.of
                {
                    draft.ask(Action::Place(Probe::Clamp(id.clone())), out);
                }
                page.part = (!chosen).then_some(id);
            }
            response.on_hover_text(words);
        }
        for n in 0..circuit.points.len() {
            self.terminal(n);
        }
    }
}

/// A terminal: a ring that takes a lead by click, or by Tab and Enter.
fn point(
    ui: &mut Ui,
    sheet: &mut Sheet,
    n: usize,
    at: Pos2,
    page: &mut Page,
    draft: &mut Draft,
    out: &mut Vec<Command>,
) {
    let (view, theme) = (sheet.view, sheet.view.theme);
    let spec = &view.rig.circuit.points[n];
    let rect = Rect::from_center_size(at, vec2(20.0, 20.0));
    let response = ui.interact(rect, ui.id().with(("point", &spec.id)), Sense::click());
    let words = if spec.terminal.is_empty() || spec.label.contains(&spec.terminal) {
        spec.label.clone()
    } else {
        format!("{} (terminal {})", spec.label, spec.terminal)
    };
    response
        .widget_info(|| WidgetInfo::labeled(WidgetType::Button, has_meter(view), format!("Point: {words}")));
    let red = red_lead(view).filter(|(id, _)| *id == spec.id);
    let edge = if spec.guard == Guard::None { sheet.ink(Some(n)) } else { theme.chosen };
    let painter = &sheet.painter;
    painter.circle(at, 4.0, theme.ground, Stroke::new(1.8, edge));
    if response.hovered() {
        painter.circle_stroke(at, 8.0, Stroke::new(1.5, theme.text));
    }
    if let Some((_, volts)) = red {
        painter.circle_filled(at, 5.0, theme.high);
        let tip = at + vec2(7.0, -7.0);
        painter.line_segment([at, tip], Stroke::new(4.0, theme.high));
        let galley = painter.layout_no_wrap(volts_words(volts), fonts::bold(13.0), theme.on_chosen);
        let plate = Align2::LEFT_BOTTOM.anchor_size(tip, galley.size() + vec2(10.0, 4.0));
        painter.rect_filled(plate, 4.0, theme.chosen);
        painter.galley(plate.min + vec2(5.0, 2.0), galley, theme.on_chosen);
        sheet.taken.push(plate);
    }
    if response.has_focus() {
        let stroke = Stroke::new(FOCUS_RING, theme.chosen);
        sheet.painter.rect_stroke(rect, 6.0, stroke, egui::StrokeKind::Outside);
    }
    for (lead, ink, way) in
        [(&page.red, theme.high, vec2(7.0, -7.0)), (&page.black, theme.text, vec2(-7.0, -7.0))]
    {
        if page.hold.leads() && lead.as_deref() == Some(spec.id.as_str()) {
            sheet.painter.circle_filled(at, 5.0, ink);
            sheet.painter.line_segment([at, at + way * 1.6], Stroke::new(4.0, ink));
            sheet.taken.push(Rect::from_two_pos(at, at + way * 1.6));
        }
    }
    if response.clicked() {
        touch(view, page, draft, &spec.id, out);
    }
    let hint = if has_meter(view) { format!("{words}. Click to put a lead here.") } else { words };
    response.on_hover_text(hint);
}
