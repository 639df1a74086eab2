//! `pintle desk`: the window.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use super::failure::Failure;
use super::spec::number;
use crate::message::{LINE, fit};
use crate::record::NewFile;
use crate::record::new_file::Replace;

/// Arguments of the desk, also without a subcommand.
#[derive(Clone, Debug, clap::Args)]
pub struct DeskArgs {
    /// Scenario to open: a path, or the id of an embedded scenario
    pub scenario: Option<String>,
    /// Take a picture of the window, then close it
    #[arg(long, value_name = "FILE.png")]
    pub screenshot: Option<PathBuf>,
    /// Seconds before the picture is taken
    #[arg(long, value_name = "SECONDS", default_value = "3", value_parser = after, allow_hyphen_values = true)]
    #[arg(requires = "screenshot")]
    pub after: f64,
}

fn after(text: &str) -> Result<f64, String> {
    number(text, "after", "s", 0.0, 3_600.0)
}

/// Open the window.
pub fn run(args: &DeskArgs) -> Result<ExitCode, Failure> {
    if let Some(path) = &args.screenshot {
        check_picture(path)?;
    }
    open(args)
}

/// A picture may replace a picture, nothing else.
fn check_picture(path: &Path) -> Result<(), Failure> {
    if !path.extension().is_some_and(|e| e.eq_ignore_ascii_case("png")) {
        let name = fit(&path.display().to_string(), LINE);
        return Err(Failure::Input(format!("{name}: a picture needs a name that ends in .png")));
    }
    Ok(NewFile::would_do(path, Replace::IfPicture)?)
}

#[cfg(feature = "desk")]
fn open(args: &DeskArgs) -> Result<ExitCode, Failure> {
    Ok(crate::desk::shell::run(crate::desk::shell::DeskOptions {
        scenario: args.scenario.clone(),
        screenshot: args.screenshot.clone(),
        after_s: args.after,
    }))
}

#[cfg(not(feature = "desk"))]
fn open(_args: &DeskArgs) -> Result<ExitCode, Failure> {
    Err(Failure::Input(
        "this build has no window (hint: build with the feature `desk`, or use `pintle run healthy`)".into(),
    ))
}
