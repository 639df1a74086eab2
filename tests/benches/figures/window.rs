//! The first frame of the real window, on a virtual display.

use std::path::Path;
use std::process::{Command, Stdio};

use super::table::Table;

const RUNS: usize = 3;

/// Seconds from the start of the program to its first frame, or why there is no such figure.
fn first_frame(desk: &Path) -> Result<f64, String> {
    let picture = Path::new(env!("CARGO_TARGET_TMPDIR")).join("figures-desk.png");
    let output = Command::new("xvfb-run")
        .args(["-a", "-s", "-screen 0 1440x900x24"])
        .arg(desk)
        .args(["desk", "healthy", "--after", "1", "--screenshot"])
        .arg(picture)
        .stdin(Stdio::null())
        .output()
        .map_err(|_| "no xvfb-run".to_owned())?;
    let said = String::from_utf8_lossy(&output.stderr);
    let number = said.split_once("first frame after ").and_then(|(_, rest)| rest.split_whitespace().next());
    number.and_then(|n| n.parse().ok()).ok_or_else(|| "the desk shows no frame here".to_owned())
}

/// `PINTLE_DESK` names a release build of the desk; `tests/figures` makes one.
pub fn run(table: &mut Table) {
    let measured = std::env::var_os("PINTLE_DESK")
        .ok_or_else(|| "PINTLE_DESK names no release build of the desk".to_owned())
        .and_then(|desk| (0..RUNS).map(|_| first_frame(desk.as_ref())).collect::<Result<Vec<f64>, _>>());
    match measured {
        Ok(all) => {
            let slowest = all.into_iter().fold(0.0, f64::max);
            table.at_most("first frame after the start, slowest of three", "s", 10.0, slowest);
        }
        Err(why) => table.missing("first frame after the start", "at most 10 s", &why),
    }
}
