//! Many loops at once: 64 live ones, and 150 hypotheses about a record.

use super::clock::Clock;
use super::table::Table;
use pintle::bench::{Action, Bench};
use pintle::diagnosis::{Story, predict_all, stories};
use pintle::fault::{Fault, FaultId};
use pintle::instrument::{AirPlace, MeterMode, PipePlace, Probe};
use pintle::knobs::Change;
use pintle::scenario::load;
use std::hint::black_box;
use std::time::Instant;

const LOOPS: usize = 64;
const HYPOTHESES: usize = 150;

/// 32 loops tick by tick, each ten times a second asked for its whole snapshot. Busy seconds of each whole second.
fn live(mut benches: Vec<Bench>, seconds: u32) -> Vec<f64> {
    let second = |benches: &mut Vec<Bench>| {
        let clock = Clock::start();
        for tick in 0..20 {
            for bench in benches.iter_mut() {
                bench.advance(1);
                if tick % 2 == 0 {
                    black_box(bench.snapshot(true));
                }
            }
        }
        clock.seconds()
    };
    (0..seconds).map(|_| second(&mut benches)).collect()
}

fn live_loops(table: &mut Table) {
    let scenario = load("healthy").expect("embedded");
    let rig = pintle::rig::Rig::load(&scenario.rig).expect("embedded");
    let all: Vec<Bench> = stories(&rig)
        .into_iter()
        .cycle()
        .take(LOOPS)
        .zip(1..)
        .map(|(story, seed)| {
            let mut bench = Bench::new(&scenario, seed).expect("embedded rig");
            if let Some(Fault { id, severity }) = story.fault() {
                bench.apply(Action::ImposeFault { id, severity }).expect("in range");
            }
            bench
        })
        .collect();
    let (mut even, mut odd) = (Vec::new(), Vec::new());
    for (i, bench) in all.into_iter().enumerate() {
        if i % 2 == 0 { even.push(bench) } else { odd.push(bench) }
    }
    let (a, b) = std::thread::scope(|scope| {
        let other = scope.spawn(|| live(odd, 600));
        (live(even, 600), other.join().expect("no panic"))
    });
    // Both cores together have two seconds of time in a second.
    let share: Vec<f64> = a.iter().zip(&b).map(|(x, y)| 100.0 * (x + y) / 2.0).collect();
    let mean = share.iter().sum::<f64>() / share.len() as f64;
    let start = share.iter().take(10).sum::<f64>() / 10.0;
    let what = "64 loops with different faults, live at 1x, two cores";
    table.at_most(what, "% of the machine, ten minutes", 3.0, mean);
    table.note("  the same, all 64 starting at once, first ten seconds", format!("{start:.1} %"));
}

/// A learner's twenty minutes: hoses, engine speed, a round of readings, other weather.
fn record() -> Bench {
    let mut bench = Bench::new(&load("healthy").expect("embedded"), 3).expect("embedded rig");
    let volts =
        |red: &str| Probe::Meter { mode: MeterMode::VoltsDc, red: red.into(), black: "ground".into() };
    let round = [
        Probe::LowGauge,
        Probe::HighGauge,
        Probe::SightGlass,
        Probe::Pipe(PipePlace::CompressorInlet),
        Probe::Pipe(PipePlace::CompressorOutlet),
        Probe::Pipe(PipePlace::ValveInlet),
        Probe::Pipe(PipePlace::EvaporatorOutlet),
        Probe::Air(AirPlace::Vent),
        volts("clutch_coil_plus"),
        volts("fan_motor_plus"),
    ];
    let read = |bench: &mut Bench| {
        for probe in &round {
            bench.apply(Action::Place(probe.clone())).expect("placed");
            bench.advance(25 * 20);
            bench.apply(Action::Read(probe.clone())).expect("read");
        }
    };
    bench.advance(120 * 20);
    let _ = bench.apply(Action::Hoses(true));
    read(&mut bench);
    bench.apply(Action::Set(Change::EngineRpm(1500.0))).expect("in range");
    bench.advance(120 * 20);
    read(&mut bench);
    bench.apply(Action::Set(Change::EngineRpm(2500.0))).expect("in range");
    bench.apply(Action::Set(Change::RoadSpeedKmh(60.0))).expect("in range");
    bench.advance(60 * 20);
    read(&mut bench);
    bench.apply(Action::Set(Change::EngineRpm(900.0))).expect("in range");
    bench.apply(Action::Set(Change::RoadSpeedKmh(0.0))).expect("in range");
    bench.advance(u32::try_from((1200 * 20_u64).saturating_sub(bench.tick())).unwrap_or(0));
    bench
}

/// Nothing wrong, then every fault at 21 severities over its whole range.
fn hypotheses() -> Vec<Story> {
    let graded = |id: FaultId| -> Vec<Story> {
        let Some(s) = id.info().severity else { return vec![Story::Fault(Fault { id, severity: 1.0 })] };
        let at = |k: u32| s.min + (s.max - s.min) * f64::from(k) / 20.0;
        (0..=20).map(|k| Story::Fault(Fault { id, severity: at(k) })).collect()
    };
    let mut all: Vec<Story> = FaultId::ALL.into_iter().flat_map(graded).collect();
    all.insert(0, Story::Healthy);
    all.truncate(HYPOTHESES);
    all
}

fn recompute(table: &mut Table) {
    let record = record();
    let stories = hypotheses();
    assert_eq!(stories.len(), HYPOTHESES);
    let play = |stories: &[Story]| {
        let started = Instant::now();
        let all = predict_all(
            record.scenario(),
            record.seed(),
            record.journal(),
            record.tick(),
            stories,
            &pintle::effort::Effort::default(),
        );
        black_box(all.expect("embedded rig"));
        started.elapsed().as_secs_f64()
    };
    let what = "150 hypotheses over a 20-minute record, two cores";
    table.at_most(what, "s", 20.0, play(&stories));
    let airy = |s: &&Story| s.fault().is_some_and(|f| f.id == FaultId::AirInLoop);
    let air: Vec<Story> = stories.iter().filter(airy).copied().collect();
    table.note("  of which the 21 with 0 to 20 g of air take", format!("{:.1} s", play(&air)));
}

/// Both.
pub fn run(table: &mut Table) {
    live_loops(table);
    recompute(table);
}
