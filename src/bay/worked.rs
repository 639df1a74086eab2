//! Values that a learner works out from notebook readings, worked out again by Pintle from the same readings.
//!
//! Two widths matter. The *tolerance* is what is left when readings are the same: rounding, the last digit of a gauge,
//! and a printed pressure-temperature chart. The *uncertainty* is what the instruments leave open; it is told, and an
//! answer off by less than that is called close, not right.

mod settled;
mod slips;
mod units;
mod value;
mod verdict;
mod words;

pub use settled::TOGETHER_S;
pub use verdict::Verdict;

use self::settled::moved;
use self::slips::judge;
use self::value::{saturation, value};
use super::{WorkedUnit, WorkedValue};
use crate::instrument::{AirPlace, PipePlace, Probe, Reading};
use crate::refrigerant::Refrigerant;

/// Share by which printed charts of pressure and temperature differ from the property tables: 1.1 % in a Suzuki manual of
/// 2006, and some room.
const CHART: f64 = 0.015;
/// Half the last digit that a learner reads off a gauge [Pa] and a thermometer [K], and gives in an answer [K].
const GAUGE_DIGIT_PA: f64 = 5_000.0;
const DIGIT_K: f64 = 0.05;
const ANSWER_DIGIT_K: f64 = 0.5;

/// An answer, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked {
    /// Which value.
    pub what: WorkedValue,
    /// What Pintle works out from the same readings: a difference [K], a temperature [K] or a pressure [Pa absolute].
    pub value: Option<f64>,
    /// The answer in the same unit.
    pub answer: f64,
    /// How far an answer may be off and be right, same unit.
    pub tolerance: f64,
    /// Half-width of the 95 % band that the instruments leave, same unit.
    pub uncertainty: f64,
    /// What to say.
    pub verdict: Verdict,
}

/// What a value is worked out from.
#[derive(Clone, Copy)]
enum Needs {
    /// A gauge, and a pipe or air.
    Gauge { high: bool, places: &'static [Probe] },
    /// Cabin air less vent air.
    Split,
    /// One gauge alone.
    OneGauge,
}

const fn taped(place: PipePlace) -> Probe {
    Probe::Infrared { place, taped: true }
}
/// On black tape an infrared thermometer is as good as a clamp; on bright metal it is not.
const SUCTION: &[Probe] = &[
    Probe::Pipe(PipePlace::EvaporatorOutlet),
    Probe::Pipe(PipePlace::CompressorInlet),
    taped(PipePlace::EvaporatorOutlet),
    taped(PipePlace::CompressorInlet),
];
const LIQUID: &[Probe] = &[
    Probe::Pipe(PipePlace::ValveInlet),
    Probe::Pipe(PipePlace::CondenserOutlet),
    taped(PipePlace::ValveInlet),
    taped(PipePlace::CondenserOutlet),
];
const OUTSIDE: &[Probe] = &[Probe::Air(AirPlace::Outside)];

impl WorkedValue {
    fn needs(self) -> Needs {
        match self {
            Self::Superheat => Needs::Gauge { high: false, places: SUCTION },
            Self::Subcooling => Needs::Gauge { high: true, places: LIQUID },
            Self::Approach => Needs::Gauge { high: true, places: OUTSIDE },
            Self::Split => Needs::Split,
            Self::Saturation | Self::Absolute => Needs::OneGauge,
        }
    }
    /// Which readings it needs, in words.
    pub fn needs_words(self) -> &'static str {
        match self {
            Self::Superheat => "the low gauge and the pipe at the evaporator outlet or the compressor inlet",
            Self::Subcooling => "the high gauge and the pipe at the valve inlet or the condenser outlet",
            Self::Approach => "the high gauge and the outside air ahead of the condenser",
            Self::Split => "the cabin air and the vent air",
            Self::Saturation | Self::Absolute => "one gauge",
        }
    }
}

/// The last reading that fits one of the probes.
fn last<'a>(readings: &[&'a Reading], wanted: &[Probe]) -> Option<&'a Reading> {
    readings.iter().copied().filter(|r| wanted.contains(&r.probe)).max_by_key(|r| r.tick)
}

const LOW: &[Probe] = &[Probe::LowGauge];
const HIGH: &[Probe] = &[Probe::HighGauge];
const CABIN: &[Probe] = &[Probe::Air(AirPlace::Cabin)];
const VENT: &[Probe] = &[Probe::Air(AirPlace::Vent)];

