//! The sessions that were kept: listed, and taken up again, both beside the drawing.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use crate::bench::TICK_S;
use crate::desk::errand::Errand;
use crate::desk::kept::{self, Keeping, Kept};
use crate::record::{Maker, Parting, PartingBy, Record, Reopened, reopen};
use crate::units::clock;

/// A session that was taken up.
pub struct TakenUp {
    /// The bench, and where today's model parts from the session.
    pub reopened: Reopened,
    /// Its file, where the bench holds all that stands in it; else the file must stay.
    pub whole: Option<PathBuf>,
    /// Programs with another model that worked on it.
    pub earlier: Vec<Maker>,
    /// What a person must know of it as long as it lies open.
    pub remarks: Vec<String>,
}

/// What lies in the folder of sessions.
#[derive(Default)]
pub struct Archive {
    kept: Vec<Kept>,
    listing: Errand<Vec<Kept>>,
    taking: Errand<Result<TakenUp, String>>,
}

impl Archive {
    /// Sessions as they were last listed, newest first.
    pub fn kept(&self) -> &[Kept] {
        &self.kept
    }
    /// List them anew, but for the one that is being written.
    pub fn look(&mut self, place: &Keeping, but: Option<&Path>) {
        let Some(folder) = place.folder().map(Path::to_owned) else { return };
        let but = but.map(Path::to_owned);
        #[expect(
            clippy::disallowed_methods,
            reason = "how long ago something was written is told to a person alone"
        )]
        let now = SystemTime::now();
        self.listing.start(move |_| kept::list(&folder, but.as_deref(), now));
    }
    /// Take one up; it is played from its file.
    pub fn take_up(&mut self, path: PathBuf) {
        self.taking.start(move |effort| {
            let record = Record::read(&path).map_err(|bad| bad.to_string())?;
            let reopened = reopen(&record, effort).map_err(|e| format!("{}: {e}", path.display()))?;
            let remarks = remarks(&record, &reopened);
            let mut earlier = record.earlier.clone();
            if !record.maker().is_this() {
                earlier.push(record.maker());
            }
            // What was not understood, or is played otherwise today, is in the file alone.
            let whole = (remarks.is_empty() && earlier.is_empty()).then_some(path);
            Ok(TakenUp { reopened, whole, earlier, remarks })
        });
    }
    /// How far the taking up is, 0 to 1.
    pub fn share(&self) -> Option<f32> {
        self.taking.share()
    }
    /// Leave it where it was.
    pub fn give_up(&mut self) {
        self.taking.give_up();
    }
    /// Take what is ready: the list, or a session.
    pub fn collect(&mut self) -> Option<Result<TakenUp, String>> {
        if let Some(Ok(kept)) = self.listing.collect() {
            self.kept = kept;
        }
        self.taking
            .collect()
            .map(|taken| taken.map_err(|stopped| stopped.to_string()).and_then(|taken| taken))
    }
}

/// What is to be known of a session that was taken up.
fn remarks(record: &Record, reopened: &Reopened) -> Vec<String> {
    let mut remarks = Vec::new();
    if let Some(Parting { tick, by }) = &reopened.parting {
        let maker = record.maker();
        let who = if maker.is_this() {
            "This session does not play as it was written".to_owned()
        } else {
            format!("This session was made by {maker}")
        };
        let at = clock(*tick as f64 * TICK_S);
        remarks.push(match by {
            PartingBy::Reading(n) => format!(
                "{who}. What was read and written then stands as it was; from reading {n} at {at} on, today's model gives other values."
            ),
            PartingBy::Refused(reason) => {
                format!("{who}. Today's model parts from it at {at}, where it refuses what was done: {reason}.")
            }
            PartingBy::End => {
                format!("{who}. What was read is the same today; only the state at its end, {at}, is another.")
            }
        });
    }
    if reopened.touched {
        remarks.push("The file of this session was changed after it was written.".into());
    }
    if let Some(left_out) = &record.left_out {
        remarks.push(format!("Not all of this session could be read: {left_out}."));
    }
    remarks
}
