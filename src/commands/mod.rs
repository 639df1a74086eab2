//! Headless commands, one file each, and the command line that chooses among them.
//!
//! Results go to the standard output, everything else to the error stream. Exit codes: 0 fine, 1 it ran
//! and something is wrong, 2 bad input, 130 stopped by Ctrl+C (128 and the number of the signal).

mod actions;
mod columns;
mod compare;
mod desk;
mod failure;
mod faults;
mod listing;
mod ordeal;
mod plan;
mod progress;
pub mod properties;
mod qualify;
mod readings;
mod replay;
mod rigs;
mod run;
mod run_args;
mod scenarios;
mod senses;
mod spec;
#[cfg(feature = "tables")]
pub mod tables;
mod tools;

use std::ffi::OsString;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{CommandFactory, Parser, Subcommand};

pub use failure::Failure;
use listing::ListArgs;

use crate::message::{LINE, WORD, fit, fit_lines};
use crate::scenario::SHIPPED;
use crate::scenario::nearest::hint;

/// Most lines of an error about the command line.
const MOST_LINES: usize = 100;

/// A training bench for vapour-compression loops.
#[derive(Parser)]
#[command(name = "pintle", version, args_conflicts_with_subcommands = true)]
struct Cli {
    #[command(subcommand)]
    command: Option<Command>,
    #[command(flatten)]
    desk: desk::DeskArgs,
}

#[derive(Subcommand)]
enum Command {
    /// Open the window (the same as without a command)
    Desk(desk::DeskArgs),
    /// Run a scenario without a window and print its final readings
    Run(run_args::RunArgs),
    /// Run a record again and compare its state hash
    Replay(replay::ReplayArgs),
    /// List the embedded scenarios
    Scenarios(ListArgs),
    /// List the rigs
    Rigs(ListArgs),
    /// List every action and probe with its arguments, and the embedded action files
    Actions(ListArgs),
    /// List the faults with everything that is known of them, or the repairs
    Faults(faults::FaultsArgs),
    /// Do anything at random to a loop, check it after each operation, and time the slowest ten seconds
    Ordeal(ordeal::OrdealArgs),
    /// Read pressure and enthalpy pairs, write the properties of the refrigerant
    Properties(PropertiesArgs),
    /// Compare the model with published data, row by row
    Qualify(qualify::QualifyArgs),
    /// Show which instruments tell two faults apart, and by how many standard deviations
    Compare(compare::CompareArgs),
    /// Make the property tables of a refrigerant from its equation of state
    #[cfg(feature = "tables")]
    Tables(TablesArgs),
}

#[derive(Clone, Debug, clap::Args)]
struct PropertiesArgs {
    /// Refrigerant, such as R-134a
    refrigerant: String,
    /// CSV file with the columns p_pa,h_j_per_kg
    #[arg(long, value_name = "FILE.csv")]
    pairs: PathBuf,
}

#[cfg(feature = "tables")]
#[derive(Clone, Debug, clap::Args)]
struct TablesArgs {
    /// Refrigerant, such as R-134a
    refrigerant: String,
    /// Folder with the coefficients of the equation; the tables are written there
    #[arg(long, value_name = "FOLDER", default_value = "assets/refrigerants")]
    folder: PathBuf,
}

/// The whole program: read the command line, do it, give the exit code.
pub fn main(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let cli = match Cli::try_parse_from(args) {
        Ok(cli) => cli,
        Err(usage) => {
            // Help and version are answers (0), everything else is bad input (2), which is quoted.
            if !usage.use_stderr() {
                let _ = usage.print();
                return ExitCode::SUCCESS;
            }
            let quoted = fit_lines(&usage.render().to_string(), MOST_LINES);
            let _ = writeln!(std::io::stderr(), "{quoted}");
            return ExitCode::from(2);
        }
    };
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    let done = dispatch(cli, &mut out);
    let flushed = out.flush().map_err(Failure::from);
    match done.and_then(|code| flushed.map(|()| code)) {
        Ok(code) => code,
        Err(failure) => {
            let mut log = std::io::stderr().lock();
            for line in failure.to_string().lines().filter(|_| !matches!(failure, Failure::Closed)) {
                let _ = writeln!(log, "error: {}", fit(line, LINE));
            }
            ExitCode::from(failure.code())
        }
    }
}

fn dispatch(cli: Cli, out: &mut dyn Write) -> Result<ExitCode, Failure> {
    match cli.command {
        None => {
            known(cli.desk.scenario.as_deref())?;
            return desk::run(&cli.desk);
        }
        Some(Command::Desk(args)) => return desk::run(&args),
        Some(Command::Run(args)) => run::run(&args, out)?,
        Some(Command::Replay(args)) => replay::run(&args, out)?,
        Some(Command::Scenarios(args)) => scenarios::run(args, out)?,
        Some(Command::Rigs(args)) => rigs::run(args, out)?,
        Some(Command::Actions(args)) => actions::run(args, out)?,
        Some(Command::Faults(args)) => faults::run(&args, out)?,
        Some(Command::Ordeal(args)) => return Ok(ExitCode::from(u8::from(!ordeal::run(&args, out)?))),
        Some(Command::Properties(args)) => properties::run(&args.refrigerant, &args.pairs, out)?,
        Some(Command::Compare(args)) => compare::run(&args, out)?,
        Some(Command::Qualify(args)) => qualify::run(&args, out)?,
        #[cfg(feature = "tables")]
        Some(Command::Tables(args)) => tables::run(&args.refrigerant, &args.folder, out)?,
    }
    Ok(ExitCode::SUCCESS)
}

/// Without a command, a bare word is a scenario to open, unless it is a mistyped command.
fn known(word: Option<&str>) -> Result<(), Failure> {
    let Some(word) = word.filter(|w| !w.contains(['/', '\\', '.'])) else { return Ok(()) };
    let ids = || SHIPPED.iter().map(|shipped| shipped.id);
    if ids().any(|id| id == word) || std::path::Path::new(word).exists() {
        return Ok(());
    }
    let cli = Cli::command();
    let names: Vec<&str> = cli.get_subcommands().map(clap::Command::get_name).chain(ids()).collect();
    let hint = hint(word, names.iter().copied());
    Err(Failure::Input(format!("`{}` is no command, file or scenario (hint: {hint})", fit(word, WORD))))
}
