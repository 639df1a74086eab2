//! The start screen: three doors, the way back, the scenarios by course unit, the files that are broken.

use egui::{Align, Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::parts::{BODY, SMALL, button, card, focus_ring, heading, prepare, small, write};
use super::{Door, Draft, Tab};
use crate::desk::kept::{Kept, MOST};
use crate::desk::{Case, Command, DeskView, Listed, Papers, Screen};
use crate::lesson::cautions::DISCLAIMER;
use crate::message::{PIECE, fit};
use crate::rig::Rig;
use crate::scenario::Mode;

/// Widest the list gets; longer lines are hard to read.
const WIDEST: f32 = 860.0;

/// The start screen.
pub fn start_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    let draft = &mut papers.draft;
    ScrollArea::vertical().id_salt("start").auto_shrink([false, false]).show(ui, |ui| {
        let side = ((ui.available_width() - WIDEST) / 2.0).max(12.0);
        ui.add_space(12.0);
        ui.horizontal_top(|ui| {
            ui.add_space(side);
            ui.vertical(|ui| {
                ui.set_width((ui.available_width() - side).min(WIDEST));
                doors(ui, view, draft, out);
                if view.snapshot.tick > 0 {
                    let text = format!("Go on where you left: {}", view.brief.title);
                    if button(ui, view.theme, &text, ui.available_width(), false).clicked() {
                        out.push(Command::Show(Screen::Bench));
                    }
                }
                kept(ui, view, draft, out);
                rigs(ui, view, out);
                list(ui, view, draft.door, out);
                broken(ui, view);
                heading(ui, view.theme, "What this is");
                small(ui, view.theme, DISCLAIMER);
            });
        });
    });
}

/// Scenarios that can be opened, in the order of the shelf.
fn whole<'a>(view: &'a DeskView) -> impl Iterator<Item = (&'a Listed, &'a Case)> {
    view.shelf.iter().filter_map(|listed| listed.case.as_ref().ok().map(|s| (listed, s)))
}

fn doors(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let doors = [
        ("Explore", "Everything open: turn the knobs, look inside, unfold the loop."),
        ("Practise", "A customer, a car, a hidden fault. Find it with tools."),
        ("Teach", "Put faults in, hide the inside, let the class find them."),
    ];
    let gap = 10.0;
    let (bar, _) = ui.allocate_exact_size(vec2(ui.available_width(), 92.0), Sense::hover());
    let width = (bar.width() - 2.0 * gap) / 3.0;
    for (i, (name, what)) in doors.into_iter().enumerate() {
        let rect =
            Rect::from_min_size(pos2(bar.left() + i as f32 * (width + gap), bar.top()), vec2(width, 92.0));
        let open = name == "Practise" && draft.door == Door::Practise;
        if !door(ui, view, rect, name, what, open).clicked() {
            continue;
        }
        match name {
            "Practise" => {
                draft.door = if draft.door == Door::Practise { Door::All } else { Door::Practise };
            }
            _ => {
                if let Some((listed, _)) = whole(view).find(|(_, s)| s.mode == Mode::Explore) {
                    draft.tab = if name == "Teach" { Tab::Faults } else { Tab::Values };
                    out.push(Command::OpenScenario(listed.key.clone()));
                }
            }
        }
    }
    ui.add_space(6.0);
}

fn door(ui: &mut Ui, view: &DeskView, rect: Rect, name: &str, what: &str, open: bool) -> egui::Response {
    let theme = view.theme;
    let response = ui.interact(rect, ui.id().with(name), Sense::click());
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, open, format!("{name}. {what}")));
    let edge = if open || response.hovered() {
        Stroke::new(2.0, theme.chosen)
    } else {
        Stroke::new(1.0, theme.line)
    };
    ui.painter().rect(rect, 6.0, theme.raised, edge, StrokeKind::Inside);
    let inner = rect.shrink(12.0);
    let title = Rect::from_min_size(inner.min, vec2(inner.width(), 24.0));
    write(ui, title, Align::Min, name, 18.0, theme.text);
    let text =
        ui.painter().layout(what.to_owned(), egui::FontId::proportional(BODY), theme.muted, inner.width());
    ui.painter().galley(pos2(inner.left(), title.bottom() + 4.0), text, theme.muted);
    focus_ring(ui, theme, &response);
    response
}

/// A card for each rig: explore it without a fault.
fn rigs(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let theme = view.theme;
    heading(ui, theme, "Explore a rig without a fault");
    let cards = rig_cards();
    let gap = 8.0;
    let (bar, _) = ui.allocate_exact_size(vec2(ui.available_width(), 62.0), Sense::hover());
    let width = (bar.width() - gap * (cards.len().max(1) - 1) as f32) / cards.len().max(1) as f32;
    for (n, (id, name, line)) in cards.iter().enumerate() {
        let left = bar.left() + n as f32 * (width + gap);
        let rect = Rect::from_min_size(pos2(left, bar.top()), vec2(width, bar.height()));
        if door(ui, view, rect, name, line, false).clicked() {
            out.push(Command::ExploreRig(id.clone()));
        }
    }
    // The same rigs with hoses, cylinders and machines round them.
    let (bar, _) = ui.allocate_exact_size(vec2(ui.available_width(), 28.0), Sense::hover());
    for (n, (id, name, _)) in cards.iter().enumerate() {
        let left = bar.left() + n as f32 * (width + gap);
        let rect = Rect::from_min_size(pos2(left, bar.top()), vec2(width, 26.0));
        let response = ui.interact(rect, ui.id().with(("in the bay", id)), Sense::click());
        let words = format!("{name}: in the service bay");
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &words));
        let edge = if response.hovered() { theme.chosen } else { theme.line };
        ui.painter().rect(rect, 4.0, theme.raised, Stroke::new(1.0, edge), StrokeKind::Inside);
        write(ui, rect.shrink2(vec2(4.0, 0.0)), Align::Center, "in the service bay", SMALL, theme.text);
        focus_ring(ui, theme, &response);
        if response.clicked() {
            out.push(Command::ExploreBay(id.clone()));
        }
    }
    ui.add_space(4.0);
}

