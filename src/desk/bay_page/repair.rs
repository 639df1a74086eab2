//! Repairs that open the loop: what comes out, how much oil goes back, and closing up.

use egui::{Ui, vec2};

use super::hands::{Hands, repair_words};
use super::knobs::stepper;
use crate::bay::oil_balance::oil_ml;
use crate::bay::{BayAction, Opened};
use crate::bench::{Action, TICK_S};
use crate::desk::panels::parts::{body, button, capital, card, choice, entry, heading, row, small};
use crate::desk::panels::repairs::facts;
use crate::desk::panels::words::clock;
use crate::fault::RepairId;

/// The page.
pub fn repair(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    match hands.face.bay.opened {
        Some(opened) => open(ui, hands, &opened),
        None => closed(ui, hands),
    }
    let done = &hands.view.snapshot.instruments.repairs;
    if !done.is_empty() {
        heading(ui, theme, "Work done");
        for (tick, repair) in done {
            let at = clock(*tick as f64 * TICK_S);
            small(ui, theme, &format!("{at}  {}", capital(repair_words(*repair))));
        }
    }
}

/// Which repair.
fn closed(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    heading(ui, theme, "Open the loop for a repair");
    small(
        ui,
        theme,
        "Recover first. The part is swapped and the loop stays open to the air until you close it up; oil, vacuum and charge are then your work.",
    );
    let width = ui.available_width();
    entry(
        ui,
        theme,
        "Find a repair that opens the loop",
        "Find: letters of its name",
        &mut hands.draft.find,
        width,
    );
    let typed = hands.draft.find.to_lowercase();
    let near = |id: &RepairId| id.info().words.to_lowercase().contains(typed.trim());
    let opens =
        RepairId::ALL.into_iter().filter(|id| id.info().deed.recharges() && id.applies_to(hands.view.rig));
    for id in opens.filter(near).collect::<Vec<_>>() {
        // Charging by weight and topping up are done by hand here.
        if matches!(id, RepairId::TopUp | RepairId::RechargeByWeight) {
            continue;
        }
        let chosen = hands.draft.repair == Some(id);
        if choice(ui, theme, &capital(repair_words(id)), "", chosen).clicked() {
            hands.draft.repair = (!chosen).then_some(id);
        }
        if chosen {
            details(ui, hands, id);
        }
    }
}

/// Time, cost and what to mind, before the button.
fn details(ui: &mut Ui, hands: &mut Hands, id: RepairId) {
    let (theme, info) = (hands.view.theme, id.info());
    card(ui, theme, theme.line, |ui| {
        facts(ui, theme, info);
        let response = button(ui, theme, "Open the loop and swap it", ui.available_width(), true);
        if response.clicked() {
            hands.ask(Action::Repair(id), response.rect);
        }
    });
}

/// The loop stands open.
fn open(ui: &mut Ui, hands: &mut Hands, opened: &Opened) {
    let theme = hands.view.theme;
    let minutes = (hands.view.snapshot.tick.saturating_sub(opened.tick)) as f64 * TICK_S / 60.0;
    heading(ui, theme, "The loop is open");
    card(ui, theme, theme.chosen, |ui| {
        body(
            ui,
            theme,
            &format!(
                "{}: the joint has stood open for {minutes:.0} min.",
                capital(repair_words(opened.repair))
            ),
        );
        small(ui, theme, "Moist air goes in as long as it stays open, and the drier takes up its water.");
    });
    row(ui, theme, "Oil that came out with the old part", &format!("{:.0} mL", oil_ml(opened.taken.oil_kg)));
    row(ui, theme, "Oil in the new part as it lies there", &format!("{:.0} mL", oil_ml(opened.new_oil_kg)));
    heading(ui, theme, "Oil for the new part");
    small(
        ui,
        theme,
        "As much as came out. Compressor: as drained; if little drains, about 60 mL; drain a prefilled one first. Condenser: 30 to 45 mL.",
    );
    let want = hands.page.part_oil_ml;
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 26.0), egui::Sense::hover());
    if let Some(new) =
        stepper(ui, theme, rect, "oil in the new part", &format!("{want:.0} mL"), want, 0.0..=300.0, 5.0)
    {
        hands.page.part_oil_ml = new;
    }
    let width = ui.available_width();
    let drain = button(ui, theme, "Drain it and put this much in", width, false);
    if drain.clicked() {
        let ml = hands.page.part_oil_ml;
        hands.bay(BayAction::NewPartOilMl(ml), drain.rect);
    }
    let close = button(ui, theme, "Close up with new seals", width, true);
    if close.clicked() {
        hands.bay(BayAction::CloseUp, close.rect);
    }
}
