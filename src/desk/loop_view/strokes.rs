//! Many short straight strokes as one shape: dashes and fins would otherwise be hundreds of shapes a frame.

use egui::{Mesh, Painter, Pos2, Shape, Stroke};

/// Width of the soft edge of a stroke [pt].
const FEATHER: f32 = 0.8;

/// Straight strokes gathered into one mesh.
#[derive(Default)]
pub struct Strokes(Mesh);

impl Strokes {
    /// Add a stroke from `a` to `b`.
    pub fn line(&mut self, a: Pos2, b: Pos2, stroke: Stroke) {
        let along = b - a;
        if along.length() < 0.05 {
            return;
        }
        let across = along.normalized().rot90();
        let core = (stroke.width - FEATHER).max(0.0) * 0.5;
        let first = self.0.vertices.len() as u32;
        for end in [a, b] {
            for (offset, solid) in
                [(core + FEATHER, false), (core, true), (-core, true), (-core - FEATHER, false)]
            {
                let colour = if solid { stroke.color } else { egui::Color32::TRANSPARENT };
                self.0.colored_vertex(end + across * offset, colour);
            }
        }
        for strip in 0..3 {
            let n = first + strip;
            self.0.add_triangle(n, n + 1, n + 4);
            self.0.add_triangle(n + 1, n + 4, n + 5);
        }
    }

    /// Add a dashed line.
    pub fn dashes(&mut self, line: &[Pos2], stroke: Stroke, dash: f32, gap: f32) {
        for shape in Shape::dashed_line(line, stroke, dash, gap) {
            if let Shape::LineSegment { points: [a, b], stroke } = shape {
                self.line(a, b, stroke);
            }
        }
    }

    /// Paint them all.
    pub fn paint(self, painter: &Painter) {
        painter.add(Shape::mesh(self.0));
    }
}
