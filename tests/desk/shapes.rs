//! Reads the shapes of a frame back: which words stand where, and what is wrong with that.

use egui::{FullOutput, Rect, Shape};

struct Word {
    text: String,
    /// The paragraph the row belongs to.
    whole: String,
    rect: Rect,
    clip: Rect,
    elided: bool,
    smallest: f32,
}

fn collect(shape: &Shape, clip: Rect, words: &mut Vec<Word>) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|s| collect(s, clip, words)),
        Shape::Text(text) => {
            let smallest =
                text.galley.job.sections.iter().map(|s| s.format.font_id.size).fold(f32::INFINITY, f32::min);
            for row in &text.galley.rows {
                if row.glyphs.is_empty() {
                    continue;
                }
                let rect = Rect::from_min_size(text.pos + row.pos.to_vec2(), row.size);
                let elided = text.galley.elided;
                let whole = text.galley.text().to_owned();
                words.push(Word { text: row.text(), whole, rect, clip, elided, smallest });
            }
        }
        _ => {}
    }
}

fn words(output: &FullOutput) -> Vec<Word> {
    let mut words = Vec::new();
    for clipped in &output.shapes {
        collect(&clipped.shape, clipped.clip_rect, &mut words);
    }
    words
}

/// All rows of text in the frame.
pub fn texts(output: &FullOutput) -> Vec<String> {
    words(output).into_iter().map(|w| w.text).collect()
}

/// Does a paragraph of just this text stand whole at or right of `left`, no row of it cut by anything?
pub fn in_sight(output: &FullOutput, left: f32, text: &str) -> bool {
    let words = words(output);
    let mut rows = words.iter().filter(|w| w.whole == text && w.rect.left() >= left).peekable();
    rows.peek().is_some() && rows.all(|w| !w.elided && w.clip.expand(1.0).contains_rect(w.rect))
}

/// Words cut off, words over words, words too small. With `whole`, shortened words count too; a panel
/// that `scrolls` may run off in height.
pub fn problems(output: &FullOutput, whole: bool, scrolls: bool) -> Vec<String> {
    let words = words(output);
    let mut found = Vec::new();
    let screen = words.iter().fold(Rect::NOTHING, |all, w| all.union(w.clip));
    for (i, word) in words.iter().enumerate() {
        let Word { text, rect, clip, .. } = word;
        if word.smallest < 12.0 {
            found.push(format!("“{text}” is only {} high", word.smallest));
        }
        if whole && word.elided {
            found.push(format!("“{text}” is shortened"));
        }
        if rect.left() < clip.left() - 1.0 || rect.right() > clip.right() + 1.0 {
            found.push(format!("“{text}” {rect:?} is cut off at the side of {clip:?}"));
        }
        // A scroll area may cut in height; a whole panel may not.
        let scrolls = scrolls || clip.height() < screen.height() - 1.0;
        if !scrolls && (rect.top() < clip.top() - 1.0 || rect.bottom() > clip.bottom() + 1.0) {
            found.push(format!("“{text}” {rect:?} is cut off in height by {clip:?}"));
        }
        for other in &words[i + 1..] {
            let a = rect.intersect(*clip).shrink2(egui::vec2(0.5, 2.5));
            let b = other.rect.intersect(other.clip).shrink2(egui::vec2(0.5, 2.5));
            if a.is_positive() && b.is_positive() && a.intersects(b) && a.intersect(b).area() > 1.0 {
                found.push(format!("“{text}” {rect:?} over “{}” {:?}", other.text, other.rect));
            }
        }
    }
    found
}

/// Is a focus ring in the frame: an unfilled rectangle with an edge of 2 in the chosen colour?
pub fn has_ring(output: &FullOutput) -> bool {
    fn ring(shape: &Shape) -> bool {
        match shape {
            Shape::Vec(shapes) => shapes.iter().any(ring),
            Shape::Rect(r) => {
                let clear = r.fill == egui::Color32::TRANSPARENT;
                clear && r.stroke.width >= 2.0 && r.stroke.color == pintle::desk::theme::DARK.chosen
            }
            _ => false,
        }
    }
    output.shapes.iter().any(|clipped| ring(&clipped.shape))
}
