//! What an instrument says of itself: the one place that command line, desk, notebook, action files, rack and diagnosis
//! look it up.

use super::character::Character;
use super::say::Say;
use super::truth::Truth;
use crate::circuit::CircuitSpec;
use crate::noise::Source;
use crate::places::SearchPlace;

/// What an argument of an instrument can be in an action file.
#[derive(Clone, Copy, Debug)]
pub enum Holds {
    /// One of these names.
    OneOf(&'static [&'static str]),
    /// `true` or `false`.
    Yes,
    /// Something else, in words.
    Words(&'static str),
}

/// What has to be done before an instrument can be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Placing {
    /// It hangs on the service hoses.
    Hoses,
    /// Hands put it on its place.
    Hands,
    /// The reader of control units has to be plugged in. Why it is not put anywhere, in words.
    Socket(&'static str),
    /// Nothing. Why it is not put anywhere, in words.
    Nothing(&'static str),
}

/// What must be there for an instrument to be put on its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Need {
    /// A point of the circuit, by id.
    Point(String),
    /// A part of the circuit, by id.
    Part(String),
    /// A place of the loop.
    Search(SearchPlace),
}

impl Need {
    /// The point of the circuit, where it is one.
    pub fn point(self) -> Option<String> {
        match self {
            Self::Point(point) => Some(point),
            Self::Part(_) | Self::Search(_) => None,
        }
    }
}

/// What holds of an instrument wherever it is put.
#[derive(Debug)]
pub struct Facts {
    /// Its name in files.
    pub id: &'static str,
    /// What it is and the unit of what stands in the notebook, in a sentence.
    pub words: &'static str,
    /// How it is written on the command line: small words as they stand, then one word in capitals for each argument
    /// (or the words it can be, with bars between), the last in square brackets when it can be left out.
    pub notation: &'static str,
    /// Its arguments in action files, in order.
    pub args: &'static [(&'static str, Holds)],
    /// How it is written in an action file.
    pub example: &'static str,
    /// What comes before reading it.
    pub placing: Placing,
    /// Where its noise comes from.
    pub sources: &'static [Source],
    /// How long a careful hand leaves it on its place before reading it [s]: five time constants, a second at least.
    pub settles_s: f64,
}

/// An instrument on its place. Everything but what it shows has an answer that suits most.
pub trait Instrument {
    /// What holds of it wherever it is put.
    fn facts(&self) -> &'static Facts;
    /// Everything of its kind that a circuit, or any rig, has places for.
    fn everywhere(circuit: &CircuitSpec) -> Vec<Self>
    where
        Self: Sized;
    /// Its name with its place, for notebook and timeline.
    fn name(&self) -> String;
    /// Its place where the tool is plain to see.
    fn short(&self) -> String {
        self.name()
    }
    /// Its place in the list of places of its tool.
    fn choice(&self) -> String {
        self.name()
    }
    /// Unit of the value in the notebook; empty for a share or a strength.
    fn unit(&self) -> &'static str;
    /// A value in words.
    fn text(&self, value: f64, say: &Say) -> String;
    /// Lowest and highest value it shows, in its unit.
    fn range(&self) -> (f64, f64) {
        self.sensor().map_or((f64::NEG_INFINITY, f64::INFINITY), |sensor| sensor.range)
    }
    /// Error limit at a shown value, in its unit.
    fn limit(&self, value: f64) -> f64 {
        self.sensor().map_or(0.0, |sensor| sensor.limit(value))
    }
    /// Standard deviation of a reading about what a story predicts, for the coarse net of severities alone: what the
    /// instrument adds comes from its limit. In its unit.
    fn net(&self, predicted: f64) -> f64;
    /// What is added to that with the size of what is predicted, as a share of it.
    fn steepness(&self) -> f64 {
        0.0
    }
    /// What must be there for it to be put on its place.
    fn needs(&self) -> Vec<Need> {
        Vec::new()
    }
    /// What to say to one who reads it while it shows nothing.
    fn silent(&self) -> String {
        "put the tool on that place first and let it settle".into()
    }

    /// Its sensor, for one that only follows its place with a lag; the rack keeps it then. Others have a state of their
    /// own in the rack, or none.
    fn sensor(&self) -> Option<&'static Character> {
        None
    }
    /// What its sensor goes towards; none where there is nothing to sense.
    fn goal(&self, _truth: &dyn Truth) -> Option<f64> {
        None
    }
    /// Where its sensor starts: a display is there at once.
    fn start(&self, goal: f64, _truth: &dyn Truth) -> f64 {
        goal
    }
    /// From what its sensor stands at to the unit of its reading.
    fn sensed(&self, sensor: f64) -> f64 {
        sensor
    }
    /// What it shows of that.
    fn shown(&self, character: &Character, sensed: f64, seed: u64, tick: u64) -> f64 {
        character.shown(sensed, seed, tick)
    }
}
