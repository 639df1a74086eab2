//! Files broken by chance, of each kind that a person may hand to the program: never a panic, never a message that clears
//! the screen of who reads it or fills it.
//!
//! `PINTLE_BROKEN=5000 cargo test --release --no-default-features --test program broken_files -- --nocapture` tries more of each.

use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

use pintle::bench::{Action, Bench};
use pintle::effort::Effort;
use pintle::knobs::Change;
use pintle::procedure::{self, Player};
use pintle::record::{Journal, Record, reopen, replay, start};
use pintle::scenario::load::from_path;
use pintle::scenario::{BadFile, SHIPPED, load};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Longest message: twenty problems, each with a list of valid names.
const MOST_CHARS: usize = 60_000;
/// Lines: twenty problems and how many there are besides.
const MOST_LINES: usize = 21;
/// A record that is still valid is played again if it is no longer than this [ticks].
const PLAYED_TICKS: u64 = 1_000;

/// What is put into a file to break it.
fn pieces() -> Vec<String> {
    let words = [
        "1e400",
        "-1e308",
        "NaN",
        "-inf",
        "1e-320",
        "99999999999999999999999",
        "-0.0",
        "0x7fffffffffffffff",
        "\u{1b}[2J\u{1b}]0;x\u{7}",
        "\u{0}",
        "\r",
        "\u{7f}\u{9b}31m",
        "\u{202e}",
        "\u{feff}",
        "\"",
        "'",
        "r#\"",
        "/*",
        "//",
        "#![enable(unwrap_newtypes)]",
        "(",
        ")",
        "[",
        "]",
        "{",
        "}",
        ",",
        ":",
        "Some(",
        "None",
        "é",
        "\\u{110000}",
        "stopped(stopped(hint))",
        "\"\\u{1b}[31m\"",
        "true",
        "-1",
        "()",
    ];
    let long = [
        "(".repeat(20_000),
        "[".repeat(300),
        "Some(".repeat(5_000),
        "9".repeat(4_000),
        "A".repeat(100_000),
        "\u{1b}".repeat(50_000),
        format!("\"{}\"", "\u{7}".repeat(100_000)),
        "stopped(".repeat(1_000) + "hint" + &")".repeat(1_000),
        "(at_s: -1, change: blower_pct(101)),".repeat(3_000),
    ];
    words.map(str::to_owned).into_iter().chain(long).collect()
}

/// The text, broken in one to three ways.
fn broken(rng: &mut ChaCha8Rng, sound: &str, pieces: &[String]) -> Vec<u8> {
    let mut bytes = sound.as_bytes().to_vec();
    for _ in 0..rng.random_range(1..4) {
        let at = rng.random_range(0..=bytes.len());
        let to = (at + rng.random_range(0..200)).min(bytes.len());
        match rng.random_range(0..9) {
            0 => bytes.truncate(at),
            1 => drop(bytes.drain(at..to)),
            2 => {
                let twice = bytes[at..to].to_vec();
                bytes.splice(at..at, twice);
            }
            3 if at < bytes.len() => bytes[at] ^= 1 << rng.random_range(0..8),
            4 if at < bytes.len() => bytes[at] = rng.random(),
            // In place of what stands there: this often leaves a file that can be read, with a value that makes no sense.
            5 | 6 => {
                let (from, to) = value(&bytes, at);
                bytes.splice(from..to, pieces[rng.random_range(0..pieces.len())].bytes());
            }
            _ => {
                bytes.splice(at..at, pieces[rng.random_range(0..pieces.len())].bytes());
            }
        }
    }
    bytes
}

/// Where the value nearest behind `at` begins and ends: what stands between a colon and the next comma or bracket.
fn value(bytes: &[u8], at: usize) -> (usize, usize) {
    let from = bytes[at..].iter().position(|b| *b == b':').map_or(at, |colon| at + colon + 1);
    let length = bytes[from..].iter().position(|b| b",)]\n".contains(b)).unwrap_or(0);
    (from, from + length)
}

