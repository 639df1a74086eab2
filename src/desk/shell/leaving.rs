//! Leaving in order: Ctrl+Q, the close button and the signals that ask a program to end all go one way, so that the journal of
//! the session gets its end.

use bevy::app::AppExit;
use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyboardFocusLost, KeyboardInput};
use bevy::prelude::*;
use bevy::window::WindowCloseRequested;

use super::frame::{Desk, frame};
use crate::desk::Command;
use crate::stop::Stop;

/// Signals. The window wakes often enough to see one soon.
#[derive(Resource)]
struct Signals(Stop);

/// Leave before anything else is done in a frame.
pub fn plugin(app: &mut App) {
    app.insert_resource(Signals(Stop::listen()))
        .add_systems(Update, (quit_on_keys, quit_when_asked).before(frame));
}

fn quit_when_asked(
    mut closing: MessageReader<WindowCloseRequested>,
    signals: Res<Signals>,
    mut desk: ResMut<Desk>,
    mut exit: MessageWriter<AppExit>,
) {
    if closing.read().count() > 0 || signals.0.came().is_some() {
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
