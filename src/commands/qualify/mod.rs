//! `pintle qualify`: the model against published data, as a table, a Markdown or an HTML report.

mod date;
mod escape;
mod frame;
mod html;
mod markdown;
mod svg;
mod terminal;

use std::io::Write;
use std::path::{Path, PathBuf};

use serde::Serialize;

use super::failure::Failure;
use super::listing::print_json;
use crate::message::{LINE, fit};
use crate::qualify::{self, Difference, KnownMisses, Plot, Report, Row, SHIPPED, Section, Tally, Verdict};
use crate::record::NewFile;
use crate::record::new_file::Replace;
use crate::scenario::nearest::hint;
use crate::scenario::source::read_text;
use frame::{ABOUT, Frame, HTML_BEGINS, MARKDOWN_BEGINS};

/// Largest list of known misses that is read [bytes].
const LARGEST_LIST_BYTES: u64 = 1_000_000;

/// Arguments of `pintle qualify`.
#[derive(Clone, Debug, clap::Args)]
pub struct QualifyArgs {
    /// Run only this section (may be repeated): properties, steady, components, limits, transients, balances, signs,
    /// bay
    #[arg(long, value_name = "NAME", value_parser = section)]
    section: Vec<Section>,
    /// Write the whole guide to a file; `.html` with plots or `.md` as text
    #[arg(long, value_name = "FILE")]
    report: Option<PathBuf>,
    /// Exit 0 when the rows out of tolerance are exactly those of this list, 1 when they differ from it
    #[arg(long, value_name = "FILE")]
    known: Option<PathBuf>,
    /// Print every row, not only those out of tolerance
    #[arg(long)]
    all: bool,
    /// Print JSON
    #[arg(long, conflicts_with = "all")]
    json: bool,
}

fn section(text: &str) -> Result<Section, String> {
    Section::by_key(text)
        .ok_or_else(|| format!("there is no such section ({})", hint(text, Section::ALL.map(Section::key))))
}

#[derive(Clone, Copy)]
enum Form {
    Html,
    Markdown,
}

/// What a report will be, and whether it may be written; looked at before anything is run, so that a bad path costs no time.
fn form(path: &Path) -> Result<(Form, Replace), Failure> {
    let extension = path.extension().unwrap_or_default().to_string_lossy().to_ascii_lowercase();
    let (form, begins) = match extension.as_str() {
        "html" | "htm" => (Form::Html, HTML_BEGINS),
        "md" => (Form::Markdown, MARKDOWN_BEGINS),
        _ => {
            return Err(Failure::Input(format!(
                "{}: a report is an .html or an .md file (hint: name it so)",
                fit(&path.display().to_string(), LINE)
            )));
        }
    };
    let replace = Replace::IfBeginsWith(begins);
    NewFile::would_do(path, replace)?;
    Ok((form, replace))
}

fn known(path: Option<&Path>) -> Result<KnownMisses, Failure> {
    let Some(path) = path else {
        return KnownMisses::parse(SHIPPED).map_err(|e| Failure::Wrong(format!("known misses: {e}")));
    };
    let told = |e: &dyn std::fmt::Display| Failure::Input(format!("{}: {e}", path.display()));
    let text = read_text(path, LARGEST_LIST_BYTES)?;
    KnownMisses::parse(&text).map_err(|e| told(&e))
}

/// Run it.
pub fn run(args: &QualifyArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let known = known(args.known.as_deref())?;
    let file = args.report.as_deref().map(|path| Ok::<_, Failure>((path, form(path)?))).transpose()?;
    let sections: Vec<Section> =
        Section::ALL.into_iter().filter(|s| args.section.is_empty() || args.section.contains(s)).collect();
    let report = qualify::run(&sections, &known).map_err(|e| Failure::Wrong(e.to_string()))?;
    let frame = Frame { version: env!("CARGO_PKG_VERSION"), date: date::today() };
    // Begun only now: a run that is stopped leaves nothing behind.
    if let Some((path, (form, replace))) = file {
        let mut file = NewFile::create(path, replace)?;
        let text = match form {
            Form::Html => html::text(&report, &frame),
            Form::Markdown => markdown::text(&report, &frame),
        };
        file.write(&text)?;
        file.finish()?;
    }
    let rows: Vec<Row> = report.rows().cloned().collect();
    let difference = known.compare(&sections, &rows);
    if args.json {
        print_json(out, &Outcome::of(&report, &frame))?;
    } else {
        terminal::print(out, &report, args.all)?;
    }
    judge(args, &report.tally(), &difference, out)
}

/// The exit code: without a list, any row out of tolerance fails; with one, any difference from it.
fn judge(
    args: &QualifyArgs,
    tally: &Tally,
    difference: &Difference,
    out: &mut dyn Write,
) -> Result<(), Failure> {
    let Some(path) = &args.known else {
        return match tally.out() {
            0 => Ok(()),
            n => Err(Failure::Wrong(format!("{n} of {} rows judged are out of tolerance", tally.judged()))),
        };
    };
    if difference.is_none() {
        if tally.out() > 0 && !args.json {
            writeln!(
                out,
                "ATTENTION: {} rows are out of tolerance. They are exactly the known misses of {}, so this passes.",
                tally.out(),
                path.display()
            )?;
        }
        return Ok(());
    }
    let mut told = vec![format!("the rows out of tolerance differ from {}", path.display())];
    let mut tell = |what: &str, ids: &[String]| told.extend(ids.iter().map(|id| format!("{what}: {id}")));
    tell("out of tolerance and not listed", &difference.new);
    tell("listed, but within tolerance now; take it off the list", &difference.met);
    tell("listed, but there is no such row; take it off the list", &difference.gone);
    Err(Failure::Wrong(told.join("\n")))
}

/// The guide as JSON.
#[derive(Serialize)]
struct Outcome<'a> {
    engine_version: &'a str,
    date: &'a str,
    about: [&'a str; 3],
    tally: Tally,
    rows: Vec<Told<'a>>,
    plots: Vec<&'a Plot>,
}

#[derive(Serialize)]
struct Told<'a> {
    #[serde(flatten)]
    row: &'a Row,
    verdict: Verdict,
    verdict_words: String,
}

impl<'a> Outcome<'a> {
    fn of(report: &'a Report, frame: &'a Frame) -> Self {
        let told = |row: &'a Row| Told { row, verdict: row.verdict(), verdict_words: row.verdict_words() };
        Self {
            engine_version: frame.version,
            date: &frame.date,
            about: ABOUT,
            tally: report.tally(),
            rows: report.rows().map(told).collect(),
            plots: report.sections.iter().flat_map(|(_, part)| &part.plots).collect(),
        }
    }
}
