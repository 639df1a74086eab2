//! Faults that come and go, and what makes them.

use serde::{Deserialize, Serialize};

use super::FaultId;
use crate::noise;
use crate::places::PipePlace;

/// What makes a fault come and go. Where a number must be passed, the fault goes again a little below it, as a
/// crack that opened with heat closes only when it has cooled.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Recurs {
    /// A pipe is hotter than this [°C].
    WhenHot {
        /// Limit [°C].
        above_c: f64,
        /// Which pipe, standing for the part beside it.
        place: PipePlace,
    },
    /// A pipe is colder than this [°C].
    WhenCold {
        /// Limit [°C].
        below_c: f64,
        /// Which pipe, standing for the part beside it.
        place: PipePlace,
    },
    /// The engine shakes: its speed is within a band [rev/min].
    WhenVibrating {
        /// From [rev/min].
        from_rpm: f64,
        /// Up to [rev/min].
        to_rpm: f64,
    },
    /// The road shakes: the car is faster than this [km/h].
    WhenOnTheRoad {
        /// Limit [km/h].
        above_kmh: f64,
    },
    /// The high side stands above this [bar gauge].
    WhenLoaded {
        /// Limit [bar gauge].
        above_bar: f64,
    },
    /// Once in a while, a minute at a time, for no reason that can be seen.
    OnceInAWhile {
        /// Share of all minutes, 0 to 1.
        share: f64,
    },
}

/// What a fault may feel.
pub struct Conditions<'a> {
    /// Temperature of a pipe [°C].
    pub pipe_c: &'a dyn Fn(PipePlace) -> f64,
    /// Engine speed, 0 while it stands [rev/min].
    pub engine_rpm: f64,
    /// Road speed [km/h].
    pub road_kmh: f64,
    /// Pressure of the discharge line [bar gauge].
    pub high_bar: f64,
    /// Seed of the session.
    pub seed: u64,
    /// Time since the start [min], whole.
    pub minute: u64,
}

/// How far back a temperature [K], a pressure [bar] or a road speed [km/h] must go.
const BACK_K: f64 = 8.0;
const BACK_BAR: f64 = 2.0;
const BACK_KMH: f64 = 5.0;

impl Recurs {
    /// Is the fault there now, having been there or not?
    pub fn there(&self, id: FaultId, was: bool, felt: &Conditions) -> bool {
        let back = |by: f64| if was { by } else { 0.0 };
        match *self {
            Self::WhenHot { above_c, place } => (felt.pipe_c)(place) > above_c - back(BACK_K),
            Self::WhenCold { below_c, place } => (felt.pipe_c)(place) < below_c + back(BACK_K),
            Self::WhenVibrating { from_rpm, to_rpm } => {
                felt.engine_rpm >= from_rpm && felt.engine_rpm <= to_rpm
            }
            Self::WhenOnTheRoad { above_kmh } => felt.road_kmh > above_kmh - back(BACK_KMH),
            Self::WhenLoaded { above_bar } => felt.high_bar > above_bar - back(BACK_BAR),
            Self::OnceInAWhile { share } => noise::even(felt.seed, stream(id), felt.minute) <= share,
        }
    }
    /// Its numbers, each with unit and allowed range.
    pub fn numbers(&self) -> Vec<(f64, &'static str, f64, f64)> {
        match *self {
            Self::WhenHot { above_c, .. } => vec![(above_c, "°C", -20.0, 150.0)],
            Self::WhenCold { below_c, .. } => vec![(below_c, "°C", -40.0, 60.0)],
            Self::WhenVibrating { from_rpm, to_rpm } => {
                vec![(from_rpm, "rev/min", 0.0, 8000.0), (to_rpm, "rev/min", from_rpm, 8000.0)]
            }
            Self::WhenOnTheRoad { above_kmh } => vec![(above_kmh, "km/h", 0.0, 180.0)],
            Self::WhenLoaded { above_bar } => vec![(above_bar, "bar", 0.0, 40.0)],
            Self::OnceInAWhile { share } => vec![(share, "", 0.0, 1.0)],
        }
    }
    /// In words, after "comes and goes:".
    pub fn words(&self) -> String {
        match *self {
            Self::WhenHot { above_c, place } => format!("{} above {above_c} °C", place.name()),
            Self::WhenCold { below_c, place } => format!("{} below {below_c} °C", place.name()),
            Self::WhenVibrating { from_rpm, to_rpm } => format!("engine at {from_rpm} to {to_rpm} rev/min"),
            Self::WhenOnTheRoad { above_kmh } => format!("faster than {above_kmh} km/h"),
            Self::WhenLoaded { above_bar } => format!("high side above {above_bar} bar"),
            Self::OnceInAWhile { share } => format!("once in a while, {:.0} % of all minutes", 100.0 * share),
        }
    }
}

/// A stream of chance for each fault, by its key, so that it stays when the catalogue grows.
fn stream(id: FaultId) -> u64 {
    let key = id.info().key.bytes();
    key.fold(0xcbf2_9ce4_8422_2325, |hash, b| (hash ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn felt(pipe_c: &dyn Fn(PipePlace) -> f64, minute: u64) -> Conditions<'_> {
        Conditions { pipe_c, engine_rpm: 2000.0, road_kmh: 0.0, high_bar: 15.0, seed: 5, minute }
    }

    #[test]
    fn it_goes_only_when_it_has_cooled() {
        let hot = Recurs::WhenHot { above_c: 70.0, place: PipePlace::CompressorOutlet };
        let (warm, hotter, cool) = (|_| 66.0, |_| 71.0, |_| 61.0);
        let id = FaultId::ClutchCoilOpen;
        assert!(!hot.there(id, false, &felt(&warm, 0)) && hot.there(id, false, &felt(&hotter, 0)));
        assert!(hot.there(id, true, &felt(&warm, 0)) && !hot.there(id, true, &felt(&cool, 0)));
        let shaken = Recurs::WhenVibrating { from_rpm: 1800.0, to_rpm: 2200.0 };
        assert!(shaken.there(id, false, &felt(&warm, 0)));
        assert!(!Recurs::WhenLoaded { above_bar: 18.0 }.there(id, true, &felt(&warm, 0)));
    }

    #[test]
    fn chance_keeps_its_share_and_repeats() {
        let at = |_| 20.0;
        let rare = Recurs::OnceInAWhile { share: 0.2 };
        let draw = |id: FaultId| -> Vec<bool> {
            (0..2000).map(|minute| rare.there(id, false, &felt(&at, minute))).collect()
        };
        let minutes = draw(FaultId::ClutchCoilOpen);
        let share = minutes.iter().filter(|m| **m).count() as f64 / 2000.0;
        // Five standard deviations of 2000 draws.
        assert!((share - 0.2).abs() < 0.045, "{share}");
        assert_eq!(minutes, draw(FaultId::ClutchCoilOpen));
        assert_ne!(minutes, draw(FaultId::AirInLoop));
    }
}
