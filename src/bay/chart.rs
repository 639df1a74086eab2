//! The performance chart of the day: what a healthy rig shows on its gauges and at its vents in the weather of the day.
//!
//! The numbers are no table from elsewhere: they are healthy runs of the model itself, kept as `chart.ron` in the folder
//! of each rig and made anew by the test `charts_are_healthy_runs` of `tests/charts.rs` when `PINTLE_WRITE_CHARTS` is set. How far
//! they are from published service columns is said by [`super::published`].

use std::sync::OnceLock;

use serde::{Deserialize, Serialize};

use crate::rig::Rig;
use crate::units::{GaugePa, Kelvin, Units, ZERO_C_K};

/// How a running check is made, for the chart to hold.
pub const CONDITIONS: &str = "Engine at 1500 rev/min (a van at rest, a cold room as it is), standing, blower full, \
recirculation, doors and windows shut, no sun. Read between minute 8 and 20, with the compressor turning.";

/// A range of values.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Band {
    /// Lowest.
    pub min: f64,
    /// Highest.
    pub max: f64,
}

/// Where a reading lies against a band.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Against {
    /// Below it by more than the instrument leaves open.
    Below,
    /// Inside, as far as the instrument can tell.
    Inside,
    /// Above it by more than the instrument leaves open.
    Above,
}

impl Against {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Below => "too low",
            Self::Inside => "as it should be",
            Self::Above => "too high",
        }
    }
}

impl Band {
    /// Hold a value against it; `uncertainty` is the half-width of its 95 % band.
    pub fn against(self, value: f64, uncertainty: f64) -> Against {
        if value + uncertainty < self.min {
            Against::Below
        } else if value - uncertainty > self.max {
            Against::Above
        } else {
            Against::Inside
        }
    }
    /// Both ends changed.
    fn map(self, f: impl Fn(f64) -> f64) -> Self {
        Self { min: f(self.min), max: f(self.max) }
    }
    /// Between two bands; `share` 0 is this one.
    fn towards(self, other: Self, share: f64) -> Self {
        Self {
            min: self.min + share * (other.min - self.min),
            max: self.max + share * (other.max - self.max),
        }
    }
}

/// What a healthy rig shows, from 5 to 95 % of the time its compressor turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// Low side [Pa gauge].
    pub low_pa: Band,
    /// High side [Pa gauge].
    pub high_pa: Band,
    /// Air off the vents [K].
    pub vent_k: Band,
    /// The weather lies on the chart; else its nearest edge was taken.
    pub on_chart: bool,
}

/// One field of a chart, as it stands in the file.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Field {
    /// Low side [bar above the air].
    pub low_bar: Band,
    /// High side [bar above the air].
    pub high_bar: Band,
    /// Vents [°C].
    pub vent_c: Band,
}

impl Field {
    fn towards(self, other: Self, share: f64) -> Self {
        Self {
            low_bar: self.low_bar.towards(other.low_bar, share),
            high_bar: self.high_bar.towards(other.high_bar, share),
            vent_c: self.vent_c.towards(other.vent_c, share),
        }
    }
}

/// A chart: rows of outside air, columns of humidity.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chart {
    /// Outside air [°C], rising.
    pub ambient_c: Vec<f64>,
    /// Outside humidity [%], rising.
    pub humidity_pct: Vec<f64>,
    /// Row by row.
    pub fields: Vec<Vec<Field>>,
}

/// Place on a rising axis: index below, share towards the next, and whether it lies on the axis.
fn place(axis: &[f64], x: f64) -> (usize, f64, bool) {
    let last = axis.len().saturating_sub(1);
    let below = axis.iter().rposition(|a| *a <= x).unwrap_or(0).min(last.saturating_sub(1));
    let (a, b) = (axis.get(below), axis.get((below + 1).min(last)));
    let (Some(&a), Some(&b)) = (a, b) else { return (0, 0.0, false) };
    let share = if b > a { (x - a) / (b - a) } else { 0.0 };
    // Not a number lands on the cold, dry corner.
    let held = if share.is_nan() { 0.0 } else { share.clamp(0.0, 1.0) };
    (below, held, (held - share).abs() < 1e-9)
}

