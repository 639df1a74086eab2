//! The pen of the folded drawing, and lines of words on it.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, pos2, vec2};

use super::plan::Plan;
use crate::desk::theme::Theme;
use crate::desk::{DeskView, fonts};

/// Pen for the folded drawing.
pub struct Sheet<'a> {
    /// Where to draw; its opacity carries the fading.
    pub painter: Painter,
    /// The plan.
    pub plan: Plan,
    /// What to draw.
    pub view: &'a DeskView<'a>,
}

/// A line of a label.
pub type Line = (String, FontId, Color32);

impl Sheet<'_> {
    pub(super) fn theme(&self) -> &Theme {
        self.view.theme
    }

    pub(super) fn name(&self, text: &str) -> Line {
        (text.into(), fonts::bold(self.plan.text(13.5)), self.theme().text)
    }

    pub(super) fn value(&self, text: String) -> Line {
        (text, fonts::regular(self.plan.text(13.0)), self.theme().text)
    }

    pub(super) fn quiet(&self, text: impl Into<String>) -> Line {
        (text.into(), fonts::regular(self.plan.text(12.5)), self.theme().muted)
    }

    /// Lines under each other; `align` says which corner of the block stands at `pos` (on the plan).
    pub(super) fn block(&self, pos: Pos2, align: Align2, lines: &[Line]) -> Rect {
        let galleys: Vec<_> = lines
            .iter()
            .map(|(text, font, colour)| self.painter.layout_no_wrap(text.clone(), font.clone(), *colour))
            .collect();
        let height: f32 = galleys.iter().map(|g| g.size().y).sum();
        let width = galleys.iter().map(|g| g.size().x).fold(0.0, f32::max);
        let rect = align.anchor_size(self.plan.at(pos), vec2(width, height));
        let mut y = rect.top();
        for galley in galleys {
            let x = match align.x() {
                egui::Align::Min => rect.left(),
                egui::Align::Center => rect.center().x - galley.size().x / 2.0,
                egui::Align::Max => rect.right() - galley.size().x,
            };
            let size = galley.size();
            self.painter.galley(pos2(x, y), galley, Color32::PLACEHOLDER);
            y += size.y;
        }
        rect
    }
}
