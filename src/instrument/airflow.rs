//! The airflow meter: a vane with a hood over the vents.

use super::character::Character;
use super::describe::{Facts, Instrument, Placing};
use super::kit::{Kit, Shelf};
use super::say::Say;
use super::truth::Truth;
use crate::circuit::CircuitSpec;
use crate::noise::Source;

/// The tool.
pub const TOOL: Kit =
    Kit { name: "Airflow meter", touches: "Hood over the vents.", shelf: Shelf::Air, needs_bay: false };

static FACTS: Facts = Facts {
    id: "airflow",
    words: "Airflow meter over the vents [m3/s].",
    notation: "airflow",
    args: &[],
    example: "airflow",
    placing: Placing::Hands,
    sources: &[VANE.source],
    settles_s: VANE.settles_s(),
};

/// The vane: 3 % of the reading and an offset of 2 litres a second (common practice, no source) [m3/s].
const VANE: Character = Character {
    source: Source(16),
    lag_s: 2.0,
    limit_share: 0.03,
    limit: 2e-3,
    zero: 0.0,
    range: (0.0, 1.0),
    digit: |_| 1.0 / 3600.0,
    wander: 0.1,
};

/// Flow below which the vane stands still [m3/s] (common practice, no source).
const STARTS_M3_S: f64 = 5e-3;

/// What the vane turns at [m3/s].
fn turned_m3_s(flow_m3_s: f64) -> f64 {
    if flow_m3_s < STARTS_M3_S { 0.0 } else { flow_m3_s }
}

/// Airflow meter over the vents.
#[derive(Debug)]
pub struct Airflow;

impl Instrument for Airflow {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    fn everywhere(_: &CircuitSpec) -> Vec<Self> {
        vec![Self]
    }
    fn name(&self) -> String {
        "airflow at the vents".into()
    }
    fn unit(&self) -> &'static str {
        "m3/s"
    }
    fn text(&self, m3_s: f64, say: &Say) -> String {
        say.number(m3_s, 3600.0, 0, "m³/h")
    }
    fn net(&self, predicted: f64) -> f64 {
        0.05 * predicted.abs() + 0.002
    }
    fn sensor(&self) -> Option<&'static Character> {
        Some(&VANE)
    }
    fn goal(&self, truth: &dyn Truth) -> Option<f64> {
        Some(turned_m3_s(truth.vent_m3_s()))
    }
    /// The vane stands still before it is held into the stream.
    fn start(&self, _: f64, _: &dyn Truth) -> f64 {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_keeps_its_limit_and_does_not_turn_in_a_slow_stream() {
        for seed in 0..200 {
            for flow in [0.0, 0.02, 0.08, 0.14] {
                let shown = VANE.shown(turned_m3_s(flow), seed, 3);
                assert!((shown - flow).abs() <= 0.03 * flow + 2e-3, "{shown} for {flow}");
            }
        }
        assert_eq!(turned_m3_s(0.004), 0.0, "a slow stream does not turn it");
        assert!(turned_m3_s(f64::NAN).is_nan());
    }
}
