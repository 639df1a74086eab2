//! Small inline SVG: the strip of a row and the plots.
//!
//! Colours are the blue and vermillion of Okabe & Ito's palette, which people with any colour vision tell apart; shape
//! and dashes say the same again.

use super::escape::escape;
use crate::qualify::{Expected, Look, Plot, Row, Series, Verdict, number};

const BLUE: &str = "#0072b2";
const VERMILLION: &str = "#d55e00";
const INK: &str = "#333333";

fn colour(look: Look) -> &'static str {
    match look {
        Look::Low => BLUE,
        Look::High => VERMILLION,
        Look::Other => INK,
    }
}

/// Where a value stands on a strip of 150 by 18: the band of what is expected in the middle, open to one side for a
/// bound.
pub fn strip(row: &Row) -> String {
    const WIDTH: f64 = 150.0;
    let (low, high) = row.expected.limits();
    // Left and right edge of the band, and the place of the value.
    let got = row.got.filter(|g| g.is_finite());
    let (left, right, at) = match row.expected {
        Expected::Value { .. } | Expected::Band { .. } => {
            let span = (high - low).max(f64::MIN_POSITIVE);
            (50.0, 100.0, got.map(|g| 50.0 + 50.0 * (g - low) / span))
        }
        Expected::Nothing => (0.0, WIDTH, None),
        bound => {
            let limit = if low.is_finite() { low } else { high };
            let place = |g: f64| {
                let scale = limit.abs().max(g.abs()).max(f64::MIN_POSITIVE);
                75.0 + 60.0 * (g - limit) / scale
            };
            let open_right = matches!(bound, Expected::AtLeast(_) | Expected::MoreThan(_));
            if open_right { (75.0, WIDTH, got.map(place)) } else { (0.0, 75.0, got.map(place)) }
        }
    };
    let mut svg = format!(
        "<svg class=\"strip\" width=\"150\" height=\"18\" viewBox=\"0 0 150 18\" aria-hidden=\"true\">\
         <rect x=\"{left:.0}\" y=\"3\" width=\"{:.0}\" height=\"12\" fill=\"#cfe3f1\"/>\
         <path d=\"M0 9H150\" stroke=\"#b5bcc2\"/>",
        right - left
    );
    if let Some(x) = at {
        let (edge, x) = (!(5.0..=WIDTH - 5.0).contains(&x), x.clamp(5.0, WIDTH - 5.0));
        match row.verdict() {
            Verdict::Within => svg.push_str(&format!("<circle cx=\"{x:.1}\" cy=\"9\" r=\"4\" fill=\"{BLUE}\"/>")),
            Verdict::NearMemory | Verdict::OffMemory | Verdict::Reported => svg.push_str(&format!(
                "<circle cx=\"{x:.1}\" cy=\"9\" r=\"4\" fill=\"#ffffff\" stroke=\"{INK}\" stroke-width=\"1.5\"/>"
            )),
            // A diamond, or an arrow where it lies beyond the strip.
            Verdict::Out if edge && x > 75.0 => svg
                .push_str(&format!("<path d=\"M{} 3L{x:.1} 9L{} 15Z\" fill=\"{VERMILLION}\"/>", x - 6.0, x - 6.0)),
            Verdict::Out if edge => svg
                .push_str(&format!("<path d=\"M{} 3L{x:.1} 9L{} 15Z\" fill=\"{VERMILLION}\"/>", x + 6.0, x + 6.0)),
            Verdict::Out => svg.push_str(&format!(
                "<path d=\"M{x:.1} 3L{:.1} 9L{x:.1} 15L{:.1} 9Z\" fill=\"{VERMILLION}\"/>",
                x + 5.0,
                x - 5.0
            )),
        }
    }
    svg + "</svg>"
}

/// A step of 1, 2 or 5 times a power of ten that gives four to nine ticks.
fn nice_step(span: f64) -> f64 {
    let raw = span / 5.0;
    let power = 10f64.powf(raw.log10().floor());
    let share = raw / power;
    power
        * if share < 1.5 {
            1.0
        } else if share < 3.5 {
            2.0
        } else if share < 7.5 {
            5.0
        } else {
            10.0
        }
}

/// One axis: from, to, step.
#[derive(Clone, Copy)]
struct Axis {
    from: f64,
    to: f64,
    step: f64,
}

impl Axis {
    fn over(values: impl Iterator<Item = f64>, from_zero: bool) -> Self {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for v in values.filter(|v| v.is_finite()) {
            (low, high) = (low.min(v), high.max(v));
        }
        if !low.is_finite() {
            return Self { from: 0.0, to: 1.0, step: 0.2 };
        }
        // Zero belongs on the axis unless it would squeeze the picture.
        if from_zero && low > 0.0 && low < 0.6 * high {
            low = 0.0;
        }
        let span = (high - low).max(1e-9 * high.abs()).max(1e-12);
        let step = nice_step(span);
        Self { from: (low / step).floor() * step, to: (high / step).ceil() * step, step }
    }
    fn ticks(self) -> impl Iterator<Item = f64> {
        let n = ((self.to - self.from) / self.step).round() as u32;
        (0..=n.min(50)).map(move |i| self.from + f64::from(i) * self.step)
    }
    fn share(self, v: f64) -> f64 {
        (v - self.from) / (self.to - self.from)
    }
}

