//! Times real time on one core under random operations: the mean, and the slowest ten seconds.

use super::clock::Clock;
use super::table::Table;
use pintle::ordeal::{Harm, Ordeal};
use pintle::refrigerant::Refrigerant;
use pintle::rig::Rig;

const SEQUENCES: u64 = 200;
const OPERATIONS: u32 = 30;
const STRETCH_S: f64 = 10.0;
const PIECE_S: f64 = 0.25;
/// A sequence is left when a stretch takes longer than this.
const GIVE_UP_S: f64 = 1.0;

/// Seconds of computing for each whole ten seconds of a sequence, and the harm that ended it; stops after `most` of them.
fn sequence(number: u64, most: usize) -> (Vec<f64>, Option<Harm>) {
    let rig = Rig::load("compact_car").expect("embedded").plant;
    let refrigerant = Refrigerant::by_name(&rig.refrigerant).expect("embedded");
    let mut ordeal = Ordeal::new(&rig, refrigerant, 1, number);
    let (mut clock, mut room_s, mut all) = (Clock::start(), STRETCH_S, Vec::new());
    for _ in 0..OPERATIONS {
        // What an operation itself costs belongs to the stretch it falls into: a step is taken again.
        let mut left_s = ordeal.operate();
        while left_s > 0.0 {
            let step_s = left_s.min(room_s).min(PIECE_S);
            ordeal.advance(step_s);
            (left_s, room_s) = (left_s - step_s, room_s - step_s);
            let spent = clock.seconds();
            if spent > GIVE_UP_S {
                // Slower than ten times real time: as if the rest of the stretch went on like this.
                all.push(spent * STRETCH_S / (STRETCH_S - room_s));
                return (all, None);
            }
            if room_s <= 0.0 {
                all.push(spent);
                (clock, room_s) = (Clock::start(), STRETCH_S);
                if all.len() == most {
                    return (all, None);
                }
            }
        }
        if let Err(harm) = ordeal.check() {
            return (all, Some(harm));
        }
    }
    (all, None)
}

/// The first of them.
pub fn run(table: &mut Table) {
    let mut found: Vec<(f64, u64, usize)> = Vec::new();
    let (mut spent, mut stretches, mut harmed, mut slow_ones) = (0.0, 0, 0, 0);
    for number in 0..SEQUENCES {
        let (all, harm) = sequence(number, usize::MAX);
        if let Some(harm) = harm {
            harmed += 1;
            println!("    sequence {number}: {harm}");
        }
        spent += all.iter().sum::<f64>();
        let slowest = all.iter().copied().fold(0.0, f64::max);
        slow_ones += u32::from(slowest > STRETCH_S / 100.0);
        if slowest > GIVE_UP_S {
            println!("    sequence {number} left at {} s: {slowest:.1} s for ten", all.len() * 10);
        }
        stretches += all.len();
        found.extend(all.iter().enumerate().map(|(k, &s)| (s, number, k)));
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        found.truncate(8);
    }
    // Again, twice, so that an interruption does not count for a slow stretch.
    for slow in &mut found {
        for _ in 0..2 {
            slow.0 = sequence(slow.1, slow.2 + 1).0.last().map_or(slow.0, |s| slow.0.min(*s));
        }
    }
    let (s, number, k) = found.iter().copied().max_by(|a, b| a.0.total_cmp(&b.0)).unwrap_or_default();
    let what = "slowest ten seconds of the first 200 random sequences";
    table.at_least(what, "times real time", 100.0, None, STRETCH_S / s);
    let at_s = k as f64 * STRETCH_S;
    let mean = stretches as f64 * STRETCH_S / spent;
    table.note(
        "  it is; mean of all sequences",
        format!("no. {number} at {at_s:.0} s; {mean:.0} times real time"),
    );
    table.note("  sequences with a stretch below 100 times real time", slow_ones.to_string());
    table.at_most("  sequences that came to harm", "", 0.0, f64::from(harmed));
}
