//! Two frames side by side: which shapes stayed, and where those that did not stay lie or lay.

use std::collections::VecDeque;
use std::sync::Arc;

use egui::epaint::{ClippedShape, Mesh, PathShape, TextShape};
use egui::{Color32, Pos2, Rect, Shape};

/// A shape may colour so much beyond its outline: soft edges, and the tips of pointed corners [pt].
const MARGIN: f32 = 2.0;
/// A filled outline with a sharp tip colours so much beyond it, faintly: seen at the needles of the gauges [pt].
const SPIKE: f32 = 16.0;
/// So many shapes may come or go in one place before the rest counts as changed.
const AHEAD: usize = 32;

/// A shape that stands on the canvas.
#[derive(Clone, Debug)]
pub(super) struct Standing {
    pub shape: ClippedShape,
    /// All that it may have coloured [pt].
    pub reach: Rect,
}

impl Standing {
    fn of(shape: ClippedShape) -> Self {
        Self { reach: reach(&shape), shape }
    }
}

/// The new shapes as they stand, telling of every rectangle that changed. Shapes that stayed are found in order, so one
/// that went behind another counts as changed too.
pub(super) fn differences(
    before: Vec<Standing>,
    after: Vec<ClippedShape>,
    changed: &mut impl FnMut(Rect),
) -> Vec<Standing> {
    let mut standing = Vec::with_capacity(after.len());
    let mut before = before.as_slice();
    let mut after = after.into_iter();
    // New shapes that were looked at and do not stand yet.
    let mut come: VecDeque<ClippedShape> = VecDeque::new();
    while let Some(first) = come.pop_front().or_else(|| after.next()) {
        let Some((old, rest)) = before.split_first() else {
            let new = Standing::of(first);
            lies(&new, changed);
            standing.push(new);
            continue;
        };
        if same(&old.shape, &first) {
            standing.push(Standing { shape: first, reach: old.reach });
            before = rest;
            continue;
        }
        // The nearest place where both agree again.
        let missing = (AHEAD - 1).saturating_sub(come.len());
        come.extend(after.by_ref().take(missing));
        let went = rest.iter().take(AHEAD).position(|old| same(&old.shape, &first));
        let came = come.iter().position(|new| same(&old.shape, new));
        match (went, came) {
            (Some(went), came) if came.is_none_or(|came| went <= came) => {
                before[..=went].iter().for_each(|old| lies(old, changed));
                before = &before[went + 1..];
                come.push_front(first);
            }
            (_, Some(came)) => {
                for new in std::iter::once(first).chain(come.drain(..came)) {
                    let new = Standing::of(new);
                    lies(&new, changed);
                    standing.push(new);
                }
            }
            _ => {
                let new = Standing::of(first);
                turned(old, &new, changed);
                standing.push(new);
                before = rest;
            }
        }
    }
    before.iter().for_each(|old| lies(old, changed));
    standing
}

/// Do both paint the same? Letters laid out once are not compared letter by letter.
fn same(a: &ClippedShape, b: &ClippedShape) -> bool {
    a.clip_rect == b.clip_rect
        && match (&a.shape, &b.shape) {
            (Shape::Text(a), Shape::Text(b)) => same_text(a, b),
            (a, b) => a == b,
        }
}

fn same_text(a: &TextShape, b: &TextShape) -> bool {
    let placed = |t: &TextShape| {
        (t.pos, t.underline, t.fallback_color, t.override_text_color, t.opacity_factor, t.angle)
    };
    placed(a) == placed(b) && (Arc::ptr_eq(&a.galley, &b.galley) || a.galley == b.galley)
}

/// All that a shape may colour.
fn reach(shape: &ClippedShape) -> Rect {
    let margin = match &shape.shape {
        Shape::Path(path) if path.fill != Color32::TRANSPARENT && is_pointed(&path.points) => SPIKE,
        _ => MARGIN,
    };
    shape.shape.visual_bounding_rect().expand(margin).intersect(shape.clip_rect)
}

/// Has an outline a corner of less than some 30 degrees?
fn is_pointed(outline: &[Pos2]) -> bool {
    let n = outline.len();
    (0..n).any(|i| {
        let (before, here, after) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
        (before - here).normalized().dot((after - here).normalized()) > 0.85
    })
}

/// One shape took the place of another. Of a pipe whose colours changed here and there, only those places count.
fn turned(old: &Standing, new: &Standing, changed: &mut impl FnMut(Rect)) {
    if let (Shape::Mesh(a), Shape::Mesh(b)) = (&old.shape.shape, &new.shape.shape)
        && a.indices == b.indices
        && a.texture_id == b.texture_id
        && a.vertices.len() == b.vertices.len()
        && old.shape.clip_rect == new.shape.clip_rect
    {
        for corners in a.indices.chunks_exact(3) {
            let differs = corners.iter().any(|&i| a.vertices[i as usize] != b.vertices[i as usize]);
            if differs {
                for mesh in [a, b] {
                    changed(triangle(mesh, corners).intersect(new.shape.clip_rect));
                }
            }
        }
        return;
    }
    lies(old, changed);
    lies(new, changed);
}

/// Tell where a shape lies: a line along its pieces, since the box round a bent pipe is mostly empty.
fn lies(standing: &Standing, changed: &mut impl FnMut(Rect)) {
    let clip = standing.shape.clip_rect;
    match &standing.shape.shape {
        Shape::Mesh(mesh) => {
            for corners in mesh.indices.chunks_exact(3) {
                changed(triangle(mesh, corners).intersect(clip));
            }
        }
        Shape::Path(path) if path.fill == Color32::TRANSPARENT => {
            let PathShape { points, closed, stroke, .. } = path;
            let wide = stroke.width + MARGIN;
            let last = points.last().zip(points.first()).filter(|_| *closed);
            let pieces = points.windows(2).map(|pair| (&pair[0], &pair[1])).chain(last);
            for (a, b) in pieces {
                changed(Rect::from_two_pos(*a, *b).expand(wide).intersect(clip));
            }
        }
        _ => changed(standing.reach),
    }
}

fn triangle(mesh: &Mesh, corners: &[u32]) -> Rect {
    let mut rect = Rect::NOTHING;
    for &i in corners {
        rect.extend_with(mesh.vertices[i as usize].pos);
    }
    rect.expand(MARGIN)
}
