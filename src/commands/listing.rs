//! What the commands that list things share: their arguments, and JSON.

use std::io::Write;

use super::failure::Failure;

/// Arguments of the commands that list things.
#[derive(Clone, Copy, Debug, clap::Args)]
pub(super) struct ListArgs {
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Print something as JSON.
pub(super) fn print_json<T: serde::Serialize + ?Sized>(
    out: &mut dyn Write,
    value: &T,
) -> Result<(), Failure> {
    let text = serde_json::to_string_pretty(value).map_err(std::io::Error::from)?;
    writeln!(out, "{text}")?;
    Ok(())
}
