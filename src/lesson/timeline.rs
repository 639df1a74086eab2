//! What was done, in words.

use crate::bench::{Action, Relay, Standing, TICK_S};
use crate::circuit::Guard;

/// A name of the files as words.
fn spaced(name: &str) -> String {
    name.replace('_', " ")
}

fn guard_words(guard: Guard) -> &'static str {
    match guard {
        Guard::None => "nothing",
        Guard::Traction => "traction voltage",
        Guard::Mains => "mains",
    }
}

fn relay_words(relay: Relay) -> &'static str {
    match relay {
        Relay::Clutch => "clutch relay",
        Relay::Fan => "fan relay",
    }
}

/// What was done, in words; none for what is not worth a line.
pub fn words(action: &Action) -> Option<String> {
    let on = |v: bool| if v { "on" } else { "off" };
    Some(match action {
        Action::Set(change) => change.words(),
        Action::Hoses(true) => "fitted the hoses".into(),
        Action::Hoses(false) => "took the hoses off".into(),
        Action::ManifoldLowPct(v) => format!("low hand valve {v:.0} % open"),
        Action::ManifoldHighPct(v) => format!("high hand valve {v:.0} % open"),
        Action::Jumper(Some(r)) => format!("jumper lead across the {}", relay_words(*r)),
        Action::Jumper(None) => "jumper lead taken away".into(),
        Action::JumperBetween(Some((a, b))) => format!("jumper lead from {} to {}", spaced(a), spaced(b)),
        Action::JumperBetween(None) => "jumper lead taken away".into(),
        Action::Remove(_) | Action::MeterRange(_) => return None,
        Action::MeterRelative(v) => format!("relative key of the meter {}", on(*v)),
        Action::ClampZero => "zeroed the clamp ammeter".into(),
        Action::Reader(true) => "plugged the reader in".into(),
        Action::Reader(false) => "took the reader out".into(),
        Action::ClearCodes => "cleared the codes".into(),
        Action::Unplug(plug, true) => format!("unplugged {}", spaced(plug)),
        Action::Unplug(plug, false) => format!("plugged {} in", spaced(plug)),
        Action::SwapRelays(a, b) => format!("swapped {} and {}", spaced(a), spaced(b)),
        Action::RenewFuse(fuse) => format!("new fuse: {}", spaced(fuse)),
        Action::Isolate(guard, true) => format!("isolated {}", guard_words(*guard)),
        Action::Isolate(guard, false) => format!("{} back on", guard_words(*guard)),
        Action::ProveMeter => "tried the meter on a known source".into(),
        Action::ProveDead(guard) => format!("measured whether {} is dead", guard_words(*guard)),
        Action::Stopped(action) => {
            let what = match &**action {
                Action::Place(probe) => Some(probe.name()),
                Action::Stopped(_) => None,
                other => words(other),
            };
            format!("STOPPED: {}", what.unwrap_or_else(|| "an unsafe act".into()))
        }
        Action::ImposeFault { id, severity } => format!("instructor: {} at {severity}", id.info().name),
        Action::ImposeIntermittent { id, severity, recurs } => {
            format!("instructor: {} at {severity} comes and goes: {}", id.info().name, recurs.words())
        }
        Action::RampFault { id, severity, over_s } => {
            format!("instructor: {} growing to {severity} over {over_s:.0} s", id.info().name)
        }
        Action::ClearFault { id } => format!("instructor: {} cleared", id.info().name),
        Action::Repair(id) => format!("repair: {}", id.info().words),
        Action::Bay(act) => return act.words(),
        Action::Place(_) => return None,
        Action::Read(p) => format!("read {}", p.name()),
        Action::Hint => "took a hint".into(),
        Action::Note(text) => format!("noted: {text}"),
        Action::Suspect { group, standing } => match standing {
            Standing::Open => format!("{} open again", group.name()),
            Standing::Suspected => format!("suspects {}", group.name()),
            Standing::Cleared => format!("clears {}", group.name()),
        },
        Action::Diagnose(d) => {
            format!("names the cause: {}", d.cause.map_or("nothing is wrong", |id| id.info().name))
        }
    })
}

/// What was done and when [s].
pub fn timeline(journal: &[(u64, Action)]) -> Vec<(f64, String)> {
    journal.iter().filter_map(|(tick, a)| words(a).map(|w| (*tick as f64 * TICK_S, w))).collect()
}
