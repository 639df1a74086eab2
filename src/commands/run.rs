//! `pintle run`: a scenario without a window.

use std::collections::BTreeSet;
use std::io::Write;

use serde::Serialize;

use super::columns::Row;
use super::failure::Failure;
use super::plan::Plan;
use super::progress::Progress;
use super::readings;
use super::run_args::RunArgs;
use super::senses;
use super::tools;
use crate::bench::{Action, Bench};
use crate::lesson::bay_review;
use crate::message::{LINE, fit};
use crate::procedure::{PlayError, Player};
use crate::record::new_file::{Replace, all_apart};
use crate::record::{NewFile, Record, advance_to, hash_text, start};
use crate::stop::Stop;

/// Ticks between two looks at the progress, and at whether to stop.
const STRETCH: u64 = 20;

/// So many solver troubles are told in full; the first ones show the cause.
const MOST_TOLD: usize = 10;

/// Final readings as JSON: the columns of the trace, then what a script wants to know besides.
#[derive(Serialize)]
struct Outcome<'a> {
    #[serde(flatten)]
    row: &'a Row,
    scenario: &'a str,
    seed: u64,
    state_hash: &'a str,
    troubles: &'a [String],
    #[serde(skip_serializing_if = "Option::is_none")]
    procedure: Option<Played>,
    #[serde(skip_serializing_if = "Option::is_none")]
    perceived: Option<senses::Words>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    readings: tools::Found,
    /// How the work in the bay went, in words.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    bay: Vec<String>,
}

/// How far an action file was played, and what came out otherwise than it says.
#[derive(Serialize)]
struct Played {
    id: String,
    steps: usize,
    done: usize,
    failures: Vec<String>,
}

impl Played {
    fn of(player: &Player, stopped: Option<&PlayError>) -> Self {
        let (id, steps) = (player.procedure().id.clone(), player.steps().len());
        let misses = player.misses().iter().map(ToString::to_string);
        let failures = misses.chain(stopped.map(ToString::to_string)).collect();
        Self { id, steps, done: player.step(), failures }
    }
}

/// Run it.
pub fn run(args: &RunArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let plan = Plan::new(args)?;
    all_apart(&[("--trace", args.trace.as_deref()), ("--record", args.record.as_deref())])?;
    // From before there is a part that a signal could leave behind.
    let stop = Stop::listen();
    let mut trace = match &args.trace {
        Some(path) if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("ron")) => {
            return Err(Failure::Input(format!(
                "{}: a trace is a CSV file, and .ron files are never written over by one",
                fit(&path.display().to_string(), LINE)
            )));
        }
        Some(path) => Some(NewFile::create(path, Replace::IfBeginsWith("time_s,"))?),
        None => None,
    };
    let record = match &args.record {
        Some(path) => Some(NewFile::create(path, Replace::Never)?),
        None => None,
    };
    let mut bench = start(&plan.scenario, args.seed)?;
    let mut odd = BTreeSet::new();
    let mut player = plan.procedure.clone().map(|procedure| Player::new(procedure, &bench));
    let stopped = drive(&mut bench, &plan, player.as_mut(), trace.as_mut(), &mut odd, &stop)?;
    let procedure = player.as_ref().map(|player| Played::of(player, stopped.as_ref()));
    let row = Row::of(&bench);
    odd.extend(row.not_finite());

    let troubles = troubles(&bench, &odd);
    let mut wrong = troubles.clone();
    wrong.extend(procedure.iter().flat_map(|played| played.failures.clone()));
    let hash = hash_text(&bench).map_err(|e| Failure::Wrong(e.to_string()))?;
    if let Some(trace) = trace {
        trace.finish()?;
    }
    if let Some(file) = record {
        Record::of(&bench, &[]).map_err(|e| Failure::Wrong(e.to_string()))?.write(file)?;
    }
    if args.json {
        let (scenario, seed) = (plan.scenario.id.as_str(), args.seed);
        let perceived = args.perceive.then(|| senses::words(&bench.perceived()));
        let outcome = Outcome {
            row: &row,
            scenario,
            seed,
            state_hash: &hash,
            troubles: &troubles,
            procedure,
            perceived,
            readings: tools::found(&bench),
            bay: bay_review(&bench),
        };
        writeln!(out, "{}", serde_json::to_string_pretty(&outcome).map_err(std::io::Error::from)?)?;
    } else {
        readings::print(out, &plan.scenario, &bench.snapshot(true))?;
        tools::print(out, &bench)?;
        let work = bay_review(&bench);
        if !work.is_empty() {
            writeln!(out, "\nWork in the bay")?;
            work.iter().try_for_each(|line| writeln!(out, "  {}", fit(line, LINE)))?;
        }
        if let Some(played) = &procedure {
            writeln!(out, "Action file {}: {} of {} steps played", played.id, played.done, played.steps)?;
        }
        if args.perceive {
            senses::print(out, &bench.perceived())?;
        }
        writeln!(out, "state hash  {hash}")?;
    }
    if wrong.is_empty() { Ok(()) } else { Err(Failure::Wrong(wrong.join("\n"))) }
}