impl Chart {
    fn at(&self, ambient_c: f64, humidity_pct: f64) -> Option<Expected> {
        let (row, down, on_rows) = place(&self.ambient_c, ambient_c);
        let (column, across, on_columns) = place(&self.humidity_pct, humidity_pct);
        let in_row = |row: usize| {
            let fields = self.fields.get(row.min(self.fields.len().checked_sub(1)?))?;
            let next = fields.get(column + 1).or_else(|| fields.last())?;
            Some(fields.get(column)?.towards(*next, across))
        };
        let field = in_row(row)?.towards(in_row(row + 1)?, down);
        Some(Expected {
            low_pa: field.low_bar.map(|bar| bar * 1e5),
            high_pa: field.high_bar.map(|bar| bar * 1e5),
            vent_k: field.vent_c.map(|c| c + ZERO_C_K),
            on_chart: on_rows && on_columns,
        })
    }
}

/// Charts of all rigs that have one.
fn charts() -> &'static [(&'static str, Chart)] {
    static CHARTS: OnceLock<Vec<(&'static str, Chart)>> = OnceLock::new();
    CHARTS.get_or_init(|| {
        let read = |id| Some((id, ron::from_str(Rig::file(id, "chart.ron")?).ok()?));
        Rig::ids().filter_map(read).collect()
    })
}

/// What a healthy rig shows in this weather: outside air [°C] and humidity [%]. None for a rig without a chart.
pub fn expected(rig: &str, ambient_c: f64, humidity_pct: f64) -> Option<Expected> {
    let (_, chart) = charts().iter().find(|(id, _)| *id == rig)?;
    chart.at(ambient_c, humidity_pct)
}

/// What a running check found: gauges [Pa gauge] and vent air [K], with the half-width of their 95 % bands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Performance {
    /// Low side and its uncertainty [Pa gauge].
    pub low_pa: Option<(f64, f64)>,
    /// High side and its uncertainty [Pa gauge].
    pub high_pa: Option<(f64, f64)>,
    /// Vents and their uncertainty [K].
    pub vent_k: Option<(f64, f64)>,
}

/// One line of a running check: what, before, after, what it should be, and how the last of them stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Low side, high side or vents.
    pub name: &'static str,
    /// Before the work, in SI.
    pub before: Option<f64>,
    /// After the work, in SI.
    pub after: Option<f64>,
    /// As it should be, in SI.
    pub band: Band,
    /// How the value before stands.
    pub was: Option<Against>,
    /// How the value after stands.
    pub is: Option<Against>,
}

/// Before against after on the chart of the day, a line each.
pub fn before_and_after(before: &Performance, after: &Performance, chart: &Expected) -> [Line; 3] {
    let line = |name, band: Band, pick: fn(&Performance) -> Option<(f64, f64)>| {
        let (b, a) = (pick(before), pick(after));
        let stands = |(value, uncertainty): (f64, f64)| band.against(value, uncertainty);
        Line {
            name,
            band,
            before: b.map(|x| x.0),
            after: a.map(|x| x.0),
            was: b.map(stands),
            is: a.map(stands),
        }
    };
    [
        line("Low side", chart.low_pa, |p| p.low_pa),
        line("High side", chart.high_pa, |p| p.high_pa),
        line("Vents", chart.vent_k, |p| p.vent_k),
    ]
}

impl Line {
    /// In words, in the reader's units.
    pub fn words(&self, units: Units) -> String {
        let show = |x: f64| {
            if self.name == "Vents" { units.temperature(Kelvin(x)) } else { units.pressure(GaugePa(x)) }
        };
        let side = |what: &str, value: Option<f64>, stands: Option<Against>| match (value, stands) {
            (Some(v), Some(s)) => format!("{what} {} ({})", show(v), s.word()),
            _ => format!("{what} not read"),
        };
        let (min, max) = (show(self.band.min), show(self.band.max));
        format!(
            "{}: {}, {}; it should be {min} to {max}.",
            self.name,
            side("before", self.before, self.was),
            side("after", self.after, self.is)
        )
    }
}
