//! What is known of a knob besides where it stands: its words, its values, who turns it and which rigs have it.

use super::Range;

/// Who turns a knob. Scenario files, action files and `--set` may turn all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TurnedBy {
    /// Who sits at the wheel or stands at the rig; the desk offers it to every learner.
    Driver,
    /// The weather. The desk offers it to every learner, for a trainer asks them to look at the same rig on another day.
    Weather,
    /// A state that the rig is in, such as an open door; the desk offers it to every learner.
    Condition,
    /// An instructor who writes a scenario; the desk has no control for it.
    Instructor,
}

/// Which rigs have a knob. A file may turn it on any rig; where nothing feels it, nothing comes of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fits {
    /// Every rig.
    Every,
    /// A car whose engine turns the compressor.
    Engine,
    /// Anything that drives and carries people.
    Car,
    /// A cold room.
    ColdRoom,
    /// A loop with a chiller for the coolant of a traction battery.
    Chiller,
}

/// What values a knob can have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scale {
    /// On or off.
    Switch,
    /// A number.
    Number {
        /// What it may be.
        range: Range,
        /// One step of a slider, in its unit.
        step: f64,
    },
}

/// A value of a knob.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// On or off.
    Switch(bool),
    /// A number in the knob's unit.
    Number(f64),
}

impl From<bool> for Value {
    fn from(on: bool) -> Self {
        Self::Switch(on)
    }
}

impl From<f64> for Value {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl TryFrom<Value> for bool {
    type Error = Value;

    fn try_from(value: Value) -> Result<Self, Value> {
        match value {
            Value::Switch(on) => Ok(on),
            Value::Number(_) => Err(value),
        }
    }
}

impl TryFrom<Value> for f64 {
    type Error = Value;

    fn try_from(value: Value) -> Result<Self, Value> {
        match value {
            Value::Number(number) => Ok(number),
            Value::Switch(_) => Err(value),
        }
    }
}

/// What is known of a knob besides its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Info {
    /// Name in files and on the command line.
    pub key: &'static str,
    /// What it is, as the table has it.
    pub(super) doc: &'static str,
    /// Name at its switch or slider.
    pub label: &'static str,
    /// How a turn of it is told, `{}` standing for the value with its unit.
    pub told: &'static str,
    /// What values it can have.
    pub scale: Scale,
    /// Who turns it.
    pub turned_by: TurnedBy,
    /// Which rigs have it.
    pub fits: Fits,
}

impl Info {
    /// What it is, in a sentence, with its unit.
    pub fn meaning(&self) -> &'static str {
        self.doc.trim()
    }
    /// What the number may be; none for a switch.
    pub fn range(&self) -> Option<Range> {
        match self.scale {
            Scale::Switch => None,
            Scale::Number { range, .. } => Some(range),
        }
    }
    /// Unit of its number; empty for a count or a switch.
    pub fn unit(&self) -> &'static str {
        self.range().map_or("", |range| range.unit)
    }
}
