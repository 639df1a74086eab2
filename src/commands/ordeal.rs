//! `ordeal`: random sequences of operations on a loop, checked after each; the slowest ten seconds are timed.

use std::io::Write;
use std::time::Instant;

use super::Failure;
use crate::ordeal::Ordeal;
use crate::refrigerant::Refrigerant;
use crate::rig::Rig;

/// Arguments of `ordeal`.
#[derive(Clone, Debug, clap::Args)]
pub struct OrdealArgs {
    /// How many sequences
    #[arg(long, default_value_t = 100)]
    sequences: u64,
    /// Number of the first sequence
    #[arg(long, default_value_t = 0)]
    first: u64,
    /// Operations in a sequence
    #[arg(long, default_value_t = 30)]
    operations: u32,
    /// Seed
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Rig
    #[arg(long, default_value = "compact_car")]
    rig: String,
    /// Print every operation as it is done
    #[arg(long)]
    verbose: bool,
}

/// Simulated seconds of a timed stretch.
const STRETCH_S: f64 = 10.0;

/// Run them; gives whether all was well.
pub fn run(args: &OrdealArgs, out: &mut dyn Write) -> Result<bool, Failure> {
    let rig = Rig::load(&args.rig).map_err(|e| Failure::Input(e.to_string()))?;
    let name = &rig.plant.refrigerant;
    let refrigerant = Refrigerant::by_name(name)
        .ok_or_else(|| Failure::Input(format!("there is no property table for {name}")))?;
    let (mut harmed, mut simulated_s, mut steps, mut rejected) = (0_u64, 0.0, 0_u64, 0_u64);
    // Times real time, sequence, time in it.
    let mut slowest = (f64::INFINITY, 0, 0.0);
    let started = Instant::now();
    for number in args.first..args.first.saturating_add(args.sequences) {
        let mut ordeal = Ordeal::new(&rig.plant, refrigerant, args.seed, number);
        for _ in 0..args.operations {
            let mut left_s = ordeal.operate();
            if args.verbose
                && let Some((at_s, operation)) = ordeal.log().last()
            {
                writeln!(out, "sequence {number} at {at_s:.2} s for {left_s:.2} s: {operation:?}")?;
                out.flush()?;
            }
            while left_s > 0.0 {
                let stretch_s = left_s.min(STRETCH_S);
                let clock = Instant::now();
                ordeal.advance(stretch_s);
                let speed = STRETCH_S / clock.elapsed().as_secs_f64().max(1e-9);
                if speed < slowest.0 {
                    slowest = (speed, number, ordeal.time_s());
                }
                left_s -= stretch_s;
            }
            if let Err(harm) = ordeal.check() {
                harmed += 1;
                writeln!(out, "sequence {number} at {:.2} s: {harm}", ordeal.time_s())?;
                for (at_s, operation) in ordeal.log() {
                    writeln!(out, "    {at_s:>10.2} s  {operation:?}")?;
                }
                break;
            }
        }
        simulated_s += ordeal.time_s();
        let counts = ordeal.plant().counts();
        (steps, rejected) = (steps + counts.steps, rejected + counts.rejected);
    }
    let spent_s = started.elapsed().as_secs_f64();
    writeln!(
        out,
        "{} sequences, {:.1} simulated hours, {} steps, {} rejected: {} harmed",
        args.sequences,
        simulated_s / 3600.0,
        steps,
        rejected,
        harmed
    )?;
    writeln!(
        out,
        "{:.0} times real time; slowest ten seconds {:.0} times real time (sequence {}, at {:.0} s)",
        simulated_s / spent_s,
        slowest.0,
        slowest.1,
        slowest.2
    )?;
    Ok(harmed == 0)
}
