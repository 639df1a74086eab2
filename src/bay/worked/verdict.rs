//! Why an answer is what it is.

/// Why an answer is what it is.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// As worked out from the same readings.
    Right,
    /// Off, but by less than the instruments leave open.
    Close,
    /// None of the known slips explains it.
    ArithmeticOff,
    /// The gauge reading was looked up as if it were absolute.
    GaugeAsAbsolute,
    /// Air pressure was added to something that had it already.
    AbsoluteAsGauge,
    /// Air pressure at sea level was added, but the bay stands higher.
    SeaLevel,
    /// The number is right in another unit, named here.
    WrongUnit(&'static str),
    /// A temperature difference was given the 32 of a Fahrenheit temperature.
    ThirtyTwoAdded,
    /// The two temperatures were taken from each other the wrong way round.
    SignSwapped,
    /// Readings that this value does not come from: what is wrong or missing, in words.
    WrongPlaces(String),
    /// Read so long after each other [s].
    TooFarApart(f64),
    /// Something moved while it was read: which reading, in words, and by how much (Pa or K).
    NotSettled(&'static str, f64),
    /// There is no such temperature: no vacuum and nothing above the critical point has one.
    NoSaturation,
}