/// Frame of a plot: all plots have one size.
const WIDTH: f64 = 620.0;
const HEIGHT: f64 = 320.0;
const LEFT: f64 = 58.0;
const RIGHT: f64 = 604.0;
const TOP: f64 = 52.0;
const BOTTOM: f64 = 274.0;

/// A plot with axes, units and a legend.
pub fn plot(plot: &Plot) -> String {
    let band_x = plot.bands.iter().flat_map(|b| b.edges.iter().map(|e| e.0));
    let band_y = plot.bands.iter().flat_map(|b| b.edges.iter().flat_map(|e| [e.1, e.2]));
    let points = || plot.series.iter().flat_map(|s| s.points.iter().copied());
    let x = Axis::over(points().map(|p| p.0).chain(band_x), false);
    let y = Axis::over(points().map(|p| p.1).chain(band_y), true);
    let px = move |v: f64| LEFT + (RIGHT - LEFT) * x.share(v);
    let py = move |v: f64| BOTTOM - (BOTTOM - TOP) * y.share(v);

    let mut svg = format!(
        "<svg class=\"plot\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" font-size=\"12.5\" \
         font-family=\"system-ui,-apple-system,Segoe UI,Roboto,sans-serif\" fill=\"{INK}\" role=\"img\" aria-label=\"{}\">",
        escape(&plot.title)
    );
    for v in y.ticks() {
        let at = py(v);
        svg.push_str(&format!("<path d=\"M{LEFT} {at:.1}H{RIGHT}\" stroke=\"#e3e6e8\"/>"));
        svg.push_str(&text(LEFT - 8.0, at + 4.0, "end", &number(v, y.step)));
    }
    for v in x.ticks() {
        let at = px(v);
        svg.push_str(&format!("<path d=\"M{at:.1} {BOTTOM}v5\" stroke=\"{INK}\"/>"));
        svg.push_str(&text(at, BOTTOM + 19.0, "middle", &number(v, x.step)));
    }
    svg.push_str(&format!("<path d=\"M{LEFT} {TOP}V{BOTTOM}H{RIGHT}\" fill=\"none\" stroke=\"{INK}\"/>"));
    svg.push_str(&text(LEFT, TOP - 10.0, "start", plot.y_label));
    svg.push_str(&text(RIGHT, HEIGHT - 8.0, "end", plot.x_label));
    for band in &plot.bands {
        let there = band.edges.iter().map(|e| format!("{:.1},{:.1}", px(e.0), py(e.2)));
        let back = band.edges.iter().rev().map(|e| format!("{:.1},{:.1}", px(e.0), py(e.1)));
        let corners: Vec<String> = there.chain(back).collect();
        svg.push_str(&format!(
            "<polygon points=\"{}\" fill=\"{}\" fill-opacity=\"0.18\"/>",
            corners.join(" "),
            colour(band.look)
        ));
    }
    for series in &plot.series {
        svg.push_str(&drawn(series, &px, &py));
    }
    svg + &legend(plot) + "</svg>"
}

fn text(x: f64, y: f64, anchor: &str, words: &str) -> String {
    format!("<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\">{}</text>", escape(words))
}

/// Low side dashed, high side solid, other dotted; dots are round or square.
fn dashes(look: Look) -> &'static str {
    match look {
        Look::Low => " stroke-dasharray=\"7 4\"",
        Look::High => "",
        Look::Other => " stroke-dasharray=\"2 4\"",
    }
}

fn dot(look: Look, x: f64, y: f64) -> String {
    let fill = colour(look);
    if look == Look::Low {
        format!("<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"5\" fill=\"{fill}\"/>")
    } else {
        format!("<rect x=\"{:.1}\" y=\"{:.1}\" width=\"9\" height=\"9\" fill=\"{fill}\"/>", x - 4.5, y - 4.5)
    }
}

fn drawn(series: &Series, px: &dyn Fn(f64) -> f64, py: &dyn Fn(f64) -> f64) -> String {
    let good = series.points.iter().filter(|p| p.0.is_finite() && p.1.is_finite());
    if series.dots {
        return good.map(|p| dot(series.look, px(p.0), py(p.1))).collect();
    }
    let points: Vec<String> = good.map(|p| format!("{:.1},{:.1}", px(p.0), py(p.1))).collect();
    format!(
        "<polyline points=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\"{}/>",
        points.join(" "),
        colour(series.look),
        dashes(series.look)
    )
}

/// A row of samples with their names, above the plot on the right.
fn legend(plot: &Plot) -> String {
    let lines = plot.series.iter().map(|s| (s.name.as_str(), s.look, if s.dots { 1 } else { 0 }));
    let bands = plot.bands.iter().map(|b| (b.name.as_str(), b.look, 2));
    let (mut svg, mut x) = (String::new(), LEFT);
    for (name, look, kind) in lines.chain(bands) {
        let y = 14.0;
        svg.push_str(&match kind {
            0 => format!(
                "<path d=\"M{x:.0} {y}h26\" stroke=\"{}\" stroke-width=\"2\"{}/>",
                colour(look),
                dashes(look)
            ),
            1 => dot(look, x + 13.0, y),
            _ => format!(
                "<rect x=\"{x:.0}\" y=\"{}\" width=\"26\" height=\"12\" fill=\"{}\" fill-opacity=\"0.18\"/>",
                y - 6.0,
                colour(look)
            ),
        });
        svg.push_str(&text(x + 32.0, y + 4.0, "start", name));
        // Room for the words at the size of the style sheet.
        x += 48.0 + 6.4 * name.chars().count() as f64;
    }
    svg
}
