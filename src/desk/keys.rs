//! Shortcuts. They rest while somebody types; Space and Enter belong to whatever has the keyboard.

use egui::{Context, Key, Modifiers};

use super::panels::Draft;
use super::{Command, DeskView, Screen};

/// Key, what it does in words, and the wish; for the keys that work on the bench.
pub fn sheet() -> Vec<(Key, &'static str, Command)> {
    vec![
        (Key::Space, "pause or go on", Command::TogglePause),
        (Key::Num1, "real time", Command::Speed(1)),
        (Key::Num2, "2 times real time", Command::Speed(2)),
        (Key::Num5, "5 times real time", Command::Speed(5)),
        (Key::Num0, "20 times real time", Command::Speed(20)),
        (Key::Period, "one tick, then pause", Command::SingleTick),
        (Key::U, "unfold the loop into the p-h chart, or fold it back", Command::ToggleUnfold),
        (Key::I, "show or hide the inside", Command::ToggleInside),
        (Key::G, "the rig: label, places, wiring, blocks; and back", Command::ToggleRig),
        (Key::B, "the service bay, and back", Command::ToggleBay),
        (Key::N, "next units", Command::NextUnits),
        (Key::T, "light or dark", Command::ToggleTheme),
        (Key::R, "start the scenario again", Command::Restart),
        (Key::M, "less movement, or all of it", Command::ToggleReducedMotion),
    ]
}

/// Turn keys of this frame into wishes.
pub fn keys(ctx: &Context, view: &DeskView, out: &mut Vec<Command>) {
    let ctrl_q = ctx.input_mut(|i| i.consume_key(Modifiers::COMMAND, Key::Q));
    if ctrl_q {
        out.push(Command::Quit);
    }
    if ctx.input(|i| i.key_pressed(Key::F1)) {
        out.push(Command::ToggleHelp);
    }
    if ctx.text_edit_focused() {
        return;
    }
    let focused = ctx.memory(|m| m.focused().is_some());
    if ctx.input(|i| i.key_pressed(Key::Escape)) {
        out.extend(escape(ctx, view));
    }
    for (key, _, command) in sheet() {
        let on_bench = view.ui_state.screen == Screen::Bench;
        let on_rig = matches!(view.ui_state.screen, Screen::Rig | Screen::Bay)
            && !matches!(command, Command::ToggleUnfold | Command::Restart | Command::ToggleReducedMotion);
        // Without a bay in the scenario there is no such page.
        if command == Command::ToggleBay && view.snapshot.bay.is_none() {
            continue;
        }
        let anywhere = matches!(command, Command::NextUnits | Command::ToggleTheme);
        let pressed = ctx.input(|i| {
            i.events.iter().any(|event| {
                matches!(event, egui::Event::Key { key: k, pressed: true, repeat: false, modifiers, .. }
                    if *k == key && !modifiers.ctrl && !modifiers.alt && !modifiers.command)
            })
        });
        if pressed && (on_bench || on_rig || anywhere) && !(focused && key == Key::Space) {
            out.push(command);
        }
    }
}

/// Escape puts away one thing after the other: sheet, notice, tool, page. What waits behind a caution in the bay puts
/// itself away.
fn escape(ctx: &Context, view: &DeskView) -> Option<Command> {
    let state = view.ui_state;
    if state.help {
        Some(Command::ToggleHelp)
    } else if state.notice.is_some() {
        Some(Command::DismissNotice)
    } else if state.tool.is_some() {
        Some(Command::ChooseTool(None))
    } else if state.screen == Screen::Rig {
        Some(Command::ToggleRig)
    } else if state.screen == Screen::Bay && !Draft::waits(ctx) {
        Some(Command::ToggleBay)
    } else {
        None
    }
}
