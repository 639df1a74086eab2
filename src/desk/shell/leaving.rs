//! Leaving in order: Ctrl+Q, the close button and the signals that ask a program to end all go one way, so that the journal of
//! the session gets its end.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use bevy::app::AppExit;
use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardFocusLost, KeyboardInput};
use bevy::prelude::*;
use bevy::window::WindowCloseRequested;
use signal_hook::consts::{SIGINT, SIGTERM};
use signal_hook::flag;

use super::frame::{Desk, frame};
use crate::desk::Command;

/// Somebody asked the process to end. The window wakes often enough to see it soon.
#[derive(Resource, Default)]
struct Asked(Arc<AtomicBool>);

/// What asks for it: interrupt, termination, and where there is one the end of a terminal.
const SIGNALS: &[i32] = &[
    SIGINT,
    SIGTERM,
    #[cfg(unix)]
    signal_hook::consts::SIGHUP,
];

/// Leave before anything else is done in a frame.
pub fn plugin(app: &mut App) {
    app.init_resource::<Asked>()
        .add_systems(Startup, listen)
        .add_systems(Update, (quit_on_keys, quit_when_asked).before(frame));
}

/// Hear of signals.
fn listen(asked: Res<Asked>) {
    for &signal in SIGNALS {
        if let Err(error) = flag::register(signal, Arc::clone(&asked.0)) {
            warn!("signal {signal} is not heard ({error}); the session is kept all the same");
        }
    }
}

fn quit_when_asked(
    mut closing: MessageReader<WindowCloseRequested>,
    asked: Res<Asked>,
    mut desk: ResMut<Desk>,
    mut exit: MessageWriter<AppExit>,
) {
    if closing.read().count() > 0 || asked.0.load(Ordering::Relaxed) {
        desk.session.command(Command::Quit);
        exit.write(AppExit::Success);
    }
}

/// Ctrl+Q. Keys are read in their order: in a slow frame the whole of it may come at once, and what asks for the state
/// of Ctrl at the frame's end finds it let go.
fn quit_on_keys(
    mut keys: MessageReader<KeyboardInput>,
    mut lost: MessageReader<KeyboardFocusLost>,
    mut desk: ResMut<Desk>,
    mut exit: MessageWriter<AppExit>,
    mut held: Local<bool>,
) {
    if lost.read().count() > 0 {
        *held = false;
    }
    for key in keys.read() {
        let pressed = key.state == ButtonState::Pressed;
        match &key.logical_key {
            Key::Super | Key::Meta if cfg!(target_os = "macos") => *held = pressed,
            Key::Control if !cfg!(target_os = "macos") => *held = pressed,
            Key::Character(letter) if letter.eq_ignore_ascii_case("q") && pressed && *held => {
                desk.session.command(Command::Quit);
                exit.write(AppExit::Success);
                return;
            }
            _ => {}
        }
    }
}
