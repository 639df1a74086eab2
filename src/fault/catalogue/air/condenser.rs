//! Air over the condenser.

use super::{PLAIN, graded, rows};
use crate::fault::needs::Need::{Engine, ViscousFan};

rows! {
    CondenserFanMotorOpen "condenser_fan_motor_open" "Condenser fan motor open circuit", CondenserAirflow:
        "The resistance of the fan motor winding becomes very large.",
        PLAIN, 0.13 SURVEYS, cured by [ReplaceFanMotor],
        not by [ReplaceFanRelay: "the new relay clicks and the fan still stands",
                RechargeByWeight: "pressures at the lights stay too high"], needs [];
    CondenserFanRelayOpen "condenser_fan_relay_open" "Condenser fan relay coil open circuit", CondenserAirflow:
        "The resistance of the fan relay coil becomes very large, so its contact never closes.",
        PLAIN, 0.12 SURVEYS, cured by [ReplaceFanRelay],
        not by [ReplaceFanMotor: "the new motor gets no volts either"], needs [];
    CondenserFanSlow "condenser_fan_slow" "Condenser fan slow", CondenserAirflow:
        "Worn bearings take a share of the fan motor's speed at the same volts.",
        graded("share of the speed lost", "", [0.1, 1.0, 0.5]), 0.04 PRACTICE, cured by [ReplaceFanMotor],
        not by [CleanCondenser: "a clean face without air over it is no help",
                ReplaceFanRelay: "the volts were there before"], needs [];
    CondenserFanFuseBlown "condenser_fan_fuse_blown" "Condenser fan fuse blown", CondenserAirflow:
        "The resistance of the fan fuse becomes very large.",
        PLAIN, 0.03 CLAIMS, cured by [ReplaceFanFuse],
        not by [ReplaceFanMotor: "the new motor gets no volts either"], needs [];
    CondenserFanContactWorn "condenser_fan_contact_worn" "Condenser fan relay contact burnt", CondenserAirflow:
        "The contact of the fan relay gains resistance, so the motor gets fewer volts.",
        graded("resistance of the contact", "ohm", [0.05, 20.0, 1.0]), 0.03 CLAIMS, cured by [ReplaceFanRelay],
        not by [ReplaceFanMotor: "the new motor runs as slowly"], needs [];
    CondenserFanGroundBad "condenser_fan_ground_bad" "Condenser fan ground corroded", CondenserAirflow:
        "The ground of the fan motor gains resistance, so part of the volts is lost behind the motor.",
        graded("resistance of the ground", "ohm", [0.05, 20.0, 1.0]), 0.03 CLAIMS, cured by [MendGrounds],
        not by [ReplaceFanMotor: "the new motor runs as slowly",
                ReplaceFanRelay: "the volts ahead of the motor were good"], needs [];
    CondenserFanStageOpen "condenser_fan_stage_open" "Condenser fan power stage dead", CondenserAirflow:
        "The resistance of the power stage that pulses the fan motor becomes very large.",
        PLAIN, 0.04 PRACTICE, cured by [ReplaceFanStage],
        not by [ReplaceFanMotor: "the new motor gets no volts either"], needs [];
    FanHighSpeedMissing "fan_high_speed_missing" "Condenser fan without high speed", CondenserAirflow:
        "The medium-pressure switch stays open, so the resistor of the fan is never bridged.",
        PLAIN, 0.03 PRACTICE, cured by [ReplaceFanSwitch],
        not by [ReplaceFanMotor: "the new motor runs at low speed as well"], needs [];
    ViscousCouplingWorn "viscous_coupling_worn" "Viscous fan coupling worn", CondenserAirflow:
        "A share of the coupling's grip is lost when it should take hold.",
        graded("share of the grip lost", "", [0.1, 1.0, 0.8]), 0.08 PRACTICE, cured by [ReplaceViscousCoupling],
        not by [ReplaceBelt: "the belt drove the coupling's hub well enough"], needs [ViscousFan];
    CondenserFinsBlocked "condenser_fins_blocked" "Condenser fins blocked", CondenserAirflow:
        "A share of the condenser face passes no air and takes part in no heat exchange.",
        graded("share of the face blocked", "", [0.0, 0.95, 0.5]), 0.11 SURVEYS, cured by [CleanCondenser, ReplaceCondenser],
        not by [ReplaceFanMotor: "a good fan blows against the same dirt",
                RechargeByWeight: "the amount was right before"], needs [];
    CondenserFinsCorroded "condenser_fins_corroded" "Condenser fins corroded", CondenserAirflow:
        "A share of the condenser's conductance to the air is lost at the same air flow.",
        graded("share of the conductance lost", "", [0.05, 0.9, 0.4]), 0.03 PRACTICE, cured by [ReplaceCondenser],
        not by [CleanCondenser: "washing takes loose fins along",
                ReplaceFanMotor: "there was air enough"], needs [];
    CondenserAirRecirculation "condenser_air_recirculation" "Condenser air recirculation", CondenserAirflow:
        "A share of the air that enters the condenser at rest has been through it before.",
        graded("share of hot air besides the usual", "", [0.05, 0.5, 0.3]), 0.03 PRACTICE, cured by [FitCondenserSeals],
        not by [ReplaceFanMotor: "a good fan draws the same hot air round"], needs [];
    RadiatorClogged "radiator_clogged" "Radiator clogged, engine hot", CondenserAirflow:
        "A share of the radiator's conductance is lost, so engine and air under the bonnet run hotter.",
        graded("share of the conductance lost", "", [0.1, 0.95, 0.6]), 0.03 PRACTICE, cured by [ReplaceRadiator],
        not by [RechargeByWeight: "the loop was full before"], needs [Engine];
}
