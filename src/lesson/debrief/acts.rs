//! What was unsafe and what was a mistake, in words: the same words for electrical work and for the bay.

use crate::bay::BayAction;
use crate::bench::{Action, Electrics, MistakeKind, Relay, TICK_S, UnsafeAct};
use crate::knobs::Change;
use crate::scenario::Scenario;

/// An act that was stopped, after its caution.
pub(super) fn stopped(caution_id: &str, tick: u64, what: &str) -> String {
    format!("{caution_id}: stopped at {:.0} s: {what}.", tick as f64 * TICK_S)
}

/// A mistake and its moment.
pub(super) fn mistake(tick: u64, what: &str) -> String {
    format!("At {:.0} s: {what}.", tick as f64 * TICK_S)
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
        .map(|&(kind, tick, times)| mistake(tick, &format!("{}{}", kind.words(), often(times))))
        .collect()
}

/// Unsafe acts that were stopped, in words.
pub fn unsafe_acts(done: &Electrics) -> Vec<String> {
    let words = |act: &UnsafeAct| stopped(act.kind.caution_id(), act.tick, &act.kind.words());
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

#[cfg(test)]
#[path = "acts_tests.rs"]
mod tests;
