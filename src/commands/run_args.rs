//! The arguments of `pintle run`.

use std::path::PathBuf;

use super::spec::{ClearSpec, FaultSpec, SetSpec, number, set_help};
use super::tools::{self, ActSpec, ReadSpec};

/// Arguments of `pintle run`.
#[derive(Clone, Debug, clap::Args)]
pub struct RunArgs {
    /// Path of a scenario file, or the id of an embedded scenario; without one, that of the action file
    #[arg(required_unless_present = "actions")]
    pub scenario: Option<String>,
    /// Length of the run: 10 when left out, or as long as the action file takes
    #[arg(long, value_name = "M", value_parser = minutes, allow_hyphen_values = true)]
    pub minutes: Option<f64>,
    /// Play an action file and check what it expects: a path, or the id of an embedded one (`builtin:recover`)
    #[arg(long, value_name = "FILE.ron")]
    pub actions: Option<String>,
    /// Write a row of true readings to this CSV file every so often
    #[arg(long, value_name = "FILE.csv")]
    pub trace: Option<PathBuf>,
    /// Simulated seconds between two rows of the trace
    #[arg(long, value_name = "SECONDS", default_value = "1", value_parser = every, allow_hyphen_values = true)]
    pub every: f64,
    /// Impose a fault (may be repeated)
    #[arg(long, value_name = "ID[=SEVERITY][@SECONDS]")]
    pub fault: Vec<FaultSpec>,
    /// Take a fault away (may be repeated)
    #[arg(long, value_name = "ID@SECONDS")]
    pub clear: Vec<ClearSpec>,
    /// Turn a knob (may be repeated)
    #[arg(long, value_name = "KEY=VALUE[@SECONDS]", long_help = set_help())]
    pub set: Vec<SetSpec>,
    /// Read an electrical tool (may be repeated)
    #[arg(long, value_name = "PROBE[@SECONDS]", long_help = tools::read_help())]
    pub read: Vec<ReadSpec>,
    /// Do something to the circuit (may be repeated)
    #[arg(long = "do", value_name = "ACT[@SECONDS]", long_help = tools::DO_HELP)]
    pub act: Vec<ActSpec>,
    /// Seed of the instrument noise
    #[arg(long, value_name = "N", default_value = "1")]
    pub seed: u64,
    /// Write a record that `pintle replay` can run again
    #[arg(long, value_name = "FILE")]
    pub record: Option<PathBuf>,
    /// Also tell what a person without tools hears, feels, sees and smells at the end
    #[arg(long)]
    pub perceive: bool,
    /// Print one JSON object instead of a table
    #[arg(long)]
    pub json: bool,
}

fn minutes(text: &str) -> Result<f64, String> {
    let value = number(text, "minutes", "min", 0.0, 10_000.0)?;
    if value > 0.0 { Ok(value) } else { Err("minutes: it must be more than 0".to_owned()) }
}

fn every(text: &str) -> Result<f64, String> {
    number(text, "every", "s", crate::bench::TICK_S, 86_400.0)
}
