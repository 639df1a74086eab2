//! What a rig must have before it can have a fault, read off its loop and its circuit.

use serde::Serialize;

use crate::circuit::CircuitSpec;
use crate::circuit::sensed::Place;
use crate::circuit::spec::Kind;
use crate::plant::{Drive, Metering};
use crate::rig::Rig;

/// Something that a rig has or has not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Need {
    /// Thermostatic expansion valve.
    ThermostaticValve,
    /// Orifice tube.
    OrificeTube,
    /// Electronic expansion valve.
    ElectronicValve,
    /// A vessel with desiccant: receiver or accumulator.
    Desiccant,
    /// Internal heat exchanger.
    InternalExchanger,
    /// Fan on the engine behind a viscous coupling.
    ViscousFan,
    /// An engine, with its heat.
    Engine,
    /// A compressor on the engine's belt.
    Belt,
    /// A compressor whose stroke varies.
    VariableStroke,
    /// A clutch with its wiring.
    ClutchWiring,
    /// Something that feels the evaporator's fins.
    Thermistor,
    /// A cabin with people, blower and air doors.
    Cabin,
    /// A cold room.
    ColdRoom,
}

impl Need {
    /// Has the rig got it?
    pub fn met_by(self, rig: &Rig) -> bool {
        let (plant, drive) = (&rig.plant, rig.plant.compressor.drive);
        match self {
            Self::ThermostaticValve => matches!(plant.metering, Metering::Thermostatic(_)),
            Self::OrificeTube => matches!(plant.metering, Metering::OrificeTube(_)),
            Self::ElectronicValve => matches!(plant.metering, Metering::Electronic(_)),
            Self::Desiccant => plant.receiver.is_some() || plant.accumulator.is_some(),
            Self::InternalExchanger => plant.exchanger.is_some(),
            Self::ViscousFan => plant.condenser_air.viscous_fan.is_some(),
            Self::Engine | Self::Belt => drive.pulley_ratio().is_some(),
            Self::VariableStroke => matches!(drive, Drive::VariableBelt { .. }),
            Self::ClutchWiring => has(&rig.circuit, |kind| matches!(kind, Kind::ClutchCoil { .. })),
            Self::Thermistor => has(&rig.circuit, feels_fins),
            Self::Cabin => !Self::ColdRoom.met_by(rig),
            Self::ColdRoom => plant.cabin.start_t_k.is_some(),
        }
    }
}

fn has(circuit: &CircuitSpec, what: fn(&Kind) -> bool) -> bool {
    circuit.parts.iter().any(|part| what(&part.kind))
}

fn feels_fins(kind: &Kind) -> bool {
    matches!(kind, Kind::Thermistor { at: Place::Fin, .. } | Kind::Thermostat { at: Place::Fin, .. })
}
