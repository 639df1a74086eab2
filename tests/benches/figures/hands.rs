//! Hands in the service bay: a whole job, and random ones whose books must close.

use super::bay_at_random;
use super::clock::Clock;
use super::table::Table;
use pintle::bench::Bench;
use pintle::procedure::{self, Player};
use pintle::scenario::load;

const SEQUENCES: u64 = 150;

/// What `pintle run --actions builtin:whole_job` plays.
fn whole_job(table: &mut Table) {
    let procedure = procedure::load("whole_job").expect("embedded");
    let scenario = load(&procedure.scenario).expect("embedded");
    let clock = Clock::start();
    let mut bench = Bench::new(&scenario, 1).expect("embedded rig");
    let mut player = Player::new(procedure, &bench);
    player.play(&mut bench).expect("a file that plays");
    let what = format!("a whole job in the bay, {:.1} simulated hours", bench.time_s() / 3600.0);
    table.note(&what, format!("{:.2} s, {} expectations missed", clock.seconds(), player.misses().len()));
}

fn at_random(table: &mut Table) {
    let clock = Clock::start();
    let failed = bay_at_random::failures(0..SEQUENCES);
    let spent = clock.seconds();
    failed.iter().for_each(|words| println!("{words}"));
    let what = format!(
        "{SEQUENCES} random sequences of 40 acts in the bay: books off by 1e-6 kg, or a step unsolved"
    );
    table.at_most(&what, "sequences", 0.0, failed.len() as f64);
    table.note("  they take", format!("{spent:.0} s"));
}

/// Both.
pub fn run(table: &mut Table) {
    whole_job(table);
    at_random(table);
}
