//! `pintle compare`: which instruments tell two faults apart, and by how many standard deviations.

use std::io::Write;

use serde::Serialize;

use super::failure::Failure;
use super::listing::print_json;
use crate::diagnosis::compare::{self, Apart, Distance, Matrix, TOLD_APART};
use crate::diagnosis::{Protocol, Story};
use crate::fault::{Fault, FaultId};
use crate::instrument::Say;
use crate::rig::Rig;
use crate::scenario::nearest::hint;

/// Arguments of `pintle compare`.
#[derive(Clone, Debug, clap::Args)]
pub struct CompareArgs {
    /// Two faults, each `fault` or `fault=severity`, or `healthy`; a second severity left out is fitted to the first
    #[arg(value_name = "FAULT[=SEVERITY]", num_args = 0..=2, conflicts_with = "all")]
    faults: Vec<String>,
    /// Every pair of the faults the rig can have
    #[arg(long)]
    all: bool,
    /// Rig
    #[arg(long, default_value = "compact_car")]
    rig: String,
    /// Outside temperature [°C] (may be repeated)
    #[arg(long, value_name = "C", default_values_t = [35.0], allow_negative_numbers = true)]
    ambient: Vec<f64>,
    /// Rows of readings to print
    #[arg(long, value_name = "N", default_value_t = 12)]
    rows: usize,
    /// Print JSON with everything
    #[arg(long)]
    json: bool,
}

/// Two stories at one outside temperature.
#[derive(Serialize)]
struct Pair {
    ambient_c: f64,
    first: Option<Fault>,
    second: Option<Fault>,
    distance: Distance,
    readings: Vec<Apart>,
}

#[derive(Serialize)]
struct All {
    ambient_c: f64,
    rig: String,
    matrix: Matrix,
}

/// Run it.
pub fn run(args: &CompareArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let rig = Rig::load(&args.rig).map_err(|e| Failure::Input(e.to_string()))?;
    for &c in &args.ambient {
        if !(-20.0..=55.0).contains(&c) {
            return Err(Failure::Input(format!("--ambient {c} is outside -20 to 55 °C")));
        }
    }
    if args.all {
        return all(args, &rig, out);
    }
    let [first, second] = args.faults.as_slice() else {
        return Err(Failure::Input(
            "give two faults, or --all (hint: pintle compare undercharge healthy)".into(),
        ));
    };
    let (first, second) = (suspect(&rig, first)?, suspect(&rig, second)?);
    let story = first.map_or(Story::Healthy, |(id, severity)| {
        Story::Fault(Fault { id, severity: severity.unwrap_or(id.default_severity()) })
    });
    let mut pairs = Vec::new();
    for &ambient_c in &args.ambient {
        let protocol = Protocol::new(&rig, ambient_c);
        let (a, b) =
            compare::pair(&protocol, story, second.map(|s| s.0), second.and_then(|s| s.1)).map_err(wrong)?;
        pairs.push(Pair {
            ambient_c,
            first: a.story.fault(),
            second: b.story.fault(),
            distance: compare::distance(&protocol, &a, &b),
            readings: compare::readings_apart(&protocol, &a, &b),
        });
    }
    if args.json {
        return print_json(out, &pairs);
    }
    for pair in &pairs {
        print(args, &rig, pair, out)?;
    }
    Ok(())
}

fn wrong(error: impl std::fmt::Display) -> Failure {
    Failure::Wrong(error.to_string())
}

/// A fault with its severity, if one is given; `None` is nothing wrong.
fn suspect(rig: &Rig, text: &str) -> Result<Option<(FaultId, Option<f64>)>, Failure> {
    let (key, severity) = match text.split_once('=') {
        Some((key, number)) => {
            let severity = number
                .parse::<f64>()
                .map_err(|_| Failure::Input(format!("`{}` is no number", number.escape_debug())))?;
            (key, Some(severity))
        }
        None => (text, None),
    };
    if key == "healthy" && severity.is_none() {
        return Ok(None);
    }
    let known = compare::faults_of(rig);
    let id = known.iter().copied().find(|id| id.info().key == key).ok_or_else(|| {
        let hint = hint(key, known.iter().map(|id| id.info().key).chain(["healthy"]));
        Failure::Input(format!("{} has no fault `{}` (hint: {hint})", rig.id, key.escape_debug()))
    })?;
    if let Some(severity) = severity.filter(|s| !id.accepts(*s)) {
        let (min, max) = id.info().severity.map_or((1.0, 1.0), |s| (s.min, s.max));
        return Err(Failure::Input(format!("{key}={severity} is outside {min} to {max}")));
    }
    Ok(Some((id, severity)))
}

