//! What a missing or an excess charge costs: Atik & Aktas 2011, and two regressions of units without a receiver.

use super::calorimeter::{Calorimeter, Held, Moment, STANDARD};
use super::car::{Car, IDLE};
use super::expected::Expected;
use super::plot::{Look, Plot, Series};
use super::row::{Case, Row, Standing};
use super::section::Section;
use super::{Part, QualifyError};
use crate::refrigerant::Refrigerant;

/// Shares of the full charge that are swept.
const SHARES: [f64; 13] = [0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6];
/// Index of the full charge in [`SHARES`].
const FULL: usize = 6;

/// Rows and the plot of capacity over charge.
pub fn part() -> Result<Part, QualifyError> {
    let like = Car::at(IDLE)?.bench;
    let run = |charge_share: f64| {
        Calorimeter::new(&like, Refrigerant::r134a(), Held { charge_share, ..STANDARD }).run(1800.0)
    };
    let swept: Vec<Moment> = SHARES.iter().map(|&share| run(share)).collect();
    let best =
        (0..swept.len()).max_by(|&a, &b| swept[a].capacity_w.total_cmp(&swept[b].capacity_w)).unwrap_or(0);
    let top = swept[best].capacity_w;
    let c = Case::new(
        Section::Steady,
        "Charge sweep, best charge",
        "Atik & Aktas, J. Therm. Sci. Tech. 31(1) (2011) 11-17, abstract",
        Standing::Published,
    );
    let at = "room 27 °C/50 %, outside 35 °C, 1800 rev/min";
    let loss = |w: f64| 100.0 * (1.0 - w / top);
    let last = SHARES.len() - 1;
    let (less, more) = (run(0.6 * SHARES[best]).capacity_w, run(1.2 * SHARES[best]).capacity_w);
    let mut rows = vec![
        c.row(
            "capacity lost at the lowest charge swept",
            at,
            "%",
            Expected::MoreThan(0.0),
            loss(swept[0].capacity_w),
        ),
        c.row(
            "capacity lost at the highest charge swept",
            at,
            "%",
            Expected::MoreThan(0.0),
            loss(swept[last].capacity_w),
        ),
        c.row(
            "best charge",
            at,
            "% of full charge",
            Expected::Band { low: 66.7, high: 100.0 },
            100.0 * SHARES[best],
        )
        .noting("in the paper 500 g of the maker's 750 g was best, and the full charge is not too little"),
        c.row("capacity lost at 40 % below the best charge", at, "%", Expected::AtMost(25.0), loss(less)),
        c.row("capacity lost at 20 % above the best charge", at, "%", Expected::AtMost(25.0), loss(more)),
    ];
    rows.extend(undercharge(&swept, at));
    let series = |name: &str, look, value: &dyn Fn(&Moment) -> f64| Series {
        name: name.to_owned(),
        look,
        dots: false,
        points: SHARES.iter().zip(&swept).map(|(&share, m)| (100.0 * share, value(m) / 1e3)).collect(),
    };
    let plot = Plot {
        title: "Capacity and power over charge, air held on both sides".to_owned(),
        x_label: "charge [% of full]",
        y_label: "heat or power [kW]",
        series: vec![
            series("capacity", Look::Low, &|m| m.capacity_w),
            series("compressor power", Look::High, &|m| m.power_w),
        ],
        bands: Vec::new(),
    };
    Ok(Part { rows, plots: vec![plot] })
}

/// Two regressions without a receiver are upper bounds for a rig that has one.
fn undercharge(swept: &[Moment], at: &str) -> Vec<Row> {
    let c = Case::new(
        Section::Steady,
        "Undercharge, upper bounds",
        "the larger loss by the regressions of Domanski, Henderson & Payne, NIST TN 1848 (2014, heat pump with a valve) and of \
         Cheung & Braun, NREL/SR-5500-65030 (2015, rooftop units), coefficients as coded in NREL's OpenStudio fault measures",
        Standing::Computed,
    );
    let full = &swept[FULL];
    let mut rows = Vec::new();
    for (steps, capacity, cop) in [(1, 5.0, 3.0), (2, 12.0, 9.0), (3, 20.0, 17.0)] {
        let m = &swept[FULL - steps];
        let at = format!("{} % missing, {at}", 10 * steps);
        let lost = |x: f64, y: f64| 100.0 * (1.0 - y / x);
        let row =
            c.row("capacity lost", &at, "%", Expected::AtMost(capacity), lost(full.capacity_w, m.capacity_w));
        rows.push(row);
        rows.push(c.row("COP lost", &at, "%", Expected::AtMost(cop), lost(full.cop(), m.cop())));
    }
    rows
}
