//! Rows of the table.

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
        println!("... {what}: {value}, target {target}: {verdict}");
        self.rows.push([what.into(), target, value, verdict.into()]);
    }
    /// A figure that must not be above its target.
    pub fn at_most(&mut self, what: &str, unit: &str, target: f64, value: f64) {
        let verdict = if value <= target { "met" } else { "MISSED" };
        self.row(what, format!("at most {} {unit}", short(target)), short(value), verdict);
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
        self.row(what, format!("at least {}{reach} {unit}", short(target)), short(value), verdict);
    }
    /// Something to know that has no target.
    pub fn note(&mut self, what: &str, value: String) {
        self.row(what, String::new(), value, "");
    }
    /// A figure that was not taken.
    pub fn missing(&mut self, what: &str, target: &str, why: &str) {
        self.row(what, target.into(), "-".into(), why);
    }
    /// Print all rows.
    pub fn print(&self) {
        println!();
        for [what, target, value, verdict] in &self.rows {
            println!("{what:<62} | {target:<58} | {value:>9} | {verdict}");
        }
    }
}
