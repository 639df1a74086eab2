//! Records: what was run and what was done, enough to run it again and get the same state hash; and what was read, so that a
//! session of another model is still whole.
//!
//! A record is a RON file with the scenario, the seed, every action with its tick and every reading ([`Record`]). The desk
//! keeps a session as a journal, a line for each act ([`Journal`]), which reads back as a record.

mod file;
mod journal;
pub mod new_file;
mod old;
mod passing;
mod reading;
mod replay;
mod version;

pub use file::{FORMAT, Record, hash_text};
pub use journal::Journal;
pub use new_file::NewFile;
pub use passing::{MOST_TICKS, TooLong, advance_to};
pub use reading::{HEAD_BYTES, LARGEST_BYTES, begins_like_one};
pub use replay::{Parting, PartingBy, Reopened, ReplayError, reopen, replay, start};
pub use version::{ENGINE, MODEL, Maker};
