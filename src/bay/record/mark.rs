//! What is to be said about a line of the work record.

use core::fmt;

use crate::bay::RecordField;

/// What is to be said about a line.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// It is right.
    Right,
    /// Off by so much, in the unit of the line; positive when too much is written.
    Off(f64),
    /// The job asks for it and nothing is written.
    Missing,
    /// The job asks for it, and the work itself was not done.
    NotDone(&'static str),
    /// What is written cannot be; why, in words.
    CannotBe(String),
    /// Words that do not say what is so; what is so, in words.
    Wrong(String),
}

/// A line, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Which line.
    pub field: RecordField,
    /// What is to be said about it.
    pub mark: Mark,
}

impl Finding {
    /// Is the line in order?
    pub fn right(&self) -> bool {
        self.mark == Mark::Right
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let line = self.field.line();
        write!(f, "{}: ", line.title)?;
        match &self.mark {
            Mark::Right => write!(f, "right."),
            Mark::Off(by) => {
                let digits = usize::from(by.abs() < 10.0) + usize::from(by.abs() < 1.0);
                let way = if *by > 0.0 { "too much" } else { "too little" };
                write!(f, "{:.digits$} {} {way}.", by.abs(), line.unit)
            }
            Mark::Missing => write!(f, "nothing written."),
            Mark::NotDone(why) => write!(f, "not done: {why}."),
            Mark::CannotBe(why) => write!(f, "cannot be: {why}."),
            Mark::Wrong(truth) => write!(f, "not so. {truth}."),
        }
    }
}
