//! The debrief: right or wrong, what each reading said, what the inside looked like, one sentence for
//! next time.

use egui::{Align, Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::parts::{BODY, SMALL, body, button, card, entry, heading, prepare, small, write};
use super::{Draft, words};
use crate::bench::{Action, TICK_S};
use crate::desk::{Command, DeskView, Papers, Screen};
use crate::fault::Fault;
use crate::lesson::{Belief, Debrief, DebriefLine};

/// Widest the page gets.
const WIDEST: f32 = 1040.0;

/// The debrief screen, or word that it is being worked out.
pub fn debrief_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let Some(debrief) = view.debrief else {
        pending(ui, view, out);
        return;
    };
    let draft = &mut papers.draft;
    ScrollArea::vertical().id_salt("debrief").auto_shrink([false, false]).show(ui, |ui| {
        let side = ((ui.available_width() - WIDEST) / 2.0).max(12.0);
        ui.add_space(8.0);
        ui.horizontal_top(|ui| {
            ui.add_space(side);
            ui.vertical(|ui| {
                ui.set_width((ui.available_width() - side).min(WIDEST));
                page(ui, view, debrief, draft, out);
            });
        });
    });
}

fn pending(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    ui.add_space(40.0);
    body(ui, view.theme, "Working out what each cause would have shown ...");
    small(ui, view.theme, "The same steps are played on a car for every fault. This takes some seconds.");
    if button(ui, view.theme, "Back to the bench", 180.0, false).clicked() {
        out.push(Command::Show(Screen::Bench));
    }
}

fn page(ui: &mut Ui, view: &DeskView, d: &Debrief, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    verdict(ui, view, d);
    if !d.unsolved.is_empty() {
        paragraph(
            ui,
            view,
            "Steps of the model that did not solve: what was read near them is in doubt",
            &d.unsolved,
        );
    }
    heading(ui, theme, "What each reading said");
    table(ui, view, d);
    heading(ui, theme, "How far the readings alone carry");
    small(ui, theme, "Counted from how well each cause predicts your readings, and how common it is.");
    for belief in d.belief.iter().filter(|b| b.share >= 0.005).take(6) {
        bar(ui, view, d, belief);
    }
    paragraph(ui, view, "What the inside looked like", &d.inside);
    if d.cautions.is_empty() {
        heading(ui, theme, "Cautions");
        small(ui, theme, "None was breached.");
    } else {
        paragraph(ui, view, "Cautions you passed over", &d.cautions);
    }
    if !d.bay.is_empty() {
        paragraph(ui, view, "Work in the service bay", &d.bay);
    }
    if !d.mistakes.is_empty() {
        paragraph(ui, view, "Mistakes with tools", &d.mistakes);
    }
    paragraph(ui, view, "What each repair came to", &d.repairs);
    if d.parts_replaced > 0 {
        body(ui, theme, &format!("Good parts replaced: {}.", d.parts_replaced));
    }
    if !d.scenario_debrief.is_empty() {
        heading(ui, theme, "From the author");
        body(ui, theme, &d.scenario_debrief);
    }
    let steps: Vec<String> =
        d.timeline.iter().map(|(s, text)| format!("{}  {text}", words::clock(*s))).collect();
    paragraph(ui, view, "What you did", &steps);
    heading(ui, theme, "One sentence for yourself");
    let width = ui.available_width();
    if entry(ui, theme, "Next time I will", "Next time I will ...  (Enter)", &mut draft.next_time, width) {
        out.push(Command::Act(Action::Note(format!("Next time I will {}", draft.next_time.trim()))));
        draft.next_time.clear();
    }
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        if button(ui, theme, "Look inside", 160.0, false).clicked() {
            out.push(Command::LookInside);
        }
        if button(ui, theme, "Try another", 160.0, true).clicked() {
            out.push(Command::Show(Screen::Start));
        }
    });
    ui.add_space(12.0);
}

fn verdict(ui: &mut Ui, view: &DeskView, d: &Debrief) {
    let theme = view.theme;
    let (edge, word) = if d.verdict_right { (theme.good, "Right") } else { (theme.high, "Not this time") };
    card(ui, theme, edge, |ui| {
        ui.label(egui::RichText::new(word).font(crate::desk::fonts::bold(20.0)).color(edge));
        let share = d.confidence;
        let sure = format!("{}, {:.0} %", words::confidence(share), share * 100.0);
        body(ui, theme, &format!("You named: {} ({sure}).", d.named.name()));
        body(ui, theme, &d.reasoning());
        if !d.because.is_empty() {
            small(ui, theme, &format!("Because: “{}”", d.because));
        }
        if d.truth.is_empty() {
            body(ui, theme, "Nothing was wrong with this car.");
        }
        for fault in &d.truth {
            body(ui, theme, &cause(fault));
            small(ui, theme, &format!("{} Cure: {}.", fault.id.info().changes, fault.id.info().repair()));
        }
    });
}

