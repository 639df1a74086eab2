//! The compact car against service manuals. Their tables describe other vehicles: they are bands to be inside of, never
//! points to be hit.

use super::car::{Car, Seen, Setting, c};
use super::expected::Expected;
use super::plot::{Band, Look, Plot, Series};
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::sources::{self, SUZUKI_2006};
use super::{Part, QualifyError};
use crate::bay::published::CHRYSLER;

const KPA_PER_PSI: f64 = crate::constants::PSI_PA / 1e3;

/// High side, low side [kPa gauge] and vent [°C] in the four mildest of those weathers.
const SATURN: [((f64, f64), (f64, f64), (f64, f64)); 4] = [
    ((793.0, 1172.0), (180.0, 206.0), (5.0, 9.0)),
    ((1241.0, 1482.0), (166.0, 206.0), (6.0, 10.0)),
    ((1551.0, 1861.0), (152.0, 179.0), (6.0, 10.0)),
    ((1896.0, 2206.0), (159.0, 186.0), (10.0, 13.0)),
];

fn band(limits: (f64, f64)) -> Expected {
    Expected::Band { low: limits.0, high: limits.1 }
}

/// Rows and the plot of pressures over outside air.
pub fn part() -> Result<Part, QualifyError> {
    let weather = |ambient_c, rpm, kmh| Car::at(Setting { ambient_c, rpm, kmh, humidity_pct: 40.0 });
    let seen = CHRYSLER
        .iter()
        .map(|row| Ok(weather(row.0, 1000.0, 0.0)?.after(240)))
        .collect::<Result<Vec<Seen>, QualifyError>>()?;
    let mut rows = chrysler(&seen);
    rows.extend(saturn(&seen));
    rows.extend(lift(&weather(32.2, 1500.0, 50.0)?.after(600), &seen[2]));
    Ok(Part { rows, plots: vec![plot(&seen)] })
}

fn chrysler(seen: &[Seen]) -> Vec<Row> {
    let c4 =
        Case::new(Section::Steady, "Service manual 1, 1000 rev/min", sources::CHRYSLER, Standing::Published);
    let mut rows = Vec::new();
    for (&(ambient, vent, high, low), s) in CHRYSLER.iter().zip(seen) {
        let at = format!("{ambient} °C, 1000 rev/min, recirculation, full blower, 5 min");
        let kpa = |psi: (f64, f64)| band((psi.0 * KPA_PER_PSI, psi.1 * KPA_PER_PSI));
        rows.push(c4.row("high side", &at, "kPa gauge", kpa(high), s.high_pa / 1e3));
        rows.push(c4.row("low side", &at, "kPa gauge", kpa(low), s.low_pa / 1e3));
        rows.push(
            c4.row("vent air", &at, "°C", Expected::AtMost(vent), c(s.vent_k))
                .noting("the manual prints one figure per weather, read here as the warmest allowed"),
        );
    }
    rows
}

fn saturn(seen: &[Seen]) -> Vec<Row> {
    let case = Case::new(
        Section::Steady,
        "Service manual 2, in the stall",
        "Saturn SL service manual, performance table, undated",
        Standing::Published,
    );
    let mut rows = Vec::new();
    for ((&(high, low, vent), s), row) in SATURN.iter().zip(seen).zip(&CHRYSLER) {
        let at = format!("{} °C, 1000 rev/min, recirculation, full blower, 5 min", row.0);
        rows.push(case.row("high side", &at, "kPa gauge", band(high), s.high_pa / 1e3));
        rows.push(case.row("low side", &at, "kPa gauge", band(low), s.low_pa / 1e3));
        rows.push(case.row("vent air", &at, "°C", band(vent), c(s.vent_k)));
    }
    rows
}

/// The rule of one maker on the road, and that idling lifts more than driving: the first manual's high side at 32.2 °C is
/// 29.6 to 36.0 K above the outside air, the rule asks for 19 to 22 K.
fn lift(road: &Seen, idle: &Seen) -> Vec<Row> {
    let case = Case::new(Section::Steady, "Service manual 3, on the road", SUZUKI_2006, Standing::Published);
    let at = "32.2 °C, 50 km/h, 1500 rev/min";
    let coil = road.vent_k - road.evaporating_k;
    let air = Case::new(
        Section::Steady,
        "Idle against driving",
        "saturation at the pressures of the Chrysler Intrepid service manual 2000 against the rule of the Suzuki service manual 2006",
        Standing::Computed,
    );
    vec![
        case.row("condensing minus outside air", at, "K", band((19.0, 22.0)), road.lift_k),
        case.row("evaporating temperature", at, "°C", band((-7.0, 7.0)), c(road.evaporating_k)),
        case.row("air off the coil minus evaporating", at, "K", band((2.0, 6.0)), coil),
        air.row(
            "idle lift minus driving lift",
            "32.2 °C",
            "K",
            Expected::MoreThan(0.0),
            idle.lift_k - road.lift_k,
        ),
    ]
}

fn plot(seen: &[Seen]) -> Plot {
    let kpa = |psi: f64| psi * KPA_PER_PSI;
    let dots = |name: &str, look, value: &dyn Fn(&Seen) -> f64| Series {
        name: name.to_owned(),
        look,
        dots: true,
        points: CHRYSLER.iter().zip(seen).map(|(row, s)| (row.0, value(s))).collect(),
    };
    let edges = |pick: &dyn Fn(usize) -> (f64, f64)| -> Vec<(f64, f64, f64)> {
        CHRYSLER.iter().enumerate().map(|(i, row)| (row.0, kpa(pick(i).0), kpa(pick(i).1))).collect()
    };
    Plot {
        title: "Pressures at 1000 rev/min against service manual 1".to_owned(),
        x_label: "outside air [°C]",
        y_label: "pressure [kPa gauge]",
        series: vec![
            dots("model, high", Look::High, &|s| s.high_pa / 1e3),
            dots("model, low", Look::Low, &|s| s.low_pa / 1e3),
        ],
        bands: vec![
            Band { name: "manual, high".to_owned(), look: Look::High, edges: edges(&|i| CHRYSLER[i].2) },
            Band { name: "manual, low".to_owned(), look: Look::Low, edges: edges(&|i| CHRYSLER[i].3) },
        ],
    }
}
