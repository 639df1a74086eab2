//! What a caution is made of.

/// How bad it can get, after the meaning of the words in ANSI Z535: a warning can kill or maim, a
/// caution can hurt, a danger will kill or maim; a notice is about things and the law.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SignalWord {
    /// No injury: damage, or against the law.
    Notice,
    /// Could cause a lesser injury.
    Caution,
    /// Could kill or seriously injure.
    Warning,
    /// Will kill or seriously injure.
    Danger,
}

impl SignalWord {
    /// The word as it is printed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Notice => "NOTICE",
            Self::Caution => "CAUTION",
            Self::Warning => "WARNING",
            Self::Danger => "DANGER",
        }
    }
}

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Number in the table of cautions, such as `S1`.
    pub id: &'static str,
    /// Signal word.
    pub signal: SignalWord,
    /// What is dangerous.
    pub hazard: &'static str,
    /// What it can do to you.
    pub consequence: &'static str,
    /// What to do about it.
    pub avoidance: &'static str,
}

impl Caution {
    /// The whole caution as one line, for screen readers and records.
    pub fn sentence(&self) -> String {
        format!("{}. {} {} {}", self.signal.word(), self.hazard, self.consequence, self.avoidance)
    }
}
