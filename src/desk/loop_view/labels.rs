//! Labels that keep out of each other's way. Greedy: each label in turn takes the best of a few places
//! round its anchor; the place it had in the last frame is preferred, so that labels do not dance.

use egui::{Pos2, Rect, Vec2, vec2};

/// One label to be placed.
#[derive(Clone, Copy, Debug)]
pub struct Wish {
    /// What it belongs to.
    pub anchor: Pos2,
    /// Size of its box.
    pub size: Vec2,
    /// Direction it would like to stand in (screen, y down).
    pub towards: Vec2,
    /// Distance between anchor and box.
    pub gap: f32,
}

/// Where the labels may stand and what is in the way.
#[derive(Clone, Debug)]
pub struct Field {
    /// Labels stay inside.
    pub bounds: Rect,
    /// Never covered, such as other text.
    pub taken: Vec<Rect>,
    /// Covered only when there is no other way, such as lines.
    pub lines: Vec<Pos2>,
}

/// Directions tried, as turns from the wished one, and factors on the gap.
const TURNS: [f32; 12] = [0.0, 0.4, -0.4, 0.8, -0.8, 1.2, -1.2, 1.7, -1.7, 2.3, -2.3, 3.1];
const REACHES: [f32; 4] = [1.0, 2.4, 4.4, 7.0];

/// Where each label of a drawing stood in the last frame, by its number: which of the places it tried.
pub type Choices = [Option<usize>; 24];

/// Number of places tried for a label.
pub const CHOICES: usize = TURNS.len() * REACHES.len();

impl Wish {
    /// Box of the label at a choice.
    pub fn place(&self, choice: usize) -> Rect {
        let turn = TURNS[choice % TURNS.len()];
        let reach = self.gap * REACHES[(choice / TURNS.len()).min(REACHES.len() - 1)];
        let way = egui::emath::Rot2::from_angle(turn) * self.towards.normalized();
        // The box touches a circle of radius `reach` round the anchor.
        let half = self.size * 0.5;
        let centre =
            self.anchor + way * reach + vec2(way.x.signum() * half.x * way.x.abs().min(0.35) / 0.35, 0.0);
        let centre = centre + vec2(0.0, way.y * half.y);
        Rect::from_center_size(centre, self.size)
    }
}

impl Field {
    /// Place a label; `last` is its choice in the last frame. The box taken is added to the field.
    pub fn settle(&mut self, wish: &Wish, last: Option<usize>) -> (usize, Rect) {
        let (mut best, mut least) = (0, f32::INFINITY);
        for choice in 0..CHOICES {
            let mut cost = self.cost(wish.place(choice), choice);
            if last == Some(choice) {
                cost -= 14.0;
            }
            if cost < least {
                (best, least) = (choice, cost);
            }
        }
        let rect = self.kept_in(wish.place(best));
        self.taken.push(rect.expand(3.0));
        (best, rect)
    }

    fn cost(&self, rect: Rect, choice: usize) -> f32 {
        let mut cost = (choice % TURNS.len()) as f32 * 1.2 + (choice / TURNS.len()) as f32 * 7.0;
        if !self.bounds.contains_rect(rect) {
            cost += 500.0;
        }
        for taken in &self.taken {
            let overlap = taken.intersect(rect);
            if overlap.is_positive() {
                cost += 120.0 + overlap.area() * 0.5;
            }
        }
        let near = rect.expand(2.0);
        let crossed = self.lines.iter().filter(|p| near.contains(**p)).count();
        cost + (crossed as f32).min(24.0) * 6.0
    }

    fn kept_in(&self, rect: Rect) -> Rect {
        let b = self.bounds;
        let push = vec2(
            (b.left() - rect.left()).max(0.0) - (rect.right() - b.right()).max(0.0),
            (b.top() - rect.top()).max(0.0) - (rect.bottom() - b.bottom()).max(0.0),
        );
        rect.translate(push)
    }
}

/// Nearest point of a box to a place: where a leader line ends.
pub fn foot(rect: Rect, place: Pos2) -> Pos2 {
    rect.clamp(place)
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::pos2;

    #[test]
    fn crowded_labels_do_not_overlap() {
        let mut field = Field {
            bounds: Rect::from_min_size(Pos2::ZERO, vec2(600.0, 400.0)),
            taken: vec![],
            lines: vec![],
        };
        let mut boxes: Vec<Rect> = Vec::new();
        for i in 0..6 {
            let wish = Wish {
                anchor: pos2(300.0 + i as f32 * 2.0, 200.0),
                size: vec2(80.0, 18.0),
                towards: vec2(1.0, -0.3),
                gap: 12.0,
            };
            let (_, rect) = field.settle(&wish, None);
            assert!(boxes.iter().all(|b| !b.intersect(rect).is_positive()), "label {i} at {rect:?}");
            boxes.push(rect);
        }
    }

    #[test]
    fn a_label_stays_where_it_was() {
        let field = Field {
            bounds: Rect::from_min_size(Pos2::ZERO, vec2(600.0, 400.0)),
            taken: vec![],
            lines: vec![],
        };
        let wish =
            Wish { anchor: pos2(300.0, 200.0), size: vec2(60.0, 16.0), towards: vec2(1.0, 0.0), gap: 10.0 };
        assert_eq!(field.clone().settle(&wish, Some(3)).0, 3);
    }
}
