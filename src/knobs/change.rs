//! A knob by name, and a turn of it: read from text, checked, told in words.

use super::{Change, Info, Knob, Range, Scale, Value};

impl Knob {
    /// The knob of that name.
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|knob| knob.info().key == key)
    }
    /// A turn to the value that a text names, such as `1500` or `true`.
    ///
    /// # Errors
    /// When the text is no value of this knob, or one outside its range.
    pub fn read(self, text: &str) -> Result<Change, String> {
        let Info { key, scale, .. } = self.info();
        let value = match scale {
            Scale::Switch => text.parse().map(Value::Switch).ok(),
            Scale::Number { .. } => text.parse().map(Value::Number).ok(),
        };
        let Some(change) = value.and_then(|value| self.to(value)) else {
            return Err(match scale {
                Scale::Switch => format!("{key}: `{text}` is neither true nor false"),
                Scale::Number { .. } => format!("{key}: `{text}` is not a number"),
            });
        };
        match change.fault_in_value() {
            Some(reason) => Err(format!("{key}: {reason}")),
            None => Ok(change),
        }
    }
}

impl Change {
    /// The knob by its name in [`Controls`](super::Controls).
    pub fn key(self) -> &'static str {
        self.knob().info().key
    }
    /// The new value, where it is a number.
    pub fn number(self) -> Option<f64> {
        self.value().try_into().ok()
    }
    /// The number and its range, where it is one and lies outside.
    pub fn outside(self) -> Option<(f64, Range)> {
        let value = self.number()?;
        self.knob().info().range().filter(|range| !range.holds(value)).map(|range| (value, range))
    }
    /// Why the value is not allowed, if it is not.
    pub fn fault_in_value(self) -> Option<String> {
        self.outside().and_then(|(value, range)| range.fault(value))
    }
    /// The value with its unit: `1500 rev/min`, `on`.
    pub fn value_words(self) -> String {
        match self.value() {
            Value::Switch(on) => if on { "on" } else { "off" }.to_owned(),
            Value::Number(value) => {
                let unit = self.knob().info().unit().replace("m2", "m²");
                format!("{value:.0} {unit}").trim_end().to_owned()
            }
        }
    }
    /// What was turned to what: `engine speed 1500 rev/min`.
    pub fn words(self) -> String {
        self.knob().info().told.replace("{}", &self.value_words())
    }
}
