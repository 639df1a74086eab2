//! The service station: a program of steps, each by weight, pressure or time, and what it does right now.

use egui::{Align2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};

use super::hands::Hands;
use super::knobs::{key, stepper, switch, words};
use super::plan::Plan;
use crate::bay::{BayAction, Station, StationStep};

/// Draw it.
pub fn station(ui: &mut Ui, plan: &Plan, hands: &mut Hands) {
    let theme = hands.view.theme;
    let rect = plan.r(674.0, 72.0, 206.0, 266.0);
    ui.painter().rect(rect, 6.0, theme.panel, Stroke::new(1.0, theme.line), StrokeKind::Inside);
    words(ui, plan, rect.min + vec2(8.0, 5.0), Align2::LEFT_TOP, "Service station", theme.text);
    let room = Rect::from_min_max(pos2(rect.left() + 8.0, rect.top() + 24.0), rect.max - vec2(8.0, 8.0));
    let foot = Rect::from_min_size(pos2(room.left(), room.bottom() - 26.0), vec2(room.width(), 26.0));
    match hands.face.bay.station.clone() {
        Some(station) => at_work(ui, plan, hands, room, foot, &station),
        None => program(ui, plan, hands, room, foot),
    }
}

/// Putting a program together.
fn program(ui: &mut Ui, plan: &Plan, hands: &mut Hands, room: Rect, foot: Rect) {
    let theme = hands.view.theme;
    words(ui, plan, room.min, Align2::LEFT_TOP, "Works its own valves.", theme.muted);
    let mut steps = hands.page.program.clone();
    let first = room.top() + 20.0;
    let pitch = (foot.top() - 6.0 - first) / steps.len().max(1) as f32;
    for (i, (step, wanted)) in steps.iter_mut().enumerate() {
        let row = Rect::from_min_size(
            pos2(room.left(), first + i as f32 * pitch),
            vec2(room.width(), (pitch - 4.0).min(26.0)),
        );
        let split = row.left() + row.width() * 0.52;
        let left = Rect::from_min_max(row.min, pos2(split - 4.0, row.bottom()));
        let right = Rect::from_min_max(pos2(split, row.top()), row.max);
        let word = name(*step);
        if switch(ui, theme, left, word, &format!("Station: {}", word.to_lowercase()), *wanted).clicked() {
            *wanted = !*wanted;
        }
        let (value, range, by) = match *step {
            StationStep::Recover => continue,
            StationStep::EvacuateMin(x) => (x, 1.0..=600.0, 5.0),
            StationStep::HoldMin(x) => (x, 1.0..=600.0, 5.0),
            StationStep::OilMl(x) => (x, 1.0..=300.0, 5.0),
            StationStep::ChargeG(x) => (x, 10.0..=5000.0, 10.0),
        };
        let called = format!("of the station's step {}", word.to_lowercase());
        if let Some(new) = stepper(ui, theme, right, &called, &amount(*step), value, range, by) {
            *step = match *step {
                StationStep::EvacuateMin(_) => StationStep::EvacuateMin(new),
                StationStep::HoldMin(_) => StationStep::HoldMin(new),
                StationStep::OilMl(_) => StationStep::OilMl(new),
                StationStep::ChargeG(_) => StationStep::ChargeG(new),
                StationStep::Recover => StationStep::Recover,
            };
        }
    }
    hands.page.program = steps;
    if key(ui, theme, foot, "Run the program", "Run the station's program").clicked() {
        let wanted = hands.page.program.iter().filter(|(_, on)| *on).map(|(step, _)| *step).collect();
        hands.bay(BayAction::Station(wanted), foot);
    }
}

/// What it does, and what it has done.
fn at_work(ui: &mut Ui, plan: &Plan, hands: &mut Hands, room: Rect, foot: Rect, station: &Station) {
    let theme = hands.view.theme;
    let first = room.top();
    let pitch = ((foot.top() - 6.0 - first) / station.steps.len().max(1) as f32).min(38.0);
    for (i, step) in station.steps.iter().enumerate() {
        let at = pos2(room.left(), first + i as f32 * pitch);
        let (mark, ink, below) = match station.done.get(i) {
            Some(done) => {
                let minutes = done.took_s / 60.0;
                let mut text = format!("{minutes:.0} min");
                if done.moved_kg.abs() > 1e-4 {
                    text = format!("{text}, {:.0} g", 1e3 * done.moved_kg);
                }
                if done.gave_up {
                    text = format!("{text}; gave up");
                }
                (if done.gave_up { "×" } else { "done" }, theme.text, text)
            }
            None if i == station.done.len() => ("now", theme.chosen, doing(hands, station)),
            None => ("", theme.muted, String::new()),
        };
        words(ui, plan, at, Align2::LEFT_TOP, &crate::desk::panels::parts::capital(&step.words()), ink);
        words(ui, plan, pos2(room.right(), at.y), Align2::RIGHT_TOP, mark, ink);
        words(ui, plan, at + vec2(8.0, 15.0 * plan.s.min(1.25)), Align2::LEFT_TOP, &below, theme.muted);
    }
    let word = if station.step().is_some() { "Stop" } else { "New program" };
    if key(ui, theme, foot, word, &format!("{word} of the station")).clicked() {
        hands.bay(BayAction::StationStop, foot);
    }
}

/// The present step in words.
fn doing(hands: &Hands, station: &Station) -> String {
    let now_s = hands.view.snapshot.time_s;
    let since = station.since.map_or(0.0, |(at, _)| now_s - at) / 60.0;
    match station.step() {
        Some(StationStep::Recover) if station.watching_s.is_some() => "watching whether it comes back".into(),
        Some(StationStep::EvacuateMin(min) | StationStep::HoldMin(min)) => {
            format!("{since:.0} of {min:.0} min")
        }
        _ => format!("{since:.0} min"),
    }
}

fn name(step: StationStep) -> &'static str {
    match step {
        StationStep::Recover => "Recover",
        StationStep::EvacuateMin(_) => "Evacuate",
        StationStep::HoldMin(_) => "Hold",
        StationStep::OilMl(_) => "Oil",
        StationStep::ChargeG(_) => "Charge",
    }
}

fn amount(step: StationStep) -> String {
    match step {
        StationStep::Recover => String::new(),
        StationStep::EvacuateMin(min) | StationStep::HoldMin(min) => format!("{min:.0} min"),
        StationStep::OilMl(ml) => format!("{ml:.0} mL"),
        StationStep::ChargeG(g) => format!("{g:.0} g"),
    }
}
