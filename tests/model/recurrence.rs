//! Faults that come and go: they follow their cause, the same way each time, and their records run again.

use pintle::bench::{Action, Bench, Diagnosis};
use pintle::effort::Effort;
use pintle::fault::{FaultId, Recurs};
use pintle::instrument::{AirPlace, PipePlace, Probe};
use pintle::record::{Record, start};
use pintle::scenario::{SHIPPED, load};

fn car() -> Bench {
    Bench::new(&load("healthy").unwrap(), 9).unwrap()
}

/// Seconds at which the clutch coil broke (true) or was whole again (false).
fn changes(bench: &mut Bench, seconds: u32) -> Vec<(u32, bool)> {
    let mut seen = Vec::new();
    let mut there = bench.faults().has(FaultId::ClutchCoilOpen);
    for second in 0..seconds {
        bench.advance(20);
        let now = bench.faults().has(FaultId::ClutchCoilOpen);
        if now != there {
            seen.push((second, now));
            there = now;
        }
    }
    seen
}

#[test]
fn a_coil_that_opens_when_hot_comes_back_when_it_has_cooled() {
    let hot = || Action::ImposeIntermittent {
        id: FaultId::ClutchCoilOpen,
        severity: 1.0,
        recurs: Recurs::WhenHot { above_c: 60.0, place: PipePlace::CompressorOutlet },
    };
    let mut bench = car();
    bench.apply(hot()).unwrap();
    let seen = changes(&mut bench, 1500);
    println!("{seen:?}");
    assert!(seen.len() >= 3, "it comes, goes, and comes again: {seen:?}");
    assert!(seen[0].1 && !seen[1].1 && seen[0].0 > 5);
    assert_eq!(bench.troubles(), &[] as &[String]);
    let mut again = car();
    again.apply(hot()).unwrap();
    assert_eq!(changes(&mut again, 1500), seen);
    assert_eq!(again.state_hash(), bench.state_hash());
    // Cleared, it stays away.
    bench.apply(Action::ClearFault { id: FaultId::ClutchCoilOpen }).unwrap();
    assert_eq!(changes(&mut bench, 600), []);
    let mut wait = start(bench.scenario(), bench.seed()).unwrap();
    for (tick, action) in bench.journal().to_vec() {
        wait.advance(u32::try_from(tick - wait.tick()).unwrap());
        wait.apply(action).unwrap();
    }
    wait.advance(u32::try_from(bench.tick() - wait.tick()).unwrap());
    assert_eq!(wait.state_hash(), bench.state_hash());
    assert_eq!(Record::of(&bench, &[]).unwrap().state, Record::of(&wait, &[]).unwrap().state);
}

#[test]
fn chance_depends_on_the_seed_alone() {
    let run = |seed| {
        let mut bench = Bench::new(&load("healthy").unwrap(), seed).unwrap();
        let recurs = Recurs::OnceInAWhile { share: 0.4 };
        let id = FaultId::ClutchCoilOpen;
        bench.apply(Action::ImposeIntermittent { id, severity: 1.0, recurs }).unwrap();
        changes(&mut bench, 1200)
    };
    let first = run(3);
    assert!(!first.is_empty() && first == run(3) && first != run(4), "{first:?}");
}

#[test]
fn refused_where_it_makes_no_sense() {
    let mut bench = car();
    let id = FaultId::ClutchCoilOpen;
    for (severity, recurs) in [
        (0.5, Recurs::OnceInAWhile { share: 0.4 }),
        (1.0, Recurs::OnceInAWhile { share: f64::NAN }),
        (1.0, Recurs::WhenVibrating { from_rpm: 2000.0, to_rpm: 1000.0 }),
    ] {
        assert!(bench.apply(Action::ImposeIntermittent { id, severity, recurs }).is_err());
    }
    assert!(bench.journal().is_empty());
}

/// On a car without a fault the answer is that nothing is wrong, and any named cause is not right.
#[test]
fn nothing_wrong_is_an_answer() {
    let mut seen = 0;
    for shipped in SHIPPED {
        let scenario = load(shipped.id).unwrap();
        if !scenario.nothing_wrong {
            continue;
        }
        seen += 1;
        for (cause, right) in [(None, true), (Some(FaultId::Undercharge), false)] {
            let mut bench = Bench::new(&scenario, 2).unwrap();
            bench.advance(20 * 400);
            for probe in [Probe::Air(AirPlace::Vent), Probe::Pipe(PipePlace::ValveInlet)] {
                bench.apply(Action::Place(probe.clone())).unwrap();
                bench.advance(20 * 30);
                bench.apply(Action::Read(probe)).unwrap();
            }
            let because = String::new();
            let answer = Diagnosis { cause, evidence: vec![0, 1], confidence: 0.8, because };
            bench.apply(Action::Diagnose(answer)).unwrap();
            let debrief = pintle::lesson::review(&bench, &Effort::default()).unwrap().unwrap();
            assert_eq!(debrief.verdict_right, right, "{} {cause:?}", shipped.id);
        }
    }
    assert!(seen >= 3, "{seen} scenarios with nothing wrong");
}
