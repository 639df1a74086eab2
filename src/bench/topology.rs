//! Which parts the loop of a rig has.

use crate::knobs::Fits;
use crate::plant::{Drive, Metering, PlantSpec};

/// Which parts the loop of the rig has, for drawings and names.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Topology {
    /// A receiver-drier behind the condenser.
    pub receiver: bool,
    /// A subcooling pass behind it.
    pub subcooler: bool,
    /// An accumulator behind the evaporator.
    pub accumulator: bool,
    /// An internal heat exchanger.
    pub exchanger: bool,
    /// A chiller branch.
    pub chiller: bool,
    /// What meters the liquid.
    pub metering: MeteringKind,
    /// What turns the compressor.
    pub drive: DriveKind,
}

/// Kind of metering device.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MeteringKind {
    /// Thermostatic expansion valve.
    #[default]
    Thermostatic,
    /// Orifice tube.
    OrificeTube,
    /// Electronic expansion valve.
    Electronic,
}

/// Kind of compressor drive.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DriveKind {
    /// Belt and clutch, fixed displacement.
    #[default]
    Belt,
    /// Belt, variable displacement.
    VariableBelt,
    /// Motor on traction voltage.
    Electric,
    /// Mains motor in a welded shell.
    Hermetic,
}

impl Topology {
    /// Has a rig with this loop the knobs that fit so?
    pub fn has(&self, fits: Fits) -> bool {
        match fits {
            Fits::Every => true,
            Fits::Engine => matches!(self.drive, DriveKind::Belt | DriveKind::VariableBelt),
            Fits::Car => self.drive != DriveKind::Hermetic,
            Fits::ColdRoom => self.drive == DriveKind::Hermetic,
            Fits::Chiller => self.chiller,
        }
    }
    /// Of a loop.
    pub fn of(spec: &PlantSpec) -> Self {
        Self {
            receiver: spec.receiver.is_some(),
            subcooler: spec.subcooler.is_some(),
            accumulator: spec.accumulator.is_some(),
            exchanger: spec.exchanger.is_some(),
            chiller: spec.chiller.is_some(),
            metering: match spec.metering {
                Metering::Thermostatic(_) => MeteringKind::Thermostatic,
                Metering::OrificeTube(_) => MeteringKind::OrificeTube,
                Metering::Electronic(_) => MeteringKind::Electronic,
            },
            drive: match spec.compressor.drive {
                Drive::Belt { .. } => DriveKind::Belt,
                Drive::VariableBelt { .. } => DriveKind::VariableBelt,
                Drive::Electric { .. } => DriveKind::Electric,
                Drive::Hermetic { .. } => DriveKind::Hermetic,
            },
        }
    }
}
