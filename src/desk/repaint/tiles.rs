//! The window in tiles: which of them changed, and few rectangles that hold all of these.

use egui::{Rect, pos2};

/// Side of a tile [pt].
const TILE: f32 = 16.0;
/// A rectangle more costs as much as painting so many square points [pt2].
const PER_RECT: f32 = 2.0e3;
/// Past this share of the window it is painted whole.
const WHOLE: f32 = 0.75;

/// Which tiles of the window changed.
#[derive(Clone, Debug)]
pub(super) struct Tiles {
    screen: Rect,
    across: usize,
    marked: Vec<bool>,
}

impl Tiles {
    /// None yet.
    pub fn new(screen: Rect) -> Self {
        let count = |length: f32| if length > 0.0 { (length / TILE).ceil() as usize } else { 0 };
        let (across, down) = (count(screen.width()), count(screen.height()));
        Self { screen, across, marked: vec![false; across * down] }
    }

    /// All tiles that this touches.
    pub fn mark(&mut self, rect: Rect) {
        let rect = rect.intersect(self.screen);
        if !rect.is_positive() || self.across == 0 {
            return;
        }
        let tile = |at: f32, from: f32, count: usize| (((at - from) / TILE) as usize).min(count - 1);
        let down = self.marked.len() / self.across;
        let column = |x: f32| tile(x, self.screen.left(), self.across);
        let row = |y: f32| tile(y, self.screen.top(), down);
        let (left, right) = (column(rect.left()), column(rect.right()));
        let (top, bottom) = (row(rect.top()), row(rect.bottom()));
        for row in top..=bottom {
            self.marked[row * self.across + left..=row * self.across + right].fill(true);
        }
    }

    /// Rectangles of whole tiles that hold every marked one; the whole window when that is most of it.
    pub fn rects(&self) -> Vec<Rect> {
        let mut rects = self.runs();
        merge(&mut rects);
        let area: f32 = rects.iter().map(Rect::area).sum();
        if area > WHOLE * self.screen.area() {
            return vec![self.screen];
        }
        rects
    }

    /// Runs of marked tiles in a row, joined with the same run of the row above.
    fn runs(&self) -> Vec<Rect> {
        let mut rects: Vec<Rect> = Vec::new();
        for (row, tiles) in self.marked.chunks(self.across.max(1)).enumerate() {
            let top = self.screen.top() + row as f32 * TILE;
            let mut column = 0;
            for run in tiles.chunk_by(|a, b| a == b) {
                let left = self.screen.left() + column as f32 * TILE;
                column += run.len();
                if !run[0] {
                    continue;
                }
                let right = self.screen.left() + column as f32 * TILE;
                let above =
                    rects.iter_mut().find(|r| (r.left(), r.right(), r.bottom()) == (left, right, top));
                match above {
                    Some(above) => above.max.y = top + TILE,
                    None => rects.push(Rect::from_min_max(pos2(left, top), pos2(right, top + TILE))),
                }
            }
        }
        for rect in &mut rects {
            *rect = rect.intersect(self.screen);
        }
        rects
    }
}

/// Join what is cheaper to paint as one.
fn merge(rects: &mut Vec<Rect>) {
    while let Some((saved, i, j)) = best(rects) {
        if saved <= 0.0 {
            break;
        }
        let other = rects.swap_remove(j);
        rects[i] |= other;
    }
}

/// The pair whose joining saves most, `i < j`.
fn best(rects: &[Rect]) -> Option<(f32, usize, usize)> {
    let mut best: Option<(f32, usize, usize)> = None;
    for (i, a) in rects.iter().enumerate() {
        for (j, b) in rects.iter().enumerate().skip(i + 1) {
            let saved = a.area() + b.area() + PER_RECT - a.union(*b).area();
            if best.is_none_or(|(most, ..)| saved > most) {
                best = Some((saved, i, j));
            }
        }
    }
    best
}
