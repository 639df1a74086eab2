//! Everything a person without tools can attend to, as one type: what the notebook and the diagnosis name it by.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use super::{Dash, Place, Smell, Sound, TOO_HOT_K, Vent, View, nose, touch};
use crate::variants::all;

/// One thing to attend to, and the number behind its words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sense {
    /// How a surface feels [K]; nobody feels more than [`TOO_HOT_K`], the hand is only held near then.
    Touch(Place),
    /// What stands on it: 0 dry, 1 dew, 2 frost.
    Surface(Place),
    /// A hand drawn along the condenser: the sharpest step in it [K].
    #[default]
    Sweep,
    /// A sound, for an ear close to it [dB, estimates]; 0 when there is none or the rest drowns it.
    Listen(Sound),
    /// A look: see [`View`].
    Look(View),
    /// A smell, 0 to 1.
    Smell(Smell),
    /// A lamp of the dash, 0 or 1.
    Dash(Dash),
    /// What the vents do: see [`Vent`].
    Vent(Vent),
}

/// What a sense works through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub enum Organ {
    /// Ear.
    Ear,
    /// Hand.
    Hand,
    /// Eye.
    Eye,
    /// Nose.
    Nose,
    /// From the driver's seat.
    Seat,
}

impl Organ {
    /// All of them.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// What one does with it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Ear => "Listen",
            Self::Hand => "Touch",
            Self::Eye => "Look",
            Self::Nose => "Smell",
            Self::Seat => "In the car",
        }
    }
}

impl Sense {
    /// Everything, in the order it is listed in.
    pub fn all() -> impl Iterator<Item = Self> {
        let sounds = Sound::ALL.into_iter().map(Self::Listen);
        let places = Place::ALL.into_iter().map(Self::Touch).chain([Self::Sweep]);
        let surfaces = Place::ALL.into_iter().map(Self::Surface);
        let views = View::ALL.into_iter().map(Self::Look);
        let smells = Smell::ALL.into_iter().map(Self::Smell);
        let seat = Dash::ALL.into_iter().map(Self::Dash).chain(Vent::ALL.into_iter().map(Self::Vent));
        sounds.chain(places).chain(surfaces).chain(views).chain(smells).chain(seat)
    }
    /// What it works through.
    pub fn organ(self) -> Organ {
        match self {
            Self::Touch(_) | Self::Sweep => Organ::Hand,
            Self::Listen(_) => Organ::Ear,
            Self::Surface(_) | Self::Look(_) => Organ::Eye,
            Self::Smell(_) => Organ::Nose,
            Self::Dash(_) | Self::Vent(_) => Organ::Seat,
        }
    }
    /// What is attended to, as people read it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Touch(place) | Self::Surface(place) => place.name(),
            Self::Sweep => "hand along the condenser",
            Self::Listen(sound) => sound.name(),
            Self::Look(view) => view.name(),
            Self::Smell(smell) => smell.name(),
            Self::Dash(dash) => dash.name(),
            Self::Vent(vent) => vent.name(),
        }
    }
    /// Plain words for a value.
    pub fn words(self, value: f64) -> &'static str {
        match self {
            Self::Touch(_) => touch::words(value),
            Self::Surface(_) => touch::surface_words(value),
            Self::Sweep => touch::sweep_words(value),
            Self::Listen(sound) => sound.words(value),
            Self::Look(view) => view.words(value),
            Self::Smell(smell) => smell.words(value),
            Self::Dash(_) if value > 0.5 => "lit",
            Self::Dash(_) => "dark",
            Self::Vent(vent) => vent.words(value),
        }
    }
    /// Is there something to notice at all?
    pub fn notable(self, value: f64) -> bool {
        match self {
            Self::Touch(_) | Self::Sweep | Self::Dash(_) | Self::Vent(_) => true,
            Self::Listen(Sound::Compressor | Sound::Fan | Sound::Blower) => true,
            Self::Look(View::ClutchPlate | View::Fan | View::Drip) => true,
            Self::Surface(_) => value >= 0.5,
            Self::Listen(_) => value > 0.0,
            Self::Look(_) => value >= 0.3,
            Self::Smell(_) => value >= nose::FAINT,
        }
    }
    /// The caution that belongs to a value.
    pub fn caution(self, value: f64) -> Option<&'static str> {
        match self {
            Self::Touch(_) if value >= TOO_HOT_K => Some("S16b"),
            Self::Smell(Smell::Mist) if value >= nose::FAINT => Some("S2"),
            _ => None,
        }
    }
    /// How far a person may be off, same unit as the value: about half the width of a word. Own estimates.
    pub fn limit(self) -> f64 {
        match self {
            Self::Touch(_) => 5.0,
            Self::Surface(_) => 0.5,
            Self::Sweep => 4.0,
            Self::Listen(_) => 4.0,
            Self::Look(View::ClutchPlate) => 0.3,
            Self::Look(View::Fan) => 0.15,
            Self::Look(View::Drip) => 4.0,
            Self::Look(_) => 2.0,
            Self::Smell(_) => 0.25,
            Self::Dash(_) => 0.1,
            Self::Vent(Vent::Strength | Vent::Damp) => 0.15,
            Self::Vent(Vent::Feel) => 3.0,
            Self::Vent(Vent::Fog) => 0.3,
        }
    }
}
