//! The live loop: one drawing that is a schematic when folded and a pressure-enthalpy chart when unfolded.
//! It is drawn where its states live: high side on top, low side below, metering device left, compressor right.
//! Every frame is a pure function of the view and of where its labels stood before.

mod callouts;
mod chart;
mod components;
mod dome;
mod explain;
mod fluid;
pub(super) mod labels;
mod motion;
mod names;
mod places;
mod plan;
mod schematic;
mod sheet;
mod strokes;
mod symbols;
mod track;
mod unfolded;
mod words;

pub use dome::DomeData;
pub use labels::Choices;
pub use motion::{Motion, SEGMENTS, Segment};

use egui::{Align2, Painter, Pos2, Sense, Shape, Stroke, Ui};

use self::chart::Axes;
use self::places::Target;
use self::plan::{Plan, spots};
use self::track::Track;
use super::panels::Draft;
use super::{Command, DeskView, Papers, fonts};
use crate::instrument::{AirPlace, PipePlace};

/// Between these shares of unfolding the schematic fades out.
const SCHEMATIC_GONE: f32 = 0.45;
/// From this share of unfolding on the chart fades in.
const CHART_COMES: f32 = 0.35;

/// The loop, filling what room there is.
pub fn loop_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    let rect = ui.available_rect_before_wrap();
    ui.allocate_rect(rect, Sense::hover());
    let plan = Plan::new(rect, view.snapshot.topology);
    let unfold = view.unfold.clamp(0.0, 1.0);
    let inside = view.snapshot.inside.as_ref();
    let axes = Axes::new(rect, plan.s, &[inside, view.ghost]);
    let (chart_ink, sheet_ink) = (fade_in(unfold), fade_out(unfold));
    let pen = |ink: f32| {
        let mut painter = ui.painter_at(rect);
        painter.multiply_opacity(ink);
        painter
    };

    let mut taken = Vec::new();
    if chart_ink > 0.0 {
        let mut avoid = Vec::new();
        for loop_shown in [inside, view.ghost].into_iter().flatten() {
            avoid.extend(track::dotted(&track::outline(&axes, loop_shown)));
        }
        taken = axes.paint(&pen(chart_ink), plan.s, view.theme, view.units, view.dome, &avoid);
    }
    let chart = unfolded::Chart { painter: pen(chart_ink), axes, plan, view };
    if chart_ink > 0.0 && inside.is_some() {
        chart.ghost();
    }
    let sheet = sheet::Sheet { painter: pen(sheet_ink), plan, view };
    if sheet_ink > 0.0 {
        sheet.under();
    }
    let tracks = track::tracks(&plan, &axes, inside, view.dome, unfold);
    let look = fluid::Look {
        s: plan.s,
        unfold: if inside.is_some() { unfold } else { 0.0 },
        open: inside.is_some(),
    };
    let pipes = pen(if inside.is_some() { 1.0 } else { sheet_ink });
    for (track, phase) in tracks.iter().zip(view.motion.flow) {
        fluid::paint(&pipes, track, phase, look, view.theme);
    }
    if inside.is_some() {
        links(&pen(unfold), &tracks, view);
    }
    if sheet_ink > 0.0 {
        for (segment, share) in [(0, 0.82), (5, 0.30), (6, 0.3), (8, 0.30), (8, 0.72), (9, 0.5), (11, 0.6)] {
            if let Some(track) = tracks.get(segment) {
                fluid::chevron(&sheet.painter, track, share, plan.s, view.theme.text);
            }
        }
        sheet.over();
        if unfold < 0.5 {
            sheet.explain(ui);
        }
    }
    let mut badges = None;
    if chart_ink > 0.0 {
        match inside {
            Some(inside) => {
                chart.cells(inside);
                badges = Some(chart.labels(inside, taken, &mut papers.drawn.labels));
            }
            None => chart.measured(taken),
        }
    }
    let draft = &mut papers.draft;
    points(ui, view, draft, out, &plan, &axes, badges, sheet_ink);
    if unfold < 0.5 {
        other_places(ui, view, draft, out, &plan);
    }
}

fn fade_in(unfold: f32) -> f32 {
    ((unfold - CHART_COMES) / (1.0 - CHART_COMES)).clamp(0.0, 1.0)
}

