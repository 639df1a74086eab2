//! Suspect cards: one for each functional group, moved on by a click or by the keyboard.

use egui::{Align, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::parts::{BODY, SMALL, focus_ring, heading, write};
use super::words;
use crate::bench::{Action, Standing};
use crate::desk::{Command, DeskView};
use crate::fault::Group;

/// Height of a card [pt]; what belongs to its group is told when the mouse rests on it.
pub const CARD: f32 = 24.0;
/// Cards side by side.
const COLUMNS: usize = 2;

/// Height of all cards with their heading [pt].
pub fn height(view: &DeskView, gap: f32) -> f32 {
    let rows = words::groups(view).len().div_ceil(COLUMNS);
    rows as f32 * (CARD + gap) + 22.0
}

/// The cards of the groups that this rig has. Open, then suspected, then cleared, then open again.
pub fn suspects(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    heading(ui, view.theme, "Suspects: click to move a card on");
    for pair in words::groups(view).chunks(COLUMNS) {
        let (row, _) = ui.allocate_exact_size(vec2(ui.available_width(), CARD), Sense::hover());
        let width = (row.width() - 4.0) / COLUMNS as f32;
        for (n, &group) in pair.iter().enumerate() {
            let left = row.left() + n as f32 * (width + 4.0);
            let rect = Rect::from_min_size(pos2(left, row.top()), vec2(width, CARD));
            let standing = standing_of(view, group);
            if card(ui, view, group, standing, rect).clicked() {
                out.push(Command::Act(Action::Suspect { group, standing: next(standing) }));
            }
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

fn card(ui: &Ui, view: &DeskView, group: Group, standing: Standing, rect: Rect) -> egui::Response {
    let theme = view.theme;
    let (sign, state, color) = match standing {
        Standing::Open => ("–", "not looked at", theme.muted),
        Standing::Suspected => ("?", "suspected", theme.high),
        Standing::Cleared => ("✔", "cleared", theme.good),
    };
    let response = ui.interact(rect, ui.id().with(("suspect", group.name())), Sense::click());
    response.widget_info(|| {
        WidgetInfo::labeled(WidgetType::Button, ui.is_enabled(), format!("{}, {state}", group.name()))
    });
    let marked = standing != Standing::Open;
    let edge = if marked {
        color
    } else if response.hovered() {
        theme.muted
    } else {
        theme.line
    };
    ui.painter().rect(rect, 4.0, theme.raised, Stroke::new(1.0, edge), StrokeKind::Inside);
    let inner = rect.shrink2(vec2(6.0, 1.0));
    let state_rect = write(ui, inner, Align::Max, sign, BODY, color);
    let room = Rect::from_min_max(inner.min, pos2(state_rect.left() - 3.0, inner.bottom()));
    let ink = if standing == Standing::Cleared { theme.muted } else { theme.text };
    write(ui, room, Align::Min, group.name(), SMALL, ink);
    focus_ring(ui, theme, &response);
    response.on_hover_text(format!("{}: {}. Now {state}.", group.name(), words::parts_of(group)))
}
