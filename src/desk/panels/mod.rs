//! The panels: pure egui functions of a view. Each draws what it is told and pushes commands; what a
//! person has typed or half done lives in the [`Draft`], kept in egui's own memory.

mod controls;
mod debrief;
mod diagnose;
mod dial;
mod draft;
mod gauges;
mod help;
mod instructor;
mod notebook;
mod parts;
mod start;
mod strips;
mod suspects;
mod tools;
mod truth;
pub mod words;
mod work;

pub use controls::controls;
pub use debrief::debrief;
pub use draft::{Door, Draft, Tab, propose};
pub use gauges::gauges;
pub use help::help;
pub use instructor::instructor;
pub use start::start;
pub use strips::strips;
pub use tools::tools;
pub use truth::truth;
pub use work::work;
