//! Property tables: made, read, and compared with CoolProp's states.

use std::hint::black_box;

use super::clock::Clock;
use super::coolprop::{WITHOUT_CONDUCTIVITY, worst_of_states, worst_of_transport};
use super::table::Table;
use super::worst::Worst;
use pintle::refrigerant::Refrigerant;

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/assets/refrigerants");

/// Least and most of some seconds.
fn span(seconds: &[f64]) -> (f64, f64) {
    (seconds.iter().copied().fold(f64::INFINITY, f64::min), seconds.iter().copied().fold(0.0, f64::max))
}

fn reading(table: &mut Table) {
    let each: Vec<f64> = WITHOUT_CONDUCTIVITY
        .iter()
        .map(|(name, _)| {
            let bytes = std::fs::read(format!("{FOLDER}/{name}.tbl")).expect("a committed table");
            let clock = Clock::start();
            (0..50).for_each(|_| drop(black_box(Refrigerant::from_bytes(&bytes).expect("sound"))));
            clock.seconds() / 50.0
        })
        .collect();
    let (least, most) = span(&each);
    table.note("reading a property table", format!("{:.1} to {:.1} ms", least * 1e3, most * 1e3));
}

#[cfg(feature = "tables")]
fn making(table: &mut Table) {
    let each: Vec<f64> = WITHOUT_CONDUCTIVITY
        .iter()
        .map(|(name, _)| {
            let json =
                std::fs::read_to_string(format!("{FOLDER}/{name}.json")).expect("a committed equation");
            let clock = Clock::start();
            black_box(pintle::refrigerant::tabulate::make(name, &json).expect("solved"));
            clock.seconds()
        })
        .collect();
    let (least, most) = span(&each);
    table.note("making a property table", format!("{least:.2} to {most:.2} s"));
}

#[cfg(not(feature = "tables"))]
fn making(table: &mut Table) {
    table.missing("making a property table", "", "built without `tables`");
}

/// The committed states of CoolProp 8.0.0, 5,000 of each refrigerant.
fn against_coolprop(table: &mut Table) {
    let (mut t, mut rho, mut transport) = ((0.0, ""), (0.0, ""), (0.0, ""));
    let see = |most: &mut (f64, &'static str), error: f64, name| {
        if error > most.0 {
            *most = (error, name);
        }
    };
    for (name, without) in WITHOUT_CONDUCTIVITY {
        let [kelvin, density, ..] = worst_of_states(name).map(Worst::hold);
        see(&mut t, kelvin, name);
        see(&mut rho, density, name);
        let (single_phase, curves) = worst_of_transport(name, without);
        single_phase.into_iter().chain(curves).for_each(|worst| see(&mut transport, worst.hold(), name));
    }
    let what = "tables against CoolProp 8, 5,000 states of each refrigerant, worst";
    table.at_most(what, "K", 0.02, t.0);
    table.at_most("  density", "relative", 1e-3, rho.0);
    table.at_most(&format!("  transport ({})", transport.1), "relative", 0.02, transport.0);
}

/// All three.
pub fn run(table: &mut Table) {
    reading(table);
    making(table);
    against_coolprop(table);
}
