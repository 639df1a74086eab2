//! What was done, in words, and which cautions were breached on the way.

use crate::bay::BayAction;
use crate::bench::{Action, Electrics, MistakeKind, Relay, Standing, TICK_S, UnsafeAct};
use crate::circuit::Guard;
use crate::instrument::{Probe, bay_tools};
use crate::knobs::Change;
use crate::scenario::Scenario;

/// Name of a tool on its place, in words.
pub fn probe_words(probe: &Probe) -> String {
    match probe {
        Probe::LowGauge => "low-side gauge".into(),
        Probe::HighGauge => "high-side gauge".into(),
        Probe::Pipe(place) => place.name().into(),
        Probe::Air(place) => place.name().into(),
        Probe::Volts(point) => format!("volts at {}", point.replace('_', " ")),
        Probe::Meter { mode, red, black } => {
            format!("{} from {} to {}", mode.name(), spaced(red), spaced(black))
        }
        Probe::Lamp { tip, clip } => format!("test lamp from {} to {}", spaced(tip), spaced(clip)),
        Probe::Clamp(part) => format!("clamp round {}", spaced(part)),
        Probe::UnitValue { unit, id } => format!("{} of the {} unit", spaced(id), spaced(unit)),
        Probe::SightGlass => "sight glass".into(),
        Probe::Sense(sense) => format!("{}: {}", sense.organ().name().to_lowercase(), sense.name()),
        tool => bay_tools::name(tool),
    }
}

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
                Action::Place(probe) => Some(probe_words(probe)),
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
        Action::Read(p) => format!("read {}", probe_words(p)),
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

/// Mistakes with tools, in words, each kind once with its first moment and how often.
pub fn mistakes(done: &Electrics) -> Vec<String> {
    let mut found: Vec<(MistakeKind, u64, usize)> = Vec::new();
    for mistake in &done.mistakes {
        match found.iter_mut().find(|(kind, ..)| *kind == mistake.kind) {
            Some((.., times)) => *times += 1,
            None => found.push((mistake.kind, mistake.tick, 1)),
        }
    }
    let often = |times: usize| if times > 1 { format!(" ({times} times)") } else { String::new() };
    found
        .iter()
        .map(|&(kind, tick, times)| {
            format!("At {:.0} s: {}{}.", tick as f64 * TICK_S, kind.words(), often(times))
        })
        .collect()
}

/// Unsafe acts that were stopped, in words.
pub fn unsafe_acts(done: &Electrics) -> Vec<String> {
    let words = |act: &UnsafeAct| {
        let id = act.kind.caution_id();
        format!("{id}: stopped at {:.0} s: {}.", act.tick as f64 * TICK_S, act.kind.words())
    };
    done.unsafe_acts.iter().map(words).collect()
}

/// A bypassed clutch relay is for seconds only (caution S25, common practice).
const JUMPER_LIMIT_S: f64 = 30.0;
/// Highest engine speed that still counts as idle for it [rev/min].
const IDLE_RPM: f64 = 1200.0;

/// Cautions breached, in words.
pub fn breaches(journal: &[(u64, Action)], scenario: &Scenario, end_tick: u64) -> Vec<String> {
    let mut found = Vec::new();
    let mut engine = scenario.start.engine_on;
    let mut rpm = scenario.start.engine_rpm;
    let mut clutch_since: Option<u64> = None;
    let (mut low_open, mut high_open, mut hoses) = (false, false, scenario.hoses_fitted);
    let mut fitted = [scenario.hoses_fitted; 2];
    let too_long = |since: Option<u64>, tick: u64, found: &mut Vec<String>| {
        if let Some(s) = since {
            let seconds = (tick - s) as f64 * TICK_S;
            if seconds > JUMPER_LIMIT_S {
                found.push(format!(
                    "S25: the clutch relay stayed bypassed for {seconds:.0} s; both pressure cut-outs were out of work. Seconds only."
                ));
            }
        }
    };
    for (tick, action) in journal {
        match action {
            Action::Set(Change::EngineOn(v)) => engine = *v,
            Action::Set(Change::EngineRpm(v)) => rpm = *v,
            Action::Hoses(v) => {
                if *v && engine && !hoses {
                    found.push(
                        "S12: the hoses were fitted with the engine running. The high side can be at 20 to 30 bar: stop the engine first.".into(),
                    );
                }
                hoses = *v;
            }
            // In a bay one coupler after the other.
            Action::Bay(BayAction::Fit { hose, port }) => {
                fitted[*hose as usize] = port.is_some();
                hoses = fitted == [true; 2];
            }
            Action::ManifoldLowPct(v) => low_open = *v > 0.0,
            Action::ManifoldHighPct(v) => high_open = *v > 0.0,
            Action::Jumper(Some(Relay::Clutch)) => {
                clutch_since = Some(*tick);
                if engine && rpm > IDLE_RPM {
                    found.push(format!(
                        "S25: the clutch relay was bypassed at {rpm:.0} rev/min, not at idle."
                    ));
                }
            }
            Action::Jumper(_) | Action::JumperBetween(_) => {
                too_long(clutch_since.take(), *tick, &mut found);
            }
            _ => {}
        }
        let joined = hoses && engine && low_open && high_open;
        if joined && matches!(action, Action::ManifoldLowPct(_) | Action::ManifoldHighPct(_)) {
            found.push("Both hand valves were open with the engine running: that joins the two sides through the manifold.".into());
        }
    }
    too_long(clutch_since, end_tick, &mut found);
    found.sort();
    found.dedup();
    found
}
