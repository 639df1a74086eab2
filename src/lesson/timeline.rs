//! What was done, in words, and which cautions were breached on the way.

use crate::bench::{Action, Relay, Standing, TICK_S};
use crate::instrument::Probe;
use crate::scenario::Scenario;

/// Name of a tool on its place, in words.
pub fn probe_words(probe: &Probe) -> String {
    match probe {
        Probe::LowGauge => "low-side gauge".into(),
        Probe::HighGauge => "high-side gauge".into(),
        Probe::Pipe(place) => place.name().into(),
        Probe::Air(place) => place.name().into(),
        Probe::Volts(point) => format!("volts at {}", point.replace('_', " ")),
        Probe::SightGlass => "sight glass".into(),
        Probe::Sense(sense) => format!("{}: {}", sense.organ().name().to_lowercase(), sense.name()),
    }
}

fn relay_words(relay: Relay) -> &'static str {
    match relay {
        Relay::Clutch => "clutch relay",
        Relay::Fan => "fan relay",
    }
}

fn words(action: &Action) -> Option<String> {
    let on = |v: bool| if v { "on" } else { "off" };
    Some(match action {
        Action::EngineOn(v) => format!("engine {}", on(*v)),
        Action::EngineRpm(v) => format!("engine speed {v:.0} rev/min"),
        Action::AcRequest(v) => format!("A/C {}", on(*v)),
        Action::BlowerPct(v) => format!("blower {v:.0} %"),
        Action::Recirculate(v) => format!("recirculation {}", on(*v)),
        Action::RoadSpeedKmh(v) => format!("road speed {v:.0} km/h"),
        Action::AmbientC(v) => format!("outside air {v:.0} °C"),
        Action::RelativeHumidityPct(v) => format!("humidity {v:.0} %"),
        Action::SolarWM2(v) => format!("sun {v:.0} W/m²"),
        Action::People(v) => format!("{v:.0} in the car"),
        Action::AltitudeM(v) => format!("height {v:.0} m"),
        Action::DoorsOpenPct(v) => format!("doors open {v:.0} % of the time"),
        Action::BatteryHeatW(v) => format!("battery heat {v:.0} W"),
        Action::Hoses(true) => "fitted the hoses".into(),
        Action::Hoses(false) => "took the hoses off".into(),
        Action::ManifoldLowPct(v) => format!("low hand valve {v:.0} % open"),
        Action::ManifoldHighPct(v) => format!("high hand valve {v:.0} % open"),
        Action::Jumper(Some(r)) => format!("jumper lead across the {}", relay_words(*r)),
        Action::Jumper(None) => "jumper lead taken away".into(),
        Action::ImposeFault { id, severity } => format!("instructor: {} at {severity}", id.info().name),
        Action::RampFault { id, severity, over_s } => {
            format!("instructor: {} growing to {severity} over {over_s:.0} s", id.info().name)
        }
        Action::ClearFault { id } => format!("instructor: {} cleared", id.info().name),
        Action::Place(_) => return None,
        Action::Read(p) => format!("read {}", probe_words(p)),
        Action::Hint => "took a hint".into(),
        Action::Note(text) => format!("noted: {text}"),
        Action::Suspect { group, standing } => match standing {
            Standing::Open => format!("{} open again", group.name()),
            Standing::Suspected => format!("suspects {}", group.name()),
            Standing::Cleared => format!("clears {}", group.name()),
        },
        Action::Diagnose(d) => format!("names the cause: {}", d.cause.info().name),
    })
}

/// What was done and when [s].
pub fn timeline(journal: &[(u64, Action)]) -> Vec<(f64, String)> {
    journal.iter().filter_map(|(tick, a)| words(a).map(|w| (*tick as f64 * TICK_S, w))).collect()
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
            Action::EngineOn(v) => engine = *v,
            Action::EngineRpm(v) => rpm = *v,
            Action::Hoses(v) => {
                if *v && engine && !hoses {
                    found.push(
                        "S12: the hoses were fitted with the engine running. The high side can be at 20 to 30 bar: stop the engine first.".into(),
                    );
                }
                hoses = *v;
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
            Action::Jumper(_) => {
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
