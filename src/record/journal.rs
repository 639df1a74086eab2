//! Write a record, read it back, run it again.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::new_file::{NewFile, WriteError};
use crate::bench::{Action, Bench, Refusal};
use crate::scenario::load::{check, check_format};
use crate::scenario::source::{Position, read_text};
use crate::scenario::{BadFile, Scenario, parse};

/// Version of the record format.
pub const FORMAT: u32 = 1;
/// Version of the model; equal records give equal hashes only within one version.
pub const ENGINE: &str = env!("CARGO_PKG_VERSION");
/// Longest run that can be recorded: 10,000 minutes.
pub const MOST_TICKS: u64 = 10_000 * 60 * 20;
/// Largest record that is read [bytes].
const LARGEST_BYTES: u64 = 16_000_000;

/// Everything needed to run a session again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Version of the record format; 1.
    pub format: u32,
    /// Version of the program that ran it.
    pub engine: String,
    /// State hash at the end, 16 hexadecimal digits.
    pub hash: String,
    /// Seed of the instrument noise.
    pub seed: u64,
    /// Length of the session in ticks of 50 ms.
    pub ticks: u64,
    /// What was done, with the tick it was done on.
    pub actions: Vec<(u64, Action)>,
    /// The scenario, whole.
    pub scenario: Scenario,
}

/// Why a record could not be run again.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ReplayError {
    /// The bench could not be set up.
    #[error("the bench cannot be set up: {0}")]
    Start(String),
    /// The bench refused an action it once took.
    #[error("action {number} at tick {tick} was refused: {refusal}")]
    Refused {
        /// Which action, counted from 1.
        number: usize,
        /// Its tick.
        tick: u64,
        /// What the bench said.
        refusal: Refusal,
    },
    /// The run ended in another state.
    #[error("the replay ended with state hash {found}, the record says {recorded}{}", other_engine(.engine))]
    Differs {
        /// Hash in the record.
        recorded: String,
        /// Hash of the replay.
        found: String,
        /// Engine version in the record.
        engine: String,
    },
}

fn other_engine(engine: &str) -> String {
    if engine == ENGINE {
        return String::new();
    }
    format!("; it was made by engine version {engine} and this is {ENGINE}, so they need not agree")
}

/// A bench at tick 0. The one place outside the desk that makes one.
pub fn start(scenario: &Scenario, seed: u64) -> Result<Bench, ReplayError> {
    Bench::new(scenario, seed).map_err(|e| ReplayError::Start(e.to_string()))
}

/// State hash as it is printed and recorded.
pub fn hash_text(bench: &Bench) -> String {
    format!("{:016x}", bench.state_hash())
}

impl Record {
    /// The record of a bench as it stands.
    pub fn of(bench: &Bench) -> Self {
        Self {
            format: FORMAT,
            engine: ENGINE.to_owned(),
            hash: hash_text(bench),
            seed: bench.seed(),
            ticks: bench.tick(),
            actions: bench.journal().to_vec(),
            scenario: bench.scenario().clone(),
        }
    }

    /// As RON text.
    pub fn to_text(&self) -> Result<String, ron::Error> {
        let style = ron::ser::PrettyConfig::new().depth_limit(3);
        Ok(ron::Options::default().to_string_pretty(self, style)? + "\n")
    }

    /// Write it to a file begun earlier.
    pub fn write(&self, mut file: NewFile) -> Result<(), WriteError> {
        let text = self.to_text().map_err(|e| file.refuse(e.to_string()))?;
        file.write(&text)?;
        file.finish()
    }

    /// Read a record file.
    pub fn read(path: &Path) -> Result<Self, BadFile> {
        Self::from_text(&path.display().to_string(), &read_text(path, LARGEST_BYTES)?)
    }

    /// A record from its text; `file` is only a name for messages.
    pub fn from_text(file: &str, text: &str) -> Result<Self, BadFile> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        check_format(file, text, FORMAT)?;
        let record: Self = parse(file, text)?;
        check(file, text, "scenario.", &record.scenario)?;
        let bad = |path: &str, reason: String| {
            Err(BadFile::one(file, Some(Position::find(text, path)), format!("{path}: {reason}"), None))
        };
        if record.ticks > MOST_TICKS {
            return bad("ticks", format!("{} is more than {MOST_TICKS}", record.ticks));
        }
        let mut last = 0;
        for (index, &(tick, _)) in record.actions.iter().enumerate() {
            let path = format!("actions[{index}]");
            if tick < last {
                return bad(&path, format!("actions are out of order: tick {tick} comes after {last}"));
            }
            if tick > record.ticks {
                return bad(
                    &path,
                    format!("tick {tick} lies after the end of the session, {}", record.ticks),
                );
            }
            last = tick;
        }
        if record.hash.len() != 16 || !record.hash.bytes().all(|b| b.is_ascii_hexdigit()) {
            return bad("hash", "a state hash is 16 hexadecimal digits".to_owned());
        }
        Ok(record)
    }
}

