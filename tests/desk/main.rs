//! The desk through egui_kittest, without a window, a module for each page or card:
//! `cargo test --no-default-features --features desk-tests --test desk bay` runs one.

mod sample;
mod shapes;

mod bay;
mod kills;
mod loop_drawing;
mod panels;
mod perceived;
mod repairs;
mod rig;
