use super::*;
use crate::bench::Action;
use crate::bench::{Diagnosis, Relay, Standing};
use crate::circuit::Guard;
use crate::fault::{FaultId, Group, Recurs};
use crate::instrument::Reading;
use crate::instrument::{AirPlace, MeterMode, MeterRange, PipePlace, Probe};
use crate::knobs::Change;
use crate::record::Maker;
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
        Action::Diagnose(Diagnosis { cause: None, evidence: vec![1], confidence: 0.9, because: "-".into() }),
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
            engine: "0.1.0".into(),
            model: "00000000ffffffff".into(),
            earlier: vec![Maker { engine: "0.0.9".into(), model: String::new() }],
            state: "fedcba9876543210".into(),
            hash: "0123456789abcdef".into(),
            seed: u64::MAX,
            ticks: 1_000,
            actions,
            readings: vec![Reading {
                tick: 3,
                probe: Probe::LowGauge,
                value: 0.1 + 0.2,
                uncertainty: 1e-300,
            }],
            left_out: None,
            scenario: load(id).unwrap(),
        };
        let text = record.to_text().unwrap();
        let back = Record::from_text("r.ron", &text).unwrap_or_else(|e| panic!("{e}\n{text}"));
        assert_eq!(back, record);
        assert_eq!(back.to_text().unwrap(), text);
    }
}

/// A session from before records held readings, by the program of that day, with an ideal voltmeter among its tools.
#[test]
fn a_record_of_format_1_is_read_without_its_voltmeter() {
    let record = Record::of(&crate::bench::Bench::new(&load("healthy").unwrap(), 1).unwrap(), &[]).unwrap();
    let text = record.to_text().unwrap();
    let old = text
        .replacen("format: 2", "format: 1", 1)
        .replacen("tools: [", "tools: [voltmeter, meter, ", 1)
        .lines()
        .filter(|line| !line.trim_start().starts_with("state: ") && !line.trim_start().starts_with("model: "))
        .collect::<Vec<_>>()
        .join("\n")
        .replacen("actions: []", "actions: [(0, place(volts(\"fan_relay_87\")))]", 1);
    assert!(old.contains("volts("), "{old}");
    let read = Record::from_text("old.ron", &old).unwrap_or_else(|e| panic!("{e}\n{old}"));
    assert_eq!(
        (read.state.as_str(), read.hash.as_str(), read.is_untouched()),
        (record.hash.as_str(), "", None)
    );
    let meter = Probe::Meter { mode: MeterMode::VoltsDc, red: "fan_relay_87".into(), black: "ground".into() };
    assert_eq!(read.actions, [(0, Action::Place(meter))]);
    assert_eq!(read.scenario.tools.iter().filter(|t| **t == crate::instrument::Tool::Meter).count(), 1);
}