/// Run a record again; the bench at its end, once its state hash is the recorded one.
pub fn replay(record: &Record) -> Result<Bench, ReplayError> {
    let mut bench = start(&record.scenario, record.seed)?;
    for (index, (tick, action)) in record.actions.iter().enumerate() {
        advance_to(&mut bench, *tick);
        bench.apply(action.clone()).map_err(|refusal| ReplayError::Refused {
            number: index + 1,
            tick: *tick,
            refusal,
        })?;
    }
    advance_to(&mut bench, record.ticks);
    let found = hash_text(&bench);
    if found.eq_ignore_ascii_case(&record.hash) {
        return Ok(bench);
    }
    Err(ReplayError::Differs { recorded: record.hash.clone(), found, engine: record.engine.clone() })
}

/// Let time pass until a tick.
pub fn advance_to(bench: &mut Bench, tick: u64) {
    let ticks = tick.saturating_sub(bench.tick());
    bench.advance(u32::try_from(ticks).unwrap_or(u32::MAX));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::{Diagnosis, Relay, Standing};
    use crate::circuit::Guard;
    use crate::fault::{FaultId, Group, Recurs};
    use crate::instrument::{AirPlace, MeterMode, MeterRange, PipePlace, Probe};
    use crate::knobs::Change;
    use crate::scenario::load;

    /// One action of every shape, with numbers and texts that are easy to lose on the way.
    fn awkward() -> Vec<Action> {
        vec![
            Action::Set(Change::EngineOn(false)),
            Action::Set(Change::AmbientC(0.1 + 0.2)),
            Action::Set(Change::EngineRpm(1.0e300)),
            Action::Set(Change::BlowerPct(-0.0)),
            Action::Jumper(None),
            Action::Jumper(Some(Relay::Clutch)),
            Action::ImposeFault { id: FaultId::AirInLoop, severity: f64::MIN_POSITIVE },
            Action::RampFault { id: FaultId::Undercharge, severity: 1.0 / 3.0, over_s: 600.0 },
            Action::ClearFault { id: FaultId::ClutchCoilOpen },
            Action::ImposeIntermittent {
                id: FaultId::ClutchCoilOpen,
                severity: 1.0,
                recurs: Recurs::WhenHot { above_c: 70.5, place: PipePlace::CompressorOutlet },
            },
            Action::Place(Probe::Pipe(PipePlace::ValveInlet)),
            Action::Place(Probe::Clamp("clutch \"coil\" \\ +".into())),
            Action::Read(Probe::Air(AirPlace::Vent)),
            Action::JumperBetween(Some(("ground".into(), "a:b".into()))),
            Action::Place(Probe::Meter {
                mode: MeterMode::Continuity,
                red: "clutch_coil_plus".into(),
                black: String::new(),
            }),
            Action::Remove(Probe::Lamp { tip: "a".into(), clip: "b".into() }),
            Action::Read(Probe::UnitValue { unit: "thermal".into(), id: "high".into() }),
            Action::MeterRange(MeterRange::SixHundred),
            Action::Unplug("clutch_plug".into(), true),
            Action::SwapRelays("fan_relay".into(), "clutch_relay".into()),
            Action::Isolate(Guard::Mains, false),
            Action::Stopped(Box::new(Action::Stopped(Box::new(Action::ProveDead(Guard::Traction))))),
            Action::Hint,
            Action::Note("two\nlines, \t \u{0}, \u{1F321} and \"#\"##".into()),
            Action::Suspect { group: Group::CondenserAirflow, standing: Standing::Cleared },
            Action::Diagnose(Diagnosis {
                cause: Some(FaultId::Overcharge),
                evidence: vec![0, 2],
                confidence: 0.7,
                because: String::new(),
            }),
            Action::Diagnose(Diagnosis {
                cause: None,
                evidence: vec![1],
                confidence: 0.9,
                because: "-".into(),
            }),
        ]
    }

    /// Before "nothing is wrong" could be answered, a cause stood without `Some`.
    #[test]
    fn the_cause_of_an_old_record_is_read() {
        let text = "(cause: overcharge, evidence: [0], confidence: 0.7, because: \"high\")";
        let old: Diagnosis = parse("old.ron", text).unwrap();
        assert_eq!(old.cause, Some(FaultId::Overcharge));
    }

    #[test]
    fn a_record_reads_back_as_it_was_written() {
        for id in ["healthy", "weaker_by_the_mile"] {
            let actions: Vec<_> = awkward().into_iter().enumerate().map(|(i, a)| (i as u64, a)).collect();
            let record = Record {
                format: FORMAT,
                engine: ENGINE.into(),
                hash: "0123456789abcdef".into(),
                seed: u64::MAX,
                ticks: 1_000,
                actions,
                scenario: load(id).unwrap(),
            };
            let text = record.to_text().unwrap();
            let back = Record::from_text("r.ron", &text).unwrap_or_else(|e| panic!("{e}\n{text}"));
            assert_eq!(back, record);
            assert_eq!(back.to_text().unwrap(), text);
        }
    }
}
