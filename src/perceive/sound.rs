//! Sound: what each part of the car makes of its state, and which of it stands out for an ear held close.
//!
//! All levels are own estimates of sound pressure half a metre away, good for "louder than before", not for a meter.
//! Frequencies follow from speeds: the shaft's, the pistons', the blades'.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use super::Felt;
use super::spectrum::{BANDS, Spectrum, level_db};
use crate::variants::all;

/// Something to listen for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Sound {
    /// Compressor at work.
    Compressor,
    /// Liquid knocking in it.
    Knock,
    /// Dry or worn bearings in it.
    Growl,
    /// Loose reeds in it.
    Rattle,
    /// The clutch plate pulling in or letting go.
    ClutchClick,
    /// The clutch plate slipping.
    ClutchSqueal,
    /// The belt slipping.
    Belt,
    /// Condenser fan.
    Fan,
    /// Its wheel out of balance.
    FanRumble,
    /// Blower behind the dash.
    Blower,
    /// Liquid squeezed through the metering.
    ValveHiss,
    /// Gas bubbles in what the metering is fed.
    ValveGurgle,
    /// Pressures evening out after a stop.
    Equalising,
    /// Refrigerant escaping.
    Leak,
}

impl Sound {
    /// All sounds.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// As people read it, such as "compressor".
    pub fn name(self) -> &'static str {
        match self {
            Self::Compressor => "compressor",
            Self::Knock => "knocking in the compressor",
            Self::Growl => "bearings of the compressor",
            Self::Rattle => "valves of the compressor",
            Self::ClutchClick => "clutch",
            Self::ClutchSqueal => "clutch plate",
            Self::Belt => "belt",
            Self::Fan => "condenser fan",
            Self::FanRumble => "fan wheel",
            Self::Blower => "blower",
            Self::ValveHiss => "metering",
            Self::ValveGurgle => "feed of the metering",
            Self::Equalising => "after the stop",
            Self::Leak => "joints and hoses",
        }
    }
    /// Words for a level as an ear close by gets it [dB]; 0 is nothing.
    pub(super) fn words(self, db: f64) -> &'static str {
        let loud =
            |soft: &'static str, plain: &'static str, border: f64| if db < border { soft } else { plain };
        match self {
            _ if db <= 0.0 => match self {
                Self::Compressor | Self::Fan | Self::Blower => "silent",
                _ => "nothing to hear",
            },
            Self::Compressor if db < 56.2 => "runs very softly, hardly any load",
            Self::Compressor => loud("even hum", "loud hum under load", 61.0),
            Self::Knock => loud("a light knock", "knocks hard", 66.0),
            Self::Growl => loud("a rough undertone", "growls, metal on metal", 62.0),
            Self::Rattle => loud("light rattle", "rattles and clatters", 58.0),
            Self::ClutchClick => "a click",
            Self::ClutchSqueal => loud("chirps", "squeals", 62.0),
            Self::Belt => "squeals",
            Self::Fan => loud("soft rush of air", "strong rush with a low hum", 62.0),
            Self::FanRumble => loud("a slight throb", "throbs and shakes", 60.0),
            Self::Blower => loud("soft", "loud", 56.0),
            Self::ValveHiss => loud("faint hiss", "sharp hiss", 51.5),
            Self::ValveGurgle => {
                loud("gurgles now and then", "hisses and whistles: gas with the liquid", 56.0)
            }
            Self::Equalising => loud("faint hiss dying away", "hiss as pressures even out", 40.0),
            Self::Leak => loud("a faint hiss", "blows out with a roar", 60.0),
        }
    }

    /// What it puts into the bands.
    fn spectrum(self, f: &Felt) -> Spectrum {
        let none = Spectrum::default();
        let db = |share: f64| 10.0 * libm::log10(share.max(1e-6));
        match self {
            Self::Compressor if f.turning() => {
                // Seven newton metres is a plain day. Torque, not pressure ratio, is what shakes the mounts: a
                // compressor that pulls on an empty low side has a huge ratio and hardly any load.
                let load = (f.shaft_nm / 7.0).clamp(0.02, 6.0);
                let level = 58.0 + 1.5 * db(f.shaft_rpm / 1500.0) + db(load);
                let turns = f.shaft_rpm / 60.0;
                none.tone(turns, level - 10.0)
                    .tone(PISTONS * turns, level - 1.0)
                    .tone(2.0 * PISTONS * turns, level - 7.0)
            }
            Self::Knock if f.turning() && f.wet > KNOCKS_ABOVE => {
                let level = 74.0 + 1.5 * db((f.wet - KNOCKS_ABOVE) / (1.0 - KNOCKS_ABOVE));
                none.tone(f.shaft_rpm / 60.0, level - 6.0).noise(1600.0, 0.7, level - 1.0)
            }
            Self::Growl if f.turning() => {
                // Bare metal carries what the film no longer does.
                let rough = (1.0 - f.film) * (1.0 - f.film) + f.wear.clamp(0.0, 1.0);
                if rough < 0.02 { none } else { none.noise(700.0, 0.8, 70.0 + db(rough)) }
            }
            Self::Rattle if f.turning() && f.battered > 0.02 => {
                none.noise(2200.0, 0.5, 66.0 + db(f.battered))
            }
            Self::ClutchClick if f.since_click_s.is_some_and(|s| s < CLICK_S) => {
                none.noise(1000.0, 1.0, 66.0)
            }
            Self::ClutchSqueal if f.slip_w > 50.0 => none.tone(2500.0, 66.0 + 0.5 * db(f.slip_w / 1000.0)),
            Self::Belt if f.belt_nm > BELT_HOLDS_NM => none.tone(3150.0, 70.0),
            Self::Fan if f.fan_share > 0.02 => {
                // Noise of a fan goes with the fifth power of its speed (fan laws, from memory).
                let level = 66.0 + 5.0 * db(f.fan_share);
                let turns = FAN_RPM * f.fan_share / 60.0;
                none.tone(BLADES * turns, level - 3.0).tone(2.0 * BLADES * turns, level - 9.0).noise(
                    500.0,
                    1.2,
                    level - 4.0,
                )
            }
            Self::FanRumble if f.fan_share * f.fan_unbalance > 0.005 => {
                none.tone(FAN_RPM * f.fan_share / 60.0, 74.0 + 2.0 * db(f.fan_share * f.fan_unbalance))
            }
            Self::Blower if f.blower_share > 0.02 => none.noise(800.0, 1.5, 62.0 + 5.0 * db(f.blower_share)),
            Self::ValveHiss if f.turning() && f.jet_w > 0.0 => none.noise(4000.0, 0.6, 36.0 + db(f.jet_w)),
            Self::ValveGurgle if f.metered_kg_s > 1e-4 && f.inlet_gas > 0.01 => {
                let level = 58.0 + 0.5 * db(f.inlet_gas);
                none.noise(400.0, 0.7, level - 3.0).noise(3150.0, 0.4, level - 3.0)
            }
            Self::Equalising if !f.turning() && f.jet_w > 0.0 => none.noise(4000.0, 0.6, 36.0 + db(f.jet_w)),
            Self::Leak if f.leak_kg_s > 1e-6 => none.noise(5000.0, 0.5, 56.0 + db(f.leak_kg_s / 1e-3)),
            _ => none,
        }
    }
}

