//! What bare hands do at the wiring: isolate, prove dead, pull plugs, swap relays, renew fuses.

use egui::Ui;

use super::page::Page;
use crate::bench::Action;
use crate::circuit::Guard;
use crate::desk::panels::Draft;
use crate::desk::panels::parts::{body, choice, heading, toggle};
use crate::desk::{Command, DeskView};

/// Everything that can be done here.
pub fn hands(ui: &mut Ui, view: &DeskView, page: &mut Page, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    let faces = &view.snapshot.instruments.electrical;
    for &guard in &faces.guards {
        let name = match guard {
            Guard::Traction => "traction voltage",
            Guard::Mains | Guard::None => "mains",
        };
        let isolated = faces.done.isolated.contains(&guard);
        if toggle(ui, theme, &format!("Isolate {name} and lock"), isolated).clicked() {
            draft.ask(Action::Isolate(guard, !isolated), out);
        }
        let proved = if faces.meter_proven { "proved" } else { "not proved" };
        if choice(ui, theme, "Prove the meter on a known source", proved, false).clicked() {
            out.push(Command::Act(Action::ProveMeter));
        }
        let dead = if faces.done.proven_dead.contains(&guard) { "proved dead" } else { "not proved" };
        if choice(ui, theme, &format!("Prove {name} dead"), dead, false).clicked() {
            draft.ask(Action::ProveDead(guard), out);
        }
    }
    for act in faces.done.unsafe_acts.iter().rev().take(1) {
        body(ui, theme, &format!("Stopped: {}", act.kind.words()));
    }
    heading(ui, theme, "Plugs");
    for plug in &faces.connectors {
        let out_now = faces.done.unplugged.contains(plug);
        let name = plug.replace('_', " ");
        if choice(ui, theme, &name, if out_now { "unplugged" } else { "" }, out_now).clicked() {
            draft.ask(Action::Unplug(plug.clone(), !out_now), out);
        }
    }
    if faces.relays.len() > 1 {
        heading(ui, theme, "Swap two relays: choose one, then the other");
        for relay in &faces.relays {
            let swapped = faces.done.swapped.iter().any(|(a, b)| a == relay || b == relay);
            let first = page.relay.as_ref() == Some(relay);
            let name = relay.replace('_', " ");
            if choice(ui, theme, &name, if swapped { "swapped" } else { "" }, first).clicked() {
                match page.relay.take() {
                    Some(other) if other != *relay => {
                        draft.ask(Action::SwapRelays(other, relay.clone()), out);
                    }
                    Some(_) => {}
                    None => page.relay = Some(relay.clone()),
                }
            }
        }
    }
    heading(ui, theme, "Put in a new fuse");
    for (id, name) in &faces.fuses {
        if ui.push_id(id, |ui| choice(ui, theme, name, "", false)).inner.clicked() {
            draft.ask(Action::RenewFuse(id.clone()), out);
        }
    }
}
