//! Where tools can be put, and the reading they give.

use serde::{Deserialize, Serialize};

use super::meter::MeterMode;
use crate::perceive::Sense;

/// A bare pipe a clamp thermometer fits on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PipePlace {
    /// Suction pipe at the compressor (point 1).
    CompressorInlet,
    /// Discharge pipe at the compressor (point 2). Hot: caution S16.
    CompressorOutlet,
    /// Pipe after the subcooling pass (point 3).
    CondenserOutlet,
    /// Liquid pipe at the expansion valve (point 4).
    ValveInlet,
    /// Pipe after the expansion valve (point 5).
    ValveOutlet,
    /// Pipe at the evaporator outlet (point 6).
    EvaporatorOutlet,
}

impl PipePlace {
    /// All places in loop order, from point 1 to point 6.
    pub const ALL: [Self; 6] = [
        Self::CompressorInlet,
        Self::CompressorOutlet,
        Self::CondenserOutlet,
        Self::ValveInlet,
        Self::ValveOutlet,
        Self::EvaporatorOutlet,
    ];
    /// Plain name.
    pub fn name(self) -> &'static str {
        match self {
            Self::CompressorInlet => "compressor inlet pipe",
            Self::CompressorOutlet => "compressor outlet pipe",
            Self::CondenserOutlet => "condenser outlet pipe",
            Self::ValveInlet => "valve inlet pipe",
            Self::ValveOutlet => "valve outlet pipe",
            Self::EvaporatorOutlet => "evaporator outlet pipe",
        }
    }
    /// Number of the state point, 1 to 6.
    pub fn point(self) -> usize {
        self as usize + 1
    }
}

/// Air an air thermometer hangs in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AirPlace {
    /// Outside air before the condenser.
    Outside,
    /// Air leaving the condenser.
    CondenserOff,
    /// Cabin air.
    Cabin,
    /// Air from the middle vent.
    Vent,
}

impl AirPlace {
    /// All places.
    pub const ALL: [Self; 4] = [Self::Outside, Self::CondenserOff, Self::Cabin, Self::Vent];
    /// Plain name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Outside => "outside air",
            Self::CondenserOff => "air off condenser",
            Self::Cabin => "cabin air",
            Self::Vent => "vent air",
        }
    }
}

/// A tool on a place: everything a learner can measure or look at.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Probe {
    /// Low-side gauge of the manifold set.
    LowGauge,
    /// High-side gauge of the manifold set.
    HighGauge,
    /// Clamp thermometer on a pipe.
    Pipe(PipePlace),
    /// Thermometer in air.
    Air(AirPlace),
    /// Voltmeter, red lead on the named circuit point, black lead on battery minus.
    Volts(String),
    /// Multimeter, its two leads on any two points (or `ground`).
    Meter {
        /// What the dial stands on.
        mode: MeterMode,
        /// Point of the red lead.
        red: String,
        /// Point of the black lead.
        black: String,
    },
    /// Test lamp between two points (or `ground`).
    Lamp {
        /// Point of its tip.
        tip: String,
        /// Point of its clip.
        clip: String,
    },
    /// Clamp ammeter round the wire of a part, by part id.
    Clamp(String),
    /// A value as the reader of a control unit shows it.
    UnitValue {
        /// Control unit, by id.
        unit: String,
        /// Input or output, by id.
        id: String,
    },
    /// A look into the sight glass.
    SightGlass,
    /// A person's own senses, without any tool.
    Sense(Sense),
}

/// One reading as it stands in the notebook.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Tick it was read on.
    pub tick: u64,
    /// Tool and place.
    pub probe: Probe,
    /// Shown value in SI: Pa gauge, K, V, ohm, A (over range: [`super::meter::OVER`]); for the sight glass the share
    /// of bubbles 0 to 1, for the test lamp its brightness, for a control unit's value its own unit, for senses as
    /// [`Sense`] says.
    pub value: f64,
    /// Half-width of the 95 % band of the instrument, same unit.
    pub uncertainty: f64,
}
