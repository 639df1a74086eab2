//! Published service columns that a running check can be held against. They describe other vehicles: bands to be near,
//! never points to be hit.

use super::chart::{Band, Expected};
use crate::units::{Units, ZERO_C_K};

/// Chrysler 2000 Intrepid service manual, "A/C System Performance": 1000 rev/min, recirculation,
/// full blower, doors and windows shut, 5 minutes. Outside air [°C], vent [°C], high and low side [psi gauge].
pub const CHRYSLER: [(f64, f64, (f64, f64), (f64, f64)); 5] = [
    (21.1, 5.6, (200.0, 230.0), (15.0, 25.0)),
    (26.7, 7.2, (210.0, 250.0), (20.0, 30.0)),
    (32.2, 10.0, (240.0, 280.0), (25.0, 35.0)),
    (37.8, 12.2, (280.0, 320.0), (30.0, 40.0)),
    (43.3, 15.0, (320.0, 365.0), (35.0, 45.0)),
];

/// Low and high side in the general gauge table of several makers (Suzuki RA410 and others, undated): 1500 rev/min, 30 to 35 °C on
/// the condenser, full blower, doors open [Pa gauge].
const GENERAL: (Band, Band) = (Band { min: 1.5e5, max: 2.5e5 }, Band { min: 13.7e5, max: 15.7e5 });
/// Outside air it is for [°C].
const GENERAL_C: (f64, f64) = (30.0, 35.0);

/// How far a chart lies from a published column.
#[derive(Clone, Debug, PartialEq)]
pub struct Beside {
    /// Where the column stands and how it was measured.
    pub source: &'static str,
    /// Low side of the chart above its band, negative below, nothing where they overlap [Pa].
    pub low_pa: f64,
    /// High side [Pa].
    pub high_pa: f64,
    /// Vents [K]; none where the column has none.
    pub vent_k: Option<f64>,
}

/// Signed gap between two bands; 0 where they overlap.
fn gap(ours: Band, theirs: Band) -> f64 {
    if ours.min > theirs.max {
        ours.min - theirs.max
    } else if ours.max < theirs.min {
        ours.max - theirs.min
    } else {
        0.0
    }
}

/// The column of [`CHRYSLER`] at an outside temperature [°C]: low and high side [Pa gauge] and vent [°C]; none outside it.
fn chrysler(ambient_c: f64) -> Option<(Band, Band, f64)> {
    let pair = CHRYSLER.windows(2).find(|w| w[0].0 <= ambient_c && ambient_c <= w[1].0)?;
    let (a, b) = (pair[0], pair[1]);
    let between = |x: f64, y: f64| x + (ambient_c - a.0) / (b.0 - a.0) * (y - x);
    let psi = Units::Psi.pascals();
    let band =
        |x: (f64, f64), y: (f64, f64)| Band { min: between(x.0, y.0) * psi, max: between(x.1, y.1) * psi };
    Some((band(a.3, b.3), band(a.2, b.2), between(a.1, b.1)))
}

/// How far what is expected in this weather lies from what is published for cars with R-134a. Empty for other
/// refrigerants and weathers, where no full column could be read.
pub fn beside_published(refrigerant: &str, ambient_c: f64, ours: &Expected) -> Vec<Beside> {
    let mut all = Vec::new();
    if refrigerant != "R-134a" {
        return all;
    }
    if let Some((low, high, vent_c)) = chrysler(ambient_c) {
        let vent_k = vent_c + ZERO_C_K;
        all.push(Beside {
            source: "Chrysler 2000 Intrepid service manual, 1000 rev/min, recirculation, 5 min",
            low_pa: gap(ours.low_pa, low),
            high_pa: gap(ours.high_pa, high),
            vent_k: Some(gap(ours.vent_k, Band { min: vent_k, max: vent_k })),
        });
    }
    if (GENERAL_C.0..=GENERAL_C.1).contains(&ambient_c) {
        all.push(Beside {
            source: "General gauge table of several makers, 1500 rev/min, 30 to 35 °C, doors open",
            low_pa: gap(ours.low_pa, GENERAL.0),
            high_pa: gap(ours.high_pa, GENERAL.1),
            vent_k: None,
        });
    }
    all
}

impl Beside {
    /// In words.
    pub fn words(&self) -> String {
        let side = |what: &str, gap: f64, unit: &str, per: f64| match gap / per {
            g if g.abs() < 0.05 => format!("{what} meets it"),
            g if g > 0.0 => format!("{what} {g:.1} {unit} above it"),
            g => format!("{what} {:.1} {unit} below it", -g),
        };
        let vents = self.vent_k.map_or(String::new(), |k| format!(", {}", side("vents", k, "K", 1.0)));
        let (low, high) =
            (side("low side", self.low_pa, "bar", 1e5), side("high side", self.high_pa, "bar", 1e5));
        format!("{}: {low}, {high}{vents}.", self.source)
    }
}
