//! A session whose process is killed at a random moment (SIGKILL on Unix) loses at most the act of that moment.
//!
//! `PINTLE_KILLS=200 cargo test --no-default-features --features desk-tests --test desk kills -- --nocapture` is the long run.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command as Process, Stdio};
use std::time::Duration;

use pintle::bench::{Action, Standing};
use pintle::desk::kept::Keeping;
use pintle::desk::{Command, Session};
use pintle::effort::Effort;
use pintle::fault::Group;
use pintle::instrument::{Probe, Tool};
use pintle::knobs::Change;
use pintle::noise::even;
use pintle::record::{Record, reopen};
use pintle::scenario::load;

/// Set in the process that is to be killed: where it keeps its session, and which case it works on.
const FOLDER: &str = "PINTLE_KILLED_IN";
const CASE: &str = "PINTLE_KILLED_AT";

const CASES: [&str; 4] = ["healthy", "weaker_by_the_mile", "bay_open_bench", "cold_only_on_the_road"];

/// The victim: it works without a pause and prints the number of each act that is done. Run by itself it does nothing.
#[test]
fn a_victim_works_on() {
    let (Some(folder), Ok(case)) = (std::env::var_os(FOLDER), std::env::var(CASE)) else { return };
    let scenario = load(&case).unwrap();
    let reads = scenario.has(Tool::GaugeSet) && scenario.hoses_fitted;
    let mut session = Session::new(&scenario, Keeping::In(folder.into())).unwrap();
    let mut out = std::io::stdout();
    let mut done = 0;
    for n in 0_u32.. {
        let action = match n % 4 {
            0 => Action::Note(format!("act {n},\nwith a \"line\" of its own")),
            1 => Action::Suspect { group: Group::CondenserAirflow, standing: Standing::Suspected },
            2 if reads => Action::Read(Probe::LowGauge),
            _ => Action::Set(Change::BlowerPct(f64::from(n % 100))),
        };
        session.command(Command::Act(action));
        // What was refused is no act.
        if session.view().ui_state.notice.is_none() {
            done += 1;
            writeln!(out, "done {done}").unwrap();
            out.flush().unwrap();
        }
        session.pass(0.05, Duration::from_millis(2));
    }
}

#[test]
fn a_killed_session_loses_at_most_its_last_act() {
    let kills: u64 = std::env::var("PINTLE_KILLS").ok().and_then(|n| n.parse().ok()).unwrap_or(24);
    let (mut acts, mut lost, mut longest) = (0, 0, 0);
    for n in 0..kills {
        let case = CASES[n as usize % CASES.len()];
        let folder = std::env::temp_dir().join(format!("pintle-kill-{}-{n}", std::process::id()));
        let told = kill_one(&folder, case, 40 + (even(n, 0, 0) * 260.0) as u64);
        let files: Vec<_> = std::fs::read_dir(&folder).into_iter().flatten().flatten().collect();
        assert!(files.len() == usize::from(told > 0) || files.len() == 1, "{case}: {} files", files.len());
        if let Some(file) = files.first() {
            let record = Record::read(&file.path()).unwrap_or_else(|e| panic!("{case}, kill {n}: {e}"));
            assert_eq!(record.left_out, None, "{case}, kill {n}");
            let kept = record.actions.len();
            assert!(kept + 1 >= told && kept <= told + 1, "{case}, kill {n}: {kept} kept of {told} told");
            lost += told.saturating_sub(kept);
            longest = longest.max(kept);
            acts += told;
            if n % 8 == 0 {
                let again = reopen(&record, &Effort::default()).unwrap();
                assert_eq!((again.parting, again.bench.journal()), (None, record.actions.as_slice()));
            }
        }
        let _ = std::fs::remove_dir_all(folder);
    }
    println!("{kills} kills, {acts} acts told as done, {lost} lost, {longest} in the longest session");
    assert!(acts > kills as usize, "the victims did nothing");
}

/// Start a victim, kill it after a while; how many acts it told of.
fn kill_one(folder: &Path, case: &str, after_ms: u64) -> usize {
    let mut victim = Process::new(std::env::current_exe().unwrap())
        .args(["--exact", "kills::a_victim_works_on", "--nocapture", "--test-threads", "1"])
        .env(FOLDER, folder)
        .env(CASE, case)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(victim.stdout.take().unwrap()).lines();
    // The clock starts with the first act.
    let mut told = 0;
    let mut tell = |line: Option<std::io::Result<String>>| match line {
        Some(Ok(line)) => {
            told = line.strip_prefix("done ").and_then(|n| n.parse().ok()).unwrap_or(told).max(told);
            told
        }
        _ => usize::MAX,
    };
    while tell(lines.next()) == 0 {}
    let killer = std::thread::spawn(move || {
        std::thread::sleep(Duration::from_millis(after_ms));
        victim.kill().unwrap();
        victim.wait().unwrap();
    });
    while tell(lines.next()) != usize::MAX {}
    killer.join().unwrap();
    told
}
