//! The pen of the wiring: where things stand, what colour a net has, and where words find room.

use std::sync::Arc;

use egui::{Color32, FontId, Galley, Painter, Pos2, Rect, Vec2, vec2};

use super::grid::Node;
use super::route::Drawing;
use super::words::volts_words;
use crate::desk::theme::Theme;
use crate::desk::{DeskView, fonts};

/// Pen for the wiring.
pub struct Sheet<'a> {
    pub painter: Painter,
    pub view: &'a DeskView<'a>,
    pub drawing: &'a Drawing,
    pub origin: Pos2,
    pub step: Vec2,
    pub full_v: f64,
    /// What texts keep off: symbols, points, other texts.
    pub taken: Vec<Rect>,
    /// Stretches of wire, crossed by texts only where there is no other way.
    pub wires: Vec<Rect>,
}

impl Sheet<'_> {
    pub(super) fn at(&self, node: Node) -> Pos2 {
        self.origin + vec2(node.0 as f32 * self.step.x, node.1 as f32 * self.step.y)
    }

    pub(super) fn volts(&self, point: usize) -> Option<f64> {
        let id = &self.view.rig.circuit.points.get(point)?.id;
        let inside = self.view.snapshot.inside.as_ref()?;
        inside.volts.iter().find(|(name, _)| name == id).map(|&(_, v)| v)
    }

    /// Colour of a net: plain until something is known, then by its volts.
    pub(super) fn ink(&self, point: Option<usize>) -> Color32 {
        let theme = self.view.theme;
        let plain = Theme::mix(theme.muted, theme.text, 0.35);
        match point.and_then(|p| self.volts(p)) {
            Some(volts) => {
                let top = if volts.abs() > 30.0 { self.full_v } else { 14.0_f64.min(self.full_v) };
                let share = (volts.abs() / top).clamp(0.0, 1.0) as f32;
                Theme::mix(Theme::mix(theme.line, theme.muted, 0.6), theme.high, share)
            }
            None => plain,
        }
    }

    pub(super) fn text(&self, text: &str, font: FontId, ink: Color32) -> Arc<Galley> {
        self.painter.layout_no_wrap(text.to_owned(), font, ink)
    }

    pub(super) fn caption(&mut self, body: Rect, short: &str, amps: Option<&str>, chosen: bool) {
        let theme = self.view.theme;
        let ink = if chosen { theme.chosen } else { theme.text };
        let name = match amps {
            Some(amps) => format!("{short} {amps}"),
            None => short.to_owned(),
        };
        let galley = self.text(&name, fonts::bold(12.0), ink);
        self.put(body, galley, ink);
    }

    pub(super) fn terminal(&mut self, n: usize) {
        let circuit = &self.view.rig.circuit;
        let theme = self.view.theme;
        let number = &circuit.points[n].terminal;
        let volts = self.volts(n).map(volts_words);
        let text = match (&volts, number.is_empty()) {
            (Some(volts), false) => format!("{number} · {volts}"),
            (Some(volts), true) => volts.clone(),
            (None, false) => number.clone(),
            (None, true) => return,
        };
        let body = Rect::from_center_size(self.at(self.drawing.points[n]), vec2(10.0, 10.0));
        let ink = if volts.is_some() { theme.high } else { theme.muted };
        let galley = self.text(&text, fonts::regular(12.0), ink);
        self.put(body, galley, ink);
    }

    /// Put a text beside a body where it covers least: never another text, a wire only if it must.
    pub(super) fn put(&mut self, body: Rect, galley: Arc<Galley>, ink: Color32) {
        let size = galley.size();
        let (w, h) = (size.x / 2.0 + 2.0, size.y / 2.0);
        let c = body.center();
        let (x, y) = (body.width() / 2.0, body.height() / 2.0);
        let mut best: Option<(f32, Rect)> = None;
        for (far, reach) in [(0.0, 1.0), (7.0, 9.0), (16.0, 20.0), (30.0, 40.0)] {
            for way in [
                (0.0, -1.0),
                (1.0, 0.0),
                (0.0, 1.0),
                (-1.0, 0.0),
                (1.0, -1.0),
                (1.0, 1.0),
                (-1.0, -1.0),
                (-1.0, 1.0),
            ] {
                let at = c + vec2(way.0 * (x + w + far), way.1 * (y + h + far - 1.0));
                let rect = Rect::from_center_size(at, size);
                let covered: f32 = self
                    .taken
                    .iter()
                    .map(|t| t.shrink(1.0).intersect(rect))
                    .filter(|common| common.is_positive())
                    .map(|common| 60.0 + common.area())
                    .sum();
                let crossed = self.wires.iter().filter(|t| t.intersects(rect)).count();
                let off = if self.painter.clip_rect().left() > rect.left()
                    || self.painter.clip_rect().right() < rect.right()
                {
                    50.0
                } else {
                    0.0
                };
                let cost = covered + crossed as f32 * 3.0 + reach * 0.4 + off;
                if best.is_none_or(|(least, _)| cost < least - 0.01) {
                    best = Some((cost, rect));
                }
            }
        }
        let Some((_, rect)) = best else { return };
        if self.wires.iter().any(|t| t.intersects(rect)) {
            self.painter.rect_filled(rect, 2.0, self.view.theme.ground);
        }
        self.taken.push(rect);
        self.painter.galley(rect.min, galley, ink);
    }
}
