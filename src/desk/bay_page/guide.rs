//! The how-to: the steps of a shipped procedure, the present one with its reason, its cautions and what it still asks for.
//! The drawing frames what it is about.

use std::sync::OnceLock;

use egui::{Align, Align2, Color32, Sense, Stroke, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::hands::Hands;
use crate::bay::BayAction;
use crate::bench::Action;
use crate::desk::panels::gate::caution_card;
use crate::desk::panels::parts::{
    BODY, SMALL, body, button, capital, card, choice, fit_lines, heading, small,
};
use crate::desk::panels::words;
use crate::desk::{Command, DeskView, fonts};
use crate::lesson::cautions;
use crate::lesson::timeline::words as action_words;
use crate::procedure::{self, Guide, Look, Part, Procedure, SHIPPED, Step, Turn, Until};

/// What the drawing is to frame.
pub fn look(hands: &Hands) -> Option<Look> {
    let (guide, _) = hands.view.guide?;
    guide.procedure().steps.get(guide.step()).map(|step| step.look)
}

/// The way back to the list and the way on; they stay where they are while the steps scroll.
pub fn ways(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    let Some((guide, parts)) = hands.view.guide else { return };
    ui.columns(2, |columns| {
        let width = columns[0].available_width();
        if button(&mut columns[0], theme, "All how-tos", width, false).clicked() {
            hands.out.push(Command::Follow(None));
            hands.page.step = None;
        }
        if !guide.is_done() {
            let all = parts.iter().all(Part::is_done);
            let word = if all { "Next step" } else { "Go on without it" };
            if button(&mut columns[1], theme, word, width, all).clicked() {
                hands.out.push(Command::FollowStep(guide.step() + 1));
            }
        }
    });
}

/// The page.
pub fn guide(ui: &mut Ui, hands: &mut Hands) {
    match hands.view.guide {
        Some((guide, parts)) => follow(ui, hands, guide, parts),
        None => list(ui, hands),
    }
}

/// All shipped procedures; read once.
fn shipped() -> &'static [Procedure] {
    static ALL: OnceLock<Vec<Procedure>> = OnceLock::new();
    ALL.get_or_init(|| SHIPPED.iter().filter_map(|s| procedure::load(s.id).ok()).collect())
}

fn list(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    heading(ui, theme, "Work order");
    body(ui, theme, hands.view.brief.work_order.trim());
    heading(ui, theme, "How to, in the order of the trade");
    for procedure in shipped() {
        if choice(ui, theme, &procedure.title, "", false).on_hover_text(&procedure.when).clicked() {
            hands.out.push(Command::Follow(Some(procedure.id.clone())));
        }
    }
}

fn follow(ui: &mut Ui, hands: &mut Hands, guide: &Guide, parts: &[Part]) {
    let theme = hands.view.theme;
    let procedure = guide.procedure();
    ui.label(egui::RichText::new(&procedure.title).font(fonts::bold(15.0)).color(theme.text));
    small(ui, theme, &format!("When: {}", procedure.when));
    small(ui, theme, &format!("Needs: {}", procedure.needs));
    if let Some(first) = procedure.after.as_deref().and_then(|id| shipped().iter().find(|p| p.id == id)) {
        let words = format!("First: {}", first.title);
        if choice(ui, theme, &words, "", false).clicked() {
            hands.out.push(Command::Follow(Some(first.id.clone())));
        }
    }
    ui.add_space(4.0);
    for (i, step) in procedure.steps.iter().enumerate() {
        if i == guide.step() {
            present(ui, hands, i, step, parts);
        } else {
            line(ui, hands, i, step, i < guide.step());
        }
    }
    if guide.is_done() {
        body(ui, theme, "Done. Write down what came of it.");
    }
}

/// The number of a step, or the tick of one that is done.
fn mark(ui: &Ui, at: egui::Pos2, number: usize, done: bool, color: Color32) {
    let paint = ui.painter();
    paint.circle_stroke(at, 9.0, Stroke::new(1.5, color));
    if done {
        let tick = vec![at + vec2(-4.0, 0.0), at + vec2(-1.0, 3.5), at + vec2(4.5, -3.5)];
        paint.add(egui::Shape::line(tick, Stroke::new(2.0, color)));
    } else {
        paint.text(at, Align2::CENTER_CENTER, number.to_string(), fonts::bold(SMALL), color);
    }
}

/// A step that is done or still to come; a click goes to it.
fn line(ui: &mut Ui, hands: &mut Hands, i: usize, step: &Step, done: bool) {
    let theme = hands.view.theme;
    let ink = if done { theme.good } else { theme.muted };
    let text = fit_lines(
        ui,
        &step.say,
        BODY,
        if done { theme.muted } else { theme.text },
        ui.available_width() - 30.0,
        3,
    );
    let height = (text.size().y + 6.0).max(24.0);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::click());
    let state = if done { "done" } else { "to come" };
    response.widget_info(|| {
        WidgetInfo::labeled(WidgetType::Button, true, format!("Step {}, {state}: {}", i + 1, step.say))
    });
    mark(ui, pos2(rect.left() + 11.0, rect.top() + 12.0), i + 1, done, ink);
    let colour = if done { theme.muted } else { theme.text };
    ui.painter().galley(pos2(rect.left() + 28.0, rect.top() + 4.0), text, colour);
    crate::desk::panels::parts::focus_ring(ui, theme, &response);
    if response.clicked() {
        hands.out.push(Command::FollowStep(i));
    }
}

