//! The program as a person or a script meets it: commands, bad input, the qualification guide.
//! `cargo test --no-default-features --test program command_line` runs one module.

mod bad_input;
mod bounds;
mod broken_files;
mod command_line;
mod files;
mod qualify;
