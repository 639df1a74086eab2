//! Run a record again: strictly, for the same hash; or so that what stands in it is there whatever the model says today.

use super::file::{Record, hash_text};
use super::passing::{MOST_TICKS, TooLong, advance_to};
use super::version::Maker;
use crate::bench::{Action, Bench, Refusal};
use crate::effort::{Effort, GivenUp};
use crate::fingerprint::FingerprintError;
use crate::scenario::Scenario;

/// Why a record could not be run again.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ReplayError {
    /// The bench could not be set up.
    #[error("the bench cannot be set up: {0}")]
    Start(String),
    /// It runs longer than a record may.
    #[error(transparent)]
    TooLong(#[from] TooLong),
    /// The bench refused an action it once took.
    #[error("action {number} at tick {tick} was refused: {refusal}{}", other_maker(.maker))]
    Refused {
        /// Which action, counted from 1.
        number: usize,
        /// Its tick.
        tick: u64,
        /// What the bench said.
        refusal: Refusal,
        /// Who made the record.
        maker: Box<Maker>,
    },
    /// The run ended in another state.
    #[error("the replay ended with state hash {found}, the record says {recorded}{}", other_maker(.maker))]
    Differs {
        /// Hash in the record.
        recorded: String,
        /// Hash of the replay.
        found: String,
        /// Who made the record.
        maker: Box<Maker>,
    },
    /// Something was changed in the record after it was written.
    #[error(
        "what stands in the record has the hash {found}, the record says {recorded}: it was changed after it was written"
    )]
    Touched {
        /// Hash in the record.
        recorded: String,
        /// Hash of what stands in it.
        found: String,
    },
    /// The state has no hash.
    #[error(transparent)]
    NoHash(#[from] FingerprintError),
    /// Nobody waits for it any more.
    #[error(transparent)]
    GivenUp(#[from] GivenUp),
}

fn other_maker(maker: &Maker) -> String {
    if maker.is_this() {
        return String::new();
    }
    format!("; it was made by {maker} and this is {}, so they need not agree", Maker::this())
}

/// A bench at tick 0. The one place outside the desk that makes one.
pub fn start(scenario: &Scenario, seed: u64) -> Result<Bench, ReplayError> {
    Bench::new(scenario, seed).map_err(|e| ReplayError::Start(e.to_string()))
}

/// Run a record again; the bench at its end, once its state hash is the recorded one. A session that was cut off has none to
/// compare with.
pub fn replay(record: &Record) -> Result<Bench, ReplayError> {
    if record.is_untouched() == Some(false) {
        return Err(ReplayError::Touched { recorded: record.hash.clone(), found: record.own_hash()? });
    }
    let mut bench = start(&record.scenario, record.seed)?;
    for (index, (tick, action)) in record.actions.iter().enumerate() {
        advance_to(&mut bench, *tick)?;
        bench.apply(action.clone()).map_err(|refusal| {
            let maker = Box::new(record.maker());
            ReplayError::Refused { number: index + 1, tick: *tick, refusal, maker }
        })?;
    }
    advance_to(&mut bench, record.ticks)?;
    let found = hash_text(&bench)?;
    if record.state.is_empty() || found.eq_ignore_ascii_case(&record.state) {
        return Ok(bench);
    }
    Err(ReplayError::Differs { recorded: record.state.clone(), found, maker: Box::new(record.maker()) })
}

/// Where a replay parts from what stands in a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parting {
    /// Tick of it.
    pub tick: u64,
    /// By what.
    pub by: PartingBy,
}

/// What comes out otherwise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PartingBy {
    /// A reading has another value; its number in the notebook, counted from 1.
    Reading(usize),
    /// An act is refused, for this reason.
    Refused(String),
    /// Only the state at the end is another.
    End,
}

/// A session that was taken up again.
#[derive(Clone, Debug)]
pub struct Reopened {
    /// The bench at its end. Its notebook holds what was read then, even where the model gives other values today.
    pub bench: Bench,
    /// Where today's model parts from it, if it does.
    pub parting: Option<Parting>,
    /// The file was changed after it was written.
    pub touched: bool,
}

