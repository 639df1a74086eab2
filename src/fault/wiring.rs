//! What faults of the circuit do to its parts. A rig has such a fault when it has one of the parts.

use super::FaultId;
use crate::circuit::{Change, PartFault, part};
use crate::rig::Rig;

/// The contact of the thermistor's amplifier stands for the thermistor where a circuit has none of its own.
const FIN_CONTACT: &str = part::THERMOSTAT;

/// Parts of which the first that a rig has suffers the change, and the change at a severity; `None` for faults that
/// are not of the circuit.
fn change(id: FaultId, severity: f64) -> Option<(&'static [&'static str], Change)> {
    use Change::{
        AddedOhm, Dragging, Gap, Offset, Open, ShareOfOhm, Shorted, StuckClosed, StuckOpen, WeakBattery,
        WeakCapacitor, WornFacing,
    };
    const FAN: &[&str] = &[part::FAN_MOTOR, part::CONDENSER_FAN];
    const LOW_SWITCH: &[&str] = &[part::CYCLING_SWITCH, part::PRESSURE_SWITCH, part::LOW_CONTROL];
    const HIGH_SWITCH: &[&str] = &[part::HIGH_CUTOUT, part::HIGH_CONTROL];
    const SENSOR: &[&str] = &[part::PRESSURE_SENSOR, part::HIGH_SENSOR];
    const FIN: &[&str] = &[part::EVAPORATOR_THERMISTOR, FIN_CONTACT];
    Some(match id {
        FaultId::CondenserFanMotorOpen => (FAN, Open),
        FaultId::CondenserFanRelayOpen => (&[part::FAN_RELAY_COIL], Open),
        FaultId::CondenserFanSlow => (FAN, Dragging(severity)),
        FaultId::CondenserFanFuseBlown => (&[part::FAN_FUSE], Open),
        FaultId::CondenserFanContactWorn => (&[part::FAN_RELAY_CONTACT], AddedOhm(severity)),
        FaultId::CondenserFanGroundBad => (&[part::FAN_GROUND], AddedOhm(severity)),
        FaultId::CondenserFanStageOpen => (&[part::FAN_STAGE], Open),
        FaultId::FanHighSpeedMissing => (&[part::MEDIUM_SWITCH], StuckOpen),
        FaultId::ElectronicValveOpen => (&[part::EXPANSION_VALVE], Open),
        FaultId::ChillerValveOpen => (&[part::CHILLER_VALVE], Open),
        FaultId::ControlValveOpen => (&[part::CONTROL_VALVE], Open),
        FaultId::ClutchGapWide => (&[part::CLUTCH_COIL], Gap(severity)),
        FaultId::ClutchFacingWorn => (&[part::CLUTCH_COIL], WornFacing(severity)),
        FaultId::ClutchCoilOpen => (&[part::CLUTCH_COIL], Open),
        FaultId::ClutchCoilShorted => (&[part::CLUTCH_COIL], ShareOfOhm(severity)),
        FaultId::ClutchDiodeShorted => (&[part::CLUTCH_DIODE], Shorted),
        FaultId::ClutchDiodeOpen => (&[part::CLUTCH_DIODE], Open),
        FaultId::ClutchFuseBlown => (&[part::CLUTCH_FUSE], Open),
        FaultId::ClutchRelayOpen => (&[part::CLUTCH_RELAY_COIL], Open),
        FaultId::ClutchContactWorn => (&[part::CLUTCH_RELAY_CONTACT], AddedOhm(severity)),
        FaultId::ClutchContactWelded => (&[part::CLUTCH_RELAY_CONTACT], StuckClosed),
        FaultId::ClutchGroundBad => (&[part::CLUTCH_GROUND], AddedOhm(severity)),
        FaultId::ClutchPlugCorroded => (&[part::CLUTCH_WIRE], AddedOhm(severity)),
        FaultId::BatteryWeak => (&[part::BATTERY], WeakBattery(severity)),
        FaultId::NotCharging => (&[part::ALTERNATOR], Open),
        FaultId::ControlUnitDead => (&[part::UNIT_WIRE], Open),
        FaultId::LowPressureSwitchOpen => (LOW_SWITCH, StuckOpen),
        FaultId::LowPressureSwitchClosed => (LOW_SWITCH, StuckClosed),
        FaultId::HighPressureSwitchOpen => (HIGH_SWITCH, StuckOpen),
        FaultId::HighPressureSwitchClosed => (HIGH_SWITCH, StuckClosed),
        FaultId::PressureSensorOff => (SENSOR, Offset(severity * 1e5)),
        FaultId::PressureSensorOpen => (SENSOR, Open),
        FaultId::ThermistorOff => (FIN, Offset(severity)),
        FaultId::ThermistorOpen => (FIN, Open),
        FaultId::ThermistorShorted => (FIN, Shorted),
        FaultId::OutletThermistorOff => (&[part::OUTLET_THERMISTOR], Offset(severity)),
        FaultId::AcSwitchOpen => (&[part::AC_SWITCH, part::CONTROL_SWITCH], StuckOpen),
        FaultId::ThrottleCutoutOpen => (&[part::THROTTLE_CUTOUT], StuckOpen),
        FaultId::BoxThermostatOff => (&[part::THERMOSTAT], Offset(severity)),
        FaultId::DefrostClockStuck => (&[part::DEFROST_CLOCK], StuckClosed),
        FaultId::BlowerMotorOpen => (&[part::BLOWER_MOTOR], Open),
        FaultId::BlowerSlow => (&[part::BLOWER_MOTOR], Dragging(severity)),
        FaultId::BlowerFuseBlown => (&[part::BLOWER_FUSE], Open),
        FaultId::BlowerModuleOpen => (&[part::BLOWER_MODULE], Open),
        FaultId::BlowerResistorOpen => (&[part::CARD_RESISTOR_3], Open),
        FaultId::EvaporatorFanOpen => (&[part::EVAPORATOR_FAN_1], Open),
        FaultId::StartCapacitorWeak => (&[part::START_CAPACITOR], WeakCapacitor(severity)),
        FaultId::RunCapacitorWeak => (&[part::RUN_CAPACITOR], WeakCapacitor(severity)),
        FaultId::StartRelayOpen => (&[part::START_RELAY_CONTACT], StuckOpen),
        FaultId::StartWindingOpen => (&[part::START_WINDING], Open),
        FaultId::OverloadOpen => (&[part::OVERLOAD], Open),
        FaultId::ContactorCoilOpen => (&[part::CONTACTOR_COIL, part::CONTACTOR_PLUS_COIL], Open),
        FaultId::ContactorContactWorn => {
            (&[part::CONTACTOR_CONTACT, part::CONTACTOR_PLUS_CONTACT], AddedOhm(severity))
        }
        FaultId::CompressorFuseBlown => (&[part::COMPRESSOR_FUSE, part::MAIN_FUSE], Open),
        FaultId::InterlockOpen => (&[part::INTERLOCK_COMPRESSOR], Open),
        _ => return None,
    })
}

/// Parts that a fault of the circuit may act on; `None` for other faults.
pub fn parts(id: FaultId) -> Option<&'static [&'static str]> {
    change(id, id.default_severity()).map(|(parts, _)| parts)
}

/// What a fault does to a part of this rig, if it is one of the circuit and the rig has the part.
pub fn part_fault(id: FaultId, severity: f64, rig: &Rig) -> Option<PartFault> {
    let (parts, change) = change(id, severity)?;
    let part = parts.iter().find(|part| rig.has_part(part))?;
    // A broken thermistor reads as frost, and its amplifier opens; a bridged one reads as heat.
    let change = match (*part, change) {
        (FIN_CONTACT, Change::Open) => Change::StuckOpen,
        (FIN_CONTACT, Change::Shorted) => Change::StuckClosed,
        _ => change,
    };
    Some(PartFault { part: (*part).into(), change })
}
