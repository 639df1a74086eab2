//! `properties`: refrigerant states for a list of pressures and enthalpies.

use std::io::{self, Write};
use std::path::Path;

use thiserror::Error;

use crate::message::{LINE, PIECE, WORD, fit};
use crate::refrigerant::Refrigerant;
use crate::scenario::BadFile;
use crate::scenario::source::read_text;

/// Largest file of pairs that is read [bytes].
const LARGEST_BYTES: u64 = 100_000_000;
const PRESSURE: &str = "p_pa";
const ENTHALPY: &str = "h_j_per_kg";
/// Columns that are added to every row.
const ADDED: &str = "t_k,rho_kg_m3,s_j_per_kg_k,x,phase,mu_pa_s,k_w_m_k,range";

/// Why the states could not be written.
#[derive(Debug, Error)]
pub enum PropertiesError {
    /// No refrigerant of this name.
    #[error("no refrigerant \"{}\" (known: {known})", fit(.name, WORD))]
    UnknownRefrigerant {
        /// The name asked for.
        name: String,
        /// The names that would do.
        known: String,
    },
    /// The input could not be read.
    #[error(transparent)]
    Read(#[from] BadFile),
    /// A line of the input makes no sense.
    #[error("{}:{line}: {reason} ({hint})", fit(.path, LINE))]
    Line {
        /// The file.
        path: String,
        /// The line, counted from 1.
        line: usize,
        /// What is wrong.
        reason: String,
        /// What would be right.
        hint: &'static str,
    },
    /// The result could not be written.
    #[error("the result cannot be written: {0}")]
    Write(#[from] io::Error),
}

/// Reads `pairs_csv`, whose header names the columns `p_pa` (absolute pressure, Pa) and `h_j_per_kg` (specific
/// enthalpy, J/kg, IIR reference), and writes the same rows to `out` with the state appended.
///
/// Other columns are kept, in any order. Added are `t_k`, `rho_kg_m3`, `s_j_per_kg_k`, `x` (NaN outside the dome),
/// `phase` (`liquid`, `two-phase`, `vapour`), viscosity `mu_pa_s` and conductivity `k_w_m_k` (NaN inside the dome) and
/// `range`: `ok`, or why the state is not valid (`below-pressure-range`, `above-pressure-range`, `critical-band`,
/// `below-temperature-range`, `above-temperature-range`). Where it is not, the phase is `out-of-range` and every
/// number NaN. Blank lines are dropped; lines that begin with `#` are copied.
pub fn run(refrigerant: &str, pairs_csv: &Path, out: &mut dyn Write) -> Result<(), PropertiesError> {
    let fluid = Refrigerant::by_name(refrigerant).ok_or_else(|| PropertiesError::UnknownRefrigerant {
        name: refrigerant.to_owned(),
        known: Refrigerant::names().join(", "),
    })?;
    let path = pairs_csv.display().to_string();
    let text = read_text(pairs_csv, LARGEST_BYTES)?;
    write_states(fluid, &path, text.trim_start_matches('\u{feff}'), out)
}

/// The cells of a line, without the blanks around them. Lines are read one by one, since they are copied to the letter.
fn cells(line: &str) -> csv::StringRecord {
    let mut record = csv::StringRecord::new();
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .trim(csv::Trim::All)
        .buffer_capacity(line.len().max(1))
        .from_reader(line.as_bytes());
    // A line of text is a record of any length: there is nothing to refuse.
    drop(reader.read_record(&mut record));
    record
}

fn write_states(
    fluid: &Refrigerant,
    path: &str,
    text: &str,
    out: &mut dyn Write,
) -> Result<(), PropertiesError> {
    let fault = |line, reason, hint| PropertiesError::Line { path: path.to_owned(), line, reason, hint };
    let mut columns = None;
    for (number, line) in (1..).zip(text.lines()) {
        if line.trim().is_empty() {
            continue;
        }
        if line.starts_with('#') {
            writeln!(out, "{line}")?;
            continue;
        }
        let cells = cells(line);
        let Some(found) = columns else {
            columns = Some(Columns::find(&cells).map_err(|reason| {
                fault(number, reason, "the header must name p_pa and h_j_per_kg once each")
            })?);
            writeln!(out, "{line},{ADDED}")?;
            continue;
        };
        if cells.len() != found.count {
            let reason = format!("{} columns, but the header has {}", cells.len(), found.count);
            return Err(fault(number, reason, "separate columns by commas, and quote a cell that holds one"));
        }
        let read = |name: &str, cell: &str| {
            cell.parse::<f64>().ok().filter(|v| v.is_finite()).ok_or_else(|| {
                fault(
                    number,
                    format!("{name} is \"{}\"", fit(cell, PIECE)),
                    "write a finite number such as 101325 or 2.5e5",
                )
            })
        };
        let (p, h) = (read(PRESSURE, &cells[found.pressure])?, read(ENTHALPY, &cells[found.enthalpy])?);
        if p <= 0.0 {
            let reason = format!("{PRESSURE} is {p}");
            return Err(fault(number, reason, "pressures are absolute, in pascal, and above zero"));
        }
        let sat = fluid.saturation(libm::log(p));
        let s = fluid.state_with(&sat, h);
        if let Some(reason) = fluid.out_of_range(sat.ln_p, &s) {
            writeln!(out, "{line},NaN,NaN,NaN,NaN,out-of-range,NaN,NaN,{}", reason.word())?;
            continue;
        }
        write!(out, "{line},{},{},{},{},{}", s.t_k, s.rho_kg_m3, s.s_j_per_kg_k, s.x, s.phase.word())?;
        let transport = fluid.transport_of(&sat, &s);
        if transport.valid {
            writeln!(out, ",{:e},{},ok", transport.mu_pa_s, transport.k_w_m_k)?;
        } else {
            writeln!(out, ",NaN,NaN,ok")?;
        }
    }
    if columns.is_none() {
        return Err(fault(1, "no header".to_owned(), "begin with a line that names p_pa and h_j_per_kg"));
    }
    Ok(())
}

#[derive(Clone, Copy)]
struct Columns {
    pressure: usize,
    enthalpy: usize,
    count: usize,
}

impl Columns {
    fn find(header: &csv::StringRecord) -> Result<Self, String> {
        let position = |name: &str| {
            let mut at = header.iter().enumerate().filter(|(_, cell)| *cell == name).map(|(i, _)| i);
            match (at.next(), at.next()) {
                (Some(i), None) => Ok(i),
                (None, _) => Err(format!("no column {name}")),
                (Some(_), Some(_)) => Err(format!("two columns {name}")),
            }
        };
        Ok(Self { pressure: position(PRESSURE)?, enthalpy: position(ENTHALPY)?, count: header.len() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn states(text: &str) -> Result<String, String> {
        let mut out = Vec::new();
        write_states(Refrigerant::r134a(), "pairs.csv", text, &mut out).map_err(|e| e.to_string())?;
        Ok(String::from_utf8(out).unwrap())
    }

    #[test]
    fn rows_keep_their_columns_and_gain_the_state() {
        let out = states("h_j_per_kg, note ,p_pa\r\n420e3,suction,3.5e5\n\n300000,flash,350000\n").unwrap();
        let lines: Vec<&str> = out.lines().collect();
        assert_eq!(lines.len(), 3);
        let added = "t_k,rho_kg_m3,s_j_per_kg_k,x,phase,mu_pa_s,k_w_m_k,range";
        assert_eq!(lines[0], format!("h_j_per_kg, note ,p_pa,{added}"));
        assert!(lines[1].starts_with("420e3,suction,3.5e5,298.") && lines[1].contains(",NaN,vapour,1."));
        assert!(lines[1].ends_with(",ok") && lines[2].ends_with(",two-phase,NaN,NaN,ok"));
        let quoted = states("note,p_pa,h_j_per_kg\n\"suction, idle\",3.5e5,420e3\n").unwrap();
        assert!(quoted.lines().nth(1).unwrap().starts_with("\"suction, idle\",3.5e5,420e3,298."));
    }

    #[test]
    fn what_the_tables_do_not_reach_is_said() {
        let out = states("p_pa,h_j_per_kg\n5e6,4.5e5\n0.5,4e5\n1e5,9e5\n1e5,-1e5\n4.05e6,3.9e5\n").unwrap();
        let reasons = [
            "above-pressure-range",
            "below-pressure-range",
            "above-temperature-range",
            "below-temperature-range",
            "critical-band",
        ];
        for (line, reason) in out.lines().skip(1).zip(reasons) {
            assert!(line.ends_with(&format!(",NaN,NaN,NaN,NaN,out-of-range,NaN,NaN,{reason}")), "{line}");
        }
        assert_eq!(out.lines().count(), 1 + reasons.len());
    }

    #[test]
    fn bad_input_names_file_line_reason_and_hint() {
        for (text, message) in [
            ("", "pairs.csv:1: no header (begin with a line that names p_pa and h_j_per_kg)"),
            (
                "p_pa,h\n1,2\n",
                "pairs.csv:1: no column h_j_per_kg (the header must name p_pa and h_j_per_kg once each)",
            ),
            (
                "p_pa,h_j_per_kg,p_pa\n",
                "pairs.csv:1: two columns p_pa (the header must name p_pa and h_j_per_kg once each)",
            ),
            (
                "p_pa,h_j_per_kg\n1e5\n",
                "pairs.csv:2: 1 columns, but the header has 2 (separate columns by commas, and quote a cell that holds one)",
            ),
            (
                "p_pa,h_j_per_kg\n1e5,4e5\n1 bar,4e5\n",
                "pairs.csv:3: p_pa is \"1 bar\" (write a finite number such as 101325 or 2.5e5)",
            ),
            (
                "p_pa,h_j_per_kg\n1e5,NaN\n",
                "pairs.csv:2: h_j_per_kg is \"NaN\" (write a finite number such as 101325 or 2.5e5)",
            ),
            (
                "p_pa,h_j_per_kg\n-3,4e5\n",
                "pairs.csv:2: p_pa is -3 (pressures are absolute, in pascal, and above zero)",
            ),
        ] {
            assert_eq!(states(text).unwrap_err(), message);
        }
    }

    #[test]
    fn an_unknown_refrigerant_is_an_error() {
        let error = run("R-9000", Path::new("none.csv"), &mut Vec::new()).unwrap_err();
        let known = Refrigerant::names().join(", ");
        assert!(known.contains("R-134a, ") && known.contains("R-32"));
        assert_eq!(error.to_string(), format!("no refrigerant \"R-9000\" (known: {known})"));
    }
}
