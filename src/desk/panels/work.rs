//! The right panel: work order, the five steps, notebook and suspects; in Explore the instructor's faults,
//! true values and notebook instead.

use egui::{
    Align, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2,
};

use super::diagnose::diagnose;
use super::instructor::faults;
use super::notebook::notebook;
use super::parts::{self, BODY, SMALL, button, heading, prepare, small, write};
use super::repairs::repairs;
use super::suspects::{height, suspects};
use super::truth::values;
use super::{Draft, Tab};
use crate::bench::{Action, Standing};
use crate::desk::{Command, DeskView, Papers, Screen};
use crate::scenario::Mode;
use crate::units::Kelvin;

/// The five steps of a structured search, and what each asks for.
const STEPS: [(&str, &str); 5] = [
    ("describe", "Say what is wrong and when. Write it as a remark."),
    ("suspect", "Which groups could cause that? Move their cards."),
    ("test", "Say what you expect, then read. Clear what does not fit."),
    ("repair", "The cause is named. Carry out what cures it."),
    ("confirm", "Run it again and compare with before."),
];

/// Height of the buttons under everything [pt].
const FOOT: f32 = 36.0;
/// Most of the panel's height a work order may take; a longer one scrolls.
const ORDER_SHARE: f32 = 0.27;

/// Index of the step after the cause is named.
const REPAIR: usize = 3;

/// The right panel of the bench.
pub fn work_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let draft = &mut papers.draft;
    order(ui, view);
    if view.brief.mode == Mode::Explore {
        explore(ui, view, draft, out);
    } else if draft.form_open {
        diagnose(ui, view, draft, out);
    } else if draft.repairing {
        repairs(ui, view, draft, out);
    } else {
        // The way to the diagnosis keeps its place at the foot, however much is written above it.
        let room = ui.available_height() - FOOT;
        ScrollArea::vertical().id_salt("practise").max_height(room).auto_shrink(false).show(ui, |ui| {
            practise(ui, view, draft, room, out);
        });
        foot(ui, view, draft, out);
    }
}

fn order(ui: &mut Ui, view: &DeskView) {
    let theme = view.theme;
    heading(ui, theme, "Work order");
    let words = view.brief.work_order.trim();
    // A work order is quoted once, whether or not its author wrote the marks.
    let words = words.strip_prefix('"').and_then(|w| w.strip_suffix('"')).unwrap_or(words);
    let quoted = if words.contains('"') { words.to_owned() } else { format!("“{words}”") };
    let most = ui.available_height() * ORDER_SHARE;
    ScrollArea::vertical().id_salt("order").max_height(most).auto_shrink([false, true]).show(ui, |ui| {
        ui.label(RichText::new(quoted).size(BODY).color(theme.text));
    });
    let c = &view.brief.start;
    let air = view.units.temperature_value(Kelvin::from_c(c.ambient_c));
    let text = format!(
        "{} · {air:.0} {}, {:.0} % humidity",
        super::start::rig_name(&view.brief.rig),
        view.units.temperature_unit(),
        c.relative_humidity_pct
    );
    small(ui, theme, &text);
}

/// Steps, notebook and cards in so much height; a long hint makes it scroll.
fn practise(ui: &mut Ui, view: &DeskView, draft: &mut Draft, room: f32, out: &mut Vec<Command>) {
    let now = step(view);
    steps(ui, view, now);
    small(ui, view.theme, STEPS[now].1);
    hints(ui, view, out);
    // Cards and the entry keep their place; the notebook takes the rest.
    let gap = ui.spacing().item_spacing.y;
    let left = room - ui.min_rect().height() - 30.0 - 24.0;
    notebook(ui, view, draft, (left - height(view, gap)).max(72.0), out);
    suspects(ui, view, out);
}

/// The way to the diagnosis, to the repairs, and to the debrief once a cause is handed in.
fn foot(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        let handed_in = step(view) >= REPAIR;
        let gap = ui.spacing().item_spacing.x;
        let side = 78.0;
        if handed_in && button(ui, view.theme, "Debrief", side, true).clicked() {
            out.push(Command::Show(Screen::Debrief));
        }
        let width = ui.available_width() - side - gap;
        if button(ui, view.theme, "Name the cause", width, !handed_in).clicked() {
            draft.form_open = true;
            draft.lacks = None;
        }
        if button(ui, view.theme, "Repair", side, false).clicked() {
            draft.repairing = true;
            draft.find.clear();
        }
    });
}

/// The last hint taken, and the way to the next; taking one is on the record.
fn hints(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let hints = &view.brief.hints;
    let taken = hints.taken.len();
    if let Some(hint) = hints.taken.last() {
        small(ui, view.theme, &format!("Hint {taken}: {hint}"));
    }
    if hints.left > 0 {
        let text = format!("Take hint {} of {}", taken + 1, taken + hints.left);
        if button(ui, view.theme, &text, ui.available_width(), false).clicked() {
            out.push(Command::Act(Action::Hint));
        }
    }
}

/// Which step the learner is at, from what was done.
pub(super) fn step(view: &DeskView) -> usize {
    if view.log.handed_in {
        return if view.log.repaired { REPAIR + 1 } else { REPAIR };
    }
    if view.snapshot.instruments.suspects.iter().any(|(_, s)| *s != Standing::Open) {
        return 2;
    }
    usize::from(view.log.begun)
}

fn steps(ui: &mut Ui, view: &DeskView, now: usize) {
    let theme = view.theme;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 26.0), Sense::hover());
    response.widget_info(|| {
        WidgetInfo::labeled(WidgetType::Label, true, format!("Step {} of 5: {}", now + 1, STEPS[now].0))
    });
    let width = (rect.width() - 4.0 * 4.0) / 5.0;
    for (i, (name, _)) in STEPS.iter().enumerate() {
        let cell =
            Rect::from_min_size(pos2(rect.left() + i as f32 * (width + 4.0), rect.top()), vec2(width, 26.0));
        let edge = if i == now { Stroke::new(2.0, theme.chosen) } else { Stroke::new(1.0, theme.line) };
        ui.painter().rect(cell, 4.0, theme.raised, edge, StrokeKind::Inside);
        let ink = if i <= now { theme.text } else { theme.muted };
        write(ui, cell.shrink2(vec2(2.0, 0.0)), Align::Center, name, SMALL, ink);
    }
}

fn explore(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    let pages = [(Tab::Faults, "Faults"), (Tab::Values, "True values"), (Tab::Notebook, "Notebook")];
    ui.add_space(4.0);
    let (bar, _) = ui.allocate_exact_size(vec2(ui.available_width(), 28.0), Sense::hover());
    let width = (bar.width() - 8.0) / 3.0;
    for (i, (tab, name)) in pages.into_iter().enumerate() {
        let cell =
            Rect::from_min_size(pos2(bar.left() + i as f32 * (width + 4.0), bar.top()), vec2(width, 28.0));
        if parts::tab(ui, theme, cell, name, (name, &format!("Page: {name}")), draft.tab == tab) {
            draft.tab = tab;
        }
    }
    match draft.tab {
        Tab::Faults => {
            if let Some(instructor) = view.instructor {
                faults(ui, view, instructor, draft, out);
            }
        }
        Tab::Values => values(ui, view),
        Tab::Notebook => {
            let height = (ui.available_height() - 70.0).max(72.0);
            notebook(ui, view, draft, height, out);
        }
    }
}