/// Pistons of the compressor, blades of the fan and its full speed [rev/min]: plain sizes of a compact car, own
/// estimates.
const PISTONS: f64 = 7.0;
const BLADES: f64 = 7.0;
const FAN_RPM: f64 = 2_400.0;
/// Liquid share by mass above which a compressor knocks: a little evaporates in the warm cylinder.
const KNOCKS_ABOVE: f64 = 0.08;
/// Torque a dry ribbed belt holds at a compressor's pulley [N m].
const BELT_HOLDS_NM: f64 = 30.0;
/// A click stays in the ear so long [s].
const CLICK_S: f64 = 1.5;
/// A quiet workshop, each band [dB].
const FLOOR_DB: f64 = 22.0;
/// How much an ear held close favours what it is held to [dB].
const CLOSE_DB: f64 = 12.0;
/// A sound stands out where it is above the rest by this in some band [dB].
const STANDS_OUT_DB: f64 = -3.0;

/// Engine and workshop, against which the rest has to be heard.
fn background(f: &Felt) -> Spectrum {
    let mut all = Spectrum([libm::pow(10.0, FLOOR_DB / 10.0); BANDS]);
    if f.engine_rpm > 1.0 {
        let level = 62.0 + 20.0 * libm::log10(f.engine_rpm / 900.0);
        // A four-cylinder fires twice a turn.
        let firing = f.engine_rpm / 30.0;
        all = all.tone(firing, level - 2.0).tone(2.0 * firing, level - 7.0).noise(160.0, 1.0, level - 8.0);
    }
    all
}

/// Everything there is to hear at one moment.
pub(super) struct Heard {
    parts: [Spectrum; Sound::ALL.len()],
    all: Spectrum,
}

impl Heard {
    /// Of these numbers.
    pub fn of(felt: &Felt) -> Self {
        let parts = Sound::ALL.map(|sound| sound.spectrum(felt));
        let all = parts.iter().fold(background(felt), |sum, part| sum.and(part));
        Self { parts, all }
    }
    /// All together, band by band [dB].
    pub fn all_db(&self) -> [f64; BANDS] {
        self.all.bands_db()
    }
    /// Level of a sound for an ear close to it [dB]; 0 when it is not there or drowned by the rest.
    pub fn level_db(&self, sound: Sound) -> f64 {
        let own = &self.parts[sound as usize];
        let stands_out = own.0.iter().zip(self.all.0).any(|(&band, all)| {
            let rest = (all - band).max(1.0);
            band > 0.0 && level_db(band) - (level_db(rest) - CLOSE_DB) > STANDS_OUT_DB
        });
        if stands_out { own.total_db() } else { 0.0 }
    }
}
