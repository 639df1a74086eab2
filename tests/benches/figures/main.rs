//! The figures this program is held to: target, value and verdict of each, printed; asserts nothing.
//!
//! `cargo bench --no-default-features --features compare --bench figures`; without the feature the row of the general
//! solver is left out. Words after `--` choose rows: `-- speed growth`.

mod balance;
mod clock;
mod growth;
mod many;
#[path = "../property_speed.rs"]
mod property_speed;
mod speed;
#[cfg(feature = "compare")]
mod stiff;
mod table;

use table::Table;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).filter(|a| !a.starts_with('-')).collect();
    let wanted = |name: &str| words.is_empty() || words.iter().any(|w| name.contains(w.as_str()));
    let mut table = Table::default();
    let parts: [(&str, fn(&mut Table)); 6] = [
        ("balance", balance::run),
        ("speed", speed::run),
        ("many", many::run),
        ("property", property),
        ("stiff", stiff_row),
        ("growth", growth::run),
    ];
    for (name, run) in parts {
        if wanted(name) {
            run(&mut table);
        }
    }
    table.print();
}

fn property(table: &mut Table) {
    let what = "one property state from (p, h) with slopes";
    match property_speed::run() {
        Some([batch, single]) => {
            table.at_least(what, "times faster than CoolProp BICUBIC", 5.0, Some(20.0), single);
            table.at_least("  its batch call, without slopes", "times faster", 5.0, Some(20.0), batch);
        }
        None => table.missing(what, "5 times faster than CoolProp BICUBIC", "no python3 with CoolProp"),
    }
}

#[cfg(feature = "compare")]
fn stiff_row(table: &mut Table) {
    stiff::run(table);
}

#[cfg(not(feature = "compare"))]
fn stiff_row(table: &mut Table) {
    table.missing(
        "the same equations by a general stiff solver",
        "20 times slower",
        "built without `compare`",
    );
}