fn told(fault: Option<Fault>) -> String {
    match fault {
        None => "nothing wrong".to_owned(),
        Some(Fault { id, .. }) if id.info().severity.is_none() => id.info().name.to_owned(),
        Some(Fault { id, severity }) => format!("{} at {severity:.3}", id.info().name),
    }
}

fn print(args: &CompareArgs, rig: &Rig, pair: &Pair, out: &mut dyn Write) -> Result<(), Failure> {
    writeln!(out, "{}, {} °C outside", rig.name, pair.ambient_c)?;
    writeln!(out, "  first   {}", told(pair.first))?;
    writeln!(out, "  second  {}", told(pair.second))?;
    let verdict = if pair.distance.best < TOLD_APART { "NOT told apart" } else { "told apart" };
    writeln!(
        out,
        "  {verdict}: {:.1} standard deviations by the best reading, {:.1} by the best of each instrument together",
        pair.distance.best, pair.distance.together
    )?;
    writeln!(out, "\n  {:>7}  {:<30}{:<40}{:>16}{:>16}", "sigmas", "moment", "reading", "first", "second")?;
    let figures = Say::listed(None);
    for apart in pair.readings.iter().take(args.rows).filter(|a| a.sigmas >= 0.05) {
        writeln!(
            out,
            "  {:>7.1}  {:<30}{:<40}{:>16}{:>16}",
            apart.sigmas,
            apart.moment,
            apart.probe.name(),
            apart.probe.text(apart.first, &figures),
            apart.probe.text(apart.second, &figures)
        )?;
    }
    writeln!(out)?;
    Ok(())
}

fn all(args: &CompareArgs, rig: &Rig, out: &mut dyn Write) -> Result<(), Failure> {
    let faults = compare::faults_of(rig);
    let mut done = Vec::new();
    for &ambient_c in &args.ambient {
        let protocol = Protocol::new(rig, ambient_c);
        let matrix = compare::matrix(&protocol, &faults).map_err(wrong)?;
        done.push(All { ambient_c, rig: rig.id.clone(), matrix });
    }
    if args.json {
        return print_json(out, &done);
    }
    for all in &done {
        table(rig, all, out)?;
    }
    Ok(())
}

fn table(rig: &Rig, all: &All, out: &mut dyn Write) -> Result<(), Failure> {
    let matrix = &all.matrix;
    writeln!(
        out,
        "{}, {} °C outside: standard deviations of the best reading between the fault of a row at its usual severity \
         and that of a column at the severity nearest to it; column ok is nothing wrong, a dash a fault that does not \
         show.\n",
        rig.name, all.ambient_c
    )?;
    let n = matrix.faults.len();
    write!(out, "{:<36}  ok", "")?;
    for i in 1..=n {
        write!(out, "{i:>4}")?;
    }
    writeln!(out)?;
    for (i, (id, cells)) in matrix.faults.iter().zip(&matrix.cells).enumerate() {
        write!(out, "{:>3} {:<32}", i + 1, id.info().key)?;
        let number = |best: f64| if best > 99.0 { " >99".to_owned() } else { format!("{best:>4.0}") };
        write!(out, "{}", matrix.shows.get(i).map_or_else(String::new, |d| number(d.best)))?;
        for (j, cell) in cells.iter().enumerate() {
            match cell {
                Some(cell) => write!(out, "{}", number(cell.distance.best))?,
                None => write!(out, "{:>4}", if i == j { "." } else { "-" })?,
            }
        }
        writeln!(out)?;
    }
    let usual = |id: FaultId| told(Some(Fault { id, severity: id.default_severity() }));
    let silent = matrix.silent();
    writeln!(
        out,
        "\n{} faults show on no reading (less than {TOLD_APART} standard deviations):",
        silent.len()
    )?;
    for (id, d) in silent {
        writeln!(out, "  {}: {:.1}, all instruments together {:.1}", usual(id), d.best, d.together)?;
    }
    let alike = matrix.alike();
    writeln!(out, "\n{} pairs of faults that show are told apart by no reading:", alike.len())?;
    for (a, b, cell) in alike {
        let other = told(Some(Fault { id: b, severity: cell.severity.unwrap_or(1.0) }));
        let d = cell.distance;
        writeln!(
            out,
            "  {} like {other}: {:.1}, all instruments together {:.1}",
            usual(a),
            d.best,
            d.together
        )?;
    }
    writeln!(out)?;
    Ok(())
}
