//! Action files that begin where another ends: the whole row of steps.

use super::{Procedure, SHIPPED, Step};
use crate::assets::by_id;
use crate::message::{WORD, fit};
use crate::scenario::nearest::hint;
use crate::scenario::parse;

/// Longest row of action files that begin where another ends.
const LONGEST_ROW: usize = 12;

/// A step to be played, with the file it stands in.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// Id of its file.
    pub file: String,
    /// Its number there, counted from 1.
    pub number: usize,
    /// The step.
    pub step: Step,
}

/// The steps of a procedure with those of the files it begins after, in order; or what is wrong with that row.
///
/// # Errors
/// When a file of the row does not exist, is broken, or the row bites its own tail.
pub fn whole(procedure: &Procedure) -> Result<Vec<Planned>, String> {
    let mut row = vec![procedure.clone()];
    while let Some(id) = row.last().and_then(|last| last.after.clone()) {
        let Some(shipped) = by_id(SHIPPED, &id) else {
            let ids = SHIPPED.iter().map(|s| s.id);
            return Err(format!(
                "there is no embedded action file `{}` ({})",
                fit(&id, WORD),
                hint(&id, ids)
            ));
        };
        // Read without checks: they would walk this row again.
        let before: Procedure = parse(shipped.file, shipped.text).map_err(|e| e.to_string())?;
        if row.len() >= LONGEST_ROW {
            return Err(format!(
                "`{id}` comes round again, or more than {LONGEST_ROW} files follow each other"
            ));
        }
        row.push(before);
    }
    let planned = |p: Procedure| {
        let file = p.id;
        p.steps.into_iter().enumerate().map(move |(i, step)| Planned {
            file: file.clone(),
            number: i + 1,
            step,
        })
    };
    Ok(row.into_iter().rev().flat_map(planned).collect())
}
