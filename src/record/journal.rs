//! The journal of a session: a line for each act, added as it is made, so that whatever ends the program takes at most the
//! act of that moment along. A line that was torn in the middle is dropped on reading. There are no snapshots: an hour is
//! played again in a fraction of a second.

use std::fs::{File, OpenOptions};
use std::io::{self, Seek, SeekFrom, Write};
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::file::{FORMAT, Record};
use super::passing::MOST_TICKS;
use super::version::Maker;
use crate::bench::{Action, Bench};
use crate::instrument::Reading;
use crate::message::{PIECE, fit};
use crate::scenario::load::{check, check_format};
use crate::scenario::source::Position;
use crate::scenario::{BadFile, Scenario, parse};

/// A journal begins with this line.
pub const BEGINS: &str = "// Pintle: a session as it was worked, a line for each act.\n";

/// The second line: what the session runs on.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Head {
    format: u32,
    engine: String,
    model: String,
    #[serde(default)]
    earlier: Vec<Maker>,
    seed: u64,
    scenario: Scenario,
}

/// Every line after it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Line {
    /// An act on its tick.
    Did(u64, Action),
    /// What the reading before showed.
    Read(Reading),
    /// The session got so far [ticks].
    At(u64),
    /// It was left in order.
    Left {
        /// Its length.
        ticks: u64,
        /// State hash.
        state: String,
        /// Hash of the record that these lines make.
        hash: String,
    },
}

/// A journal being written.
#[derive(Debug)]
pub struct Journal {
    file: File,
    /// Bytes that are whole; what a failed write left behind them is cut off by the next one.
    whole: u64,
    acts: usize,
    readings: usize,
    at: u64,
}

impl Journal {
    /// Begin one with all that was done on a bench so far. Nothing is ever written over.
    ///
    /// # Errors
    /// When the file exists or cannot be written; then there is none.
    pub fn begin(path: &Path, bench: &Bench, earlier: &[Maker]) -> io::Result<Self> {
        let Maker { engine, model } = Maker::this();
        let head = Head {
            format: FORMAT,
            engine,
            model,
            earlier: earlier.to_vec(),
            seed: bench.seed(),
            scenario: bench.scenario().clone(),
        };
        let mut text = BEGINS.to_owned();
        add(&mut text, &head)?;
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        let mut journal = Self { file, whole: 0, acts: 0, readings: 0, at: 0 };
        match journal.write(&text).and_then(|()| journal.follow(bench)) {
            Ok(()) => Ok(journal),
            Err(e) => {
                drop(journal);
                // Half a beginning helps nobody; where it cannot be removed it is listed as broken.
                let _ = std::fs::remove_file(path);
                Err(e)
            }
        }
    }

    /// Add what was done since.
    ///
    /// # Errors
    /// When it cannot be written; it is tried again with the next call.
    pub fn follow(&mut self, bench: &Bench) -> io::Result<()> {
        let acts = &bench.journal()[self.acts.min(bench.journal().len())..];
        if acts.is_empty() {
            return Ok(());
        }
        let mut text = String::new();
        let mut readings = self.readings;
        for (tick, action) in acts {
            add(&mut text, &Line::Did(*tick, action.clone()))?;
            if matches!(action, Action::Read(_)) {
                if let Some(reading) = bench.notebook().get(readings) {
                    add(&mut text, &Line::Read(reading.clone()))?;
                }
                readings += 1;
            }
        }
        self.write(&text)?;
        (self.acts, self.readings) = (bench.journal().len(), readings);
        self.at = acts.last().map_or(self.at, |(tick, _)| *tick);
        Ok(())
    }

