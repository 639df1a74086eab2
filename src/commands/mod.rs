//! Headless subcommands, one file each.

pub mod properties;
#[cfg(feature = "tables")]
pub mod tables;