/// Take a session up whatever the model says today: all that was done, read, written and handed in is there.
///
/// # Errors
/// When the bench cannot be set up at all, or the effort was given up.
pub fn reopen(record: &Record, effort: &Effort) -> Result<Reopened, ReplayError> {
    if record.ticks > MOST_TICKS {
        return Err(TooLong { tick: record.ticks }.into());
    }
    effort.plan(record.ticks);
    let mut bench = start(&record.scenario, record.seed)?;
    let mut parting = None;
    let mut read = 0;
    for (tick, action) in &record.actions {
        bench.advance_until(*tick, effort)?;
        if let Err(refusal) = bench.apply(action.clone()) {
            let by = PartingBy::Refused(refusal.to_string());
            parting.get_or_insert(Parting { tick: *tick, by });
        }
        if matches!(action, Action::Read(_)) && read < record.readings.len() {
            read += 1;
            let kept = &record.readings[..read];
            if bench.notebook() != kept {
                let by = PartingBy::Reading(read);
                parting.get_or_insert(Parting { tick: *tick, by });
                bench.recall(kept);
            }
        }
    }
    bench.advance_until(record.ticks, effort)?;
    if parting.is_none()
        && !record.state.is_empty()
        && hash_text(&bench)? != record.state.to_ascii_lowercase()
    {
        parting = Some(Parting { tick: record.ticks, by: PartingBy::End });
    }
    Ok(Reopened { bench, parting, touched: record.is_untouched() == Some(false) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::Probe;
    use crate::scenario::load;

    fn record() -> Record {
        let mut bench = Bench::new(&load("healthy").unwrap(), 5).unwrap();
        for _ in 0..2 {
            bench.advance(30);
            bench.apply(Action::Read(Probe::HighGauge)).unwrap();
        }
        bench.apply(Action::Note("steady".into())).unwrap();
        Record::of(&bench, &[]).unwrap()
    }

    #[test]
    fn a_changed_word_is_found() {
        let whole = record();
        assert!(replay(&whole).is_ok());
        let changes: [fn(&mut Record); 5] = [
            |r| r.scenario.work_order.push('!'),
            |r| r.actions[2].1 = Action::Note("wavering".into()),
            |r| r.actions.push((60, Action::Note("too".into()))),
            |r| r.readings[0].value += 1.0,
            |r| r.seed += 1,
        ];
        for (n, change) in changes.into_iter().enumerate() {
            let mut touched = whole.clone();
            change(&mut touched);
            assert!(matches!(replay(&touched), Err(ReplayError::Touched { .. })), "change {n}");
        }
    }

    /// A record of another model is opened with what was read then, and says where today's model parts from it.
    #[test]
    fn another_model_s_session_is_taken_up() {
        let mut old = record();
        (old.model, old.engine) = ("0123456789abcdef".into(), "0.0.9".into());
        old.readings[1].value += 5.0e4;
        old.state = "fedcba9876543210".into();
        old.hash = old.own_hash().unwrap();
        let error = replay(&old).unwrap_err().to_string();
        assert!(error.contains("made by version 0.0.9 (model 012345) and this is"), "{error}");
        let Reopened { bench, parting, touched } = reopen(&old, &Effort::default()).unwrap();
        assert_eq!(parting, Some(Parting { tick: 60, by: PartingBy::Reading(2) }));
        assert!(!touched);
        assert_eq!(bench.notebook(), old.readings);
        assert_eq!(bench.journal(), old.actions);
        let given_up = Effort::default();
        given_up.give_up();
        assert_eq!(reopen(&old, &given_up).unwrap_err(), ReplayError::GivenUp(GivenUp));
    }

    /// What a model of today refuses does not keep the rest from being opened.
    #[test]
    fn a_refused_act_loses_nothing_else() {
        let mut old = record();
        old.actions.insert(0, (10, Action::RenewFuse("a fuse of another rig".into())));
        let reopened = reopen(&old, &Effort::default()).unwrap();
        let parting = reopened.parting.unwrap();
        assert!(parting.tick == 10 && matches!(parting.by, PartingBy::Refused(_)));
        assert_eq!(reopened.bench.notebook().len(), 2);
        assert!(reopened.touched);
    }
}