    /// Note how far time went, and see to it that the disk has all of it.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn note_time(&mut self, bench: &Bench) -> io::Result<()> {
        self.follow(bench)?;
        if bench.tick() == self.at {
            return Ok(());
        }
        let mut text = String::new();
        add(&mut text, &Line::At(bench.tick()))?;
        self.write(&text)?;
        self.at = bench.tick();
        // A disk may take its time; nobody waits for it.
        let file = self.file.try_clone()?;
        std::thread::spawn(move || file.sync_data());
        Ok(())
    }

    /// The session is left in order.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn leave(&mut self, bench: &Bench, earlier: &[Maker]) -> io::Result<()> {
        self.follow(bench)?;
        let record = Record::of(bench, earlier).map_err(io::Error::other)?;
        let mut text = String::new();
        add(&mut text, &Line::Left { ticks: record.ticks, state: record.state, hash: record.hash })?;
        self.write(&text)?;
        self.file.sync_data()
    }

    fn write(&mut self, text: &str) -> io::Result<()> {
        if self.file.metadata()?.len() > self.whole {
            self.file.set_len(self.whole)?;
        }
        self.file.seek(SeekFrom::Start(self.whole))?;
        self.file.write_all(text.as_bytes())?;
        self.whole += text.len() as u64;
        Ok(())
    }
}

/// Add a value as one line.
fn add(text: &mut String, value: &impl Serialize) -> io::Result<()> {
    let line = ron::Options::default().to_string(value).map_err(io::Error::other)?;
    text.push_str(&line);
    text.push('\n');
    Ok(())
}

/// Is this the text of a journal?
pub fn is_one(text: &str) -> bool {
    text.starts_with(BEGINS.trim_end())
}

/// A record from the text of a journal. A torn last line is dropped; what cannot be read before it ends the record there,
/// and [`Record::left_out`] says so.
pub fn read(file: &str, text: &str) -> Result<Record, BadFile> {
    let mut lines = text.split_inclusive('\n').skip(1);
    let head_line = lines.next().unwrap_or_default();
    let here = |bad: BadFile| moved(bad, 1);
    check_format(file, head_line, FORMAT).map_err(here)?;
    let head: Head = parse(file, head_line).map_err(here)?;
    check(file, head_line, "scenario.", &head.scenario).map_err(here)?;
    let mut record = Record {
        format: head.format,
        engine: head.engine,
        model: head.model,
        earlier: head.earlier,
        state: String::new(),
        hash: String::new(),
        seed: head.seed,
        ticks: 0,
        actions: Vec::new(),
        readings: Vec::new(),
        scenario: head.scenario,
        left_out: None,
    };
    let total = text.lines().count();
    for (number, line) in (3..).zip(lines) {
        let read = parse::<Line>(file, line)
            .map_err(|bad| bad.problems.first().map_or_else(String::new, |problem| problem.reason.clone()));
        match read.and_then(|line| take(&mut record, line)) {
            Ok(()) => {}
            // The program was ended in the middle of it.
            Err(_) if !line.ends_with('\n') => break,
            Err(reason) => {
                record.left_out = Some(format!(
                    "line {number} cannot be read ({}); it and the {} after it are left out",
                    fit(&reason, PIECE),
                    total.saturating_sub(number)
                ));
                break;
            }
        }
    }
    Ok(record)
}

/// Take a line into a record.
fn take(record: &mut Record, line: Line) -> Result<(), String> {
    let last = record.ticks;
    let then = |tick: u64| match tick {
        _ if tick < last => Err(format!("tick {tick} comes after {last}")),
        _ if tick > MOST_TICKS => Err(format!("tick {tick} is more than {MOST_TICKS}")),
        _ => Ok(tick),
    };
    // Whoever goes on after the end has not ended.
    (record.state, record.hash) = (String::new(), String::new());
    match line {
        Line::Did(tick, action) => {
            record.ticks = then(tick)?;
            record.actions.push((tick, action));
        }
        Line::Read(reading) => record.readings.push(reading),
        Line::At(tick) => record.ticks = then(tick)?,
        Line::Left { ticks, state, hash } => {
            record.ticks = then(ticks)?;
            (record.state, record.hash) = (state, hash);
        }
    }
    Ok(())
}

/// Problems of a line, so many lines further down.
fn moved(mut bad: BadFile, lines: usize) -> BadFile {
    for problem in &mut bad.problems {
        problem.at = problem.at.map(|at| Position { line: at.line + lines, ..at });
    }
    bad
}

#[cfg(test)]
#[path = "journal_tests.rs"]
mod tests;