/// Take the bench through the plan and the player through its steps, writing rows as they fall due. It ends early
/// where the player cannot go on.
fn drive(
    bench: &mut Bench,
    plan: &Plan,
    mut player: Option<&mut Player>,
    mut trace: Option<&mut NewFile>,
    odd: &mut BTreeSet<&'static str>,
    signals: &Stop,
) -> Result<Option<PlayError>, Failure> {
    let steps = player.as_ref().map(|player| player.steps().len() as u64);
    let mut progress = Progress::new(steps.unwrap_or(plan.ticks));
    let mut actions = plan.actions.iter().peekable();
    let mut next_row = 0;
    loop {
        if let Some(signal) = signals.came() {
            return Err(Failure::Stopped { signal });
        }
        let now = bench.tick();
        while let Some((_, action)) = actions.next_if(|(tick, _)| *tick <= now) {
            act(bench, action)?;
        }
        let stopped = player.as_mut().and_then(|player| player.act(bench).err());
        let due = player.as_ref().and_then(|player| player.due());
        let over = stopped.is_some() || (now >= plan.ticks && due.is_none());
        if let Some(file) = trace.as_deref_mut().filter(|_| over || now >= plan.row_tick(next_row)) {
            let row = Row::of(bench);
            if next_row == 0 {
                file.write(&(row.header() + "\n"))?;
            }
            file.write(&(row.line() + "\n"))?;
            odd.extend(row.not_finite());
            while plan.row_tick(next_row) <= now {
                next_row += 1;
            }
        }
        if over {
            return Ok(stopped);
        }
        progress.at(player.as_ref().map_or(now, |player| player.step() as u64));
        let mut stop = now + STRETCH;
        for end in [Some(plan.ticks).filter(|&end| end > now), due].into_iter().flatten() {
            stop = stop.min(end);
        }
        if trace.is_some() {
            stop = stop.min(plan.row_tick(next_row));
        }
        if let Some((tick, _)) = actions.peek() {
            stop = stop.min(*tick);
        }
        advance_to(bench, stop).map_err(|e| Failure::Wrong(e.to_string()))?;
    }
}

/// Do one thing; a hand valve needs the hoses, so they are fitted first.
fn act(bench: &mut Bench, action: &Action) -> Result<(), Failure> {
    let manifold = matches!(action, Action::ManifoldLowPct(_) | Action::ManifoldHighPct(_));
    let fit = manifold && !bench.hoses_fitted();
    for action in fit.then_some(Action::Hoses(true)).iter().chain([action]) {
        let at = bench.tick() as f64 * crate::bench::TICK_S;
        bench
            .apply(action.clone())
            .map_err(|refusal| Failure::Input(format!("at {at} s: {refusal}; the run was given up")))?;
    }
    Ok(())
}

/// What went wrong inside a run that ended.
pub fn troubles(bench: &Bench, odd: &BTreeSet<&'static str>) -> Vec<String> {
    let mut all: Vec<String> = odd.iter().map(|name| format!("{name} was not a finite number")).collect();
    let told = bench.troubles();
    all.extend(told.iter().take(MOST_TOLD).cloned());
    if told.len() > MOST_TOLD {
        all.push(format!("and {} more of this kind", told.len() - MOST_TOLD));
    }
    all
}
