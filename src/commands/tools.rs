//! Tools on the command line: `--read PROBE[@SECONDS]` and `--do ACT[@SECONDS]`, and what they found.

use std::io::{self, Write};
use std::str::FromStr;

use super::spec::split_time;
use crate::bench::{Action, Bench};
use crate::circuit::Guard;
use crate::instrument::{MeterRange, Probe, Reading, Say};
use crate::lesson::debrief::acts;

/// `--read PROBE[@SECONDS]`: a tool put on its place, read when it has settled.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadSpec {
    /// Tool and place.
    pub probe: Probe,
    /// When it is put there [s].
    pub at_s: f64,
}

/// `--do ACT[@SECONDS]`: something a hand does to the circuit.
#[derive(Clone, Debug, PartialEq)]
pub struct ActSpec {
    /// What.
    pub action: Action,
    /// When [s].
    pub at_s: f64,
}

/// Help of `--read`.
pub fn read_help() -> String {
    let notations: Vec<&str> = Probe::kinds().iter().map(|kind| kind.facts().notation).collect();
    format!(
        "Put a tool on its place and read it when it has settled (may be repeated). PROBE is one of {}; names in capitals \
         are those that `pintle actions` lists, bars stand between words to choose from, brackets round what may be left \
         out; a point may be `ground`",
        notations.join(", ")
    )
}
/// Help of `--do`.
pub const DO_HELP: &str = "Do something to the circuit (may be repeated). ACT is one of jumper:A:B, jumper:off, \
    unplug:CONNECTOR, plug:CONNECTOR, swap:RELAY:RELAY, renew:FUSE (or renew:meter, renew:jumper), range:auto, range:6, \
    range:60, range:600, relative:on, relative:off, zero_clamp, reader:in, reader:out, clear_codes, prove_meter, \
    isolate:GUARD, restore:GUARD, prove_dead:GUARD; GUARD is traction or mains";

impl FromStr for ReadSpec {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (head, at_s) = split_time(text)?;
        let probe = Probe::parse(head)?;
        Ok(Self { probe, at_s: at_s.unwrap_or(0.0) })
    }
}

fn guard(name: &str) -> Result<Guard, String> {
    match name {
        "traction" => Ok(Guard::Traction),
        "mains" => Ok(Guard::Mains),
        _ => Err(format!("unknown guard `{name}` (hint: traction or mains)")),
    }
}

impl FromStr for ActSpec {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (head, at_s) = split_time(text)?;
        let words: Vec<&str> = head.split(':').collect();
        let action = match words[..] {
            ["jumper", "off"] => Action::JumperBetween(None),
            ["jumper", a, b] => Action::JumperBetween(Some((a.into(), b.into()))),
            ["unplug", plug] => Action::Unplug(plug.into(), true),
            ["plug", plug] => Action::Unplug(plug.into(), false),
            ["swap", a, b] => Action::SwapRelays(a.into(), b.into()),
            ["renew", fuse] => Action::RenewFuse(fuse.into()),
            ["range", "auto"] => Action::MeterRange(MeterRange::Auto),
            ["range", "6"] => Action::MeterRange(MeterRange::Six),
            ["range", "60"] => Action::MeterRange(MeterRange::Sixty),
            ["range", "600"] => Action::MeterRange(MeterRange::SixHundred),
            ["relative", "on"] => Action::MeterRelative(true),
            ["relative", "off"] => Action::MeterRelative(false),
            ["zero_clamp"] => Action::ClampZero,
            ["reader", "in"] => Action::Reader(true),
            ["reader", "out"] => Action::Reader(false),
            ["clear_codes"] => Action::ClearCodes,
            ["prove_meter"] => Action::ProveMeter,
            ["isolate", name] => Action::Isolate(guard(name)?, true),
            ["restore", name] => Action::Isolate(guard(name)?, false),
            ["prove_dead", name] => Action::ProveDead(guard(name)?),
            _ => return Err(format!("`{head}` is nothing that can be done (hint: see --help)")),
        };
        Ok(Self { action, at_s: at_s.unwrap_or(0.0) })
    }
}

