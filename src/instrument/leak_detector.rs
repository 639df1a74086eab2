//! The electronic leak detector: a tip that draws in the air at a place and answers to the refrigerant in it.
//!
//! It is made for three scales, 4, 7 and 14 grams a year (SAE J2791 for R-134a, J2913 for R-1234yf).
//! Wind blows the gas away before the tip draws it in. It takes the air it was last carried
//! through as its zero, so it sounds when it comes into a cloud, falls silent again as it gets used to it, and then is
//! deaf to small leaks until the air is clean.

use serde::{Deserialize, Serialize};
use strum::VariantNames;

use super::describe::{Facts, Holds, Instrument, Need, Placing};
use super::kit::{Kit, Shelf};
use super::say::{Say, sign};
use super::truth::Truth;
use super::word::words_by_name;
use crate::circuit::{CircuitSpec, Lag};
use crate::noise::{Source, fixed_error, wandering};
use crate::places::SearchPlace;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Leak detector",
    touches: "Tip under the place, slowly. Fan off, no wind, clean air.",
    shelf: Shelf::LeakSearch,
    needs_bay: false,
};

const OWN_NOISE: Source = Source(17);

static FACTS: Facts = Facts {
    id: "leak_detector",
    words: "Electronic leak detector [strength of the sign, 0 to 1].",
    notation: "detector:PLACE:g4|g7|g14",
    args: &[("place", Holds::OneOf(SearchPlace::VARIANTS)), ("scale", Holds::OneOf(DetectorScale::VARIANTS))],
    example: "leak_detector(place: shaft_seal, scale: g7)",
    placing: Placing::Hands,
    sources: &[OWN_NOISE],
    settles_s: PATIENCE_S,
};

/// Electronic leak detector with its tip at a place.
#[derive(Debug)]
pub struct LeakDetector {
    /// Where its tip searches.
    pub place: SearchPlace,
    /// Which scale is chosen.
    pub scale: DetectorScale,
}

impl Instrument for LeakDetector {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        let at = |scale| SearchPlace::ALL.map(|place| Self { place, scale });
        DetectorScale::ALL.into_iter().flat_map(at).collect()
    }
    fn name(&self) -> String {
        format!("leak detector at {}, {}", self.scale.name(), self.place.name())
    }
    fn choice(&self) -> String {
        self.place.name().into()
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, strength: f64, _: &Say) -> String {
        sign(strength, ["silent", "ticks faster", "alarm", "full alarm"])
    }
    fn range(&self) -> (f64, f64) {
        (0.0, 1.0)
    }
    fn limit(&self, _: f64) -> f64 {
        LIMIT
    }
    fn net(&self, _: f64) -> f64 {
        0.2
    }
    fn needs(&self) -> Vec<Need> {
        vec![Need::Search(self.place)]
    }
}

/// Sensitivity scale of a leak detector: the smallest leak it must find (SAE J2791 and J2913).
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::EnumString,
    strum::IntoStaticStr,
    strum::VariantNames,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum DetectorScale {
    /// 4 grams a year.
    G4,
    /// 7 grams a year.
    #[default]
    G7,
    /// 14 grams a year.
    G14,
}

impl DetectorScale {
    /// The finest first.
    pub const ALL: [Self; 3] = [Self::G4, Self::G7, Self::G14];
    /// As its key is labelled.
    pub fn name(self) -> &'static str {
        match self {
            Self::G4 => "4 g/year",
            Self::G7 => "7 g/year",
            Self::G14 => "14 g/year",
        }
    }
    /// The leak it must find [g/year].
    pub fn g_year(self) -> f64 {
        match self {
            Self::G4 => 4.0,
            Self::G7 => 7.0,
            Self::G14 => 14.0,
        }
    }
}

words_by_name!(DetectorScale);

