//! Where tools can be put, and the reading they give.

use serde::{Deserialize, Serialize};

use super::meter::MeterMode;
use crate::perceive::Sense;
use crate::plant::OpenPlace;

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

/// A place where a leak can be searched for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SearchPlace {
    /// Shaft seal of the compressor, behind the clutch.
    ShaftSeal,
    /// Crimps of the discharge hose.
    DischargeHose,
    /// Joint of the condenser.
    CondenserJoint,
    /// Joint of the receiver.
    ReceiverJoint,
    /// Joint of the expansion valve.
    ValveJoint,
    /// Mouth of the evaporator's drain, where gas out of the evaporator sinks to.
    EvaporatorDrain,
    /// Low-side service valve.
    LowServiceValve,
    /// High-side service valve.
    HighServiceValve,
    /// Crimps of the suction hose.
    SuctionHose,
}

impl SearchPlace {
    /// All places.
    pub const ALL: [Self; 9] = [
        Self::ShaftSeal,
        Self::DischargeHose,
        Self::CondenserJoint,
        Self::ReceiverJoint,
        Self::ValveJoint,
        Self::EvaporatorDrain,
        Self::LowServiceValve,
        Self::HighServiceValve,
        Self::SuctionHose,
    ];
    /// Plain name.
    pub fn name(self) -> &'static str {
        match self {
            Self::ShaftSeal => "shaft seal",
            Self::DischargeHose => "discharge hose",
            Self::CondenserJoint => "condenser joint",
            Self::ReceiverJoint => "receiver joint",
            Self::ValveJoint => "expansion valve joint",
            Self::EvaporatorDrain => "evaporator drain",
            Self::LowServiceValve => "low-side service valve",
            Self::HighServiceValve => "high-side service valve",
            Self::SuctionHose => "suction hose",
        }
    }
    /// Where gas out of a hole comes to light; none for the end of the centre hose, away from the loop.
    pub fn of(hole: OpenPlace) -> Option<Self> {
        Some(match hole {
            OpenPlace::SuctionLine => Self::ShaftSeal,
            OpenPlace::DischargeLine => Self::DischargeHose,
            OpenPlace::Condenser => Self::CondenserJoint,
            OpenPlace::LiquidLine | OpenPlace::HighHose => Self::HighServiceValve,
            OpenPlace::Evaporator => Self::EvaporatorDrain,
            OpenPlace::LowHose => Self::LowServiceValve,
            OpenPlace::CentreHose => return None,
        })
    }
}

/// Sensitivity scale of a leak detector: the smallest leak it must find (SAE J2791 and J2913, as cited in
/// reference/faults.md 6).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DetectorScale {
    /// 4 grams a year.
    G4,
    /// 7 grams a year.
    #[default]
    G7,
    /// 14 grams a year.
    G14,
}

impl DetectorScale {
    /// All, the finest first.
    pub const ALL: [Self; 3] = [Self::G4, Self::G7, Self::G14];
    /// Plain name.
    pub fn name(self) -> &'static str {
        match self {
            Self::G4 => "4 g/year",
            Self::G7 => "7 g/year",
            Self::G14 => "14 g/year",
        }
    }
    /// The leak it must find [g/year].
    pub fn g_year(self) -> f64 {
        match self {
            Self::G4 => 4.0,
            Self::G7 => 7.0,
            Self::G14 => 14.0,
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
    /// Absolute vacuum gauge at the centre hose.
    VacuumGauge,
    /// Scale under the recovery cylinder.
    RecoveryScale,
    /// Scale under the vessel last put on the centre hose: supply cylinder, charging cylinder or can.
    ChargingScale,
    /// Oil in the measuring glass of the recovery machine.
    OilGraduation,
    /// Infrared thermometer aimed at a pipe.
    Infrared {
        /// Which pipe.
        place: PipePlace,
        /// On black tape wound round it, rather than on the bright metal.
        taped: bool,
    },
    /// Wet bulb of a psychrometer.
    WetBulb(AirPlace),
    /// Airflow meter over the vents.
    Airflow,
    /// Electronic leak detector.
    LeakDetector {
        /// Where its tip searches.
        place: SearchPlace,
        /// Which scale is chosen.
        scale: DetectorScale,
    },
    /// Soap solution on a place.
    Soap(SearchPlace),
    /// Ultraviolet lamp shone on a place.
    UvLamp(SearchPlace),
    /// Refrigerant identifier: share of refrigerant in the sample.
    Identifier,
    /// Refrigerant identifier: share of air in the sample.
    IdentifierAir,
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
    /// Shown value in SI: Pa gauge (the vacuum gauge: Pa absolute), K, V, ohm, A, kg gross, m3, m3/s (over range:
    /// [`super::meter::OVER`]); for the sight glass the share of bubbles 0 to 1, for the test lamp its brightness, for
    /// leak detector, soap and lamp the strength of the sign 0 to 1, for the identifier a share by mass, for a control
    /// unit's value its own unit, for senses as [`Sense`] says.
    pub value: f64,
    /// Half-width of the 95 % band of the instrument, same unit.
    pub uncertainty: f64,
}
