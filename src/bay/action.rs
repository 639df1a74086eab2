//! What hands can do in the service bay.

use serde::{Deserialize, Serialize};
use strum::VariantArray;

use crate::plant::{Port, Vessel};
use crate::variants::all;

/// A service hose of the manifold that goes to the loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hose {
    /// The blue one, with the low gauge.
    Low,
    /// The red one, with the high gauge.
    High,
}

/// What the centre hose is screwed to.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, VariantArray,
)]
#[serde(rename_all = "snake_case")]
pub enum CentreEnd {
    /// Its cap.
    #[default]
    Cap,
    /// Nothing: it hangs open.
    Nothing,
    /// The vacuum pump.
    VacuumPump,
    /// The recovery machine, with the recovery cylinder behind it.
    RecoveryMachine,
    /// The cylinder of new refrigerant.
    Supply,
    /// The charging cylinder.
    Charging,
    /// A small can with its tap.
    Can,
    /// Dry nitrogen behind a regulator.
    Nitrogen,
    /// Workshop compressed air: always refused.
    CompressedAir,
    /// Oxygen: always refused.
    Oxygen,
}

impl CentreEnd {
    /// All, in the order of a list.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// The vessel it is, if it is one.
    pub fn vessel(self) -> Option<Vessel> {
        match self {
            Self::Supply => Some(Vessel::Supply),
            Self::Charging => Some(Vessel::Charging),
            Self::Can => Some(Vessel::Can),
            _ => None,
        }
    }
    /// As people read it, such as "cap".
    pub fn name(self) -> &'static str {
        match self {
            Self::Cap => "cap",
            Self::Nothing => "nothing",
            Self::VacuumPump => "vacuum pump",
            Self::RecoveryMachine => "recovery machine",
            Self::Supply => "supply cylinder",
            Self::Charging => "charging cylinder",
            Self::Can => "small can",
            Self::Nitrogen => "nitrogen",
            Self::CompressedAir => "compressed air",
            Self::Oxygen => "oxygen",
        }
    }
}

/// How a vessel gives its contents.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VesselValve {
    /// Shut.
    #[default]
    Shut,
    /// Its gas valve, or upright.
    Gas,
    /// Its liquid valve, or upside down.
    Liquid,
}

/// Kind of oil.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OilKind {
    /// As the label of the rig says.
    #[default]
    AsLabelled,
    /// PAG where the label says ester, or the other way round.
    Other,
}

/// One step of the service station's program.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StationStep {
    /// Recover until the loop is down to the target and stays there.
    Recover,
    /// Evacuate for so long [min].
    EvacuateMin(f64),
    /// Shut off and watch for so long [min].
    HoldMin(f64),
    /// Put oil in [mL].
    OilMl(f64),
    /// Charge by weight [g].
    ChargeG(f64),
}

/// A line of the work record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum RecordField {
    /// Refrigerant found, in words.
    Refrigerant,
    /// Recovered [g].
    RecoveredG,
    /// Oil that came along with it [mL].
    OilRecoveredMl,
    /// What is written on the recovery cylinder, in words.
    CylinderLabel,
    /// Part replaced, in words.
    PartReplaced,
    /// Where it leaked, in words.
    LeakPlace,
    /// Nitrogen pressure at the start of the hold [bar gauge].
    NitrogenBar,
    /// How long it was held [min].
    NitrogenHeldMin,
    /// Change over the hold after allowing for temperature [bar].
    NitrogenChangeBar,
    /// Lowest pressure under vacuum [Pa absolute].
    VacuumPa,
    /// How long the pump ran [min].
    PumpedMin,
    /// Rise after the pump was shut off [Pa].
    RisePa,
    /// Oil put in [mL].
    OilAddedMl,
    /// Refrigerant put in [g].
    ChargedG,
    /// Low side before [bar gauge].
    LowBeforeBar,
    /// High side before [bar gauge].
    HighBeforeBar,
    /// Vents before [°C].
    VentBeforeC,
    /// Low side after [bar gauge].
    LowAfterBar,
    /// High side after [bar gauge].
    HighAfterBar,
    /// Vents after [°C].
    VentAfterC,
}

