//! Speed of refrigerant states, ours and, where Python with CoolProp is at hand, CoolProp's tables in the same run.

use std::hint::black_box;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Instant;

use super::table::Table;
use pintle::refrigerant::{Phase, Refrigerant};

/// Our name and CoolProp's.
const FLUIDS: [(&str, &str); 4] =
    [("R-134a", "R134a"), ("R-1234yf", "R1234yf"), ("R-32", "R32"), ("R-290", "Propane")];
const STATES: u32 = 4096;

/// Pressures (Pa) and enthalpies (J/kg) from 2 % to 80 % of the critical pressure, across the dome and a third of its
/// width beyond it on both sides, in no order.
fn states(r: &Refrigerant) -> Vec<(f64, f64)> {
    (0..STATES)
        .map(|i| {
            let share = |k: u32| f64::from(i.wrapping_mul(k) % 4093) / 4093.0;
            let p = 0.02 * r.critical_p_pa() * libm::exp(share(1511) * 3.689);
            let sat = r.saturation(libm::log(p));
            (p, sat.h_l + (sat.h_v - sat.h_l) * (1.667 * share(2741) - 0.333))
        })
        .collect()
}

/// Nanoseconds per state, the best of many rounds: logarithm known, everything in a state used.
fn ours(r: &Refrigerant, states: &[(f64, f64)]) -> f64 {
    let inputs: Vec<(f64, f64)> = states.iter().map(|&(p, h)| (libm::log(p), h)).collect();
    let round = || {
        let started = Instant::now();
        for &(ln_p, h) in &inputs {
            black_box(r.state(black_box(ln_p), black_box(h)));
        }
        started.elapsed().as_secs_f64() * 1e9 / inputs.len() as f64
    };
    (0..400).map(|_| round()).fold(f64::INFINITY, f64::min)
}

/// Nanoseconds per state of CoolProp's batch and single calls, a pair for each fluid; none without Python and CoolProp.
fn coolprop(work: &[(&str, Vec<(f64, f64)>)]) -> Option<Vec<[f64; 2]>> {
    let mut text = String::new();
    for (fluid, states) in work {
        text += &format!("{fluid} {}\n", states.len());
        states.iter().for_each(|(p, h)| text += &format!("{p} {h}\n"));
    }
    let mut child = Command::new("python3")
        .arg(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/benches/figures/coolprop_speed.py"))
        .arg(concat!(env!("CARGO_TARGET_TMPDIR"), "/coolprop-tables"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    let written = child.stdin.take()?.write_all(text.as_bytes());
    let output = child.wait_with_output().ok()?;
    written.ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    let numbers = |line: &str| -> Option<[f64; 2]> {
        let mut cells = line.split_whitespace().map(|cell| cell.parse().ok());
        Some([cells.next()??, cells.next()??])
    };
    let rows: Option<Vec<[f64; 2]>> = text.lines().map(numbers).collect();
    rows.filter(|rows| rows.len() == work.len())
}

/// Ours for each refrigerant, and how many times faster than CoolProp in the worst case: its batch call, its single call
/// with slopes.
pub fn run(table: &mut Table) {
    let (mut single_phase, mut own) = (Vec::new(), Vec::new());
    for (name, coolprop_name) in FLUIDS {
        let r = Refrigerant::by_name(name).expect("embedded");
        let all = states(r);
        // CoolProp gives slopes in the dome only by another call, and its batch call refuses the dome.
        let dry = |&(p, h): &(f64, f64)| r.state(libm::log(p), h).phase != Phase::TwoPhase;
        let single: Vec<(f64, f64)> = all.iter().copied().filter(dry).collect();
        own.push(ours(r, &single));
        let words = format!("{:.0} ns, single-phase {:.0} ns", ours(r, &all), ours(r, &single));
        table.note(&format!("one property state from (p, h) with slopes, across the dome: {name}"), words);
        single_phase.push((coolprop_name, single));
    }
    let targets = [
        "  CoolProp 8 BICUBIC on the single-phase states, with slopes, single calls",
        "  its batch call, without slopes",
    ];
    let Some(theirs) = coolprop(&single_phase) else {
        for what in targets {
            table.missing(what, "at least 5, reach 20", "no python3 with CoolProp");
        }
        return;
    };
    let worst = |call: usize| theirs.iter().zip(&own).map(|(t, o)| t[call] / o).fold(f64::INFINITY, f64::min);
    let span = |call: usize| {
        let each = theirs.iter().map(|t| t[call]);
        format!("{:.0} to {:.0} ns", each.clone().fold(f64::INFINITY, f64::min), each.fold(0.0, f64::max))
    };
    for (what, call) in targets.into_iter().zip([1, 0]) {
        table.at_least(&format!("{what}, {}", span(call)), "times slower", 5.0, Some(20.0), worst(call));
    }
}
