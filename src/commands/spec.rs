//! The small notations of the command line: `ID=SEVERITY@SECONDS`, `ID@SECONDS`, `KEY=VALUE@SECONDS`.

use std::str::FromStr;

use crate::fault::FaultId;
use crate::scenario::check::severity_problem;
use crate::scenario::nearest::hint;
use crate::scenario::{Change, out_of_range};

/// `--fault ID[=SEVERITY][@SECONDS]`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaultSpec {
    /// Which fault.
    pub id: FaultId,
    /// How bad.
    pub severity: f64,
    /// When [s].
    pub at_s: f64,
}

/// `--clear ID@SECONDS`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClearSpec {
    /// Which fault.
    pub id: FaultId,
    /// When [s].
    pub at_s: f64,
}

/// A knob and its new value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Setting {
    /// Driving or weather.
    Knob(Change),
    /// Hand valve of the manifold, low side [% open].
    ManifoldLowPct(f64),
    /// Hand valve of the manifold, high side [% open].
    ManifoldHighPct(f64),
}

/// `--set KEY=VALUE[@SECONDS]`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetSpec {
    /// What changes.
    pub setting: Setting,
    /// When [s].
    pub at_s: f64,
}

/// All keys of `--set`.
pub const KEYS: [&str; 12] = [
    "ambient_c",
    "relative_humidity_pct",
    "solar_w_m2",
    "people",
    "road_speed_kmh",
    "engine_on",
    "engine_rpm",
    "ac_request",
    "blower_pct",
    "recirculate",
    "manifold_low_valve_pct",
    "manifold_high_valve_pct",
];

/// A number within bounds.
pub fn number(text: &str, what: &str, unit: &str, min: f64, max: f64) -> Result<f64, String> {
    let value: f64 = text.parse().map_err(|_| format!("{what}: `{text}` is not a number"))?;
    match out_of_range(value, unit, min, max) {
        Some(reason) => Err(format!("{what}: {reason}")),
        None => Ok(value),
    }
}

/// The part before `@`, and the seconds after it if there is one.
pub(super) fn split_time(text: &str) -> Result<(&str, Option<f64>), String> {
    match text.rsplit_once('@') {
        Some((head, time)) => Ok((head, Some(number(time, "time", "s", 0.0, 600_000.0)?))),
        None => Ok((text, None)),
    }
}

fn fault_id(key: &str) -> Result<FaultId, String> {
    FaultId::by_key(key).ok_or_else(|| {
        let names = FaultId::ALL.iter().map(|id| id.info().key);
        format!("unknown fault `{key}` (hint: {})", hint(key, names))
    })
}

impl FromStr for FaultSpec {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (head, at_s) = split_time(text)?;
        let (key, severity) = match head.split_once('=') {
            Some((key, value)) => (key, Some(value)),
            None => (head, None),
        };
        let id = fault_id(key)?;
        let severity = match severity {
            None => id.default_severity(),
            Some(value) => value.parse().map_err(|_| format!("severity: `{value}` is not a number"))?,
        };
        match severity_problem(id, severity) {
            Some(reason) => Err(reason),
            None => Ok(Self { id, severity, at_s: at_s.unwrap_or(0.0) }),
        }
    }
}

impl FromStr for ClearSpec {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (key, at_s) = split_time(text)?;
        let id = fault_id(key)?;
        let at_s = at_s.ok_or_else(|| format!("say when: `{key}@SECONDS`"))?;
        Ok(Self { id, at_s })
    }
}

impl FromStr for SetSpec {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (head, at_s) = split_time(text)?;
        let (key, value) = head.split_once('=').ok_or_else(|| format!("`{head}`: write KEY=VALUE"))?;
        Ok(Self { setting: setting(key, value)?, at_s: at_s.unwrap_or(0.0) })
    }
}

fn setting(key: &str, value: &str) -> Result<Setting, String> {
    let float = || value.parse::<f64>().map_err(|_| format!("{key}: `{value}` is not a number"));
    let yes = || value.parse::<bool>().map_err(|_| format!("{key}: `{value}` is neither true nor false"));
    let change = match key {
        "ambient_c" => Change::AmbientC(float()?),
        "relative_humidity_pct" => Change::RelativeHumidityPct(float()?),
        "solar_w_m2" => Change::SolarWM2(float()?),
        "people" => Change::People(float()?),
        "altitude_m" => Change::AltitudeM(float()?),
        "doors_open_pct" => Change::DoorsOpenPct(float()?),
        "battery_heat_w" => Change::BatteryHeatW(float()?),
        "road_speed_kmh" => Change::RoadSpeedKmh(float()?),
        "engine_on" => Change::EngineOn(yes()?),
        "engine_rpm" => Change::EngineRpm(float()?),
        "ac_request" => Change::AcRequest(yes()?),
        "blower_pct" => Change::BlowerPct(float()?),
        "recirculate" => Change::Recirculate(yes()?),
        "manifold_low_valve_pct" => {
            return Ok(Setting::ManifoldLowPct(number(value, key, "%", 0.0, 100.0)?));
        }
        "manifold_high_valve_pct" => {
            return Ok(Setting::ManifoldHighPct(number(value, key, "%", 0.0, 100.0)?));
        }
        _ => return Err(format!("unknown key `{key}` (hint: {})", hint(key, KEYS))),
    };
    match change.fault_in_value() {
        Some(reason) => Err(format!("{key}: {reason}")),
        None => Ok(Setting::Knob(change)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notations_are_read() {
        let fault: FaultSpec = "undercharge=0.5@60".parse().unwrap();
        assert_eq!(fault, FaultSpec { id: FaultId::Undercharge, severity: 0.5, at_s: 60.0 });
        let plain: FaultSpec = "clutch_coil_open".parse().unwrap();
        assert_eq!((plain.severity, plain.at_s), (1.0, 0.0));
        let set: SetSpec = "ambient_c=-10@0.5".parse().unwrap();
        assert_eq!(set, SetSpec { setting: Setting::Knob(Change::AmbientC(-10.0)), at_s: 0.5 });
        for key in KEYS {
            assert!(["true", "1", "50", "900"].iter().any(|value| setting(key, value).is_ok()));
        }
    }

    #[test]
    fn slips_are_refused_with_a_hint() {
        let message = "undercharg=0.5".parse::<FaultSpec>().unwrap_err();
        assert!(message.contains("nearest valid name: undercharge"), "{message}");
        for text in
            ["undercharge=NaN", "undercharge=2", "undercharge=0.5@-1", "undercharge@inf", "", "=", "@"]
        {
            assert!(text.parse::<FaultSpec>().is_err(), "{text}");
        }
        for text in
            ["ambient_c=400", "ambient_c=NaN", "engine_on=1", "ambient_c", "manifold_low_valve_pct=101"]
        {
            assert!(text.parse::<SetSpec>().is_err(), "{text}");
        }
        assert!("undercharge".parse::<ClearSpec>().is_err());
    }
}
