//! What an action means beyond the bench: whether the healthy twin feels it too, and what the strips say of it.

use crate::bench::Action;

/// Is a knob turned? The twin feels every knob.
pub fn drives(action: &Action) -> bool {
    matches!(action, Action::Set(_))
}

/// A few words on the strips for actions that change the course of things.
pub fn mark(action: &Action) -> Option<String> {
    let switch = |what: &str, on: bool| format!("{what} {}", if on { "on" } else { "off" });
    Some(match action {
        // What slides from value to value would crowd the strips.
        Action::Set(change) if change.number().is_none() => change.words(),
        Action::Hoses(on) => switch("hoses", *on),
        Action::Jumper(Some(relay)) => format!("jumper on {} relay", format!("{relay:?}").to_lowercase()),
        Action::Jumper(None) => "jumper off".into(),
        Action::JumperBetween(Some(_)) => "jumper on".into(),
        Action::JumperBetween(None) => "jumper off".into(),
        Action::Unplug(_, out) => if *out { "unplugged" } else { "plugged in" }.into(),
        Action::SwapRelays(..) => "relays swapped".into(),
        Action::RenewFuse(_) => "new fuse".into(),
        Action::Isolate(_, open) => if *open { "isolated" } else { "switched on" }.into(),
        Action::ImposeFault { .. } | Action::RampFault { .. } => "fault set".into(),
        Action::ClearFault { .. } => "fault cleared".into(),
        _ => return None,
    })
}