impl ReadSpec {
    /// When it is read [s].
    pub fn read_s(&self) -> f64 {
        let settles_s = match self.probe {
            // As records and figures of earlier days were made: sooner than a careful hand would.
            Probe::Pipe(_) | Probe::Air(_) => 1.0,
            _ => self.probe.facts().settles_s,
        };
        self.at_s + settles_s
    }

    /// What it takes to read it, with the time of each [s].
    pub fn actions(&self) -> [(f64, Action); 2] {
        [(self.at_s, Action::to_place(&self.probe)), (self.read_s(), Action::Read(self.probe.clone()))]
    }
}

/// What a reading shows, in words.
fn shown(reading: &Reading) -> String {
    reading.probe.text(reading.value, &Say::listed(Some(reading.uncertainty)))
}

/// What stands in the JSON object of a run.
pub type Found = Vec<(String, f64, String)>;

/// The notebook: name, value and words.
pub fn found(bench: &Bench) -> Found {
    let row = |r: &Reading| (r.probe.name(), r.value, shown(r));
    bench.notebook().iter().map(row).collect()
}

/// Print readings, codes, proving, mistakes and unsafe acts.
pub fn print(out: &mut dyn Write, bench: &Bench) -> io::Result<()> {
    let done = bench.electrics();
    if !bench.notebook().is_empty() {
        writeln!(out, "Readings taken")?;
    }
    for (name, _, words) in found(bench) {
        writeln!(out, "  {name:<52}{words}")?;
    }
    if done.reader {
        writeln!(out, "Codes")?;
        let codes = bench.circuit().codes();
        for code in &codes {
            let now = if code.present { "present" } else { "stored" };
            writeln!(out, "  {} ({now}, {} unit)", code.words, code.unit)?;
        }
        if codes.is_empty() {
            writeln!(out, "  none")?;
        }
    }
    if let Some(proof) = &done.proof {
        let dead = if proof.dead { "dead" } else { "NOT dead" };
        writeln!(out, "Behind the isolator: {:.0} V at most, {dead}", proof.volts)?;
    }
    for line in acts::mistakes(done).iter().chain(&acts::unsafe_acts(done)) {
        writeln!(out, "  {line}")?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::MeterMode;

    #[test]
    fn probes_and_acts_are_read_and_slips_refused() {
        let read: ReadSpec = "meter:ohm:clutch_coil_plus:ground@30".parse().unwrap();
        let probe =
            Probe::Meter { mode: MeterMode::Ohm, red: "clutch_coil_plus".into(), black: "ground".into() };
        assert_eq!(read, ReadSpec { probe, at_s: 30.0 });
        for text in ["meter:v:a:b", "lamp:a:b", "clamp:a", "unit:thermal:high", "meter:a:x:y@5"] {
            assert!(text.parse::<ReadSpec>().is_ok(), "{text}");
        }
        for text in
            ["vacuum_gauge", "scale:recovery", "infrared:valve_inlet:taped@9", "soap:shaft_seal", "air:vent"]
        {
            assert!(text.parse::<ReadSpec>().is_ok(), "{text}");
        }
        let detector: ReadSpec = "detector:evaporator_drain:g4@10".parse().unwrap();
        assert_eq!(detector.read_s(), 15.0);
        for text in
            ["scale", "detector:shaft_seal", "soap:roof", "detector:shaft_seal:g5", "infrared:vent", "oil:x"]
        {
            assert!(text.parse::<ReadSpec>().is_err(), "{text}");
        }
        for text in ["", "volts", "meter:w:a:b", "meter:v:a", "lamp:a", "clamp:a@-1", "::::"] {
            assert!(text.parse::<ReadSpec>().is_err(), "{text}");
        }
        let gone = "volts:fan_motor_plus@3".parse::<ReadSpec>().unwrap_err();
        assert!(gone.contains("meter:v:fan_motor_plus:ground"), "{gone}");
        let act: ActSpec = "isolate:traction@3".parse().unwrap();
        assert_eq!(act, ActSpec { action: Action::Isolate(Guard::Traction, true), at_s: 3.0 });
        for text in ["", "isolate", "isolate:water", "jumper:a", "range:7", "@"] {
            assert!(text.parse::<ActSpec>().is_err(), "{text}");
        }
    }
}
