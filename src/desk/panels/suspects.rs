//! Suspect cards: one for each functional group, moved on by a click or by the keyboard.

use egui::{Align, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::parts::{BODY, SMALL, focus_ring, heading, write};
use super::words;
use crate::bench::{Action, Standing};
use crate::desk::{Command, DeskView};
use crate::fault::Group;

/// Height of a card that names its parts [pt].
pub const TALL: f32 = 35.0;
/// Height of a card without them, for want of room; they are told when the mouse rests on it [pt].
pub const LOW: f32 = 22.0;

/// All cards of a height. Open, then suspected, then cleared, then open again.
pub fn suspects(ui: &mut Ui, view: &DeskView, height: f32, out: &mut Vec<Command>) {
    heading(ui, view.theme, "Suspects: click to move a card on");
    for group in Group::ALL {
        let standing = standing_of(view, group);
        if card(ui, view, group, standing, height).clicked() {
            out.push(Command::Act(Action::Suspect { group, standing: next(standing) }));
        }
    }
}

/// Where a group stands now.
pub fn standing_of(view: &DeskView, group: Group) -> Standing {
    let cards = &view.snapshot.instruments.suspects;
    cards.iter().find(|(g, _)| *g == group).map_or(Standing::Open, |(_, s)| *s)
}

fn next(standing: Standing) -> Standing {
    match standing {
        Standing::Open => Standing::Suspected,
        Standing::Suspected => Standing::Cleared,
        Standing::Cleared => Standing::Open,
    }
}

fn card(ui: &mut Ui, view: &DeskView, group: Group, standing: Standing, height: f32) -> egui::Response {
    let theme = view.theme;
    let (state, color) = match standing {
        Standing::Open => ("not looked at", theme.muted),
        Standing::Suspected => ("suspected", theme.high),
        Standing::Cleared => ("✔ cleared", theme.good),
    };
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::click());
    response.widget_info(|| {
        WidgetInfo::labeled(WidgetType::Button, ui.is_enabled(), format!("{}, {state}", group.name()))
    });
    let edge = if response.hovered() { theme.muted } else { theme.line };
    ui.painter().rect(rect, 4.0, theme.raised, Stroke::new(1.0, edge), StrokeKind::Inside);
    let inner = rect.shrink2(vec2(8.0, 1.0));
    let tall = height >= TALL;
    let upper = if tall { pos2(inner.right(), inner.center().y + 1.0) } else { inner.max };
    let upper = Rect::from_min_max(inner.min, upper);
    let state = write(ui, upper, Align::Max, state, SMALL, color);
    let room = Rect::from_min_max(upper.min, pos2(state.left() - 6.0, upper.bottom()));
    write(ui, room, Align::Min, group.name(), BODY, theme.text);
    focus_ring(ui, theme, &response);
    if !tall {
        return response.on_hover_text(words::parts_of(group));
    }
    let lower = Rect::from_min_max(pos2(inner.left(), inner.center().y), inner.max);
    write(ui, lower, Align::Min, words::parts_of(group), SMALL, theme.muted);
    response
}