/// The step that is next.
fn present(ui: &mut Ui, hands: &mut Hands, i: usize, step: &Step, parts: &[Part]) {
    let theme = hands.view.theme;
    let top = ui.cursor().min;
    card(ui, theme, theme.chosen, |ui| {
        ui.horizontal_top(|ui| {
            let (rect, _) = ui.allocate_exact_size(vec2(22.0, 20.0), Sense::hover());
            mark(ui, rect.center(), i + 1, false, theme.chosen);
            ui.vertical(|ui| {
                body(ui, theme, &step.say);
                small(ui, theme, &step.why);
            });
        });
        for part in parts {
            let done = part.is_done();
            let words = part_words(hands.view, step, part);
            let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 19.0), Sense::hover());
            let state = if done { "done" } else { "to do" };
            response
                .widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, format!("{words}: {state}")));
            let room = egui::Rect::from_min_max(rect.min + vec2(28.0, 0.0), rect.max);
            let ink = if done { theme.good } else { theme.text };
            let bullet = pos2(rect.left() + 15.0, rect.center().y);
            ui.painter().circle_stroke(bullet, 5.0, Stroke::new(1.5, ink));
            if done {
                ui.painter().circle_filled(bullet, 3.0, ink);
            }
            crate::desk::panels::parts::write(ui, room, Align::Min, &words, SMALL, ink);
        }
    });
    for id in &step.caution {
        if let Some(caution) = cautions::by_id(id) {
            caution_card(ui, theme, caution);
        }
    }
    // A new step comes into sight by itself.
    if hands.page.step != Some(i) {
        hands.page.step = Some(i);
        let whole = egui::Rect::from_min_max(top, pos2(ui.max_rect().right(), ui.cursor().top()));
        ui.scroll_to_rect(whole, None);
    }
}

/// What is to be done, as one tells an apprentice.
fn deed(action: &Action) -> String {
    let valve = |side: &str, pct: f64| match pct {
        p if p <= 0.0 => format!("{side} hand valve shut"),
        p => format!("{side} hand valve open, {p:.0} %"),
    };
    match action {
        Action::ManifoldLowPct(pct) => valve("low", *pct),
        Action::ManifoldHighPct(pct) => valve("high", *pct),
        Action::Bay(BayAction::Identify) => "take a sample to the identifier".into(),
        Action::Bay(BayAction::Loosen(true)) => "crack the end of the centre hose open".into(),
        Action::Bay(BayAction::Loosen(false)) => "tighten the end of the centre hose".into(),
        Action::Bay(BayAction::CloseUp) => "close up with new seals".into(),
        Action::Bay(BayAction::HandOver) => "hand the work record in".into(),
        Action::Bay(BayAction::StationStop) => "stop the station".into(),
        Action::Bay(BayAction::Work { what, .. }) => format!("work out {}", what.name()),
        Action::Bay(BayAction::Write { field, .. }) => {
            format!("write into the record: {}", field.line().title.to_lowercase())
        }
        other => action_words(other).unwrap_or_else(|| "do it".into()),
    }
}

/// What a part of a step asks for.
fn part_words(view: &DeskView, step: &Step, part: &Part) -> String {
    match part {
        Part::Do(Action::Place(probe), _) => format!("Put in place: {}", probe.name()),
        Part::Do(action, _) => capital(&deed(action)),
        Part::Wait(left_s) if *left_s > 0.0 => format!("Wait: {} left", words::clock(*left_s)),
        Part::Wait(_) => "Waited".into(),
        Part::Until(_) => step.until.as_ref().map_or_else(String::new, |until| until_words(view, until)),
        Part::Read(probe, _) => format!("Write down: {}", probe.name()),
    }
}

/// What is waited for, in the reader's units where there is a point on a scale.
fn until_words(view: &DeskView, until: &Until) -> String {
    let value = |v: f64| words::value(view.units, &until.probe, v);
    let change = |v: f64| match until.probe.unit() {
        "kg" => format!("{:.0} g", 1e3 * v),
        unit => format!("{v} {unit}"),
    };
    let how = match until.turn() {
        Some(Turn::Below(v)) => format!("below {}", value(v)),
        Some(Turn::Above(v)) => format!("above {}", value(v)),
        Some(Turn::FallsBy(v)) => format!("fallen by {}", change(v)),
        Some(Turn::RisesBy(v)) => format!("risen by {}", change(v)),
        None => "steady".into(),
    };
    format!("Watch: {} {how}", until.probe.name())
}
