//! The small notations of the command line: `ID=SEVERITY@SECONDS`, `ID@SECONDS`, `KEY=VALUE@SECONDS`.

use std::str::FromStr;

use crate::bench::Action;
use crate::fault::FaultId;
use crate::knobs::{HandValve, Knob, Range, out_of_range};
use crate::scenario::check::severity_problem;
use crate::scenario::nearest::hint;

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

/// `--set KEY=VALUE[@SECONDS]`.
#[derive(Clone, Debug, PartialEq)]
pub struct SetSpec {
    /// What is turned: a knob or a hand valve.
    pub action: Action,
    /// When [s].
    pub at_s: f64,
}

/// All keys of `--set` with what each stands for.
fn keys() -> impl Iterator<Item = (&'static str, &'static str)> + Clone {
    let knobs = Knob::ALL.iter().map(|knob| (knob.info().key, knob.info().meaning()));
    knobs.chain(HandValve::ALL.map(|valve| (valve.key(), valve.meaning())))
}

/// The long help of `--set`: every key with its values and what it stands for.
pub fn set_help() -> String {
    let mut help =
        String::from("Turn a knob (may be repeated). Without @SECONDS the scenario starts that way. Keys:\n");
    for (key, meaning) in keys() {
        let range = Knob::by_key(key).map_or(Some(HandValve::RANGE), |knob| knob.info().range());
        let values = match range {
            None => "true or false".to_owned(),
            Some(Range { unit, min, max }) => format!("{min} to {max} {unit}").trim_end().to_owned(),
        };
        help += &format!("\n  {key}={values}\n          {meaning}");
    }
    help
}

/// A number within bounds.
pub fn number(text: &str, what: &str, unit: &'static str, min: f64, max: f64) -> Result<f64, String> {
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
        Ok(Self { action: setting(key, value)?, at_s: at_s.unwrap_or(0.0) })
    }
}

fn setting(key: &str, value: &str) -> Result<Action, String> {
    if let Some(valve) = HandValve::by_key(key) {
        let Range { unit, min, max } = HandValve::RANGE;
        return Ok(turned(valve, number(value, key, unit, min, max)?));
    }
    match Knob::by_key(key) {
        Some(knob) => knob.read(value).map(Action::Set),
        None => Err(format!("unknown key `{key}` (hint: {})", hint(key, keys().map(|(key, _)| key)))),
    }
}

/// A hand valve turned to an opening [%].
fn turned(valve: HandValve, pct: f64) -> Action {
    match valve {
        HandValve::Low => Action::ManifoldLowPct(pct),
        HandValve::High => Action::ManifoldHighPct(pct),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::knobs::Change;

    #[test]
    fn notations_are_read() {
        let fault: FaultSpec = "undercharge=0.5@60".parse().unwrap();
        assert_eq!(fault, FaultSpec { id: FaultId::Undercharge, severity: 0.5, at_s: 60.0 });
        let plain: FaultSpec = "clutch_coil_open".parse().unwrap();
        assert_eq!((plain.severity, plain.at_s), (1.0, 0.0));
        let set: SetSpec = "ambient_c=-10@0.5".parse().unwrap();
        assert_eq!(set, SetSpec { action: Action::Set(Change::AmbientC(-10.0)), at_s: 0.5 });
        let help = set_help();
        for (key, meaning) in keys() {
            assert!(help.contains(key) && help.contains(meaning), "{key}");
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
