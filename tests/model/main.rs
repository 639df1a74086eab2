//! The model through the library, a module for each subject: `cargo test --no-default-features --test model catalogue`
//! runs one. One binary, because each is linked against the whole core; what belongs to the tests of one file stays in it.

mod common;

mod balances;
mod bay;
mod bay_at_random;
mod bay_instruments;
mod catalogue;
mod charts;
mod diagnosis;
mod faults;
mod five_rigs;
mod inside;
mod instruments;
mod outside_checks;
mod perceived;
mod procedures;
mod properties;
mod random_scenarios;
mod recurrence;
mod repairs;
mod rigs;
mod scenario_snapshots;
mod service_bay;
mod signs;
mod surroundings;
mod vacuum;
