//! Keyboard focus on a bare X display. Where a window manager runs, it decides who gets the keys; where none
//! does (a projector session, a virtual display) nobody would, and the desk takes the focus itself.

use bevy::prelude::*;
use bevy::window::{PrimaryWindow, RawHandleWrapper};
use raw_window_handle::RawWindowHandle;
use x11rb::connection::Connection;
use x11rb::protocol::xproto::{AtomEnum, ConnectionExt, InputFocus};

use super::frame::Desk;

/// Ask once, after the first frame, when the window is certainly on the display.
pub fn plugin(app: &mut App) {
    app.add_systems(Update, take_focus_where_nobody_manages_it);
}

fn take_focus_where_nobody_manages_it(
    desk: Res<Desk>,
    windows: Query<&RawHandleWrapper, With<PrimaryWindow>>,
    mut done: Local<bool>,
) {
    if *done || desk.shown.is_none() {
        return;
    }
    *done = true;
    let window = match windows.single().map(RawHandleWrapper::get_window_handle) {
        Ok(RawWindowHandle::Xlib(handle)) => u32::try_from(handle.window).ok(),
        Ok(RawWindowHandle::Xcb(handle)) => Some(handle.window.get()),
        _ => None,
    };
    if let Some(window) = window {
        // Without the focus the mouse still works, so a display that refuses is no reason to stop.
        drop(focus(window));
    }
}

fn focus(window: u32) -> Result<(), Box<dyn std::error::Error>> {
    let (display, screen) = x11rb::connect(None)?;
    let root = display.setup().roots[screen].root;
    let managed = display.intern_atom(false, b"_NET_SUPPORTING_WM_CHECK")?.reply()?.atom;
    let manager = display.get_property(false, root, managed, AtomEnum::WINDOW, 0, 1)?.reply()?;
    if manager.value_len == 0 {
        display.set_input_focus(InputFocus::POINTER_ROOT, window, x11rb::CURRENT_TIME)?.check()?;
    }
    Ok(())
}
