//! Transients: start, stop, clutch cycles.

use super::calorimeter::{Calorimeter, STANDARD};
use super::car::{Car, IDLE, PER_S, Setting, c};
use super::fit::two_exponentials;
use super::plot::{Look, Plot, Series};
use super::row::{Case, Expected, Row, Standing};
use super::section::Section;
use super::{Part, QualifyError};
use crate::bench::Action;
use crate::fault::FaultId;
use crate::refrigerant::Refrigerant;

fn case(name: &str, source: &'static str, standing: Standing) -> Case {
    Case::new(Section::Transients, name, source, standing)
}

fn line(name: &str, look: Look, points: Vec<(f64, f64)>) -> Series {
    Series { name: name.to_owned(), look, dots: false, points }
}

/// The section.
pub fn part() -> Result<Part, QualifyError> {
    let mut part = start_up()?;
    part.extend(equalising()?);
    part.extend(cycling()?);
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
    let source = "Kim & Bullard, Int. J. Refrig. 24 (2001), abstract: form of the curve";
    let form = case(&format!("Start-up {place}, two exponentials"), source, Standing::Published);
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
            form.row(quantity, at, "", Expected::MoreThan(2.0), long / short).noting(format!(
                "time constants {short:.1} s and {long:.1} s: two that are alike are not two"
            )),
        );
        if fitted.is_empty() {
            fitted = points.iter().map(|&(t, _)| (t, fit.map_or(f64::NAN, |f| f.at(t) / 1e3))).collect();
        }
    }
    fitted
}

/// Physics.md 8 and 11: capacity and COP after a start are the sum of two exponentials.
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
    // Physics.md 8: a wall that follows too fast would turn the outlet the wrong way at a start.
    let peak = capacity.iter().map(|p| p.1).fold(f64::NEG_INFINITY, f64::max);
    let last = capacity.last().map_or(f64::NAN, |p| p.1);
    let own = case("Start-up, sane", "second law and the rig's size", Standing::OwnTarget);
    rows.push(own.row(
        "greatest over final capacity",
        at,
        "",
        Expected::Band { low: 1.0, high: 3.0 },
        peak / last,
    ));
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
    car.wait(600).act(Action::EngineOn(false))?;
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
    let meet = case("Equalising after a stop", "zero-flow equilibrium, physics.md 8.1", Standing::OwnTarget);
    let leak = case(
        "Equalising with leaking reeds",
        "field rule: both sides equalise soon after the stop (faults.md 2 and 6)",
        Standing::CommonPractice,
    );
    let usual = case("Equalising, how long", "usual time, from memory", Standing::FromMemory);
    let at = "35 °C, stopped after ten minutes at idle";
    let rows = vec![
        meet.row("difference after 20 minutes", at, "bar", Expected::AtMost(0.1), sound.gap_bar),
        usual.row("time to half a bar", at, "s", Expected::Band { low: 30.0, high: 600.0 }, sound.seconds),
        leak.row(
            "time to half a bar, sound over leaking 40 %",
            at,
            "",
            Expected::MoreThan(1.0),
            sound.seconds / leaking.seconds,
        ),
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

/// An hour of clutch cycling.
struct Hour {
    starts: usize,
    duty: f64,
    /// Fin temperature at which the clutch drops out and pulls in, means [K].
    out_k: f64,
    in_k: f64,
    drift: f64,
    troubles: f64,
    low: Vec<(f64, f64)>,
    fin: Vec<(f64, f64)>,
}

fn hour(at: Setting) -> Result<Hour, QualifyError> {
    let mut car = Car::at(at)?;
    car.wait(600);
    let charge = |i: &crate::bench::Inside| i.charge_kg + i.released_kg;
    let before = charge(&car.inside());
    let mut h = Hour {
        starts: 0,
        duty: 0.0,
        out_k: 0.0,
        in_k: 0.0,
        drift: 0.0,
        troubles: 0.0,
        low: Vec::new(),
        fin: Vec::new(),
    };
    let (mut was, mut stops) = (car.bench.snapshot(false).outside.clutch_engaged, 0.0);
    for tick in 1..=3600 * PER_S {
        car.bench.advance(1);
        let engaged = car.bench.snapshot(false).outside.clutch_engaged;
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
    h.drift = (charge(&car.inside()) - before).abs() / before;
    h.troubles = car.troubles();
    Ok(h)
}

fn cycling() -> Result<Part, QualifyError> {
    let cool = hour(Setting { ambient_c: 20.0, rpm: 1500.0, kmh: 0.0, humidity_pct: 40.0 })?;
    let warm = hour(Setting { ambient_c: 25.0, rpm: 1500.0, kmh: 0.0, humidity_pct: 40.0 })?;
    let at = "20 °C, 1500 rev/min, 40 %, one hour";
    let makers = case(
        "Clutch cycling on the thermistor",
        "makers' figures collected in faults.md 3.2",
        Standing::Published,
    );
    let own = case(
        "Clutch cycling, the rig's switch",
        "contact of the circuit: opens at 1 °C, closes at 4 °C",
        Standing::OwnTarget,
    );
    let mass = case("Clutch cycling, mass", "an hour with 20 cycles, physics.md 8.1", Standing::Computed);
    let usual = case("Clutch cycling, how often", "usual rates, from memory", Standing::FromMemory);
    let near = |value| Expected::Value { value, tolerance: 0.3 };
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
        own.row("fins at which the clutch drops out", at, "°C", near(1.0), c(cool.out_k)),
        own.row("fins at which it pulls in", at, "°C", near(4.0), c(cool.in_k)),
        own.row("time engaged", at, "%", Expected::Band { low: 5.0, high: 95.0 }, 100.0 * cool.duty),
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
        mass.row("clutch cycles", at, "", Expected::AtLeast(20.0), cool.starts as f64),
        mass.row("refrigerant that went missing", at, "of the charge", Expected::AtMost(1e-6), cool.drift),
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