fn fade_out(unfold: f32) -> f32 {
    (1.0 - unfold / SCHEMATIC_GONE).clamp(0.0, 1.0)
}

/// The two processes that are a machine and not a pipe: compressing and throttling.
fn links(painter: &Painter, tracks: &[Track], view: &DeskView) {
    let end = |segment: usize| tracks.get(segment).and_then(|t| t.stations.last()).map(|s| s.pos);
    let start = |segment: usize| tracks.get(segment).and_then(|t| t.stations.first()).map(|s| s.pos);
    for (from, to, colour) in [(8, 0, view.theme.high), (5, 6, view.theme.text), (9, 10, view.theme.text)] {
        if let (Some(a), Some(b)) = (end(from), start(to)) {
            painter.add(Shape::line_segment([a, b], Stroke::new(3.6, colour)));
        }
    }
    // The receiver lies between two pieces of pipe, and the mixing of the two branches between chiller and suction.
    if let (Some(a), Some(b)) = (end(11), end(8)) {
        painter.add(Shape::line_segment([a, b], Stroke::new(2.0, view.theme.low)));
    }
    if let (Some(a), Some(b)) = (end(2), start(3)) {
        painter.add(Shape::line_segment([a, b], Stroke::new(3.6, view.theme.high)));
    }
}

/// The six numbered points: on their pipes when folded, badges beside their states when unfolded.
fn points(
    ui: &mut Ui,
    view: &DeskView,
    draft: &mut Draft,
    out: &mut Vec<Command>,
    plan: &Plan,
    axes: &Axes,
    badges: Option<[Pos2; 6]>,
    sheet_ink: f32,
) {
    let inside = view.snapshot.inside.as_ref();
    if inside.is_none() && sheet_ink <= 0.0 {
        return;
    }
    for (i, place) in PipePlace::ALL.into_iter().enumerate() {
        let folded = plan.at(spots::POINTS[i]);
        let centre = match (inside, badges) {
            (Some(_), Some(badges)) => folded.lerp(badges[i], view.unfold),
            (Some(inside), None) => {
                let p = &inside.points[i];
                folded.lerp(axes.at(p.h_j_per_kg, p.p_pa), view.unfold)
            }
            (None, _) => folded,
        };
        let radius = 9.5 * plan.s.clamp(0.95, 1.4);
        let mut painter = ui.painter().clone();
        if inside.is_none() {
            painter.multiply_opacity(sheet_ink);
        }
        places::place(ui, view, draft, out, Target::Pipe(place), centre, radius, "");
        painter.circle(centre, radius, view.theme.ground, Stroke::new(1.6, view.theme.text));
        let font = fonts::bold(plan.text(12.5).min(radius * 1.5));
        painter.text(centre, Align2::CENTER_CENTER, place.point(), font, view.theme.text);
    }
}

/// Ports, air and sight glass; they exist in the folded drawing only.
fn other_places(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>, plan: &Plan) {
    use crate::instrument::Tool;
    let s = plan.s;
    let port = |p: Pos2, x: f32, y: f32| plan.at(p) + egui::vec2(x, y) * 16.0 * s;
    places::place(ui, view, draft, out, Target::HighPort, port(spots::HIGH_PORT, -1.0, 0.0), 8.0 * s, "");
    places::place(ui, view, draft, out, Target::LowPort, port(plan.low_port(), 0.0, 1.0), 8.0 * s, "");
    places::place(
        ui,
        view,
        draft,
        out,
        Target::SightGlass,
        plan.at(spots::SIGHT_GLASS),
        14.0 * s,
        "Bubbles here mean that vapour runs in the liquid line.",
    );
    for (i, air) in AirPlace::ALL.into_iter().enumerate() {
        let target = Target::Air(air);
        let placed = view.snapshot.instruments.placed.iter().any(|(p, _)| *p == target.probe());
        if placed || view.ui_state.tool == Some(Tool::AirThermometer) {
            let centre = plan.at(spots::AIR[i]);
            places::place(ui, view, draft, out, target, centre, 9.0 * s, "");
            ui.painter().circle(centre, 6.0 * s, view.theme.ground, Stroke::new(2.0, view.theme.text));
        }
    }
}
