//! What a person without tools gets: sound, touch, sight, smell, dash and vents. All of it is worked out from numbers
//! of the model's own state ([`Felt`]), never from the name of a fault. Levels, borders between words and shapes of
//! spectra are own estimates unless a line says otherwise; what is tested is how they follow the state.
//!
//! A sense has no noise: its words are coarse, and the width of a word is the uncertainty a reading carries.

mod cabin;
mod felt;
mod nose;
mod place;
mod sense;
mod sight;
mod sound;
mod spectrum;
mod touch;

pub use cabin::{Dash, Vent};
pub use felt::Felt;
pub use nose::Smell;
pub use place::Place;
pub use sense::{Organ, Sense};
pub use sight::View;
pub use sound::Sound;
pub use spectrum::{BAND_HZ, BANDS, Spectrum};
pub use touch::TOO_HOT_K;

/// One thing noticed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Percept {
    /// What was listened to, touched, looked at.
    pub sense: Sense,
    /// Plain words.
    pub words: &'static str,
    /// There is something to notice; a silent valve or a dry floor is nothing.
    pub notable: bool,
    /// Number of the caution that belongs to it, such as `S16b`.
    pub caution: Option<&'static str>,
    /// The number behind the words, see [`Sense`]; never shown.
    pub value: f64,
}

/// All that is noticed at one moment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Perceived {
    /// Everything the rig has, in the order of [`Sense::all`].
    pub percepts: Vec<Percept>,
    /// What reaches the ear at the open bonnet, all sources together [dB, estimates].
    pub spectrum_db: [f64; BANDS],
}

impl Perceived {
    /// What a person notices of these numbers.
    pub fn of(felt: &Felt) -> Self {
        let heard = sound::Heard::of(felt);
        let percepts = Sense::all()
            .filter_map(|sense| {
                let value = felt.value_with(sense, &heard)?;
                Some(Percept {
                    sense,
                    words: sense.words(value),
                    notable: sense.notable(value),
                    caution: sense.caution(value),
                    value,
                })
            })
            .collect();
        Self { percepts, spectrum_db: heard.all_db() }
    }
    /// One percept; none where the rig has no such part.
    pub fn get(&self, sense: Sense) -> Option<&Percept> {
        self.percepts.iter().find(|p| p.sense == sense)
    }
    /// Words of one percept; empty where the rig has no such part.
    pub fn words(&self, sense: Sense) -> &'static str {
        self.get(sense).map_or("", |p| p.words)
    }
}

impl Felt {
    /// The number behind a sense, see [`Sense`]; none where the rig has no such part.
    pub fn value(&self, sense: Sense) -> Option<f64> {
        self.value_with(sense, &sound::Heard::of(self))
    }

    fn value_with(&self, sense: Sense, heard: &sound::Heard) -> Option<f64> {
        let value = match sense {
            Sense::Touch(place) => self.touch_k(place)?.min(TOO_HOT_K),
            Sense::Surface(place) => self.wetness(place)?,
            Sense::Sweep => self.condenser_step_k()?,
            Sense::Listen(sound) => heard.level_db(sound),
            Sense::Look(view) => self.look(view)?,
            Sense::Smell(smell) => self.smell(smell),
            Sense::Dash(dash) => self.dash(dash)?,
            Sense::Vent(vent) => self.vent(vent)?,
        };
        value.is_finite().then_some(value)
    }
}
