//! Cylinders and cans: what stands in them, which way up, on which scale.

use egui::{Align2, Pos2, Rect, Sense, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

use super::ends::head;
use super::flow::{EMPTY_PA, apart};
use super::hands::Hands;
use super::knobs::{key, one_of, switch, words};
use super::plan::Plan;
use super::readout::readout;
use crate::bay::cylinder::FillLimit;
use crate::bay::{BayAction, CentreEnd, VesselValve};
use crate::bench::VesselFace;
use crate::desk::theme::Theme;
use crate::instrument::Probe;
use crate::plant::Vessel;
use crate::refrigerant::Refrigerant;

/// From one row of controls to the next [pt].
const PITCH: f32 = 27.0;

/// How a vessel is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Body {
    /// Steel, valve up.
    Upright,
    /// Steel, upside down.
    Inverted,
    /// A glass tube with marks shows what is in it.
    Glass,
}

/// A vessel on the floor.
pub fn vessel(ui: &mut Ui, plan: &Plan, hands: &mut Hands, vessel: Vessel) {
    let (end, title) = match vessel {
        Vessel::Charging => (CentreEnd::Charging, "Charging cyl."),
        Vessel::Can => (CentreEnd::Can, "Small can"),
        _ => (CentreEnd::Supply, "Supply cylinder"),
    };
    let room = head(ui, plan, hands, end, title);
    let face = hands.face.vessels[vessel as usize];
    let valve = hands.face.bay.valves[vessel];
    let how = match (vessel, valve) {
        (Vessel::Charging, _) => Body::Glass,
        (_, VesselValve::Liquid) => Body::Inverted,
        _ => Body::Upright,
    };
    let s = plan.s;
    let width = if vessel == Vessel::Can { 40.0 } else { 60.0 } * s;
    // Rows below it: scale, taps, and what warms it.
    let rows = match vessel {
        Vessel::Supply => 2.0,
        Vessel::Can => 6.0,
        _ => 4.0,
    };
    let height = room.height() - 16.0 - rows * PITCH * plan.down();
    let cylinder =
        Rect::from_min_size(pos2(room.center().x - width / 2.0, room.top() + 4.0), vec2(width, height));
    bath(ui, hands, cylinder, vessel);
    body(ui, hands, cylinder, &face, how);
    let on_scale = hands.face.bay.on_scale == vessel;
    let mut top = scale_row(ui, plan, hands, room, cylinder.bottom(), &face, on_scale);
    top = taps(ui, plan, hands, Rect::from_min_max(pos2(room.left(), top), room.max), vessel, valve);
    if vessel != Vessel::Supply {
        warm(ui, plan, hands, Rect::from_min_max(pos2(room.left(), top), room.max), vessel, on_scale);
    }
}

/// Steel or glass, with what stands in it where it can be seen.
pub fn body(ui: &Ui, hands: &Hands, rect: Rect, face: &VesselFace, how: Body) {
    let theme = hands.view.theme;
    let paint = ui.painter();
    let flip = how == Body::Inverted;
    let y = |from_top: f32| if flip { rect.bottom() - from_top } else { rect.top() + from_top };
    let valve_h = 12.0_f32.min(rect.height() * 0.15);
    let (a, b) = (y(valve_h), y(rect.height()));
    let shell = Rect::from_min_max(pos2(rect.left(), a.min(b)), pos2(rect.right(), a.max(b)));
    let valve = Rect::from_min_max(
        pos2(rect.center().x - 6.0, y(0.0).min(a)),
        pos2(rect.center().x + 6.0, y(0.0).max(a)),
    );
    paint.rect(valve, 2.0, theme.muted, Stroke::NONE, StrokeKind::Inside);
    let radius = (rect.width() / 3.0).min(16.0);
    paint.rect(shell, radius, theme.raised, Stroke::new(1.5, theme.text), StrokeKind::Inside);
    // Steel hides its contents from whoever may not look inside.
    let seen = how == Body::Glass || hands.sees_inside();
    if seen {
        let inner = if how == Body::Glass {
            Rect::from_center_size(shell.center(), vec2(shell.width() * 0.42, shell.height() - 18.0))
        } else {
            shell.shrink(5.0)
        };
        contents(ui, theme, inner, face, how == Body::Glass);
    }
    if face.vessel == Vessel::Recovery {
        limit(ui, theme, shell.shrink(5.0));
    }
}

