//! The performance chart of the day: what a healthy rig shows in this weather, and where the record's readings before and
//! after the work lie on it.

use egui::{
    Align2, Color32, FontId, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2,
};

use super::hands::Hands;
use crate::bay::chart::{self, CONDITIONS, Line, Performance, before_and_after};
use crate::bay::{RecordField, RecordValue};
use crate::desk::panels::parts::{SMALL, body, heading, small};
use crate::desk::panels::words::signed;
use crate::desk::theme::Theme;
use crate::instrument::{AirPlace, Probe};
use crate::units::{GaugePa, Kelvin};

/// Height of one scale with its words [pt].
const HIGH: f32 = 92.0;

/// The page.
pub fn chart(ui: &mut Ui, hands: &Hands) {
    let theme = hands.view.theme;
    let controls = &hands.view.snapshot.controls;
    let (air_c, humid) = (controls.ambient_c, controls.relative_humidity_pct);
    heading(ui, theme, "Performance chart of the day");
    let air = hands.view.units.temperature(Kelvin::from_c(air_c));
    body(ui, theme, &format!("Outside {}, humidity {humid:.0} %.", signed(&air)));
    let Some(expected) = chart::expected(&hands.view.rig.id, air_c, humid) else {
        small(ui, theme, "This rig has no chart.");
        return;
    };
    if !expected.on_chart {
        small(ui, theme, "This weather lies beyond the chart; its nearest edge is shown.");
    }
    let lines = before_and_after(&written(hands, false), &written(hands, true), &expected);
    key(ui, theme);
    for line in &lines {
        scale(ui, hands, line);
    }
    small(ui, theme, "Before and after stand where you write them into the record.");
    heading(ui, theme, "For the chart to hold");
    small(ui, theme, CONDITIONS);
}

/// What the record says of a running check.
fn written(hands: &Hands, after: bool) -> Performance {
    use RecordField as F;
    let of = |field: F| match hands.face.bay.written(field) {
        Some(RecordValue::Number(x)) => Some(*x),
        _ => None,
    };
    let (low, high, vent) = if after {
        (F::LowAfterBar, F::HighAfterBar, F::VentAfterC)
    } else {
        (F::LowBeforeBar, F::HighBeforeBar, F::VentBeforeC)
    };
    let gauge = |field, probe: Probe| of(field).map(|bar| (bar * 1e5, probe.limit(bar * 1e5)));
    Performance {
        low_pa: gauge(low, Probe::LowGauge),
        high_pa: gauge(high, Probe::HighGauge),
        vent_k: of(vent)
            .map(|c| (Kelvin::from_c(c).0, Probe::Air(AirPlace::Vent).limit(Kelvin::from_c(c).0))),
    }
}

/// What the signs mean.
fn key(ui: &mut Ui, theme: &Theme) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 20.0), Sense::hover());
    let y = rect.center().y;
    let mut x = rect.left() + 8.0;
    for (after, word) in [(false, "before"), (true, "after")] {
        sign(ui, pos2(x, y), after, theme.text);
        let at = pos2(x + 12.0, y);
        let text = ui.painter().text(at, Align2::LEFT_CENTER, word, FontId::proportional(SMALL), theme.muted);
        x = text.right() + 22.0;
    }
    let band = Rect::from_center_size(pos2(x + 10.0, y), vec2(28.0, 10.0));
    ui.painter().rect(
        band,
        2.0,
        theme.good.gamma_multiply(0.35),
        Stroke::new(1.0, theme.good),
        StrokeKind::Inside,
    );
    let at = pos2(band.right() + 6.0, y);
    ui.painter().text(at, Align2::LEFT_CENTER, "as it should be", FontId::proportional(SMALL), theme.muted);
}

/// A hollow sign for before, a full one for after.
fn sign(ui: &Ui, at: egui::Pos2, after: bool, color: Color32) {
    if after {
        ui.painter().circle_filled(at, 6.0, color);
    } else {
        ui.painter().circle_stroke(at, 5.5, Stroke::new(2.0, color));
    }
}

/// One scale: the band, the value before, the value after.
fn scale(ui: &mut Ui, hands: &Hands, line: &Line) {
    let (theme, units) = (hands.view.theme, hands.view.units);
    let vents = line.name == "Vents";
    let color = match line.name {
        "Low side" => theme.low,
        "High side" => theme.high,
        _ => theme.text,
    };
    let show =
        |si: f64| signed(&if vents { units.temperature(Kelvin(si)) } else { units.pressure(GaugePa(si)) });
    // The scale reaches beyond band and values by half the band's width or more.
    let values = [Some(line.band.min), Some(line.band.max), line.before, line.after];
    let (low, high) = values
        .into_iter()
        .flatten()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
    let margin = 0.25 * (high - low).max(if vents { 8.0 } else { 1e5 });
    let (from, to) = (low - margin, high + margin);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), HIGH), Sense::hover());
    let text = line.words(units);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &text));
    let bar = Rect::from_min_max(
        pos2(rect.left() + 10.0, rect.top() + 42.0),
        pos2(rect.right() - 10.0, rect.top() + 62.0),
    );
    let x = |si: f64| bar.left() + bar.width() * ((si - from) / (to - from)) as f32;
    let paint = ui.painter();
    let write = |at: egui::Pos2, align: Align2, words: &str, ink: Color32| {
        paint.text(at, align, words, FontId::proportional(SMALL), ink)
    };
    write(pos2(rect.left(), rect.top() + 4.0), Align2::LEFT_TOP, line.name, color);
    paint.rect(bar, 3.0, theme.ground, Stroke::new(1.0, theme.line), StrokeKind::Inside);
    let band = Rect::from_min_max(pos2(x(line.band.min), bar.top()), pos2(x(line.band.max), bar.bottom()));
    paint.rect(band, 2.0, theme.good.gamma_multiply(0.35), Stroke::new(1.0, theme.good), StrokeKind::Inside);
    let below = bar.bottom() + 4.0;
    write(pos2(band.left(), below), Align2::RIGHT_TOP, &show(line.band.min), theme.muted);
    write(pos2(band.right(), below), Align2::LEFT_TOP, &show(line.band.max), theme.muted);
    for (value, after) in [(line.before, false), (line.after, true)] {
        if let Some(si) = value {
            sign(ui, pos2(x(si), bar.center().y), after, theme.text);
        }
    }
    let say = |what: &str, value: Option<f64>, stands: Option<chart::Against>| match (value, stands) {
        (Some(v), Some(s)) => format!("{what} {}: {}", show(v), s.word()),
        _ => String::new(),
    };
    let found = [say("before", line.before, line.was), say("after", line.after, line.is)];
    let found: Vec<String> = found.into_iter().filter(|t| !t.is_empty()).collect();
    let found = if found.is_empty() { "not written down".to_owned() } else { found.join("; ") };
    write(pos2(rect.left(), rect.top() + 21.0), Align2::LEFT_TOP, &found, theme.muted);
}
