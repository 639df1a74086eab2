//! Shortcuts. They rest while somebody types; Space and Enter belong to whatever has the keyboard.

use egui::{Context, Key, Modifiers};

use super::pages;
use super::papers::Papers;
use super::{Command, DeskView, Screen};

/// A key that works on the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct Shortcut {
    /// The key.
    pub key: Key,
    /// What is printed on it.
    pub name: &'static str,
    /// What it does, in words.
    pub words: &'static str,
    /// The wish.
    pub wish: Command,
}

/// All of them, in the order of the help sheet.
pub fn sheet() -> Vec<Shortcut> {
    let row = |key, name, words, wish| Shortcut { key, name, words, wish };
    let mut sheet = vec![
        row(Key::Space, "Space", "pause, go on", Command::TogglePause),
        row(Key::Num1, "1", "real time", Command::Speed(1)),
        row(Key::Num2, "2", "2 times as fast", Command::Speed(2)),
        row(Key::Num5, "5", "5 times as fast", Command::Speed(5)),
        row(Key::Num0, "0", "20 times as fast", Command::Speed(20)),
        row(Key::Period, ".", "one tick, then pause", Command::SingleTick),
        row(Key::R, "R", "start again", Command::Restart),
        row(Key::U, "U", "unfold to the p-h chart, fold back", Command::ToggleUnfold),
        row(Key::I, "I", "show or hide the inside", Command::ToggleInside),
    ];
    sheet.extend(
        pages::ways().map(|(screen, way)| row(way.key, way.key.name(), way.words, Command::Toggle(screen))),
    );
    sheet.extend([
        row(Key::N, "N", "next units", Command::NextUnits),
        row(Key::T, "T", "dark or light", Command::ToggleTheme),
        row(Key::M, "M", "less movement, or all of it", Command::ToggleReducedMotion),
    ]);
    sheet
}

/// Turn keys of this frame into wishes.
pub fn keys(ctx: &Context, view: &DeskView, papers: &Papers, out: &mut Vec<Command>) {
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
        out.extend(escape(view, papers));
    }
    for Shortcut { key, wish, .. } in sheet() {
        let pressed = ctx.input(|i| {
            i.events.iter().any(|event| {
                matches!(event, egui::Event::Key { key: k, pressed: true, repeat: false, modifiers, .. }
                    if *k == key && !modifiers.ctrl && !modifiers.alt && !modifiers.command)
            })
        });
        if pressed && works(&wish, view) && !(focused && key == Key::Space) {
            out.push(wish);
        }
    }
}

/// Does a wish make sense on the page that is shown?
fn works(wish: &Command, view: &DeskView) -> bool {
    let screen = view.ui_state.screen;
    match wish {
        Command::NextUnits | Command::ToggleTheme => true,
        // Without a bay in the scenario there is no such page.
        Command::Toggle(to) if to.needs_bay() && view.snapshot.bay.is_none() => false,
        Command::ToggleUnfold | Command::Restart | Command::ToggleReducedMotion => screen == Screen::Bench,
        _ => screen.runs(),
    }
}

/// Escape puts away one thing after the other: sheet, notice, tool, page. What waits behind a caution in the bay puts
/// itself away.
fn escape(view: &DeskView, papers: &Papers) -> Option<Command> {
    let state = view.ui_state;
    let screen = state.screen;
    if state.help {
        Some(Command::ToggleHelp)
    } else if state.notice.is_some() {
        Some(Command::DismissNotice)
    } else if state.tool.is_some() {
        Some(Command::ChooseTool(None))
    } else if screen == Screen::Bay && papers.draft.pending.is_some() {
        None
    } else {
        pages::page(screen).way.map(|_| Command::Toggle(screen))
    }
}
