//! The Bevy shell.
