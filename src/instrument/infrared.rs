//! The infrared thermometer: it shows the temperature at which a black body of its own emissivity setting would send
//! as much as reaches it. Bright metal sends little and mirrors its surroundings, so on a bare pipe it reads nearer to
//! the air than the pipe is; black tape cures that. On a thin pipe part of the spot passes it by, tape or not.
//!
//! Radiance goes by the fourth power of temperature, over all wavelengths; a real one sees only a band of them.

use strum::VariantNames;

use super::character::Character;
use super::describe::{Facts, Holds, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::truth::Truth;
use crate::circuit::CircuitSpec;
use crate::noise::Source;
use crate::places::PipePlace;

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Infrared thermometer",
    touches: "Aimed at a pipe. Bright metal mirrors the air around it and reads wrong: put black tape on.",
    shelf: Shelf::Air,
    needs_bay: false,
};

static FACTS: Facts = Facts {
    id: "infrared",
    words: "Infrared thermometer aimed at a pipe, at black tape or at bright metal [K].",
    notation: "infrared:PIPE[:taped]",
    args: &[("place", Holds::OneOf(PipePlace::VARIANTS)), ("taped", Holds::Yes)],
    example: "infrared(place: compressor_inlet, taped: true)",
    placing: Placing::Hands,
    sources: &[CHARACTER.source],
    settles_s: CHARACTER.settles_s(),
};

/// Infrared thermometer aimed at a pipe.
#[derive(Debug)]
pub struct Infrared {
    /// Which pipe.
    pub place: PipePlace,
    /// On black tape wound round it, rather than on the bright metal.
    pub taped: bool,
}

impl Instrument for Infrared {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        let at = |place| [false, true].map(|taped| Self { place, taped });
        PipePlace::ALL.into_iter().flat_map(at).collect()
    }
    fn name(&self) -> String {
        let surface = if self.taped { "on tape" } else { "on bare metal" };
        format!("infrared, {} {surface}", self.place.name())
    }
    fn choice(&self) -> String {
        format!("{}, {}", self.place.short(), if self.taped { "on tape" } else { "bare" })
    }
    fn unit(&self) -> &'static str {
        "K"
    }
    fn text(&self, k: f64, say: &Say) -> String {
        say.temperature(k)
    }
    fn net(&self, _: f64) -> f64 {
        1.0
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&CHARACTER)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(seen_k(self.place, self.taped, truth.pipe_k(self.place), truth.surroundings_k()))
    }
    fn start(&self, _: f64, truth: &dyn Truth) -> f64 {
        truth.surroundings_k()
    }
}

/// Emissivity it is set to, and that of black tape or paint (from memory; handbooks give 0.93 to 0.97).
pub const SETTING: f64 = 0.95;
/// Emissivity of a bright aluminium or copper pipe (common practice, no source).
pub const BARE: f64 = 0.25;

/// 2 K or so, and 2 % of what it shows in degrees Celsius (common practice, no source).
const CHARACTER: Character = Character {
    source: Source(14),
    lag_s: 0.4,
    limit_share: 0.02,
    limit: 1.5,
    zero: 273.15,
    range: (223.15, 653.15),
    digit: |_| 0.1,
    wander: 0.05,
};

/// Share of the spot that falls on the pipe: a spot of 12 mm near by on a pipe of 18, 13 or 8 mm (common practice, no
/// source).
fn on_pipe(place: PipePlace) -> f64 {
    match place {
        PipePlace::CompressorInlet | PipePlace::EvaporatorOutlet => 1.0,
        PipePlace::CompressorOutlet => 0.98,
        PipePlace::CondenserOutlet | PipePlace::ValveInlet | PipePlace::ValveOutlet => 0.8,
    }
}

/// What its sensor sees [K] on a pipe at `pipe_k` in surroundings at `around_k`.
fn seen_k(place: PipePlace, taped: bool, pipe_k: f64, around_k: f64) -> f64 {
    let fourth = |t: f64| t * t * t * t;
    let surface = if taped { SETTING } else { BARE };
    let (pipe, around) = (fourth(pipe_k), fourth(around_k));
    let sent = surface * pipe + (1.0 - surface) * around;
    let caught = on_pipe(place) * sent + (1.0 - on_pipe(place)) * around;
    // It takes off what a surface of its setting would mirror.
    let black = ((caught - (1.0 - SETTING) * around) / SETTING).max(0.0);
    black.sqrt().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bright_metal_hides_the_pipe_and_tape_shows_it() {
        let seen = |taped| seen_k(PipePlace::EvaporatorOutlet, taped, 281.15, 308.15);
        assert!((seen(true) - 281.15).abs() < 1e-9, "{}", seen(true));
        // A quarter of the way from the air to the pipe.
        assert!(seen(false) > 300.0 && seen(false) < 303.0, "{}", seen(false));
        let hot = seen_k(PipePlace::CompressorOutlet, false, 358.15, 308.15);
        assert!(hot > 318.0 && hot < 328.0, "{hot}");
    }

    #[test]
    fn a_spot_larger_than_the_pipe_errs_even_on_tape() {
        let seen = seen_k(PipePlace::ValveInlet, true, 324.15, 308.15);
        assert!((324.15 - seen) > 2.0 && (324.15 - seen) < 4.0, "{seen}");
        assert!((seen_k(PipePlace::ValveInlet, false, 308.15, 308.15) - 308.15).abs() < 1e-9);
        assert!(seen_k(PipePlace::ValveInlet, false, 1.0, 308.15).is_finite());
    }

    #[test]
    fn it_keeps_its_own_limit() {
        for seed in 0..200 {
            for k in [263.15, 281.15, 308.15, 363.15] {
                let shown = CHARACTER.shown(k, seed, 11);
                assert!((shown - k).abs() <= 1.5 + 0.02 * (k - 273.15_f64).abs(), "{shown} for {k}");
            }
        }
    }
}
