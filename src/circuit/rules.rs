//! Control units as data: what they read, what they decide, which codes they set. The words of codes are our own.

use serde::{Deserialize, Serialize};

use super::sensed::{Knob, Place};

/// A control unit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ControlUnit {
    /// Name in files.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Supply pin: it works while this point carries more than 6.5 V against `minus` (common practice, no source).
    pub plus: String,
    /// Ground pin.
    pub minus: String,
    /// What it reads, in the order in which a reader lists it.
    pub inputs: Vec<Input>,
    /// What it decides, worked out in this order once per tick.
    pub outputs: Vec<Output>,
    /// What it stores.
    #[serde(default)]
    pub codes: Vec<Code>,
    /// Where it sits in the location picture.
    #[serde(default)]
    pub place: String,
}

/// Something a unit reads.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Input {
    /// Name in rules.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Unit of its value, as a reader shows it: `Pa`, `K`, `V`, `%`, `rev/min`, empty for yes and no.
    pub unit: String,
    /// How it comes by it.
    pub from: Reads,
    /// Value that it works with where the signal is implausible; none: the value is unknown and rules of it fail.
    #[serde(default)]
    pub instead: Option<f64>,
}

/// How a unit comes by a value.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Reads {
    /// Volts at a pin.
    Volts {
        /// The pin.
        pin: String,
    },
    /// A three-wire pressure sensor: share of the feed at a pin.
    Pressure {
        /// The pin.
        pin: String,
        /// Point of the feed.
        feed: String,
        /// Pressure at 10 % and at 90 % of the feed [Pa gauge].
        range_gauge_pa: (f64, f64),
    },
    /// A thermistor to ground behind a pull-up resistor inside the unit's harness.
    Thermistor {
        /// The pin.
        pin: String,
        /// Point of the feed.
        feed: String,
        /// Pull-up resistor [ohm].
        pull_up_ohm: f64,
        /// At 25 C [ohm].
        r25_ohm: f64,
        /// Beta [K].
        beta_k: f64,
    },
    /// A knob, by bus.
    Knob(Knob),
    /// A measured place, by bus from another unit.
    Bus(Place),
    /// Engine speed, by bus [rev/min].
    EngineRpm,
    /// Wanted temperature of cabin or cold room, by bus [K].
    Setting,
    /// Temperature less the saturation temperature at a pressure, both of this unit's inputs [K].
    Superheat {
        /// Which input is the pressure [Pa gauge].
        pressure: String,
        /// Which input is the temperature [K].
        temperature: String,
        /// Saturation line: gauge pressure [Pa] and temperature [K], rising.
        saturation: Vec<(f64, f64)>,
    },
    /// One value less another.
    Difference {
        /// This input ...
        of: String,
        /// ... less this one.
        less: String,
    },
}

/// Something a unit decides: a share from 0 to 1; on is 1.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Output {
    /// Name in parts and rules.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// All of these must hold, else the output is `off`.
    #[serde(default)]
    pub when: Vec<When>,
    /// How much, when they hold.
    pub amount: Amount,
    /// How much, when they do not.
    #[serde(default)]
    pub off: f64,
}

/// A condition. A value that is unknown fails it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum When {
    /// The value is above: true from `on` up, false from `off` down.
    Above {
        /// Which input.
        of: String,
        /// Becomes true here.
        on: f64,
        /// Becomes false here.
        off: f64,
    },
    /// The value is below: true from `on` down, false from `off` up.
    Below {
        /// Which input.
        of: String,
        /// Becomes true here.
        on: f64,
        /// Becomes false here.
        off: f64,
    },
    /// The signal makes sense.
    Sane(String),
    /// Another output, decided before this one in the list, is above 0.
    Output(String),
    /// At least one of these.
    Any(Vec<When>),
    /// The other conditions have held for this long [s]; put it last.
    For(f64),
}

/// How much of an output.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Amount {
    /// Fully on.
    Full,
    /// A piecewise-linear map of a value, held beyond its ends.
    Map {
        /// Which input.
        of: String,
        /// Value and share, values rising.
        points: Vec<(f64, f64)>,
        /// Share while the value is unknown.
        unknown: f64,
    },
    /// The largest of several answers.
    Most(Vec<Amount>),
    /// The smallest of several answers.
    Least(Vec<Amount>),
    /// Proportional and integral control of a value towards a target; the share rises while the value is above it
    /// where `gain` is positive.
    Control {
        /// Which input.
        of: String,
        /// Where it should be.
        to: Target,
        /// Share for each unit of error.
        gain: f64,
        /// Integral time [s].
        integral_s: f64,
        /// Errors up to this size count as none, larger ones only for what is beyond.
        #[serde(default)]
        dead_band: f64,
        /// It decides so often [s] and holds in between; at every thought if this is 0.
        #[serde(default)]
        every_s: f64,
        /// Lowest share.
        lowest: f64,
        /// Highest share.
        highest: f64,
        /// Share at the start.
        start: f64,
        /// Share while the value is unknown.
        unknown: f64,
    },
}

/// Target of a control.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Target {
    /// A fixed value.
    Fixed(f64),
    /// The value of another input.
    Input(String),
}

/// A code.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Code {
    /// What it says, in plain words of our own: "pressure sensor: volts too low".
    pub words: String,
    /// What sets it.
    pub set: CodeWhen,
    /// After this long [s].
    #[serde(default)]
    pub after_s: f64,
}

/// What sets a code. It stays stored when the condition goes, until it is cleared.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum CodeWhen {
    /// Volts of an input's pin below [V].
    VoltsBelow(String, f64),
    /// Volts of an input's pin above [V].
    VoltsAbove(String, f64),
    /// An output is on while its driver carries less than this current [A]: open load.
    OpenLoad(String, f64),
    /// An output's driver carries more than this current [A]: shorted load. The driver shuts down.
    Overcurrent(String, f64),
    /// A value is below.
    Below(String, f64),
    /// A value is above.
    Above(String, f64),
    /// The inverter found its rotor locked.
    RotorLocked,
}
