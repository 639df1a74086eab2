//! The clamp ammeter round one wire: no contact, but a zero that drifts until its key is pressed with the jaws empty.

use serde::{Deserialize, Serialize};

use super::character::OVER;
use super::describe::{Facts, Holds, Instrument, Need, Placing};
use super::kit::{Kit, Shelf};
use super::say::{Say, spaced};
use crate::circuit::{Circuit, CircuitSpec};
use crate::noise::{Source, fixed_error, standard_normal, wandering};

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Clamp ammeter",
    touches: "Round one wire. Zero it with the jaws empty.",
    shelf: Shelf::Wiring,
    needs_bay: false,
};

const OWN: Source = Source(9);

static FACTS: Facts = Facts {
    id: "clamp",
    words: "Clamp ammeter round the wire of a part [A].",
    notation: "clamp:PART",
    args: &[("part", Holds::Words("id of a part in quotes"))],
    example: "clamp(\"clutch_coil\")",
    placing: Placing::Hands,
    sources: &[OWN],
    settles_s: 1.0,
};

/// Clamp ammeter round the wire of a part, by part id.
#[derive(Debug)]
pub struct Clamp(pub String);

impl Instrument for Clamp {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(circuit: &CircuitSpec) -> Vec<Self> {
        circuit.parts.iter().map(|part| Self(part.id.clone())).collect()
    }
    fn name(&self) -> String {
        format!("clamp round {}", spaced(&self.0))
    }
    fn unit(&self) -> &'static str {
        "A"
    }
    fn text(&self, amps: f64, say: &Say) -> String {
        say.number(amps, 1.0, 2, "A")
    }
    fn range(&self) -> (f64, f64) {
        (-MOST_A, MOST_A)
    }
    fn limit(&self, amps: f64) -> f64 {
        limit_a(amps)
    }
    /// A twentieth, and the drift of its zero.
    fn net(&self, predicted: f64) -> f64 {
        0.05 * predicted.abs() + 0.3
    }
    fn needs(&self) -> Vec<Need> {
        vec![Need::Part(self.0.clone())]
    }
}

/// Last digit [A], and the end of its range [A] (common practice, no source).
pub const DIGIT_A: f64 = 0.01;
const MOST_A: f64 = 400.0;
/// Error limit: share of the reading, and digits on top (common practice, no source).
const SHARE: f64 = 0.02;
const DIGITS: f64 = 3.0;
/// Where the zero stands at the start, and how far it wanders within ten minutes [A] (common practice, no source).
const ZERO_A: f64 = 0.3;
const WANDERS_A: f64 = 0.02;
const WANDERS_TICKS: u64 = 12_000;
/// The display follows with this time constant [s].
const LAG_S: f64 = 0.25;

/// Error limit [A] at a shown current [A], once it is zeroed.
pub fn limit_a(amps: f64) -> f64 {
    SHARE * amps.abs() + DIGITS * DIGIT_A
}

/// Where its own zero stands at a tick [A].
fn drift_a(seed: u64, tick: u64) -> f64 {
    fixed_error(seed, OWN, ZERO_A) + WANDERS_A * wandering(seed, OWN, tick, WANDERS_TICKS)
}

/// Jaws round the wire of a part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Jaws {
    /// Part.
    pub part: String,
    amps: f64,
}

/// The clamp ammeter as it lies there: where it is and what its key took as zero.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ClampAmmeter {
    /// Where it is.
    pub jaws: Option<Jaws>,
    /// What its key took as zero: drift and, with the jaws not empty, the current of the wire [A].
    pub zeroed: Option<(f64, f64)>,
}

impl ClampAmmeter {
    /// Put the jaws round a part's wire; says whether there is such a part.
    pub fn place(&mut self, part: &str, circuit: &Circuit) -> bool {
        let Some(amps) = circuit.current(part) else { return false };
        if self.jaws.as_ref().is_none_or(|j| j.part != part) {
            self.jaws = Some(Jaws { part: part.into(), amps });
        }
        true
    }
    /// Press the zero key.
    pub fn zero(&mut self, seed: u64, tick: u64) {
        self.zeroed = Some((drift_a(seed, tick), self.amps()));
    }
    /// Current in the jaws [A].
    pub fn amps(&self) -> f64 {
        self.jaws.as_ref().map_or(0.0, |j| j.amps)
    }
    /// Time passes.
    pub fn advance(&mut self, dt_s: f64, circuit: &Circuit) {
        if let Some(jaws) = &mut self.jaws {
            let goal = circuit.current(&jaws.part).unwrap_or(0.0);
            jaws.amps += (1.0 - libm::exp(-dt_s / LAG_S)) * (goal - jaws.amps);
        }
    }
    /// What it would show without drift and noise [A].
    pub fn expected(&self) -> f64 {
        self.amps() - self.zeroed.map_or(0.0, |z| z.1)
    }
    /// What it shows [A].
    pub fn shown(&self, seed: u64, tick: u64) -> f64 {
        let value = self.amps() + drift_a(seed, tick) - self.zeroed.map_or(0.0, |(drift, wire)| drift + wire);
        let restless = 0.5 * DIGIT_A * standard_normal(seed, OWN, tick / 6);
        // The gain error has a stream of its own, or it would go with the zero.
        let gain = 1.0 + fixed_error(seed ^ 0x5EED, OWN, SHARE / 2.0);
        let shown = ((value * gain + restless) / DIGIT_A).round() * DIGIT_A;
        if shown.abs() > MOST_A { OVER } else { shown }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zeroed_it_keeps_its_limit_and_before_that_it_does_not() {
        let mut worst_before = 0.0_f64;
        for seed in 0..60 {
            for amps in [0.0, 3.6, 12.0] {
                let mut clamp = ClampAmmeter { jaws: None, zeroed: None };
                let round = |mut c: ClampAmmeter| {
                    c.jaws = Some(Jaws { part: "p".into(), amps });
                    c
                };
                worst_before = worst_before.max((round(clamp.clone()).shown(seed, 100) - amps).abs());
                clamp.zero(seed, 90);
                let shown = round(clamp).shown(seed, 100);
                assert!((shown - amps).abs() <= limit_a(amps), "{seed}: {shown} for {amps}");
            }
        }
        assert!(worst_before > 0.2, "{worst_before}");
    }

    #[test]
    fn zeroed_round_a_live_wire_it_shows_nothing_of_it() {
        let mut clamp = ClampAmmeter { jaws: Some(Jaws { part: "p".into(), amps: 4.0 }), zeroed: None };
        clamp.zero(3, 10);
        assert!(clamp.shown(3, 12).abs() < 0.1 && clamp.expected().abs() < 1e-9);
    }
}