/// Name of a rig for people.
pub fn rig_name(id: &str) -> String {
    let known = rig_cards().iter().find(|(rig, ..)| rig == id);
    known.map_or_else(|| super::words::rig(id), |(_, name, _)| name.clone())
}

/// Id, name and a line of the service label of every rig; read once.
fn rig_cards() -> &'static [(String, String, String)] {
    static CARDS: std::sync::OnceLock<Vec<(String, String, String)>> = std::sync::OnceLock::new();
    CARDS.get_or_init(|| {
        let card = |rig: &Rig| {
            let line = format!("{}, {:.0} g", rig.plant.refrigerant, rig.plant.full_charge_kg * 1e3);
            (rig.id.clone(), rig.name.clone(), line)
        };
        Rig::ids().filter_map(|id| Rig::shipped(id).ok()).map(card).collect()
    })
}

/// So many kept sessions are shown before somebody asks for all.
const FEW: usize = 3;

/// Work that was kept, newest first: what it was, how far it got, when.
fn kept(ui: &mut Ui, view: &DeskView, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    if view.kept.is_empty() {
        return;
    }
    heading(ui, theme, "Work that was kept");
    let shown = if draft.all_kept { view.kept.len() } else { FEW };
    for session in view.kept.iter().take(shown) {
        if kept_entry(ui, view, session).clicked() && session.progress.is_ok() {
            out.push(Command::TakeUp(session.path.clone()));
        }
    }
    if view.kept.len() > FEW {
        let text = if draft.all_kept {
            "Show only the newest".to_owned()
        } else {
            format!("Show all {}", view.kept.len())
        };
        if button(ui, theme, &text, 160.0, false).clicked() {
            draft.all_kept = !draft.all_kept;
        }
    }
    if draft.all_kept {
        let folder = view.kept[0].path.parent().map_or_else(String::new, |f| f.display().to_string());
        small(
            ui,
            theme,
            &format!(
                "The newest {MOST} sessions are kept in {folder}. When one more begins, the oldest goes."
            ),
        );
    }
}

fn kept_entry(ui: &mut Ui, view: &DeskView, session: &Kept) -> egui::Response {
    let state = if session.handed_in { "handed in" } else { "go on" };
    match &session.progress {
        Ok(progress) => two_lines(ui, view, &session.title, progress, &format!("{} · {state}", session.ago)),
        Err(why) => two_lines(ui, view, &session.title, why, &session.ago),
    }
}

fn list(ui: &mut Ui, view: &DeskView, door: Door, out: &mut Vec<Command>) {
    let theme = view.theme;
    let shown: Vec<_> = whole(view).filter(|(_, s)| door == Door::All || s.mode == Mode::Practice).collect();
    if shown.is_empty() {
        small(
            ui,
            theme,
            "No scenario here. Put scenario files in the folder scenarios, or open one by its path.",
        );
    }
    let mut units: Vec<&str> = Vec::new();
    for (_, case) in &shown {
        if !units.contains(&case.unit.as_str()) {
            units.push(&case.unit);
        }
    }
    for unit in units {
        heading(ui, theme, unit);
        for (listed, case) in shown.iter().filter(|(_, s)| s.unit == unit) {
            if entry(ui, view, case).clicked() {
                out.push(Command::OpenScenario(listed.key.clone()));
            }
        }
    }
}

fn entry(ui: &mut Ui, view: &DeskView, case: &Case) -> egui::Response {
    let mode = if case.mode == Mode::Explore { "explore" } else { "practise" };
    two_lines(ui, view, &case.title, &case.trains, &format!("{} · {mode}", rig_name(&case.rig)))
}

/// A row to click: a title with something on its right, and a line below it.
fn two_lines(ui: &mut Ui, view: &DeskView, title: &str, below: &str, right: &str) -> egui::Response {
    let theme = view.theme;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 44.0), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, format!("{title}. {below}")));
    let edge = if response.hovered() { theme.chosen } else { theme.line };
    ui.painter().rect(rect, 4.0, theme.raised, Stroke::new(1.0, edge), StrokeKind::Inside);
    let inner = rect.shrink2(vec2(10.0, 3.0));
    let upper = Rect::from_min_max(inner.min, pos2(inner.right(), inner.center().y));
    let lower = Rect::from_min_max(pos2(inner.left(), inner.center().y), inner.max);
    let right = write(ui, upper, Align::Max, right, SMALL, theme.muted);
    let left = Rect::from_min_max(upper.min, pos2(right.left() - 8.0, upper.bottom()));
    write(ui, left, Align::Min, title, BODY, theme.text);
    write(ui, lower, Align::Min, below, SMALL, theme.muted);
    focus_ring(ui, theme, &response);
    response
}

fn broken(ui: &mut Ui, view: &DeskView) {
    let theme = view.theme;
    let broken: Vec<_> =
        view.shelf.iter().filter_map(|l| l.case.as_ref().err().map(|why| (&l.key, why))).collect();
    if broken.is_empty() {
        return;
    }
    heading(ui, theme, "Files that cannot be opened");
    for (key, why) in broken {
        card(ui, theme, theme.high, |ui| {
            super::parts::body(ui, theme, &fit(key, PIECE));
            small(ui, theme, why);
        });
    }
}