/// The readings that count, gauge or cabin air first.
fn chosen<'a>(what: WorkedValue, readings: &[&'a Reading]) -> Result<Vec<&'a Reading>, Verdict> {
    let wrong =
        |why: String| Verdict::WrongPlaces(format!("{} needs {}: {why}", what.name(), what.needs_words()));
    let find = |wanted: &[Probe], name: &str| {
        last(readings, wanted).ok_or_else(|| wrong(format!("{name} is missing")))
    };
    match what.needs() {
        Needs::OneGauge => match (last(readings, LOW), last(readings, HIGH)) {
            (Some(gauge), None) | (None, Some(gauge)) => Ok(vec![gauge]),
            (Some(_), Some(_)) => Err(wrong("you gave both gauges".into())),
            (None, None) => Err(wrong("no gauge is among your readings".into())),
        },
        Needs::Split => Ok(vec![find(CABIN, "the cabin air")?, find(VENT, "the vent air")?]),
        Needs::Gauge { high, places, .. } => {
            let (own, other) = if high { (HIGH, LOW) } else { (LOW, HIGH) };
            let name = if high { "the high gauge" } else { "the low gauge" };
            let gauge = match last(readings, own) {
                Some(gauge) => gauge,
                None if last(readings, other).is_some() => {
                    return Err(wrong("you took the other gauge".into()));
                }
                None => return Err(wrong(format!("{name} is missing"))),
            };
            let place = last(readings, places).ok_or_else(|| {
                let given = readings.iter().find(|r| !matches!(r.probe, Probe::LowGauge | Probe::HighGauge));
                wrong(match given {
                    Some(Reading { probe: Probe::Pipe(p), .. }) => format!("you took the {}", p.name()),
                    Some(Reading { probe: Probe::Air(p), .. }) => format!("you took the {}", p.name()),
                    Some(Reading { probe: Probe::Infrared { taped: false, .. }, .. }) => {
                        "bright metal mirrors its surroundings to an infrared thermometer: tape it".into()
                    }
                    Some(_) => "you took something else".into(),
                    None => "the temperature is missing".into(),
                })
            })?;
            Ok(vec![gauge, place])
        }
    }
}

fn together(parts: &[f64]) -> f64 {
    parts.iter().map(|x| x * x).sum::<f64>().sqrt()
}

/// Tolerance and uncertainty of a value.
fn widths(what: WorkedValue, used: &[&Reading], refrigerant: &Refrigerant, ambient_pa: f64) -> (f64, f64) {
    let u = |i: usize| used.get(i).map_or(0.0, |r| r.uncertainty);
    match what {
        WorkedValue::Absolute => (GAUGE_DIGIT_PA, u(0)),
        WorkedValue::Split => (together(&[DIGIT_K, DIGIT_K, ANSWER_DIGIT_K]), together(&[u(0), u(1)])),
        _ => {
            let pa = used.first().map_or(0.0, |r| r.value + ambient_pa);
            let slope = saturation(refrigerant, pa).map_or(0.0, |(_, slope)| slope);
            (
                together(&[slope * GAUGE_DIGIT_PA, slope * CHART * pa, DIGIT_K, ANSWER_DIGIT_K]),
                together(&[slope * u(0), u(1)]),
            )
        }
    }
}

/// Check an answer that was worked out from readings. `ambient_pa` is the pressure of the air around the gauges.
pub fn check(
    what: WorkedValue,
    readings: &[&Reading],
    answer: f64,
    unit: WorkedUnit,
    refrigerant: &Refrigerant,
    ambient_pa: f64,
) -> Worked {
    let given = what.si(answer, unit);
    let nothing = |verdict| Worked {
        what,
        value: None,
        answer: given.unwrap_or(f64::NAN),
        tolerance: 0.0,
        uncertainty: 0.0,
        verdict,
    };
    let used = match chosen(what, readings) {
        Ok(used) => used,
        Err(verdict) => return nothing(verdict),
    };
    let Some(true_value) = value(what, &used, refrigerant, ambient_pa) else {
        return nothing(Verdict::NoSaturation);
    };
    let (tolerance, uncertainty) = widths(what, &used, refrigerant, ambient_pa);
    let verdict = moved(readings, &used).unwrap_or_else(|| {
        judge(
            what,
            &used,
            (answer, unit, given),
            refrigerant,
            ambient_pa,
            (true_value, tolerance, uncertainty),
        )
    });
    Worked { value: Some(true_value), tolerance, uncertainty, ..nothing(verdict) }
}

/// Check an answer given with indices into a notebook; what stands beside them in the notebook tells whether things had
/// settled.
pub fn check_in(
    notebook: &[Reading],
    indices: &[usize],
    what: WorkedValue,
    answer: f64,
    unit: WorkedUnit,
    refrigerant: &Refrigerant,
    ambient_pa: f64,
) -> Worked {
    let readings: Vec<&Reading> = indices.iter().filter_map(|&i| notebook.get(i)).collect();
    let mut worked = check(what, &readings, answer, unit, refrigerant, ambient_pa);
    if let Ok(used) = chosen(what, &readings) {
        let all: Vec<&Reading> = notebook.iter().collect();
        if let (Some(_), Some(verdict)) = (worked.value, moved(&all, &used)) {
            worked.verdict = verdict;
        }
    }
    worked
}

impl Worked {
    /// Is it right?
    pub fn right(&self) -> bool {
        self.verdict == Verdict::Right
    }
}

#[cfg(test)]
#[path = "worked_tests.rs"]
mod tests;
