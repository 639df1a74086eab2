//! What hands ask for: straight out, or behind its caution right beside the thing that was touched.

use egui::{Area, Frame, Id, Key, Margin, Modifiers, Order, Rect, Stroke, Ui, vec2};

use super::Page;
use crate::bay::{BayAction, CentreEnd};
use crate::bench::{Action, BayFace};
use crate::desk::panels::cautious::cautions_of;
use crate::desk::panels::gate::gate_with;
use crate::desk::panels::parts::{body, button, capital, prepare};
use crate::desk::panels::{Draft, controls};
use crate::desk::theme::Theme;
use crate::desk::{Command, DeskView};
use crate::fault::RepairId;
use crate::knobs::Change;

/// Width of a caution [pt].
const WIDTH: f32 = 330.0;

/// The person at work: what they see, have begun, and ask for.
pub struct Hands<'a, 'v> {
    /// Everything to be seen.
    pub view: &'a DeskView<'v>,
    /// The bay.
    pub face: &'a BayFace,
    /// Choices on the page.
    pub page: &'a mut Page,
    /// Unfinished business.
    pub draft: &'a mut Draft,
    /// Wishes.
    pub out: &'a mut Vec<Command>,
}

impl Hands<'_, '_> {
    /// Do something, at a place of the page where its caution then stands.
    pub fn ask(&mut self, action: Action, at: Rect) {
        let behind = !cautions_of(self.view, &action).is_empty();
        self.draft.ask_behind(action, behind, self.out);
        self.page.anchor = Some(at);
    }
    /// The same for what is an act in the bay.
    pub fn bay(&mut self, act: BayAction, at: Rect) {
        self.ask(Action::Bay(act), at);
    }
    /// May this person look inside?
    pub fn sees_inside(&self) -> bool {
        self.face.ledger.is_some()
    }
}

/// The act that waits, with its cautions, beside where it was asked for.
pub fn waiting(ui: &Ui, hands: &mut Hands) {
    let Some(action) = hands.draft.pending.clone() else { return };
    if ui.input_mut(|i| i.consume_key(Modifiers::NONE, Key::Escape)) {
        hands.draft.pending = None;
        return;
    }
    // Asked for elsewhere: its caution stands there.
    let Some(anchor) = hands.page.anchor else { return };
    let theme = hands.view.theme;
    beside(ui, theme, anchor, "bay caution", |ui| {
        let bring_up = hands.draft.bring_up;
        let cautions = cautions_of(hands.view, &action);
        let confirm = confirm(hands, &action);
        gate_with(ui, theme, hands.draft, &action, &cautions, &confirm, hands.out);
        // The first pass only measures: what is not yet in sight cannot take the keyboard.
        hands.draft.bring_up |= bring_up && ui.is_sizing_pass();
    });
}

/// What the bench has to say (a refusal and its reason), beside what was touched.
pub fn answer(ui: &Ui, hands: &mut Hands) {
    let Some(text) = &hands.view.ui_state.notice else { return };
    if hands.draft.pending.is_some() {
        return;
    }
    let theme = hands.view.theme;
    let foot = Rect::from_center_size(ui.max_rect().center_bottom(), vec2(0.0, 0.0));
    let anchor = hands.page.anchor.unwrap_or(foot);
    beside(ui, theme, anchor, "bay answer", |ui| {
        body(ui, theme, text);
        if button(ui, theme, "OK", ui.available_width(), false).clicked() {
            hands.out.push(Command::DismissNotice);
        }
    });
}

/// A card below what was touched, or above it where there is more room; never over it.
fn beside(ui: &Ui, theme: &Theme, anchor: Rect, id: &str, inside: impl FnOnce(&mut Ui)) {
    let page = ui.max_rect();
    let below = anchor.center().y < page.center().y;
    let (pivot, foot) = if below {
        (egui::Align2::CENTER_TOP, anchor.center_bottom() + vec2(0.0, 6.0))
    } else {
        (egui::Align2::CENTER_BOTTOM, anchor.center_top() - vec2(0.0, 6.0))
    };
    let area =
        Area::new(Id::new(id)).order(Order::Foreground).pivot(pivot).fixed_pos(foot).constrain_to(page);
    area.show(ui.ctx(), |ui| {
        let frame = Frame::new()
            .fill(theme.panel)
            .stroke(Stroke::new(2.0, theme.chosen))
            .corner_radius(6)
            .inner_margin(Margin::same(8));
        frame.show(ui, |ui| {
            prepare(ui, theme);
            ui.set_width(WIDTH);
            inside(ui);
        });
    });
}

/// What the button behind the caution says.
fn confirm(hands: &Hands, action: &Action) -> String {
    let goggles = if hands.face.bay.protected { "" } else { " (no goggles on)" };
    match action {
        Action::Set(Change::EngineOn(_)) => controls::confirm(hands.view.snapshot.topology.drive).into(),
        Action::Repair(id) => format!("{}{goggles}", capital(repair_words(*id))),
        Action::Bay(act) => match act {
            BayAction::Fit { port: Some(_), .. } => format!("Fit it{goggles}"),
            BayAction::Fit { port: None, .. } => format!("Take it off{goggles}"),
            BayAction::Centre(CentreEnd::Nothing) => format!("Leave it open{goggles}"),
            BayAction::Centre(end) => format!("Screw it on the {}{goggles}", end.name()),
            BayAction::Loosen(_) => format!("Crack it open{goggles}"),
            BayAction::Identify => format!("Take the sample{goggles}"),
            BayAction::Oil { .. } => format!("Put the oil in{goggles}"),
            BayAction::DyeMl(_) => format!("Put the dye in{goggles}"),
            BayAction::NewPartOilMl(_) => format!("Drain it and fill it{goggles}"),
            BayAction::Pump(_) | BayAction::Machine(_) => "Switch it on".into(),
            BayAction::Valve { .. } => "Open it".into(),
            BayAction::Warm(_) => "Put it in the bath".into(),
            BayAction::Flame => "Use the torch".into(),
            BayAction::RegulatorBar(bar) => format!("Set it to {bar:.0} bar"),
            BayAction::FreshCan => format!("Change the can{goggles}"),
            BayAction::Station(_) => "Run the program now".into(),
            BayAction::CloseUp => "Close it up".into(),
            _ => "Do it".into(),
        },
        Action::ManifoldLowPct(_) | Action::ManifoldHighPct(_) => "Open it".into(),
        _ => "Do it".into(),
    }
}

/// A repair as it is done in the bay, where evacuating and charging are work of their own.
pub fn repair_words(id: RepairId) -> &'static str {
    id.info().words.trim_end_matches(", evacuate, charge by weight")
}