/// What stands in a line of the work record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RecordValue {
    /// A number in the unit of the line.
    Number(f64),
    /// Words.
    Words(String),
}

/// A value worked out from readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum WorkedValue {
    /// Suction pipe temperature less saturation temperature at the low gauge.
    Superheat,
    /// Saturation temperature at the high gauge less liquid pipe temperature.
    Subcooling,
    /// Saturation temperature at the high gauge less temperature of the outside air.
    Approach,
    /// Cabin air on the evaporator less air off the vents.
    Split,
    /// Saturation temperature of a gauge reading.
    Saturation,
    /// Absolute pressure of a gauge reading.
    Absolute,
}

/// Unit in which a worked value is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkedUnit {
    /// Temperature difference [K].
    Kelvin,
    /// Temperature difference in Fahrenheit degrees.
    FahrenheitDegrees,
    /// Temperature [°C].
    Celsius,
    /// Temperature [°F].
    Fahrenheit,
    /// Pressure [bar].
    Bar,
    /// Pressure [kPa].
    Kilopascal,
    /// Pressure [psi].
    Psi,
}

/// Everything hands can do in the service bay. The hand valves of the manifold are actions of their own, for they are
/// there without a bay too.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BayAction {
    /// Goggles and gloves on or off.
    Protect(bool),
    /// Extraction on and doors open, or not.
    Ventilate(bool),
    /// Take a sample at the low side to the refrigerant identifier (a minute; a few grams).
    Identify,
    /// Put a hose's coupler on a port, or take it off. Refused where the fitting differs.
    Fit {
        /// Which hose.
        hose: Hose,
        /// Which port; none: off.
        port: Option<Port>,
    },
    /// Turn a coupler's knob in (open) or out (shut). It is not the hand valve.
    Knob {
        /// Which hose.
        hose: Hose,
        /// Open.
        open: bool,
    },
    /// Screw the centre hose to something else.
    Centre(CentreEnd),
    /// Crack the centre hose at its end to let its air out, or tighten it.
    Loosen(bool),
    /// Vacuum pump on or off.
    Pump(bool),
    /// Recovery machine on or off.
    Machine(bool),
    /// Set the valve of a vessel; for a can, its tap and which way up.
    Valve {
        /// Which vessel.
        vessel: Vessel,
        /// How.
        valve: VesselValve,
    },
    /// Warm the charging cylinder or the can in a bath of at most 40 °C, or stop.
    Warm(bool),
    /// Warm a vessel with a flame: always refused.
    Flame,
    /// Regulator of the nitrogen [bar gauge]; 0 shuts it.
    RegulatorBar(f64),
    /// Put oil in through the injector [mL].
    Oil {
        /// How much [mL].
        ml: f64,
        /// Which kind.
        kind: OilKind,
    },
    /// Put leak dye in [mL].
    DyeMl(f64),
    /// Spray water on the condenser, or stop.
    Spray(bool),
    /// Cover so much of the condenser's face [%].
    CoverPct(f64),
    /// Drain the new part that is going in and put so much oil in it [mL].
    NewPartOilMl(f64),
    /// Close what a repair opened, with new seals.
    CloseUp,
    /// A fresh can on the tap.
    FreshCan,
    /// Run a program on the service station, which works its own valves.
    Station(Vec<StationStep>),
    /// Stop the station where it is.
    StationStop,
    /// Fill in a line of the work record.
    Write {
        /// Which line.
        field: RecordField,
        /// What.
        value: RecordValue,
    },
    /// Hand the work record in: it is checked, and what came of the work is told.
    HandOver,
    /// Give a value worked out from notebook readings.
    Work {
        /// Which.
        what: WorkedValue,
        /// Indices of the readings it was worked out from.
        readings: Vec<usize>,
        /// The answer.
        answer: f64,
        /// Its unit.
        unit: WorkedUnit,
    },
}
