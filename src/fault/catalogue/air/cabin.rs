//! Air over the evaporator and the doors that mix and direct it.

use super::{PLAIN, graded, rows};
use crate::fault::needs::Need::{Cabin, Engine};

rows! {
    CabinFilterClogged "cabin_filter_clogged" "Cabin filter clogged", CabinAirflow:
        "A share of the blower's air is lost at the filter.",
        graded("share of the air lost", "", [0.1, 0.95, 0.5]), 0.06 SURVEYS, cured by [ReplaceCabinFilter],
        not by [ReplaceBlowerMotor: "the new blower pulls at the same dirt",
                RechargeByWeight: "the low side stays low: there is too little air, not refrigerant"], needs [Cabin];
    EvaporatorFouled "evaporator_fouled" "Evaporator fouled", CabinAirflow:
        "Dirt between the fins takes a share of the air and half that share of the conductance.",
        graded("share of the air lost", "", [0.1, 0.9, 0.4]), 0.03 PRACTICE, cured by [CleanEvaporator, ReplaceEvaporator],
        not by [ReplaceCabinFilter: "the dirt sits behind the filter"], needs [];
    EvaporatorFinsCorroded "evaporator_fins_corroded" "Evaporator fins corroded", CabinAirflow:
        "A share of the evaporator's conductance to the air is lost at the same air flow.",
        graded("share of the conductance lost", "", [0.05, 0.9, 0.4]), 0.01 PRACTICE, cured by [ReplaceEvaporator],
        not by [CleanEvaporator: "the metal is gone, not dirty"], needs [];
    BlowerMotorOpen "blower_motor_open" "Blower motor open circuit", CabinAirflow:
        "The resistance of the blower motor winding becomes very large.",
        PLAIN, 0.04 CLAIMS, cured by [ReplaceBlowerMotor],
        not by [ReplaceBlowerControl: "the volts arrive, the motor stands"], needs [];
    BlowerSlow "blower_slow" "Blower slow", CabinAirflow:
        "Worn bearings take a share of the blower motor's speed at the same volts.",
        graded("share of the speed lost", "", [0.1, 1.0, 0.5]), 0.02 PRACTICE, cured by [ReplaceBlowerMotor],
        not by [ReplaceCabinFilter: "the filter was clean"], needs [];
    BlowerFuseBlown "blower_fuse_blown" "Blower fuse blown", CabinAirflow:
        "The resistance of the blower fuse becomes very large.",
        PLAIN, 0.02 CLAIMS, cured by [ReplaceBlowerFuse],
        not by [ReplaceBlowerMotor: "the new motor gets no volts either"], needs [];
    BlowerModuleOpen "blower_module_open" "Blower power module dead", CabinAirflow:
        "The resistance of the blower's power module becomes very large.",
        PLAIN, 0.03 CLAIMS, cured by [ReplaceBlowerControl],
        not by [ReplaceBlowerMotor: "the new motor gets no volts either"], needs [];
    BlowerResistorOpen "blower_resistor_open" "Blower resistor burnt through", CabinAirflow:
        "One resistor of the blower's steps becomes very large, so only the highest step is left.",
        PLAIN, 0.04 PRACTICE, cured by [ReplaceBlowerControl],
        not by [ReplaceBlowerMotor: "the new motor turns in the highest step only"], needs [];
    EvaporatorFanOpen "evaporator_fan_open" "One evaporator fan dead", CabinAirflow:
        "The winding of one of two evaporator fan motors becomes very large.",
        PLAIN, 0.06 PRACTICE, cured by [ReplaceEvaporatorFan],
        not by [ReplaceExpansionValve: "the valve throttled because too little heat came in"], needs [];
    BlendDoorStuck "blend_door_stuck" "Blend door stuck towards warm", AirDoors:
        "A share of the cold air passes the heater core on its way to the vents (a heater valve that leaks does the same).",
        graded("share of the air past the heater", "", [0.05, 1.0, 0.4]), 0.03 PRACTICE, cured by [MendAirDoors],
        not by [RechargeByWeight: "pressures were normal before and are now; the vents stay warm",
                ReplaceCompressor: "a good compressor cools air that is warmed again"], needs [Cabin, Engine];
    FreshAirDoorOpen "fresh_air_door_open" "Fresh-air door stuck open", AirDoors:
        "The recirculation door stays open, so the evaporator takes outside air whatever the switch says.",
        PLAIN, 0.02 PRACTICE, cured by [MendAirDoors],
        not by [RechargeByWeight: "hot, humid outside air asks for the same heat again"], needs [Cabin];
    ModeDoorStuck "mode_door_stuck" "Mode door stuck", AirDoors:
        "A share of the air leaves by floor and windscreen rather than by the vents.",
        graded("share of the air that goes elsewhere", "", [0.1, 1.0, 0.7]), 0.02 PRACTICE, cured by [MendAirDoors],
        not by [ReplaceBlowerMotor: "there was air enough, elsewhere"], needs [Cabin];
    DrainBlocked "drain_blocked" "Drain of the evaporator box blocked", AirDoors:
        "A share of the water off the coil stays in the box.",
        graded("share that stays", "", [0.1, 1.0, 1.0]), 0.02 PRACTICE, cured by [ClearDrain],
        not by [ReplaceCabinFilter: "the smell comes back with the water"], needs [];
}
