//! Transients: start, stop, clutch cycles.

use super::calorimeter::{Calorimeter, STANDARD};
use super::car::{Car, IDLE, PER_S};
use super::expected::Expected;
use super::fit::two_exponentials;
use super::plot::{Look, Plot, Series};
use super::row::{Row, Standing};
use super::transients_rows::{case, line};
use super::{Part, QualifyError, cycling};
use crate::bench::Action;
use crate::fault::FaultId;
use crate::knobs::Change;
use crate::refrigerant::Refrigerant;

/// The section.
pub fn part() -> Result<Part, QualifyError> {
    let mut part = start_up()?;
    part.extend(equalising()?);
    part.extend(cycling::part()?);
    Ok(part)
}

/// Share of what moved that a fit leaves over [%].
fn left_over(points: &[(f64, f64)], rms: f64) -> f64 {
    let high = points.iter().map(|p| p.1).fold(f64::NEG_INFINITY, f64::max);
    let low = points.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
    100.0 * rms / (high - low)
}

/// Fit curves of (time, value), make their rows and give the first fitted curve in thousands.
fn two(rows: &mut Vec<Row>, place: &str, at: &str, curves: &[(&str, &Vec<(f64, f64)>)]) -> Vec<(f64, f64)> {
    let name = format!("Start-up {place}, two exponentials");
    let source = "Kim & Bullard, Int. J. Refrig. 24 (2001), abstract: form of the curve";
    let form = case(&name, source, Standing::Published);
    let own = case(&name, "two time constants that are alike are not two", Standing::OwnTarget);
    let mut fitted = Vec::new();
    for &(name, points) in curves {
        let fit = two_exponentials(points);
        let left = fit.map_or(f64::NAN, |f| left_over(points, f.rms));
        let (short, long) = fit.map_or((f64::NAN, f64::NAN), |f| f.taus_s);
        let quantity = format!("{name}, left over by the fit");
        rows.push(
            form.row(quantity, at, "% of its range", Expected::AtMost(5.0), left)
                .noting("the paper gives the form; the tolerance is our own"),
        );
        let quantity = format!("{name}, longer over shorter time constant");
        rows.push(
            own.row(quantity, at, "", Expected::MoreThan(2.0), long / short)
                .noting(format!("time constants {short:.1} s and {long:.1} s")),
        );
        if fitted.is_empty() {
            fitted = points.iter().map(|&(t, _)| (t, fit.map_or(f64::NAN, |f| f.at(t) / 1e3))).collect();
        }
    }
    fitted
}

/// Capacity and COP after a start are the sum of two exponentials (Kim & Bullard 2001).
fn start_up() -> Result<Part, QualifyError> {
    let like = Car::at(IDLE)?.bench;
    let mut stand = Calorimeter::new(&like, Refrigerant::r134a(), STANDARD);
    let (mut capacity, mut cop, mut low, mut high) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for _ in 0..1200 {
        let m = stand.run(0.5);
        capacity.push((m.time_s, m.capacity_w));
        cop.push((m.time_s, m.cop()));
        low.push((m.time_s, m.low_pa / 1e5));
        high.push((m.time_s, m.high_pa / 1e5));
    }
    let at = "room 27 °C/50 %, outside 35 °C, 1800 rev/min, first 600 s";
    let mut rows = Vec::new();
    let fitted = two(&mut rows, "on the stand", at, &[("capacity", &capacity), ("COP", &cop)]);
    let (mut cooling, mut ratio) = (Vec::new(), Vec::new());
    let mut car = Car::at(IDLE)?;
    for _ in 0..1200 {
        car.bench.advance(PER_S / 2);
        let i = car.inside();
        cooling.push((car.bench.time_s(), i.q_evaporator_w));
        ratio.push((car.bench.time_s(), i.q_evaporator_w / i.w_compressor_w));
    }
    let words = "soaked car, 35 °C, idle, first 600 s";
    two(&mut rows, "in the car", words, &[("capacity", &cooling), ("COP", &ratio)]);
    let own = case("Start-up, sane", "nothing breaks", Standing::OwnTarget);
    let none = Expected::Band { low: 0.0, high: 0.0 };
    rows.push(own.row("steps that did not solve", at, "", none, stand.plant().troubles().len() as f64));
    let kilowatts = capacity.iter().map(|&(t, w)| (t, w / 1e3)).collect();
    let plots = vec![
        Plot {
            title: "Capacity after a start, and the two exponentials".to_owned(),
            x_label: "time [s]",
            y_label: "capacity [kW]",
            series: vec![line("model", Look::Low, kilowatts), line("fit", Look::High, fitted)],
            bands: Vec::new(),
        },
        Plot {
            title: "Pressures after a start".to_owned(),
            x_label: "time [s]",
            y_label: "pressure [bar absolute]",
            series: vec![line("high side", Look::High, high), line("low side", Look::Low, low)],
            bands: Vec::new(),
        },
    ];
    Ok(Part { rows, plots })
}

/// Pressures after the engine stops: seconds until they are within half a bar, and the two lines.
struct Stop {
    seconds: f64,
    gap_bar: f64,
    low: Vec<(f64, f64)>,
    high: Vec<(f64, f64)>,
}

fn stop(faults: &[(FaultId, f64)]) -> Result<Stop, QualifyError> {
    let mut car = Car::faulty(IDLE, faults)?;
    car.wait(600).act(Action::Set(Change::EngineOn(false)))?;
    let mut out = Stop { seconds: f64::NAN, gap_bar: f64::NAN, low: Vec::new(), high: Vec::new() };
    for s in 1..=1200_u32 {
        let i = car.wait(1).inside();
        let (t, low, high) = (f64::from(s), i.gauge_low_pa / 1e5, i.gauge_high_pa / 1e5);
        out.gap_bar = (high - low).abs();
        if out.seconds.is_nan() && out.gap_bar < 0.5 {
            out.seconds = t;
        }
        out.low.push((t, low));
        out.high.push((t, high));
    }
    Ok(out)
}

fn equalising() -> Result<Part, QualifyError> {
    let (sound, leaking) = (stop(&[])?, stop(&[(FaultId::CompressorLeak, 0.4)])?);
    let meet = case("Equalising after a stop", "without flow both sides come to rest", Standing::OwnTarget);
    let usual = case("Equalising, how long", "usual time, from memory", Standing::FromMemory);
    let at = "35 °C, stopped after ten minutes at idle";
    let rows = vec![
        meet.row("difference after 20 minutes", at, "bar", Expected::AtMost(0.1), sound.gap_bar),
        usual.row("time to half a bar", at, "s", Expected::Band { low: 30.0, high: 600.0 }, sound.seconds),
    ];
    let cut = |points: Vec<(f64, f64)>| points.into_iter().filter(|p| p.0 <= 300.0).collect();
    let series = vec![
        line("high side", Look::High, cut(sound.high)),
        line("low side", Look::Low, cut(sound.low)),
        Series {
            name: "high side, reeds leak 40 %".to_owned(),
            look: Look::Other,
            dots: false,
            points: cut(leaking.high),
        },
    ];
    let plot = Plot {
        title: "Pressures after the engine stops".to_owned(),
        x_label: "time [s]",
        y_label: "pressure [bar gauge]",
        series,
        bands: Vec::new(),
    };
    Ok(Part { rows, plots: vec![plot] })
}
