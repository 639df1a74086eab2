//! The panels: pure egui functions of a view and of the papers a person writes on. Each draws what it is told and
//! pushes commands; what is typed or half done lies in the [`Draft`].

pub(in crate::desk) mod cautious;
pub(in crate::desk) mod controls;
mod debrief;
mod diagnose;
pub(super) mod dial;
pub(in crate::desk) mod draft;
pub(super) mod gate;
pub(super) mod gauges;
mod instructor;
pub(super) mod notebook;
pub(super) mod parts;
mod perceived;
pub mod repairs;
mod start;
mod strips;
mod suspects;
pub(super) mod tools;
mod traces;
mod truth;
pub mod words;
mod work;

pub use controls::{controls_ui, label as knob_label};
pub use debrief::debrief_ui;
pub use draft::{Door, Draft, Tab};
pub use gauges::gauges_ui;
pub use instructor::instructor_ui;
pub use perceived::perceived_ui;
pub use start::start_ui;
pub use strips::strips_ui;
pub use tools::tools_ui;
pub use truth::truth_ui;
pub use work::work_ui;
