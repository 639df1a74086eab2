//! The test lamp, 12 V 5 W: a real load. A joint that passes a voltmeter's trickle but no current leaves it dark.

use serde::{Deserialize, Serialize};

use super::describe::{Facts, Holds, Instrument, Need, Placing};
use super::kit::{Kit, Shelf};
use super::meter::{POINT, volts_between};
use super::say::{Say, spaced};
use crate::circuit::spec::GROUND;
use crate::circuit::{Circuit, CircuitSpec, Load};

/// The tool.
pub const TOOL: Kit = Kit {
    name: "Test lamp",
    touches: "Between two points; it takes real current.",
    shelf: Shelf::Wiring,
    needs_bay: false,
};

static FACTS: Facts = Facts {
    id: "lamp",
    words: "Test lamp between two points [brightness, 0 to 1].",
    notation: "lamp:TIP:CLIP",
    args: &[("tip", Holds::Words(POINT)), ("clip", Holds::Words(POINT))],
    example: "lamp(tip: \"clutch_coil_plus\", clip: \"ground\")",
    placing: Placing::Hands,
    sources: &[],
    settles_s: 1.0,
};

/// Test lamp between two points (or `ground`).
#[derive(Debug)]
pub struct Lamp {
    /// Point of its tip.
    pub tip: String,
    /// Point of its clip.
    pub clip: String,
}

impl Instrument for Lamp {
    fn facts(&self) -> &'static Facts {
        &FACTS
    }
    /// Every point against ground.
    fn everywhere(circuit: &CircuitSpec) -> Vec<Self> {
        let at = |tip: &String| Self { tip: tip.clone(), clip: GROUND.into() };
        circuit.points.iter().map(|point| at(&point.id)).collect()
    }
    fn name(&self) -> String {
        format!("test lamp from {} to {}", spaced(&self.tip), spaced(&self.clip))
    }
    fn unit(&self) -> &'static str {
        ""
    }
    fn text(&self, bright: f64, _: &Say) -> String {
        words(bright).into()
    }
    fn range(&self) -> (f64, f64) {
        (0.0, brightness(f64::INFINITY))
    }
    fn limit(&self, _: f64) -> f64 {
        LIMIT
    }
    fn net(&self, _: f64) -> f64 {
        0.1
    }
    fn needs(&self) -> Vec<Need> {
        vec![Need::Point(self.tip.clone()), Need::Point(self.clip.clone())]
    }
}

/// Filament at 12 V and cold [ohm]: 5 W, and a tenth of it cold (common practice, no source).
pub const HOT_OHM: f64 = 28.8;
/// Filament cold [ohm].
pub const COLD_OHM: f64 = 2.88;
/// Resistance of tungsten filaments goes with this power of the volts, light with that one (from memory).
const OHM_POWER: f64 = 0.45;
const LIGHT_POWER: f64 = 3.4;
/// Steps from cold to hot: the circuit is solved anew only when the filament has moved by one.
const STEPS: f64 = 24.0;
const MOST_STEP: u8 = 27;
/// Steps it warms or cools in a tick: cold to hot in 0.3 s.
const MOST_MOVE: u8 = 4;
/// The eye judges brightness to about a tenth (common practice, no source).
pub const LIMIT: f64 = 0.1;

/// The filament of a lamp that hangs between two points.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Filament {
    /// Point of its tip.
    pub tip: String,
    /// Point of its clip.
    pub clip: String,
    step: u8,
    volts: f64,
}

/// Brightness at some volts; 1 at 12 V.
pub fn brightness(volts: f64) -> f64 {
    libm::pow((volts.abs() / 12.0).min(2.0), LIGHT_POWER)
}

/// How it looks.
pub fn words(brightness: f64) -> &'static str {
    match brightness {
        b if b < 0.005 => "dark",
        b if b < 0.1 => "glimmers",
        b if b < 0.5 => "dim",
        _ => "bright",
    }
}

impl Filament {
    /// A cold lamp put between two points.
    pub fn placed(tip: &str, clip: &str) -> Self {
        Self { tip: tip.into(), clip: clip.into(), step: 0, volts: 0.0 }
    }
    /// Its filament now [ohm].
    pub fn ohm(&self) -> f64 {
        COLD_OHM * libm::pow(HOT_OHM / COLD_OHM, f64::from(self.step) / STEPS)
    }
    /// What it hangs on the circuit.
    pub fn load(&self) -> Load {
        Load { a: self.tip.clone(), b: self.clip.clone(), ohm: self.ohm(), fuse_a: f64::INFINITY }
    }
    /// A tick passes: the filament warms or cools towards what its volts make of it.
    pub fn advance(&mut self, circuit: &Circuit) {
        self.volts = volts_between(circuit, &self.tip, &self.clip).unwrap_or(0.0);
        let goal_ohm = HOT_OHM * libm::pow(self.volts.abs() / 12.0, OHM_POWER);
        let goal = STEPS * libm::log((goal_ohm / COLD_OHM).max(1.0)) / libm::log(HOT_OHM / COLD_OHM);
        let off = goal - f64::from(self.step);
        // Within three quarters of a step it stays, so that the last step does not come and go.
        if off.abs() > 0.75 {
            let most = f64::from(MOST_MOVE);
            let to = f64::from(self.step) + libm::round(off.clamp(-most, most));
            self.step = to.clamp(0.0, f64::from(MOST_STEP)) as u8;
        }
    }
    /// Brightness, 1 at 12 V.
    pub fn brightness(&self) -> f64 {
        brightness(self.volts)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn light_falls_faster_than_volts() {
        assert_eq!(words(brightness(12.6)), "bright");
        assert_eq!(words(brightness(8.0)), "dim");
        assert_eq!(words(brightness(5.0)), "glimmers");
        assert_eq!(words(brightness(2.0)), "dark");
        assert!(brightness(f64::INFINITY).is_finite());
    }
}