fn place(name: &str) -> PathBuf {
    let dir = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("broken-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&dir);
    fs::create_dir_all(&dir).unwrap();
    dir
}

/// A message that can be shown.
fn fit(message: &str) -> Result<(), String> {
    let (chars, lines) = (message.chars().count(), message.lines().count());
    if chars > MOST_CHARS || lines > MOST_LINES || chars == 0 {
        return Err(format!("{chars} characters on {lines} lines: {message:.300}"));
    }
    match message.chars().find(|c| c.is_control() && *c != '\n' || *c == '\u{202e}') {
        Some(c) => Err(format!("{} in {:.300}", c.escape_unicode(), message.escape_debug())),
        None => Ok(()),
    }
}

/// Break files of a kind; `read` says what came of one, or why it was refused.
fn try_all(kind: &str, sound: &[&str], read: impl Fn(&Path) -> Result<(), BadFile>) {
    let cases = std::env::var("PINTLE_BROKEN").ok().and_then(|s| s.parse().ok()).unwrap_or(300_u64);
    let first = std::env::var("PINTLE_FIRST").ok().and_then(|s| s.parse().ok()).unwrap_or(0_u64);
    let (dir, pieces) = (place(kind), pieces());
    let path = dir.join(format!("{kind}\u{1b}[7m.ron"));
    let (mut failed, mut refused) = (vec![], 0);
    for number in first..first + cases {
        let mut rng = ChaCha8Rng::seed_from_u64(number);
        let text = sound[rng.random_range(0..sound.len())];
        fs::write(&path, broken(&mut rng, text, &pieces)).unwrap();
        match catch_unwind(AssertUnwindSafe(|| read(&path))) {
            Ok(Ok(())) => {}
            Ok(Err(bad)) => {
                refused += 1;
                if let Err(what) = fit(&bad.to_string()) {
                    failed.push(format!("{number}: {what}"));
                }
            }
            Err(_) => {
                let kept = dir.with_extension(format!("{number}.ron"));
                fs::copy(&path, &kept).unwrap();
                failed.push(format!("{number}: PANIC, kept as {}", kept.display()));
            }
        }
    }
    fs::remove_dir_all(dir).unwrap();
    println!("{kind}: {cases} from number {first}, {refused} refused, {} failed", failed.len());
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}

#[test]
fn broken_scenarios() {
    let sound: Vec<&str> = SHIPPED.iter().map(|s| s.text).collect();
    try_all("scenario", &sound, |path| {
        let scenario = from_path(path)?;
        // What is still valid is run.
        let mut bench = Bench::new(&scenario, 1).expect("a valid scenario has a bench");
        bench.advance(20);
        Ok(())
    });
}

#[test]
fn broken_records() {
    let mut texts = vec![];
    let folder = std::env::temp_dir().join(format!("pintle-sessions-{}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    for id in ["healthy", "bay_topped_up_twice", "now_and_then"] {
        let mut bench = start(&load(id).unwrap(), 4).unwrap();
        for action in [
            Action::Set(Change::BlowerPct(40.0)),
            Action::Note("two\nlines \u{1b}[2J and a bell \u{7}".into()),
            Action::Hoses(true),
            Action::ManifoldLowPct(3.0),
            Action::Unplug("clutch_plug".into(), true),
            Action::Hint,
        ] {
            bench.advance(20);
            let _refused = bench.apply(action);
        }
        bench.advance(20);
        texts.push(Record::of(&bench, &[]).unwrap().to_text().unwrap());
        // The same session as the desk keeps it.
        let path = folder.join(id);
        Journal::begin(&path, &bench, &[]).unwrap().leave(&bench, &[]).unwrap();
        texts.push(fs::read_to_string(path).unwrap());
    }
    fs::remove_dir_all(folder).unwrap();
    let sound: Vec<&str> = texts.iter().map(String::as_str).collect();
    try_all("record", &sound, |path| {
        let record = Record::read(path)?;
        if let Some(left_out) = &record.left_out {
            fit(left_out).expect("a message fit to be shown");
        }
        if record.ticks <= PLAYED_TICKS {
            if let Err(error) = replay(&record) {
                fit(&error.to_string()).expect("a message fit to be shown");
            }
            // The desk plays what it can of it.
            if let Err(error) = reopen(&record, &Effort::default()) {
                fit(&error.to_string()).expect("a message fit to be shown");
            }
        }
        Ok(())
    });
}

#[test]
fn broken_action_files() {
    let sound: Vec<&str> = procedure::SHIPPED.iter().map(|s| s.text).collect();
    try_all("actions", &sound, |path| {
        let procedure = procedure::load(&path.display().to_string())?;
        // What is still valid is begun.
        let mut bench = start(&load(&procedure.scenario)?, 1).expect("a valid scenario has a bench");
        let mut player = Player::new(procedure, &bench);
        for _ in 0..20 {
            if let Err(error) = player.act(&mut bench) {
                fit(&error.to_string()).expect("a message fit to be shown");
                break;
            }
            bench.advance(20);
        }
        for miss in player.misses() {
            fit(&miss.to_string()).expect("a message fit to be shown");
        }
        Ok(())
    });
}
