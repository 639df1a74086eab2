//! What faults of the circuit do to its parts. A rig has such a fault when it has one of the parts.

use super::FaultId;
use crate::circuit::{Change, PartFault};
use crate::rig::Rig;

/// The contact of the thermistor's amplifier stands for the thermistor where a circuit has none of its own.
const FIN_CONTACT: &str = "thermostat";

/// The charging of the 12 V battery, which is no part of its own.
const ALTERNATOR: &str = "alternator";

/// Parts of which the first that a rig has suffers the change, and the change at a severity; `None` for faults that
/// are not of the circuit.
fn change(id: FaultId, severity: f64) -> Option<(&'static [&'static str], Change)> {
    use Change::{
        AddedOhm, Dragging, Gap, Offset, Open, ShareOfOhm, Shorted, StuckClosed, StuckOpen, WeakBattery,
        WeakCapacitor, WornFacing,
    };
    const FAN: &[&str] = &["fan_motor", "condenser_fan"];
    const LOW_SWITCH: &[&str] = &["cycling_switch", "pressure_switch", "low_control"];
    const HIGH_SWITCH: &[&str] = &["high_cutout", "high_control"];
    const SENSOR: &[&str] = &["pressure_sensor", "high_sensor"];
    const FIN: &[&str] = &["evaporator_thermistor", FIN_CONTACT];
    Some(match id {
        FaultId::CondenserFanMotorOpen => (FAN, Open),
        FaultId::CondenserFanRelayOpen => (&["fan_relay_coil"], Open),
        FaultId::CondenserFanSlow => (FAN, Dragging(severity)),
        FaultId::CondenserFanFuseBlown => (&["fan_fuse"], Open),
        FaultId::CondenserFanContactWorn => (&["fan_relay_contact"], AddedOhm(severity)),
        FaultId::CondenserFanGroundBad => (&["fan_ground"], AddedOhm(severity)),
        FaultId::CondenserFanStageOpen => (&["fan_stage"], Open),
        FaultId::FanHighSpeedMissing => (&["medium_switch"], StuckOpen),
        FaultId::ElectronicValveOpen => (&["expansion_valve"], Open),
        FaultId::ChillerValveOpen => (&["chiller_valve"], Open),
        FaultId::ControlValveOpen => (&["control_valve"], Open),
        FaultId::ClutchGapWide => (&["clutch_coil"], Gap(severity)),
        FaultId::ClutchFacingWorn => (&["clutch_coil"], WornFacing(severity)),
        FaultId::ClutchCoilOpen => (&["clutch_coil"], Open),
        FaultId::ClutchCoilShorted => (&["clutch_coil"], ShareOfOhm(severity)),
        FaultId::ClutchDiodeShorted => (&["clutch_diode"], Shorted),
        FaultId::ClutchDiodeOpen => (&["clutch_diode"], Open),
        FaultId::ClutchFuseBlown => (&["clutch_fuse"], Open),
        FaultId::ClutchRelayOpen => (&["clutch_relay_coil"], Open),
        FaultId::ClutchContactWorn => (&["clutch_relay_contact"], AddedOhm(severity)),
        FaultId::ClutchContactWelded => (&["clutch_relay_contact"], StuckClosed),
        FaultId::ClutchGroundBad => (&["clutch_ground"], AddedOhm(severity)),
        FaultId::ClutchPlugCorroded => (&["clutch_wire"], AddedOhm(severity)),
        FaultId::BatteryWeak => (&["battery"], WeakBattery(severity)),
        FaultId::NotCharging => (&[ALTERNATOR], Open),
        FaultId::ControlUnitDead => (&["unit_wire"], Open),
        FaultId::LowPressureSwitchOpen => (LOW_SWITCH, StuckOpen),
        FaultId::LowPressureSwitchClosed => (LOW_SWITCH, StuckClosed),
        FaultId::HighPressureSwitchOpen => (HIGH_SWITCH, StuckOpen),
        FaultId::HighPressureSwitchClosed => (HIGH_SWITCH, StuckClosed),
        FaultId::PressureSensorOff => (SENSOR, Offset(severity * 1e5)),
        FaultId::PressureSensorOpen => (SENSOR, Open),
        FaultId::ThermistorOff => (FIN, Offset(severity)),
        FaultId::ThermistorOpen => (FIN, Open),
        FaultId::ThermistorShorted => (FIN, Shorted),
        FaultId::OutletThermistorOff => (&["outlet_thermistor"], Offset(severity)),
        FaultId::AcSwitchOpen => (&["ac_switch", "control_switch"], StuckOpen),
        FaultId::ThrottleCutoutOpen => (&["throttle_cutout"], StuckOpen),
        FaultId::BoxThermostatOff => (&["thermostat"], Offset(severity)),
        FaultId::DefrostClockStuck => (&["defrost_clock"], StuckClosed),
        FaultId::BlowerMotorOpen => (&["blower_motor"], Open),
        FaultId::BlowerSlow => (&["blower_motor"], Dragging(severity)),
        FaultId::BlowerFuseBlown => (&["blower_fuse"], Open),
        FaultId::BlowerModuleOpen => (&["blower_module"], Open),
        FaultId::BlowerResistorOpen => (&["card_resistor_3"], Open),
        FaultId::EvaporatorFanOpen => (&["evaporator_fan_1"], Open),
        FaultId::StartCapacitorWeak => (&["start_capacitor"], WeakCapacitor(severity)),
        FaultId::RunCapacitorWeak => (&["run_capacitor"], WeakCapacitor(severity)),
        FaultId::StartRelayOpen => (&["start_relay_contact"], StuckOpen),
        FaultId::StartWindingOpen => (&["start_winding"], Open),
        FaultId::OverloadOpen => (&["overload"], Open),
        FaultId::ContactorCoilOpen => (&["contactor_coil", "contactor_plus_coil"], Open),
        FaultId::ContactorContactWorn => {
            (&["contactor_contact", "contactor_plus_contact"], AddedOhm(severity))
        }
        FaultId::CompressorFuseBlown => (&["compressor_fuse", "main_fuse"], Open),
        FaultId::InterlockOpen => (&["interlock_compressor"], Open),
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
