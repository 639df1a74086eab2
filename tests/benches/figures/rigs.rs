//! Times real time on one core: every rig, healthy and with faults that cost steps.

use std::hint::black_box;

use super::clock::Clock;
use super::table::Table;
use pintle::bench::{Action, Bench, TICK_S};
use pintle::fault::FaultId;
use pintle::rig::Rig;
use pintle::scenario::load;

/// The rig of the healthy scenario.
const COMPACT: &str = "compact_car";
/// The span of a figure, and of one for the start [simulated s].
const SPANS: [(&str, f64, u32); 2] = [("20 minutes", 1200.0, 10), ("first 10 s", 10.0, 60)];

/// Times real time, the mean of some runs of `seconds` from tick 0, and what the solver did in one.
fn speed(rig: &str, fault: Option<(FaultId, f64)>, seconds: f64, runs: u32) -> (f64, String) {
    let mut scenario = load("healthy").expect("embedded");
    scenario.rig = rig.into();
    let mut bench = Bench::new(&scenario, 1).expect("embedded rig");
    if let Some((id, severity)) = fault {
        bench.apply(Action::ImposeFault { id, severity }).expect("in range");
    }
    let mut all: Vec<Bench> = (0..runs).map(|_| bench.clone()).collect();
    let clock = Clock::start();
    all.iter_mut().for_each(|bench| bench.advance((seconds / TICK_S) as u32));
    let spent = clock.seconds() / f64::from(runs);
    let c = all[0].counts();
    let counts =
        format!("{} steps, {} iterations, {} rejected, {} cut", c.steps, c.iterations, c.rejected, c.cut);
    black_box(all);
    (seconds / spent, counts)
}

/// All of them.
pub fn run(table: &mut Table) {
    let others = Rig::ids().filter(|id| *id != COMPACT);
    for rig in [COMPACT].into_iter().chain(others) {
        for (words, seconds, runs) in SPANS {
            let (times, counts) = speed(rig, None, seconds, runs);
            let what = format!("{rig}, healthy with circuit and signs, {words}");
            if seconds > 60.0 {
                table.at_least(&what, "times real time", 1e4, Some(3e4), times);
            } else {
                table.at_least(&what, "times real time", 2e3, None, times);
            }
            println!("    {counts}");
        }
    }
    for (words, id, severity) in [
        ("dead fan, cycling on the cut-out", FaultId::CondenserFanMotorOpen, 1.0),
        ("half the charge missing", FaultId::Undercharge, 0.5),
        ("3 g of air from the soak on", FaultId::AirInLoop, 3.0),
        ("12 g of air from the soak on", FaultId::AirInLoop, 12.0),
    ] {
        let [all, first] = SPANS.map(|(_, s, runs)| speed(COMPACT, Some((id, severity)), s, runs.min(10)));
        println!("    {}", all.1);
        table.note(
            &format!("{COMPACT}, {words}: 20 minutes / first 10 s"),
            format!("{:.0} / {:.0} times real time", all.0, first.0),
        );
    }
}
