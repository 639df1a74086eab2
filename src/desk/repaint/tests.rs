//! A canvas painted in parts is, pixel by pixel, one that was painted whole.

use egui::epaint::{ClippedShape, Mesh, RectShape};
use egui::{Color32, CornerRadius, Pos2, Rect, Shape, pos2, vec2};
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use super::*;

const SIZE: usize = 160;

fn screen() -> Rect {
    Rect::from_min_size(Pos2::ZERO, vec2(SIZE as f32, SIZE as f32))
}

/// A window of square points that knows filled boxes and triangles of boxes.
#[derive(Clone, PartialEq)]
struct Picture(Vec<Color32>);

impl Picture {
    fn blank() -> Self {
        Self(vec![Color32::RED; SIZE * SIZE])
    }

    fn paint(&mut self, shapes: &[ClippedShape]) {
        for ClippedShape { clip_rect, shape } in shapes {
            match shape {
                Shape::Rect(rect) => self.fill(rect.rect.intersect(*clip_rect), rect.fill),
                Shape::Mesh(mesh) => {
                    for corners in mesh.indices.chunks_exact(3) {
                        let mut rect = Rect::NOTHING;
                        for &i in corners {
                            rect.extend_with(mesh.vertices[i as usize].pos);
                        }
                        self.fill(rect.intersect(*clip_rect), mesh.vertices[corners[0] as usize].color);
                    }
                }
                _ => panic!("no such shape here"),
            }
        }
    }

    fn fill(&mut self, rect: Rect, colour: Color32) {
        for y in 0..SIZE {
            for x in 0..SIZE {
                if rect.contains(pos2(x as f32 + 0.5, y as f32 + 0.5)) {
                    self.0[y * SIZE + x] = colour;
                }
            }
        }
    }
}

fn a_box(dice: &mut impl Rng) -> ClippedShape {
    let mut number = |upto: f32| dice.random_range(0.0..upto).round();
    let at = pos2(number(150.0), number(150.0));
    let rect = Rect::from_min_size(at, vec2(1.0 + number(40.0), 1.0 + number(40.0)));
    let clip = Rect::from_min_size(pos2(number(60.0), number(60.0)), vec2(100.0, 100.0));
    let colour = Color32::from_gray(number(255.0) as u8);
    if number(3.0) == 0.0 {
        let mut mesh = Mesh::default();
        for step in 0..4 {
            let first = mesh.vertices.len() as u32;
            let at = at + vec2(12.0 * step as f32, 5.0 * step as f32);
            for corner in [at, at + vec2(9.0, 0.0), at + vec2(0.0, 9.0)] {
                mesh.colored_vertex(corner, colour);
            }
            mesh.add_triangle(first, first + 1, first + 2);
        }
        return ClippedShape { clip_rect: clip, shape: Shape::mesh(mesh) };
    }
    ClippedShape { clip_rect: clip, shape: RectShape::filled(rect, CornerRadius::ZERO, colour).into() }
}

/// Something happens to a scene: shapes come, go, change, swap places, or a pipe changes its colour in one place.
fn change(scene: &mut Vec<ClippedShape>, dice: &mut impl Rng) {
    let at = dice.random_range(0..scene.len());
    match dice.random_range(0..6) {
        0 => scene.insert(at, a_box(dice)),
        1 if scene.len() > 3 => drop(scene.remove(at)),
        2 => {
            let other = dice.random_range(0..scene.len());
            scene.swap(at, other);
        }
        3 => scene.splice(at..at, (0..40).map(|_| a_box(dice)).collect::<Vec<_>>()).for_each(drop),
        4 if scene.len() > 60 => scene.truncate(20),
        _ => match &mut scene[at].shape {
            Shape::Mesh(mesh) => {
                let mut turned = Mesh::clone(mesh);
                for vertex in &mut turned.vertices[3..6] {
                    vertex.color = Color32::from_gray(dice.random_range(0..=255));
                }
                scene[at].shape = Shape::mesh(turned);
            }
            _ => scene[at] = a_box(dice),
        },
    }
}

#[test]
fn parts_painted_give_the_whole_picture() {
    for seed in 0..60 {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut scene: Vec<_> = (0..12).map(|_| a_box(&mut dice)).collect();
        let (mut canvas, mut picture) = (Canvas::default(), Picture::blank());
        for step in 0..12 {
            let ground = Color32::from_gray(if step < 9 { 20 } else { 230 });
            if let Some(paint) = canvas.turn_to(scene.clone(), screen(), ground) {
                picture.paint(&paint);
            }
            let mut whole = Picture::blank();
            whole.fill(screen(), ground);
            whole.paint(&scene);
            assert!(picture == whole, "seed {seed}, step {step}");
            for _ in 0..dice.random_range(0..4) {
                change(&mut scene, &mut dice);
            }
        }
    }
}

#[test]
fn the_same_frame_again_is_not_painted() {
    let mut dice = ChaCha8Rng::seed_from_u64(1);
    let scene: Vec<_> = (0..30).map(|_| a_box(&mut dice)).collect();
    let mut canvas = Canvas::default();
    assert!(canvas.turn_to(scene.clone(), screen(), Color32::BLACK).is_some());
    assert!(canvas.turn_to(scene.clone(), screen(), Color32::BLACK).is_none());
    canvas.forget();
    assert!(canvas.turn_to(scene, screen(), Color32::BLACK).is_some());
}

#[test]
fn a_small_change_paints_a_small_part() {
    let rect = |x: f32, y: f32| {
        let rect = Rect::from_min_size(pos2(x, y), vec2(6.0, 6.0));
        let shape = RectShape::filled(rect, CornerRadius::ZERO, Color32::WHITE).into();
        ClippedShape { clip_rect: screen(), shape }
    };
    let mut canvas = Canvas::default();
    canvas.turn_to(vec![rect(10.0, 10.0), rect(140.0, 140.0)], screen(), Color32::BLACK);
    let paint = canvas.turn_to(vec![rect(12.0, 10.0), rect(140.0, 140.0)], screen(), Color32::BLACK).unwrap();
    let painted = paint.iter().fold(Rect::NOTHING, |all, shape| all.union(shape.clip_rect));
    assert!(painted.width() <= 64.0 && painted.height() <= 64.0, "{painted:?}");
    assert_eq!(paint.len(), 2, "the ground and the shape that moved");
}
