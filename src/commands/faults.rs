//! `pintle faults`: the catalogue, and the repairs.

use std::io::Write;

use serde::Serialize;

use super::failure::Failure;
use super::listing::print_json;
use crate::fault::{FaultId, FaultInfo, RepairId, base_rates};
use crate::rig::Rig;
use crate::scenario::nearest::hint;

/// Arguments of `pintle faults`.
#[derive(Clone, Debug, clap::Args)]
pub struct FaultsArgs {
    /// Only those that this rig can have, with their share among them
    #[arg(long, value_name = "RIG")]
    pub rig: Option<String>,
    /// The repairs instead
    #[arg(long)]
    pub repairs: bool,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// A fault with what depends on rigs.
#[derive(Serialize)]
struct Entry {
    #[serde(flatten)]
    info: &'static FaultInfo,
    /// Probability among the faults of the rig asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    share_on_rig: Option<f64>,
    /// Rigs that can have it.
    rigs: Vec<&'static str>,
}

/// List the faults, or the repairs.
pub fn run(args: &FaultsArgs, out: &mut dyn Write) -> Result<(), Failure> {
    let rig = args.rig.as_deref().map(load).transpose()?;
    if args.repairs {
        return repairs(args.json, rig.as_ref(), out);
    }
    let mut rigs: Vec<(&'static str, Rig)> = Vec::new();
    for id in Rig::ids() {
        rigs.push((id, Rig::load(id).map_err(|e| Failure::Input(e.to_string()))?));
    }
    let rates = rig.as_ref().map(base_rates);
    let share = |id: FaultId| rates.as_ref().and_then(|r| r.iter().find(|(f, _)| *f == id)).map(|(_, p)| *p);
    let all: Vec<Entry> = FaultId::ALL
        .into_iter()
        .filter(|id| rates.is_none() || share(*id).is_some())
        .map(|id| Entry {
            info: id.info(),
            share_on_rig: share(id),
            rigs: rigs.iter().filter(|(_, rig)| id.info().applies_to(rig)).map(|(name, _)| *name).collect(),
        })
        .collect();
    if args.json {
        return print_json(out, &all);
    }
    for entry in &all {
        tell(entry, out)?;
    }
    Ok(())
}

fn load(id: &str) -> Result<Rig, Failure> {
    Rig::load(id).map_err(|_| {
        Failure::Input(format!("unknown rig `{}` (hint: {})", id.escape_debug(), {
            let known: Vec<&str> = Rig::ids().collect();
            hint(id, known.iter().copied())
        }))
    })
}

fn tell(entry: &Entry, out: &mut dyn Write) -> Result<(), Failure> {
    let info = entry.info;
    writeln!(out, "{:<28}{} ({})", info.key, info.name, info.group.name())?;
    writeln!(out, "    {}", info.changes)?;
    let severity = match info.severity {
        Some(s) => {
            let unit = if s.unit.is_empty() { String::new() } else { format!(" {}", s.unit) };
            format!("{}, {} to {}{unit}, default {}", s.meaning, s.min, s.max, s.default)
        }
        None => "none, there or not".to_owned(),
    };
    writeln!(out, "    severity: {severity}")?;
    let share = entry.share_on_rig.map_or_else(String::new, |p| format!("{:.1} % on this rig, ", 100.0 * p));
    writeln!(out, "    base rate: {share}weight {} ({})", info.base_rate.weight, info.base_rate.source)?;
    for cure in info.cures {
        writeln!(out, "    repair: {}", cure.info().words)?;
    }
    for futile in info.futile {
        writeln!(out, "    in vain: {}: {}", futile.repair.info().words, futile.consequence)?;
    }
    writeln!(out, "    rigs: {}", entry.rigs.join(", "))?;
    Ok(())
}

fn repairs(json: bool, rig: Option<&Rig>, out: &mut dyn Write) -> Result<(), Failure> {
    let asked = |id: &RepairId| rig.is_none_or(|rig| id.applies_to(rig));
    let all: Vec<RepairId> = RepairId::ALL.into_iter().filter(asked).collect();
    if json {
        let infos: Vec<_> = all.iter().map(|id| id.info()).collect();
        return print_json(out, &infos);
    }
    for id in all {
        let info = id.info();
        writeln!(out, "{:<30}{}", info.key, info.words)?;
        writeln!(out, "    {:.0} min, cost {} (common practice, no source)", info.minutes, info.cost)?;
        let cures: Vec<&str> =
            id.cures().filter(|f| rig.is_none_or(|r| f.info().applies_to(r))).map(|f| f.info().key).collect();
        writeln!(out, "    cures: {}", if cures.is_empty() { "nothing".into() } else { cures.join(", ") })?;
        if !info.caution.is_empty() {
            writeln!(out, "    caution: {}", info.caution)?;
        }
    }
    Ok(())
}
