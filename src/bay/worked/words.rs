//! What to say about an answer.

use core::fmt;

use super::{TOGETHER_S, Verdict, Worked};
use crate::bay::WorkedValue;
use crate::units::Kelvin;

impl Worked {
    fn shown(&self, x: f64) -> String {
        match self.what {
            WorkedValue::Absolute => format!("{:.2} bar", x / 1e5),
            WorkedValue::Saturation => format!("{:.1} °C", Kelvin(x).c()),
            _ => format!("{x:.1} K"),
        }
    }
    fn width(&self, x: f64) -> String {
        if self.what == WorkedValue::Absolute { format!("{:.2} bar", x / 1e5) } else { format!("{x:.1} K") }
    }
}

/// The whole answer in plain words.
impl fmt::Display for Worked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = self.what.name();
        let value = self.value.map(|v| self.shown(v)).unwrap_or_default();
        match &self.verdict {
            Verdict::Right => write!(
                f,
                "Right: {name} {value}. The instruments are good to {} either way.",
                self.width(self.uncertainty)
            ),
            Verdict::Close => write!(
                f,
                "Close: your readings give {value}. You are off by {}, the instruments leave {} open.",
                self.width((self.answer - self.value.unwrap_or(self.answer)).abs()),
                self.width(self.uncertainty)
            ),
            Verdict::ArithmeticOff => {
                write!(f, "Check the sum: your readings give {value}, you say {}.", self.shown(self.answer))
            }
            Verdict::GaugeAsAbsolute => write!(
                f,
                "You took the gauge reading as absolute. Add the pressure of the air first; then it is {value}."
            ),
            Verdict::AbsoluteAsGauge => {
                write!(
                    f,
                    "You added the pressure of the air twice. A gauge counts from the air; it is {value}."
                )
            }
            Verdict::SeaLevel => write!(
                f,
                "You reckoned with the air at sea level. Up here the air weighs less; it is {value}."
            ),
            Verdict::WrongUnit(unit) => {
                write!(f, "Look at the unit: your number fits {unit}. It is {value}.")
            }
            Verdict::ThirtyTwoAdded => {
                write!(f, "A difference of temperatures gets no 32. It is {value}.")
            }
            Verdict::SignSwapped => {
                write!(f, "You took them from each other the wrong way round. It is {value}.")
            }
            Verdict::WrongPlaces(why) => write!(f, "Wrong readings. {why}."),
            Verdict::TooFarApart(seconds) => write!(
                f,
                "These readings lie {seconds:.0} s apart. Read within {TOGETHER_S:.0} s, or it is not one moment."
            ),
            Verdict::NotSettled(what, by) => {
                let by = if what.ends_with("gauge") {
                    format!("{:.1} bar", by / 1e5)
                } else {
                    format!("{by:.1} K")
                };
                write!(f, "The system had not settled: the {what} moved by {by}. Wait until it stands still.")
            }
            Verdict::NoSaturation => write!(
                f,
                "No saturation temperature belongs to that pressure: it is below the tables or near the critical point."
            ),
        }
    }
}
