//! Touch: surfaces a hand can reach, and how they feel. Frost and dew on them belong to the eye as much.

use super::{Felt, Place};
use crate::units::ZERO_C_K;

/// A bare hand is not laid on metal warmer than this [K] (60 °C). Contact burns of bare metal begin at about 65 to
/// 70 °C for a touch of one second and at 51 °C for one minute (ISO 13732-1, from memory).
pub const TOO_HOT_K: f64 = ZERO_C_K + 60.0;

/// How a surface feels at so many kelvin, the hand itself being at 33 °C or so. Borders are common practice, no
/// source.
pub(super) fn words(t_k: f64) -> &'static str {
    match t_k - ZERO_C_K {
        t if t < 0.0 => "freezing cold",
        t if t < 12.0 => "cold",
        t if t < 27.0 => "cool",
        t if t < 36.0 => "neither warm nor cool",
        t if t < 47.0 => "warm",
        t if t < 60.0 => "hot",
        _ => "too hot to touch",
    }
}

/// What stands on a surface: see [`Felt::wetness`].
pub(super) fn surface_words(wetness: f64) -> &'static str {
    match wetness {
        w if w < 0.5 => "dry",
        w if w < 1.5 => "wet with dew",
        _ => "white with frost",
    }
}

/// How a hand drawn along the condenser finds it, by the sharpest step [K].
pub(super) fn sweep_words(step_k: f64) -> &'static str {
    if step_k < SHARP_K { "no sudden step" } else { "a sudden step: hot, then all at once cooler" }
}

/// A step (see [`Felt::condenser_step_k`]) that a hand tells from the slow cooling of a sound one [K].
const SHARP_K: f64 = 7.0;

impl Felt {
    /// 0 dry, 1 dew, 2 frost: a wall below the dew point of the air takes water from it, below 0 °C as frost. How
    /// long that takes is left out.
    pub(super) fn wetness(&self, place: Place) -> Option<f64> {
        let t_k = self.touch_k(place)?;
        Some(match t_k {
            t if t >= self.dew_k => 0.0,
            t if t >= ZERO_C_K => 1.0,
            _ => 2.0,
        })
    }
    /// The sharpest step between two neighbouring parts of the condenser beyond its first quarter, where hot gas cools
    /// fast in any car [K]; none without a condenser. A step is a drop that does not go on: where liquid stands in the
    /// last part, as it may in any car, every part is a good deal cooler than the one before it.
    pub(super) fn condenser_step_k(&self) -> Option<f64> {
        let walls = &self.condenser_k;
        let steps = walls.windows(3).skip(walls.len() / 4).map(|w| (w[0] - w[1]) - (w[1] - w[2]).max(0.0));
        (walls.len() >= 3).then(|| steps.fold(0.0, f64::max))
    }
}
