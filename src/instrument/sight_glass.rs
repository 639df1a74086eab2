//! The sight glass in the liquid line, and the eye in front of it.

use super::describe::{Facts, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use crate::circuit::CircuitSpec;
use crate::noise::{Source, wandering};

/// The glass as a tool.
pub const TOOL: Kit = Kit {
    name: "Sight glass",
    touches: "In the liquid line, before the valve.",
    shelf: Shelf::Air,
    needs_bay: false,
};

const EYE: Source = Source(6);

static FACTS: Facts = Facts {
    id: "sight_glass",
    words: "A look into the sight glass [share of bubbles, 0 to 1].",
    notation: "sight_glass",
    args: &[],
    example: "sight_glass",
    placing: Placing::Hands,
    sources: &[EYE],
    settles_s: 1.0,
};

/// A look into the sight glass.
#[derive(Debug)]
pub struct SightGlass;

impl Instrument for SightGlass {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "sight glass".into()
    }
    fn choice(&self) -> String {
        "look into the glass".into()
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, share: f64, say: &Say) -> String {
        if say.figures { format!("{share:.2}") } else { words(share).into() }
    }
    fn range(&self) -> (f64, f64) {
        (0.0, 1.0)
    }
    fn limit(&self, _: f64) -> f64 {
        LIMIT
    }
    fn net(&self, _: f64) -> f64 {
        0.1
    }
}

/// What the notebook says of a share of bubbles.
pub fn words(share: f64) -> &'static str {
    match share {
        s if s < 0.02 => "clear",
        s if s < 0.2 => "a few bubbles",
        s if s < 0.7 => "steady bubbles",
        _ => "mostly vapour",
    }
}

/// Error limit of an eye that judges the share of bubbles. Common practice, no source.
pub const LIMIT: f64 = 0.1;

/// What a person would call the sight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sight {
    /// Liquid without bubbles, or nothing moving at all.
    Clear,
    /// A bubble now and then.
    SomeBubbles,
    /// Bubbles all the time.
    SteadyBubbles,
    /// Foam.
    Foam,
    /// Streaks of oil on an empty glass.
    Streaks,
}

impl Sight {
    /// Sort a share of bubbles (0 to 1). Borders are common practice, no source.
    pub fn of(share: f64) -> Self {
        match share {
            s if s < 0.01 => Self::Clear,
            s if s < 0.10 => Self::SomeBubbles,
            s if s < 0.40 => Self::SteadyBubbles,
            s if s < 0.97 => Self::Foam,
            s if s.is_nan() => Self::Clear,
            _ => Self::Streaks,
        }
    }
    /// Plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::SomeBubbles => "some bubbles",
            Self::SteadyBubbles => "steady bubbles",
            Self::Foam => "foam",
            Self::Streaks => "streaks, no liquid",
        }
    }
}

/// A share as a number between 0 and 1, whatever it was.
pub fn share(share: f64) -> f64 {
    if share.is_nan() { 0.0 } else { share.clamp(0.0, 1.0) }
}

/// Share of bubbles an eye sees for a true share: unsure in between, sure of a clear or an empty glass.
pub fn shown(bubbles: f64, seed: u64, tick: u64) -> f64 {
    let share = share(bubbles);
    let unsure = 0.1 * (share * (1.0 - share)).sqrt();
    (share + unsure * wandering(seed, EYE, tick, 20)).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_follow_the_share() {
        let words: Vec<_> = [0.0, 0.05, 0.2, 0.6, 1.0].map(|s| Sight::of(s).words()).into();
        assert_eq!(words, ["clear", "some bubbles", "steady bubbles", "foam", "streaks, no liquid"]);
        assert_eq!(Sight::of(f64::NAN), Sight::Clear);
    }

    #[test]
    fn the_eye_is_sure_at_both_ends() {
        for tick in 0..200 {
            assert_eq!((shown(0.0, 1, tick), shown(1.0, 1, tick), shown(f64::NAN, 1, tick)), (0.0, 1.0, 0.0));
            assert!((shown(0.5, 1, tick) - 0.5).abs() < 0.25);
        }
    }
}
