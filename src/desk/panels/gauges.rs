//! The gauge set: two dials and the manifold between them.

use egui::{
    Align, Align2, FontId, Rect, Response, Sense, Stroke, Ui, UiBuilder, WidgetInfo, WidgetType, pos2, vec2,
};

use super::dial::{Scale, Side, face};
use super::parts::{BODY, SMALL, bare_slider, button, dashes, focus_ring, prepare, write};
use crate::bay::CentreEnd;
use crate::bench::Action;
use crate::desk::{Command, DeskView, Papers};
use crate::instrument::Probe;
use crate::units::GaugePa;

/// Width of the manifold between the dials.
const MANIFOLD: f32 = 152.0;

/// Low dial, manifold, high dial. A click on a dial writes its reading in the notebook.
pub fn gauges_ui(ui: &mut Ui, view: &DeskView, _papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let size = ui.available_size();
    let dial = size.y.min((size.x - MANIFOLD) / 2.0).max(120.0);
    let (rect, _) = ui.allocate_exact_size(vec2(2.0 * dial + MANIFOLD, dial), Sense::hover());
    let low = Rect::from_min_size(rect.min, vec2(dial, dial));
    let high = Rect::from_min_size(pos2(rect.right() - dial, rect.top()), vec2(dial, dial));
    let middle =
        Rect::from_min_max(pos2(low.right() + 6.0, rect.top()), pos2(high.left() - 6.0, rect.bottom()));
    gauge(ui, low, view, Side::Low, out);
    ui.scope_builder(UiBuilder::new().max_rect(middle), |ui| manifold(ui, view, out));
    gauge(ui, high, view, Side::High, out);
}

/// One dial; a click writes its reading in the notebook.
pub(in crate::desk) fn gauge(
    ui: &mut Ui,
    rect: Rect,
    view: &DeskView,
    side: Side,
    out: &mut Vec<Command>,
) -> Response {
    let instruments = &view.snapshot.instruments;
    let (name, pa, probe) = match side {
        Side::Low => ("Low gauge", instruments.low_gauge_pa, Probe::LowGauge),
        Side::High => ("High gauge", instruments.high_gauge_pa, Probe::HighGauge),
    };
    // In the bay a gauge feels its hose, on a port or not.
    let fitted = instruments.hoses_fitted || view.snapshot.bay.is_some();
    let response = ui.interact(rect, ui.id().with(name), Sense::click());
    face(ui, rect, view, side, pa, fitted);
    focus_ring(ui, view.theme, &response);
    let words = if !fitted {
        format!("{name}, not fitted")
    } else if Scale::of(side, view.units).off_scale(pa) {
        format!("{name}, above the end of the scale. Click to write it down")
    } else {
        format!("{name}, reads {}. Click to write it down", view.units.pressure(GaugePa(pa)))
    };
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, fitted, &words));
    if response.clicked() && fitted {
        out.push(Command::Act(Action::Read(probe)));
    }
    response.on_hover_text(words)
}

