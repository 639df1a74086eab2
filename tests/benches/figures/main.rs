//! Every figure this program is held to, measured anew in one run: a table with target and verdict of each, under the
//! commit it was measured at; asserts nothing about time.
//!
//! `tests/figures` builds all that it needs and runs it. `cargo bench --no-default-features --features compare,tables --bench
//! figures` is the same without a window; without the features their rows are left out. Words after `--` choose parts:
//! `-- rigs growth`.

mod balance;
#[path = "../../model/bay_at_random.rs"]
mod bay_at_random;
mod clock;
#[path = "../../model/properties/coolprop.rs"]
mod coolprop;
mod growth;
mod guide;
mod hands;
mod many;
mod ordeals;
mod property;
mod rigs;
#[cfg(feature = "compare")]
mod stiff;
mod table;
mod tables;
mod window;
#[path = "../../model/properties/worst.rs"]
mod worst;

use table::Table;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).filter(|a| !a.starts_with('-')).collect();
    let wanted = |name: &str| words.is_empty() || words.iter().any(|w| name.contains(w.as_str()));
    let mut table = Table::default();
    let parts: [(&str, fn(&mut Table)); 11] = [
        ("rigs", rigs::run),
        ("hands", hands::run),
        ("ordeals", ordeals::run),
        ("many", many::run),
        ("growth", growth::run),
        ("property", property::run),
        ("stiff", stiff_row),
        ("tables", tables::run),
        ("balance", balance::run),
        ("guide", guide::run),
        ("window", window::run),
    ];
    for (name, run) in parts {
        if wanted(name) {
            run(&mut table);
        }
    }
    table.print();
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