/// Liquid at the bottom in dense marks, gas above it in sparse ones.
fn contents(ui: &Ui, theme: &Theme, rect: Rect, face: &VesselFace, glass: bool) {
    let paint = ui.painter();
    if glass {
        paint.rect(rect, 3.0, theme.ground, Stroke::new(1.0, theme.muted), StrokeKind::Outside);
    }
    let level = face.level.clamp(0.0, 1.0) as f32;
    let surface = rect.bottom() - level * rect.height();
    if level > 0.001 {
        let liquid = Rect::from_min_max(pos2(rect.left(), surface), rect.max);
        paint.rect_filled(liquid, 3.0, Theme::mix(theme.ground, theme.liquid, 0.45));
        let line = [pos2(rect.left(), surface), pos2(rect.right(), surface)];
        paint.line_segment(line, Stroke::new(2.0, theme.liquid));
        dots(ui, liquid.shrink2(vec2(3.0, 4.0)), 8.0, theme.liquid);
    }
    let gas = Rect::from_min_max(rect.min, pos2(rect.right(), surface));
    if face.p_pa > EMPTY_PA {
        dots(ui, gas.shrink2(vec2(4.0, 4.0)), apart(face.p_pa).max(13.0), theme.vapour);
    }
    if glass {
        for i in 1..10 {
            let mark = rect.bottom() - rect.height() * i as f32 / 10.0;
            let long = if i == 5 { 9.0 } else { 5.0 };
            let tick = [pos2(rect.right() + 1.0, mark), pos2(rect.right() + long, mark)];
            paint.line_segment(tick, Stroke::new(1.0, theme.text));
        }
    }
}

/// A still pattern of dots.
fn dots(ui: &Ui, rect: Rect, apart: f32, color: egui::Color32) {
    if !rect.is_positive() {
        return;
    }
    let (mut y, mut odd) = (rect.bottom(), false);
    while y > rect.top() {
        let mut x = rect.left() + if odd { apart / 2.0 } else { 0.0 };
        while x < rect.right() {
            ui.painter().circle_filled(pos2(x, y), 1.3, color);
            x += apart;
        }
        (y, odd) = (y - apart * 0.8, !odd);
    }
}

/// The line of 80 % on a recovery cylinder.
fn limit(ui: &Ui, theme: &Theme, shell: Rect) {
    let y = shell.bottom() - 0.8 * shell.height();
    let line = [pos2(shell.left() - 10.0, y), pos2(shell.right() + 10.0, y)];
    ui.painter().extend(Shape::dashed_line(&line, Stroke::new(2.0, theme.high), 4.0, 3.0));
}

/// Scale, what it shows, and the sum of the limit, for the recovery cylinder.
pub fn scale(
    ui: &mut Ui,
    plan: &Plan,
    hands: &mut Hands,
    room: Rect,
    floor: f32,
    face: &VesselFace,
    probe: &Probe,
) {
    let theme = hands.view.theme;
    plate(ui, theme, room, floor);
    let rect = Rect::from_min_size(pos2(room.left(), floor + 7.0), vec2(room.width(), 24.0));
    readout(ui, hands, rect, "Scale under the recovery cylinder", probe);
    let mut at = pos2(room.left(), rect.bottom() + 4.0);
    if let Some(refrigerant) = Refrigerant::by_name(&hands.face.refrigerant) {
        let sum = Rect::from_min_size(at, vec2(room.width(), 32.0));
        let response = ui.interact(sum, ui.id().with("limit of the cylinder"), Sense::hover());
        response.on_hover_text(FillLimit::of_recovery(refrigerant).words());
    }
    for line in [format!("empty {:.2} kg", face.tare_kg), format!("limit {:.2} kg", face.limit_gross_kg)] {
        let written = words(ui, plan, at, Align2::LEFT_TOP, &line, theme.muted);
        at.y = written.bottom() + 1.0;
    }
}

fn plate(ui: &Ui, theme: &Theme, room: Rect, floor: f32) {
    let plate = Rect::from_min_size(pos2(room.left(), floor + 1.0), vec2(room.width(), 5.0));
    ui.painter().rect_filled(plate, 2.0, theme.muted);
}

/// The charging scale, under whatever vessel it carries; gives the height where it ends.
fn scale_row(
    ui: &mut Ui,
    plan: &Plan,
    hands: &mut Hands,
    room: Rect,
    floor: f32,
    face: &VesselFace,
    on_scale: bool,
) -> f32 {
    let theme = hands.view.theme;
    let rect = Rect::from_min_size(pos2(room.left(), floor + 7.0), vec2(room.width(), 24.0));
    if on_scale {
        plate(ui, theme, room, floor);
        let name = format!("Charging scale, under the {}", face.vessel.name());
        readout(ui, hands, rect, &name, &Probe::ChargingScale);
    } else {
        words(ui, plan, rect.center(), Align2::CENTER_CENTER, "not on the scale", theme.muted);
    }
    rect.top() + PITCH * plan.down().max(1.05)
}