fn cause(fault: &Fault) -> String {
    let name = fault.id.info().name;
    match fault.id.info().severity {
        Some(s) => format!("The cause: {name} ({}: {:.2}).", s.meaning, fault.severity),
        None => format!("The cause: {name}."),
    }
}

fn paragraph(ui: &mut Ui, view: &DeskView, title: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    heading(ui, view.theme, title);
    for line in lines {
        body(ui, view.theme, line);
    }
}

/// Right ends of the columns as shares of the width; the first two are left aligned.
const STOPS: [f32; 8] = [0.06, 0.28, 0.42, 0.54, 0.66, 0.78, 0.89, 1.0];

fn cells(ui: &Ui, rect: Rect, texts: &[String; 8], size: f32, ink: egui::Color32) {
    let mut left = rect.left();
    for (i, (text, stop)) in texts.iter().zip(STOPS).enumerate() {
        let right = rect.left() + stop * rect.width();
        let cell = Rect::from_min_max(pos2(left, rect.top()), pos2(right, rect.bottom()));
        write(ui, cell, if i < 2 { Align::Min } else { Align::Max }, text, size, ink);
        left = right + 6.0;
    }
}

fn table(ui: &mut Ui, view: &DeskView, d: &Debrief) {
    let theme = view.theme;
    if d.lines.is_empty() {
        small(ui, theme, "The notebook is empty: nothing was read.");
        return;
    }
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 20.0), Sense::hover());
    let head =
        ["time", "place", "you read", "your cause", "true cause", "healthy", "fits yours?", "fits truth?"];
    cells(ui, rect, &head.map(str::to_owned), SMALL, theme.muted);
    for line in &d.lines {
        table_row(ui, view, line);
    }
    small(
        ui,
        theme,
        "The number says how many standard deviations the reading is off what that cause predicts. \
         • marks your evidence.",
    );
}

/// Does a reading fit a prediction so many standard deviations away?
fn fits(deviations: f64) -> String {
    let off = deviations.abs().min(99.0);
    let word = match off {
        o if o <= 2.0 => "fits",
        o if o <= 3.0 => "unclear",
        _ => "no",
    };
    format!("{word}, {off:.1}")
}

fn table_row(ui: &mut Ui, view: &DeskView, line: &DebriefLine) {
    let theme = view.theme;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 22.0), Sense::hover());
    let r = &line.reading;
    let say = |si: f64| words::value(view.units, &r.probe, si);
    let off = |prediction: f64| fits(line.deviations(prediction));
    let mark = if line.used_as_evidence { "• " } else { "" };
    let texts = [
        words::clock(r.tick as f64 * TICK_S),
        format!("{mark}{}", r.probe.short()),
        words::value_with_uncertainty(view.units, r),
        say(line.named),
        say(line.truth),
        say(line.healthy),
        off(line.named),
        off(line.truth),
    ];
    if line.used_as_evidence {
        ui.painter().rect_filled(rect, 3.0, theme.raised);
    }
    cells(ui, rect, &texts, BODY, theme.text);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, texts.join(", ")));
    if !line.note.is_empty() {
        small(ui, theme, &line.note);
    }
}

/// One belief as a bar with its name and share.
fn bar(ui: &mut Ui, view: &DeskView, d: &Debrief, belief: &Belief) {
    let theme = view.theme;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 20.0), Sense::hover());
    let true_one = match belief.hypothesis {
        crate::lesson::Hypothesis::Healthy => d.truth.is_empty(),
        crate::lesson::Hypothesis::Fault(id) => d.truth.iter().any(|f| f.id == id),
    };
    let name = belief.hypothesis.name();
    let share = format!("{:.0} %", belief.share * 100.0);
    let name_end = rect.left() + 0.32 * rect.width();
    let cell = Rect::from_min_max(rect.min, pos2(name_end, rect.bottom()));
    let text = if true_one { format!("{name} (true)") } else { name.to_owned() };
    write(ui, cell, Align::Min, &text, SMALL, theme.text);
    let track = Rect::from_min_max(
        pos2(name_end + 8.0, rect.top() + 4.0),
        pos2(rect.right() - 56.0, rect.bottom() - 4.0),
    );
    ui.painter().rect(track, 3.0, theme.ground, Stroke::new(1.0, theme.line), StrokeKind::Inside);
    let filled = Rect::from_min_size(
        track.min,
        vec2(track.width() * belief.share.clamp(0.0, 1.0) as f32, track.height()),
    );
    ui.painter().rect_filled(filled, 3.0, if true_one { theme.good } else { theme.muted });
    let cell = Rect::from_min_max(pos2(rect.right() - 50.0, rect.top()), rect.max);
    write(ui, cell, Align::Max, &share, SMALL, theme.text);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, format!("{text} {share}")));
}
