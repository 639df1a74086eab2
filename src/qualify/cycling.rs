//! Clutch cycling on the thermistor.

use super::car::{Car, PER_S, Setting, c};
use super::expected::Expected;
use super::plot::{Look, Plot};
use super::row::Standing;
use super::sources::EVAPORATOR_SWITCHES;
use super::transients_rows::{case, line};
use super::{Part, QualifyError};

/// An hour of clutch cycling.
struct Hour {
    starts: usize,
    duty: f64,
    /// Fin temperature at which the clutch drops out and pulls in, means [K].
    out_k: f64,
    in_k: f64,
    troubles: f64,
    low: Vec<(f64, f64)>,
    fin: Vec<(f64, f64)>,
}

fn hour(at: Setting) -> Result<Hour, QualifyError> {
    let mut car = Car::at(at)?;
    car.wait(600);
    let mut h =
        Hour { starts: 0, duty: 0.0, out_k: 0.0, in_k: 0.0, troubles: 0.0, low: Vec::new(), fin: Vec::new() };
    let (mut was, mut stops) = (car.bench.outside().clutch_engaged, 0.0);
    for tick in 1..=3600 * PER_S {
        car.bench.advance(1);
        let engaged = car.bench.outside().clutch_engaged;
        let now = car.bench.time_s();
        let fin_k = car.bench.plant().at(now, |s| s.fin_t_k);
        h.duty += f64::from(u8::from(engaged)) / f64::from(3600 * PER_S);
        match (was, engaged) {
            (false, true) => {
                h.starts += 1;
                h.in_k += fin_k;
            }
            (true, false) => {
                stops += 1.0;
                h.out_k += fin_k;
            }
            _ => {}
        }
        was = engaged;
        if tick % 10 == 0 && tick <= 120 * PER_S {
            let t = f64::from(tick) / f64::from(PER_S);
            h.fin.push((t, c(fin_k)));
            h.low.push((t, car.inside().gauge_low_pa / 1e5));
        }
    }
    h.in_k /= h.starts as f64;
    h.out_k /= stops;
    h.troubles = car.troubles();
    Ok(h)
}

pub fn part() -> Result<Part, QualifyError> {
    let cool = hour(Setting { ambient_c: 20.0, rpm: 1500.0, kmh: 0.0, humidity_pct: 40.0 })?;
    let warm = hour(Setting { ambient_c: 25.0, rpm: 1500.0, kmh: 0.0, humidity_pct: 40.0 })?;
    let at = "20 °C, 1500 rev/min, 40 %, one hour";
    let makers = case("Clutch cycling on the thermistor", EVAPORATOR_SWITCHES, Standing::Published);
    let own = case("Clutch cycling, sane", "more heat, more cooling; nothing breaks", Standing::OwnTarget);
    let usual = case("Clutch cycling, how often", "usual rates, from memory", Standing::FromMemory);
    let none = Expected::Band { low: 0.0, high: 0.0 };
    let rows = vec![
        makers.row(
            "fins at which the clutch drops out",
            at,
            "°C",
            Expected::Band { low: 0.0, high: 3.0 },
            c(cool.out_k),
        ),
        makers.row("fins at which it pulls in", at, "°C", Expected::AtLeast(3.0), c(cool.in_k)),
        own.row(
            "more time engaged at 25 °C",
            at,
            "%",
            Expected::MoreThan(0.0),
            100.0 * (warm.duty - cool.duty),
        ),
        own.row("steps that did not solve", at, "", none, cool.troubles + warm.troubles),
        usual.row(
            "length of a cycle",
            at,
            "s",
            Expected::Band { low: 10.0, high: 120.0 },
            3600.0 / cool.starts as f64,
        ),
    ];
    let plots = vec![
        Plot {
            title: "Low side while the clutch cycles".to_owned(),
            x_label: "time [s]",
            y_label: "pressure [bar gauge]",
            series: vec![line("low side", Look::Low, cool.low)],
            bands: Vec::new(),
        },
        Plot {
            title: "Evaporator fins while the clutch cycles".to_owned(),
            x_label: "time [s]",
            y_label: "temperature [°C]",
            series: vec![line("fin sensor", Look::High, cool.fin)],
            bands: Vec::new(),
        },
    ];
    Ok(Part { rows, plots })
}
