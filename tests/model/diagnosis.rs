//! A systematic learner finds every shipped fault with the bench's own tools, and the debrief says why.

use pintle::bay::BayAction;
use pintle::bench::{Action, Bench, Diagnosis, Relay};
use pintle::diagnosis;
use pintle::effort::Effort;
use pintle::fault::FaultId;
use pintle::instrument::{AirPlace, MeterMode, PipePlace, Probe};
use pintle::lesson::{Hypothesis, review};
use pintle::scenario::{SHIPPED, load};

fn wait(bench: &mut Bench, seconds: f64) {
    bench.advance((seconds / 0.05) as u32);
}

fn read(bench: &mut Bench, probe: Probe) {
    bench.apply(Action::Place(probe.clone())).expect("the tool can be placed");
    wait(bench, 25.0);
    bench.apply(Action::Read(probe)).expect("the tool can be read");
}

/// Gauges, pipes, vents, glass and the relay terminals; the same round whatever the complaint.
fn round(bench: &mut Bench) {
    if bench.bay().is_some() {
        // Nobody fits hoses in a bay without goggles and gloves.
        bench.apply(Action::Bay(BayAction::Protect(true))).unwrap();
    }
    if !bench.snapshot(false).instruments.hoses_fitted {
        bench.apply(Action::Hoses(true)).unwrap();
    }
    wait(bench, 20.0);
    for probe in [
        Probe::LowGauge,
        Probe::HighGauge,
        Probe::SightGlass,
        Probe::Pipe(PipePlace::CompressorInlet),
        Probe::Pipe(PipePlace::CompressorOutlet),
        Probe::Pipe(PipePlace::ValveInlet),
        Probe::Pipe(PipePlace::EvaporatorOutlet),
        Probe::Air(AirPlace::Vent),
    ] {
        read(bench, probe);
    }
    for point in ["clutch_relay_86", "clutch_coil_plus", "fan_relay_86", "fan_motor_plus"] {
        read(bench, Probe::Meter { mode: MeterMode::VoltsDc, red: point.into(), black: "ground".into() });
    }
}

#[test]
fn systematic_readings_point_at_the_hidden_cause() {
    for shipped in SHIPPED {
        let scenario = load(shipped.id).unwrap();
        let Some(&cause) = scenario.accepted_causes.first() else { continue };
        // The round reads the compact car's points; other rigs want other rounds.
        if scenario.rig != "compact_car" {
            continue;
        }
        let mut bench = Bench::new(&scenario, 7).unwrap();
        // Long enough for every onset and stop of the shipped scenarios.
        wait(&mut bench, 800.0);
        round(&mut bench);
        let evidence = (0..bench.notebook().len()).collect();
        let answer =
            Diagnosis { cause: Some(cause), evidence, confidence: 0.8, because: "the readings".into() };
        bench.apply(Action::Diagnose(answer)).unwrap();
        let debrief = review(&bench, &Effort::default()).unwrap().expect("a diagnosis was handed in");
        assert!(debrief.verdict_right, "{}", shipped.id);
        assert_eq!(debrief.lines.len(), bench.notebook().len());
        let share: f64 = debrief.belief.iter().map(|b| b.share).sum();
        assert!((share - 1.0).abs() < 1e-9);
        println!("{}: {:?}", shipped.id, &debrief.belief[..3]);
        // Any accepted cause may lead; motor against relay is told apart by the volts.
        assert!(
            matches!(debrief.belief[0].hypothesis, Hypothesis::Fault(id) if scenario.accepted_causes.contains(&id)),
            "{}: {:?}",
            shipped.id,
            &debrief.belief[..3]
        );
    }
}

#[test]
fn a_wrong_cause_is_called_wrong_and_readings_speak_against_it() {
    let scenario = load("lukewarm_all_day").unwrap();
    let mut bench = Bench::new(&scenario, 3).unwrap();
    wait(&mut bench, 400.0);
    round(&mut bench);
    let evidence = vec![0, 1];
    let answer =
        Diagnosis { cause: Some(FaultId::Undercharge), evidence, confidence: 0.9, because: String::new() };
    bench.apply(Action::Diagnose(answer)).unwrap();
    let debrief = review(&bench, &Effort::default()).unwrap().unwrap();
    assert!(!debrief.verdict_right);
    assert!(debrief.lines.iter().any(|l| l.note.contains("speaks against")), "{:?}", debrief.lines);
    assert_eq!(debrief.lines.iter().filter(|l| l.used_as_evidence).count(), 2);
}

/// The bypass lesson: the jumper brings fan or clutch to life exactly when the power path is good.
#[test]
fn the_jumper_tells_relay_from_load() {
    let fan = |fault: Option<FaultId>, jumper: bool| {
        let scenario = load("healthy").unwrap();
        let mut bench = Bench::new(&scenario, 1).unwrap();
        if let Some(id) = fault {
            bench.apply(Action::ImposeFault { id, severity: 1.0 }).unwrap();
        }
        wait(&mut bench, 20.0);
        if jumper {
            bench.apply(Action::Jumper(Some(Relay::Fan))).unwrap();
        }
        wait(&mut bench, 15.0);
        bench.snapshot(false).outside.fan_speed_pct
    };
    assert!(fan(None, false) > 50.0);
    assert!(fan(Some(FaultId::CondenserFanRelayOpen), false) < 1.0);
    assert!(fan(Some(FaultId::CondenserFanRelayOpen), true) > 50.0);
    assert!(fan(Some(FaultId::CondenserFanMotorOpen), true) < 1.0);

    let clutch = |fault: FaultId| {
        let mut bench = Bench::new(&load("healthy").unwrap(), 1).unwrap();
        bench.apply(Action::ImposeFault { id: fault, severity: 1.0 }).unwrap();
        wait(&mut bench, 20.0);
        bench.apply(Action::Jumper(Some(Relay::Clutch))).unwrap();
        wait(&mut bench, 5.0);
        bench.snapshot(false).outside.clutch_engaged
    };
    assert!(!clutch(FaultId::ClutchCoilOpen));
    assert!(clutch(FaultId::CondenserFanRelayOpen));
}

#[test]
fn a_healthy_story_predicts_healthy_readings() {
    let scenario = load("healthy").unwrap();
    let mut bench = Bench::new(&scenario, 11).unwrap();
    wait(&mut bench, 300.0);
    round(&mut bench);
    let told = diagnosis::predict(
        &scenario,
        11,
        bench.journal(),
        bench.tick(),
        diagnosis::Story::Healthy,
        &Effort::default(),
    )
    .unwrap();
    for (reading, expected) in bench.notebook().iter().zip(told.expected) {
        let expected = expected.expect("the tool was there");
        assert!(
            (reading.value - expected).abs() <= 1.3 * reading.uncertainty + 1e-6,
            "{reading:?} {expected}"
        );
    }
}