/// Error limit of the strength of its alarm, 0 to 1 (own estimate).
const LIMIT: f64 = 0.25;
/// Time constant of the answer [s]: nine tenths within two to three seconds (common practice, no source).
const ANSWER_S: f64 = 1.1;
/// How long the tip is held at a place [s] (common practice, no source).
const PATIENCE_S: f64 = 5.0;
/// Time constant of the zero [s], so that it clears within the 20 s of SAE J2791.
const ZERO_S: f64 = 6.0;
/// Air drawn in at the tip [m3/s]: 0.2 L/min (common practice, no source).
const DRAWN_M3_S: f64 = 3.3e-6;
/// Share of the leaking gas that the tip catches in still air (own estimate).
const CAUGHT: f64 = 0.1;
/// Air speed at which half of that is blown away [m/s] (own estimate).
const BLOWN_M_S: f64 = 0.5;
/// It answers from this share of the leak of its scale on; each one has an error of its own within `OWN` of that, less
/// than the 20 % that standard leaks may be off (SAE J2791).
const ANSWERS_AT: f64 = 0.8;
const OWN: f64 = 0.15;
/// Restlessness of the answer, standard deviation.
const RESTLESS: f64 = 0.02;
/// Refrigerant in the air it is zeroed in at which it is half as sensitive [kg/m3]: 20 parts per million of R-134a
/// (own estimate).
const DEAF_KG_M3: f64 = 85e-6;
/// Seconds in a year.
pub const YEAR_S: f64 = 31_557_600.0;

/// Refrigerant in the air that the tip draws in from a leak [kg/m3].
fn caught_kg_m3(leak_kg_s: f64, wind_m_s: f64) -> f64 {
    leak_kg_s.max(0.0) * CAUGHT / (1.0 + wind_m_s.max(0.0) / BLOWN_M_S) / DRAWN_M3_S
}

/// A detector that is switched on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Detector {
    place: SearchPlace,
    scale: DetectorScale,
    /// Refrigerant at the tip [kg/m3].
    tip: Lag,
    /// What it takes as zero [kg/m3]; none before its first moment.
    zero: Option<Lag>,
}

impl Detector {
    /// Just switched on, with its tip at a place.
    pub fn new(place: SearchPlace, scale: DetectorScale) -> Self {
        Self { place, scale, tip: Lag::new(ANSWER_S, 0.0), zero: None }
    }
    /// Carry the tip somewhere, or choose another scale; its zero goes along.
    pub fn carry(&mut self, place: SearchPlace, scale: DetectorScale) {
        (self.place, self.scale) = (place, scale);
    }
    /// Where its tip is, and on which scale it stands.
    pub fn at(&self) -> (SearchPlace, DetectorScale) {
        (self.place, self.scale)
    }
    /// It has had its first moment, and with it a zero.
    pub fn is_awake(&self) -> bool {
        self.zero.is_some()
    }
    /// Time passes.
    pub fn advance(&mut self, dt_s: f64, truth: &dyn Truth) {
        let cloud = truth.workshop_air_kg_m3();
        let cloud = if cloud.is_finite() { cloud } else { 0.0 };
        let leak = truth.leak(self.place);
        match &mut self.zero {
            Some(zero) => {
                zero.advance(dt_s, cloud);
            }
            // Switched on in a cloud it takes the cloud for clean air.
            None => {
                self.tip = Lag::new(ANSWER_S, cloud);
                self.zero = Some(Lag::new(ZERO_S, cloud));
            }
        }
        self.tip.advance(dt_s, cloud + caught_kg_m3(leak.refrigerant_kg_s, leak.wind_m_s));
    }
    /// Strength of the alarm, 0 to 1, when it answers at `answers_at` of the leak of its scale.
    fn strength(&self, answers_at: f64) -> f64 {
        let zero = self.zero.map_or(0.0, |z| z.value());
        let above = (self.tip.value() - zero).max(0.0);
        let needed = caught_kg_m3(1e-3 * self.scale.g_year() / YEAR_S, 0.0) * answers_at;
        let times = above / (needed * (1.0 + zero.max(0.0) / DEAF_KG_M3));
        if times.is_finite() { times * times / (1.0 + times * times) } else { 1.0 }
    }
    /// What it should show.
    pub fn expected(&self) -> f64 {
        self.strength(ANSWERS_AT)
    }
    /// What it shows.
    pub fn shown(&self, seed: u64, tick: u64) -> f64 {
        let own = fixed_error(seed, OWN_NOISE, OWN) + RESTLESS * wandering(seed, OWN_NOISE, tick, 10);
        self.strength(ANSWERS_AT * (1.0 + own))
    }
}

#[cfg(test)]
#[path = "leak_detector_tests.rs"]
mod tests;