/// Shut, gas, liquid; the can has a row for each. Gives the height where they end.
fn taps(ui: &mut Ui, plan: &Plan, hands: &mut Hands, room: Rect, vessel: Vessel, now: VesselValve) -> f32 {
    let theme = hands.view.theme;
    let can = vessel == Vessel::Can;
    // The longest word takes a little more.
    let third = (room.width() - 4.0) / 3.0;
    let widths = if can { [room.width(); 3] } else { [third - 3.0, third - 4.0, third + 7.0] };
    let pitch = PITCH * plan.down();
    let words_of = |valve: VesselValve| match (vessel, valve) {
        (Vessel::Can, VesselValve::Shut) => ("Tap shut", "tap shut"),
        (Vessel::Can, VesselValve::Gas) => ("Up: gas", "tap open, upright, gives gas"),
        (Vessel::Can, VesselValve::Liquid) => ("Over: liquid", "tap open, upside down, gives liquid"),
        (_, VesselValve::Shut) => ("Shut", "valve shut"),
        (Vessel::Charging, VesselValve::Gas) => ("Gas", "gas valve open"),
        (Vessel::Charging, VesselValve::Liquid) => ("Liquid", "liquid valve open"),
        (_, VesselValve::Gas) => ("Gas", "open, upright, gives gas"),
        (_, VesselValve::Liquid) => ("Liquid", "open, upside down, gives liquid"),
    };
    for (i, valve) in [VesselValve::Shut, VesselValve::Gas, VesselValve::Liquid].into_iter().enumerate() {
        let (word, long) = words_of(valve);
        let before: f32 = widths[..i].iter().map(|w| w + 2.0).sum();
        let at = if can { vec2(0.0, i as f32 * pitch) } else { vec2(before, 0.0) };
        let rect = Rect::from_min_size(room.min + at, vec2(widths[i], 23.0));
        let name = format!("{}: {long}", crate::desk::panels::parts::capital(vessel.name()));
        let chosen = now == valve;
        if one_of(ui, theme, rect, word, &name, chosen).on_hover_text(&name).clicked() && !chosen {
            hands.bay(BayAction::Valve { vessel, valve }, rect);
        }
    }
    room.top() + if can { 3.0 } else { 1.0 } * pitch
}

/// A warm bath, and what must not be done instead of it; a fresh can.
fn warm(ui: &mut Ui, plan: &Plan, hands: &mut Hands, room: Rect, vessel: Vessel, on_scale: bool) {
    let theme = hands.view.theme;
    let on = hands.face.bay.warm && on_scale;
    let bath = Rect::from_min_size(room.min, vec2(room.width(), 23.0));
    let name = format!("Warm bath of 40 °C under the {}", vessel.name());
    ui.add_enabled_ui(on_scale, |ui| {
        if switch(ui, theme, bath, "Bath", &name, on).on_hover_text(&name).clicked() {
            hands.bay(BayAction::Warm(!on), bath);
        }
    });
    let last =
        Rect::from_min_size(pos2(room.left(), bath.bottom() + 4.0 * plan.down()), vec2(room.width(), 24.0));
    if vessel == Vessel::Can {
        if key(ui, theme, last, "Fresh can", "A fresh can on the tap").clicked() {
            hands.bay(BayAction::FreshCan, last);
        }
    } else if key(ui, theme, last, "Warm it with a torch", "Warm the vessel with a torch").clicked() {
        hands.bay(BayAction::Flame, last);
    }
}

/// The bath as a trough round its foot.
fn bath(ui: &Ui, hands: &Hands, rect: Rect, vessel: Vessel) {
    let bay = &hands.face.bay;
    if !bay.warm || bay.on_scale != vessel {
        return;
    }
    let theme = hands.view.theme;
    let (l, r, b) = (rect.left() - 8.0, rect.right() + 8.0, rect.bottom());
    let top = b - rect.height() * 0.45;
    let trough: Vec<Pos2> = vec![pos2(l, top), pos2(l, b), pos2(r, b), pos2(r, top)];
    ui.painter().add(Shape::line(trough, Stroke::new(2.0, theme.muted)));
    for i in 0..3 {
        let x = l + (r - l) * (i as f32 + 0.5) / 3.0;
        let wave: Vec<Pos2> = (0..5)
            .map(|k| pos2(x - 6.0 + 3.0 * k as f32, top + 5.0 + if k % 2 == 0 { 0.0 } else { 3.0 }))
            .collect();
        ui.painter().add(Shape::line(wave, Stroke::new(1.5, theme.high)));
    }
}
