//! Records: what was run and what was done, enough to run it again and get the same state hash.
//!
//! A record is a RON file with the whole scenario, the seed and every action with its tick. It holds no
//! readings; replay makes them again.

pub mod journal;
pub mod new_file;

pub use journal::{Record, ReplayError, replay, start};
pub use new_file::NewFile;