fn manifold(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let (theme, instruments) = (view.theme, &view.snapshot.instruments);
    let rect = ui.max_rect();
    let half = rect.width() / 2.0;
    let block = Rect::from_min_size(pos2(rect.left(), rect.top() + 92.0), vec2(rect.width(), 22.0));
    ui.painter().rect(block, 5.0, theme.raised, Stroke::new(1.0, theme.line), egui::StrokeKind::Inside);
    let valves: [(&str, f64, egui::Color32, Side, fn(f64) -> Action); 2] = [
        ("Low side", instruments.manifold_low_pct, theme.low, Side::Low, Action::ManifoldLowPct),
        ("High side", instruments.manifold_high_pct, theme.high, Side::High, Action::ManifoldHighPct),
    ];
    for (i, (name, pct, color, side, action)) in valves.into_iter().enumerate() {
        let column =
            Rect::from_min_size(rect.min + vec2(half * i as f32, 2.0), vec2(half, rect.height() - 4.0))
                .shrink2(vec2(4.0, 0.0));
        ui.scope_builder(UiBuilder::new().max_rect(column), |ui| {
            valve(ui, view, name, pct, color, side, action, out);
        });
        let stem = pos2(column.center().x, block.center().y);
        stub(ui, stem, side, color, pct);
    }
    // Without a bay the centre hose is capped: nothing can leave the loop here.
    let centre = view.snapshot.bay.as_ref().map_or(CentreEnd::Cap, |face| face.bay.centre);
    let mouth = pos2(rect.center().x, block.bottom());
    let end = mouth + vec2(0.0, 20.0);
    ui.painter().line_segment([mouth, end], Stroke::new(5.0, theme.muted));
    if centre == CentreEnd::Cap {
        ui.painter().line_segment([end - vec2(6.0, 0.0), end + vec2(6.0, 0.0)], Stroke::new(3.0, theme.text));
    }
    let text = match centre {
        CentreEnd::Cap => "centre hose capped".to_owned(),
        CentreEnd::Nothing => "centre hose open".to_owned(),
        end => format!("to {}", end.name()),
    };
    let words = Rect::from_min_size(pos2(rect.left(), end.y + 3.0), vec2(rect.width(), 16.0));
    write(ui, words, Align::Center, &text, SMALL, theme.muted);
}

/// Name, state, open/shut button and opening of one hand valve.
fn valve(
    ui: &mut Ui,
    view: &DeskView,
    name: &str,
    pct: f64,
    color: egui::Color32,
    side: Side,
    action: fn(f64) -> Action,
    out: &mut Vec<Command>,
) {
    let theme = view.theme;
    let width = ui.available_width();
    let (rect, _) = ui.allocate_exact_size(vec2(width, 18.0), Sense::hover());
    write(ui, rect, Align::Center, name, BODY, color);
    let under = [rect.left_bottom(), rect.right_bottom()];
    if side == Side::Low {
        dashes(ui, &under, Stroke::new(2.0, color));
    } else {
        ui.painter().line_segment(under, Stroke::new(2.0, color));
    }
    let shut = pct <= 0.0;
    let wish = if shut { "Open" } else { "Shut" };
    let response = button(ui, theme, wish, width, false);
    let state = if shut { "shut".to_owned() } else { format!("{pct:.0} % open") };
    response.widget_info(|| {
        WidgetInfo::labeled(
            WidgetType::Button,
            true,
            format!("{wish} the {} hand valve", name.to_lowercase()),
        )
    });
    if response.clicked() {
        out.push(Command::Act(action(if shut { 100.0 } else { 0.0 })));
    }
    let label = format!("{name} hand valve");
    if let Some(v) = bare_slider(ui, theme, &label, &state, pct, 0.0..=100.0, 5.0) {
        out.push(Command::Act(action(v)));
    }
    let (rect, _) = ui.allocate_exact_size(vec2(width, 16.0), Sense::hover());
    ui.painter().text(
        pos2(rect.center().x, rect.center().y + 5.0),
        Align2::CENTER_CENTER,
        state,
        FontId::proportional(SMALL),
        theme.text,
    );
}

/// The short pipe from the block towards its dial, solid or dashed as its side is.
fn stub(ui: &Ui, at: egui::Pos2, side: Side, color: egui::Color32, pct: f64) {
    let out = if side == Side::Low { -1.0 } else { 1.0 };
    let to = at + vec2(out * 44.0, 0.0);
    let line = [at + vec2(out * 36.0, 0.0), to];
    if pct > 0.0 {
        ui.painter()
            .line_segment([at - vec2(out * 30.0, 8.0), at + vec2(out * 30.0, -8.0)], Stroke::new(2.0, color));
    }
    ui.painter().line_segment(line, Stroke::new(5.0, color));
}
