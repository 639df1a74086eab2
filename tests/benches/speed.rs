//! Speed of states and of the model, printed as nanoseconds and as times real time; asserts nothing about time.
//!
//! `cargo bench --no-default-features --bench speed`

#[path = "property_speed.rs"]
mod property_speed;

use std::hint::black_box;
use std::time::Instant;

use pintle::bench::{Action, Bench};
use pintle::fault::FaultId;
use pintle::rig::Rig;
use pintle::scenario::load;

/// The rig of the healthy scenario.
const COMPACT: &str = "compact_car";
/// Simulated seconds of a run.
const SPAN_S: f64 = 1200.0;

/// Best of a few runs of `seconds` from tick 0: times real time and solver counts.
fn run(rig: &str, name: &str, fault: Option<(FaultId, f64)>, seconds: f64) {
    let mut scenario = load("healthy").expect("embedded");
    scenario.rig = rig.into();
    let mut best = f64::INFINITY;
    let mut words = String::new();
    for _ in 0..5 {
        let mut bench = Bench::new(&scenario, 1).expect("embedded rig");
        if let Some((id, severity)) = fault {
            bench.apply(Action::ImposeFault { id, severity }).expect("in range");
        }
        let ticks = (seconds / 0.05) as u32;
        let started = Instant::now();
        bench.advance(ticks);
        best = best.min(started.elapsed().as_secs_f64());
        let c = bench.counts();
        words =
            format!("{} steps, {} iterations, {} rejected, {} cut", c.steps, c.iterations, c.rejected, c.cut);
        black_box(bench.state_hash());
    }
    println!("{name:<44}{:>9.0} times real time   {words}", seconds / best);
}

fn main() {
    let _ = property_speed::run();
    run(COMPACT, "healthy, 20 minutes", None, SPAN_S);
    run(COMPACT, "healthy, first 10 seconds", None, 10.0);
    for rig in Rig::ids().filter(|id| *id != COMPACT) {
        run(rig, &format!("{rig}, 20 minutes"), None, SPAN_S);
        run(rig, &format!("{rig}, first 10 seconds"), None, 10.0);
    }
    run(COMPACT, "dead fan, cycling on the cut-out", Some((FaultId::CondenserFanMotorOpen, 1.0)), SPAN_S);
    run(COMPACT, "undercharge 50 %", Some((FaultId::Undercharge, 0.5)), SPAN_S);
    run(COMPACT, "air, 3 g", Some((FaultId::AirInLoop, 3.0)), SPAN_S);
    run(COMPACT, "air, 3 g, first 10 seconds", Some((FaultId::AirInLoop, 3.0)), 10.0);
    run(COMPACT, "air, 12 g", Some((FaultId::AirInLoop, 12.0)), 120.0);
}
