//! Tools on the command line: `--read PROBE[@SECONDS]` and `--do ACT[@SECONDS]`, and what they found.

use std::io::{self, Write};
use std::str::FromStr;

use super::spec::split_time;
use crate::bench::{Action, Bench};
use crate::circuit::Guard;
use crate::instrument::{MeterMode, MeterRange, Probe, Reading, bay_tools, lamp, meter};
use crate::lesson::timeline;
use crate::units::{Kelvin, Units};

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
pub const READ_HELP: &str = "Put a tool on its place and read it when it has settled (may be repeated). PROBE is one of gauge:low, \
    gauge:high, pipe:PIPE, air:AIR, sight_glass, vacuum_gauge, scale:recovery, scale:charging, oil, infrared:PIPE, \
    infrared:PIPE:taped, wet_bulb:AIR, airflow, detector:PLACE:g4 (or g7, g14), soap:PLACE, uv_lamp:PLACE, identifier, \
    identifier:air, volts:POINT, meter:v:RED:BLACK, meter:ohm:RED:BLACK, meter:continuity:RED:BLACK, meter:a:RED:BLACK, lamp:TIP:CLIP, \
    clamp:PART, unit:UNIT:VALUE; a point may be `ground`";
/// Help of `--do`.
pub const DO_HELP: &str = "Do something to the circuit (may be repeated). ACT is one of jumper:A:B, jumper:off, \
    unplug:CONNECTOR, plug:CONNECTOR, swap:RELAY:RELAY, renew:FUSE (or renew:meter, renew:jumper), range:auto, range:6, \
    range:60, range:600, relative:on, relative:off, zero_clamp, reader:in, reader:out, clear_codes, prove_meter, \
    isolate:GUARD, restore:GUARD, prove_dead:GUARD; GUARD is traction or mains";

impl FromStr for ReadSpec {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (head, at_s) = split_time(text)?;
        let words: Vec<&str> = head.split(':').collect();
        let probe = match words[..] {
            ["volts", point] => Probe::Volts(point.into()),
            ["meter", mode, red, black] => {
                let mode = match mode {
                    "v" => MeterMode::VoltsDc,
                    "ohm" => MeterMode::Ohm,
                    "continuity" => MeterMode::Continuity,
                    "a" => MeterMode::AmpsDc,
                    _ => return Err(format!("unknown mode `{mode}` (hint: v, ohm, continuity or a)")),
                };
                Probe::Meter { mode, red: red.into(), black: black.into() }
            }
            ["lamp", tip, clip] => Probe::Lamp { tip: tip.into(), clip: clip.into() },
            ["clamp", part] => Probe::Clamp(part.into()),
            ["unit", unit, id] => Probe::UnitValue { unit: unit.into(), id: id.into() },
            ["gauge", "low"] => Probe::LowGauge,
            ["gauge", "high"] => Probe::HighGauge,
            ["pipe", at] => Probe::Pipe(place(at)?),
            ["air", at] => Probe::Air(place(at)?),
            ["sight_glass"] => Probe::SightGlass,
            ["vacuum_gauge"] => Probe::VacuumGauge,
            ["scale", "recovery"] => Probe::RecoveryScale,
            ["scale", "charging"] => Probe::ChargingScale,
            ["oil"] => Probe::OilGraduation,
            ["infrared", at] => Probe::Infrared { place: place(at)?, taped: false },
            ["infrared", at, "taped"] => Probe::Infrared { place: place(at)?, taped: true },
            ["wet_bulb", at] => Probe::WetBulb(place(at)?),
            ["airflow"] => Probe::Airflow,
            ["detector", at, scale] => Probe::LeakDetector { place: place(at)?, scale: place(scale)? },
            ["soap", at] => Probe::Soap(place(at)?),
            ["uv_lamp", at] => Probe::UvLamp(place(at)?),
            ["identifier"] => Probe::Identifier,
            ["identifier", "air"] => Probe::IdentifierAir,
            _ => return Err(format!("`{head}` is no probe (hint: see --help)")),
        };
        Ok(Self { probe, at_s: at_s.unwrap_or(0.0) })
    }
}

/// A place or a scale by its name in the files; what there is comes with the error.
fn place<T: serde::de::DeserializeOwned>(name: &str) -> Result<T, String> {
    serde_json::from_value(serde_json::Value::String(name.to_owned())).map_err(|error| error.to_string())
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
        self.at_s + bay_tools::patience_s(&self.probe)
    }

    /// What it takes to read it, with the time of each [s].
    pub fn actions(&self) -> [(f64, Action); 2] {
        let first = match &self.probe {
            Probe::UnitValue { .. } => Action::Reader(true),
            probe => Action::Place(probe.clone()),
        };
        [(self.at_s, first), (self.read_s(), Action::Read(self.probe.clone()))]
    }
}

/// What a reading shows, in words.
fn shown(reading: &Reading) -> String {
    let (v, u) = (reading.value, reading.uncertainty);
    match &reading.probe {
        Probe::Meter { .. } if meter::is_over(v) => "OL".into(),
        Probe::Meter { mode, .. } => format!("{v:.3} ± {u:.3} {}", mode.unit()),
        Probe::Volts(_) => format!("{v:.2} ± {u:.2} V"),
        Probe::Clamp(_) => format!("{v:.2} ± {u:.2} A"),
        Probe::Lamp { .. } => lamp::words(v).into(),
        Probe::LowGauge | Probe::HighGauge => format!("{:.2} ± {:.2} bar", v / 1e5, u / 1e5),
        Probe::Pipe(_) | Probe::Air(_) => format!("{:.1} ± {u:.1} °C", Kelvin(v).c()),
        Probe::UnitValue { .. } | Probe::SightGlass | Probe::Sense(_) => format!("{v:.2}"),
        tool => bay_tools::value_with_uncertainty(Units::Bar, tool, v, u),
    }
}

/// What stands in the JSON object of a run.
pub type Found = Vec<(String, f64, String)>;

/// The notebook: name, value and words.
pub fn found(bench: &Bench) -> Found {
    let row = |r: &Reading| (timeline::probe_words(&r.probe), r.value, shown(r));
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
    for line in timeline::mistakes(done).iter().chain(&timeline::unsafe_acts(done)) {
        writeln!(out, "  {line}")?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn probes_and_acts_are_read_and_slips_refused() {
        let read: ReadSpec = "meter:ohm:clutch_coil_plus:ground@30".parse().unwrap();
        let probe =
            Probe::Meter { mode: MeterMode::Ohm, red: "clutch_coil_plus".into(), black: "ground".into() };
        assert_eq!(read, ReadSpec { probe, at_s: 30.0 });
        for text in ["volts:a", "lamp:a:b", "clamp:a", "unit:thermal:high", "meter:a:x:y@5"] {
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
        for text in ["", "volts", "meter:w:a:b", "meter:v:a", "lamp:a", "volts:a@-1", "::::"] {
            assert!(text.parse::<ReadSpec>().is_err(), "{text}");
        }
        let act: ActSpec = "isolate:traction@3".parse().unwrap();
        assert_eq!(act, ActSpec { action: Action::Isolate(Guard::Traction, true), at_s: 3.0 });
        for text in ["", "isolate", "isolate:water", "jumper:a", "range:7", "@"] {
            assert!(text.parse::<ActSpec>().is_err(), "{text}");
        }
    }
}
