//! Rows of the table.

use std::process::Command;

/// Rows gathered so far.
#[derive(Default)]
pub struct Table {
    rows: Vec<[String; 4]>,
}

/// A number with three or four digits.
fn short(x: f64) -> String {
    match x.abs() {
        a if a == 0.0 || (0.01..10.0).contains(&a) => format!("{x:.2}"),
        a if (10.0..100.0).contains(&a) => format!("{x:.1}"),
        a if a < 0.01 => format!("{x:.1e}"),
        _ => format!("{x:.0}"),
    }
}

impl Table {
    fn row(&mut self, what: &str, target: String, value: String, verdict: &str) {
        let value = value.trim_end().to_owned();
        println!("... {what}: {value}, target {target}: {verdict}");
        self.rows.push([what.into(), target, value, verdict.into()]);
    }
    /// A figure that must not be above its target.
    pub fn at_most(&mut self, what: &str, unit: &str, target: f64, value: f64) {
        let verdict = if value <= target { "met" } else { "MISSED" };
        self.row(what, format!("at most {}", short(target)), format!("{} {unit}", short(value)), verdict);
    }
    /// A figure that must not be below its target, with one to reach for.
    pub fn at_least(&mut self, what: &str, unit: &str, target: f64, reach: Option<f64>, value: f64) {
        let verdict = match reach {
            _ if value.is_nan() || value < target => "MISSED",
            Some(reach) if value >= reach => "met, and the reach too",
            Some(_) => "met, short of the reach",
            None => "met",
        };
        let reach = reach.map(|r| format!(", reach {}", short(r))).unwrap_or_default();
        self.row(
            what,
            format!("at least {}{reach}", short(target)),
            format!("{} {unit}", short(value)),
            verdict,
        );
    }
    /// Something to know that has no target.
    pub fn note(&mut self, what: &str, value: String) {
        self.row(what, String::new(), value, "");
    }
    /// A figure that was not taken.
    pub fn missing(&mut self, what: &str, target: &str, why: &str) {
        self.row(what, target.into(), format!("not measured here: {why}"), "");
    }
    /// Print all rows as markdown, under the commit they were measured at.
    pub fn print(&self) {
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        println!("\nMeasured at commit {}, {cores} cores.\n", commit());
        println!("| what | figure | target | verdict |\n|---|---|---|---|");
        for [what, target, value, verdict] in &self.rows {
            // Markdown eats leading blanks: a row that belongs to the one above says so by a dash.
            let what = what.strip_prefix("  ").map_or(what.clone(), |rest| format!("- {rest}"));
            println!("| {what} | {value} | {target} | {verdict} |");
        }
    }
}

/// The commit of the working tree and its day, told as changed when it is.
fn commit() -> String {
    let git = |args: &[&str]| {
        let output = Command::new("git").args(["-C", env!("CARGO_MANIFEST_DIR")]).args(args).output().ok()?;
        output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
    };
    let name = git(&["describe", "--always", "--dirty=, with changes", "--exclude=*"]);
    let day = git(&["show", "-s", "--format=%cs"]).unwrap_or_default();
    name.map_or("unknown (no git here)".into(), |name| format!("{name} of {day}"))
}
