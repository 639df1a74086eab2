//! What of the window has to be painted anew. A frame of the desk is mostly the frame before it; on a machine that
//! paints in software every pixel left alone is time saved.
//!
//! The shapes of two frames are laid side by side ([`compare`]), what differs marks the tiles it lies on ([`tiles`]), and
//! within these every shape is painted again from the ground up, so the picture is the one that a whole painting gives.

mod compare;
mod tiles;

use egui::epaint::{ClippedShape, RectShape};
use egui::{Color32, CornerRadius, Rect};

use self::compare::{Standing, differences};
use self::tiles::Tiles;

/// The picture in the window, as the shapes it was painted from.
#[derive(Clone, Debug)]
pub struct Canvas {
    standing: Vec<Standing>,
    screen: Rect,
    ground: Color32,
    whole: bool,
}

impl Default for Canvas {
    fn default() -> Self {
        Self { standing: Vec::new(), screen: Rect::NOTHING, ground: Color32::TRANSPARENT, whole: true }
    }
}

impl Canvas {
    /// What stands in the window is not known any more: the next frame is painted whole.
    pub fn forget(&mut self) {
        self.whole = true;
    }

    /// Take the shapes of a new frame. What has to be painted to turn the picture into theirs, on a ground of one
    /// colour; `None` when the picture is theirs already.
    pub fn turn_to(
        &mut self,
        shapes: Vec<ClippedShape>,
        screen: Rect,
        ground: Color32,
    ) -> Option<Vec<ClippedShape>> {
        let mut tiles = Tiles::new(screen);
        let whole = self.whole || screen != self.screen || ground != self.ground;
        let before = std::mem::take(&mut self.standing);
        self.standing = differences(before, shapes, &mut |changed| tiles.mark(changed));
        (self.whole, self.screen, self.ground) = (false, screen, ground);
        let parts = if whole { vec![screen] } else { tiles.rects() };
        if parts.is_empty() {
            return None;
        }
        let mut paint = Vec::new();
        for part in parts {
            // The edge of a fill is soft, so it lies outside of the part.
            let fill = RectShape::filled(part.expand(4.0), CornerRadius::ZERO, ground);
            paint.push(ClippedShape { clip_rect: part, shape: fill.into() });
            let touched = self.standing.iter().filter(|standing| standing.reach.intersects(part));
            paint.extend(touched.map(|Standing { shape, .. }| ClippedShape {
                clip_rect: shape.clip_rect.intersect(part),
                shape: shape.shape.clone(),
            }));
        }
        Some(paint)
    }
}

#[cfg(test)]
mod tests;
