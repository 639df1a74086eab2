//! Supply, relays, wiring, switches and sensors.

pub(super) mod motor;

use super::{PLAIN, graded, rows};
use crate::fault::needs::Need::{ClutchWiring, ColdRoom, Thermistor};

rows! {
    ClutchDiodeShorted "clutch_diode_shorted" "Clutch diode shorted", Electrical:
        "The diode across the clutch coil becomes a bridge, so its fuse melts.",
        PLAIN, 0.01 CLAIMS, cured by [ReplaceClutchDiode],
        not by [ReplaceClutchFuse: "the new fuse melts as well",
                ReplaceClutchCoil: "the coil was good"], needs [];
    ClutchDiodeOpen "clutch_diode_open" "Clutch diode open", Electrical:
        "The diode across the clutch coil no longer takes its kick; no meter shows that at rest.",
        PLAIN, 0.005 CLAIMS, cured by [ReplaceClutchDiode],
        not by [ReplaceClutchRelay: "the next contact burns sooner"], needs [];
    ClutchFuseBlown "clutch_fuse_blown" "Clutch fuse blown", Electrical:
        "The resistance of the clutch fuse becomes very large.",
        PLAIN, 0.03 CLAIMS, cured by [ReplaceClutchFuse],
        not by [ReplaceClutchCoil: "the new coil gets no volts either"], needs [];
    ClutchRelayOpen "clutch_relay_open" "Clutch relay coil open circuit", Electrical:
        "The resistance of the clutch relay's coil becomes very large, so its contact never closes.",
        PLAIN, 0.04 CLAIMS, cured by [ReplaceClutchRelay],
        not by [ReplaceClutchCoil: "the new coil gets no volts either"], needs [];
    ClutchContactWorn "clutch_contact_worn" "Clutch relay contact burnt", Electrical:
        "The contact of the clutch relay gains resistance, so the clutch coil gets fewer volts.",
        graded("resistance of the contact", "ohm", [0.1, 50.0, 5.0]), 0.03 CLAIMS, cured by [ReplaceClutchRelay],
        not by [ReplaceClutchCoil: "the new coil gets as few volts"], needs [ClutchWiring];
    ClutchContactWelded "clutch_contact_welded" "Clutch relay contact welded", Electrical:
        "The contact of the clutch relay stays closed, whatever switches say.",
        PLAIN, 0.01 CLAIMS, cured by [ReplaceClutchRelay],
        not by [ReplaceThermostat: "a good thermostat is not asked"], needs [ClutchWiring];
    ClutchGroundBad "clutch_ground_bad" "Clutch ground corroded", Electrical:
        "The ground of the clutch coil gains resistance, so part of the volts is lost behind it.",
        graded("resistance of the ground", "ohm", [0.1, 50.0, 5.0]), 0.03 CLAIMS, cured by [MendGrounds],
        not by [ReplaceClutchCoil: "the new coil gets as few volts",
                ReplaceClutchRelay: "the volts ahead of the coil were good"], needs [];
    ClutchPlugCorroded "clutch_plug_corroded" "Clutch plug corroded", Electrical:
        "The wire to the clutch gains resistance at its plug, so the clutch coil gets fewer volts.",
        graded("resistance of the plug", "ohm", [0.1, 50.0, 5.0]), 0.03 CLAIMS, cured by [MendWiring],
        not by [ReplaceClutchRelay: "the volts behind the relay were good"], needs [];
    BatteryWeak "battery_weak" "Battery weak", Electrical:
        "The battery has lost a share of its charge: fewer volts behind more resistance while it is not charged.",
        graded("share of the charge lost", "", [0.1, 1.0, 0.6]), 0.02 CLAIMS, cured by [ReplaceBattery],
        not by [ReplaceAlternator: "a flat battery stays old"], needs [];
    NotCharging "not_charging" "Battery not charged", Electrical:
        "The alternator (the converter of an electric vehicle) gives nothing, so all loads hang on the battery alone.",
        PLAIN, 0.02 CLAIMS, cured by [ReplaceAlternator],
        not by [ReplaceBattery: "the new one runs flat as well"], needs [];
    ControlUnitDead "control_unit_dead" "Control unit without supply", Electrical:
        "The supply wire of the control unit becomes very large, so all its outputs fall to rest.",
        PLAIN, 0.02 CLAIMS, cured by [MendWiring],
        not by [ReplaceControlValve: "nobody drives the new one either"], needs [];
    LowPressureSwitchOpen "low_pressure_switch_open" "Low-pressure switch never closes", Controls:
        "The low-pressure (dual, cycling) switch stays open at any pressure.",
        PLAIN, 0.03 CLAIMS, cured by [ReplaceLowPressureSwitch],
        not by [TopUp: "overfull, and still dead", ReplaceClutchRelay: "nobody calls the relay"], needs [];
    LowPressureSwitchClosed "low_pressure_switch_closed" "Low-pressure switch never opens", Controls:
        "The low-pressure (dual, cycling) switch stays closed at any pressure, so nothing stops an empty loop.",
        PLAIN, 0.01 PRACTICE, cured by [ReplaceLowPressureSwitch],
        not by [ReplaceCompressor: "the next one runs dry as well"], needs [];
    HighPressureSwitchOpen "high_pressure_switch_open" "High-pressure switch never closes", Controls:
        "The high-pressure switch stays open at any pressure.",
        PLAIN, 0.02 CLAIMS, cured by [ReplaceHighPressureSwitch],
        not by [TopUp: "overfull, and still dead"], needs [];
    HighPressureSwitchClosed "high_pressure_switch_closed" "High-pressure switch never opens", Controls:
        "The high-pressure switch stays closed at any pressure, so only the relief valve is left.",
        PLAIN, 0.005 PRACTICE, cured by [ReplaceHighPressureSwitch],
        not by [CleanCondenser: "the switch stays as it is"], needs [];
    PressureSensorOff "pressure_sensor_off" "Pressure sensor reads wrong", Controls:
        "The high-side pressure sensor reads so much more than there is.",
        graded("offset", "bar", [-15.0, 15.0, 8.0]), 0.02 PRACTICE, cured by [ReplacePressureSensor],
        not by [RechargeByWeight: "gauges were right all along"], needs [];
    PressureSensorOpen "pressure_sensor_open" "Pressure sensor open circuit", Controls:
        "The high-side pressure sensor gives no signal.",
        PLAIN, 0.03 CLAIMS, cured by [ReplacePressureSensor],
        not by [TopUp: "overfull, and still dead"], needs [];
    ThermistorOff "thermistor_off" "Evaporator thermistor reads wrong", Controls:
        "What feels the evaporator's fins reads so much warmer than they are (colder where negative).",
        graded("offset", "K", [-15.0, 15.0, -10.0]), 0.02 PRACTICE, cured by [ReplaceThermostat],
        not by [TopUp: "short running is not a lack of refrigerant here"], needs [Thermistor];
    ThermistorOpen "thermistor_open" "Evaporator thermistor open circuit", Controls:
        "The evaporator's thermistor becomes very large and reads as deep frost.",
        PLAIN, 0.02 CLAIMS, cured by [ReplaceThermostat],
        not by [ReplaceClutchRelay: "nobody calls the relay"], needs [Thermistor];
    ThermistorShorted "thermistor_shorted" "Evaporator thermistor shorted", Controls:
        "The evaporator's thermistor is bridged and reads as heat, so nothing keeps the coil from freezing.",
        PLAIN, 0.01 CLAIMS, cured by [ReplaceThermostat],
        not by [ReplaceExpansionValve: "the coil freezes up as well"], needs [Thermistor];
    OutletThermistorOff "outlet_thermistor_off" "Outlet thermistor reads wrong", Controls:
        "The thermistor behind the evaporator reads so much warmer than the pipe is (colder where negative).",
        graded("offset", "K", [-15.0, 15.0, 8.0]), 0.02 PRACTICE, cured by [ReplaceOutletThermistor],
        not by [ReplaceExpansionValve: "the new one is told the same"], needs [];
    AcSwitchOpen "ac_switch_open" "A/C switch never closes", Controls:
        "The contact of the A/C (control) switch stays open.",
        PLAIN, 0.02 CLAIMS, cured by [ReplaceAcSwitch],
        not by [ReplaceClutchRelay: "nobody calls the relay"], needs [];
    ThrottleCutoutOpen "throttle_cutout_open" "Throttle cut-out never closes", Controls:
        "The throttle cut-out stays open as if the pedal were on the floor.",
        PLAIN, 0.02 PRACTICE, cured by [ReplaceThrottleCutout],
        not by [ReplaceClutchRelay: "nobody calls the relay"], needs [];
    BoxThermostatOff "box_thermostat_off" "Box thermostat reads wrong", Controls:
        "The thermostat of the cold room reads so much warmer than it is (colder where negative).",
        graded("offset", "K", [-15.0, 15.0, -5.0]), 0.03 PRACTICE, cured by [ReplaceBoxThermostat],
        not by [TopUp: "the machine stands because it is told to"], needs [ColdRoom];
    DefrostClockStuck "defrost_clock_stuck" "Defrost clock stuck", Controls:
        "The contact of the defrost clock stays closed, so frost is never given time to melt.",
        PLAIN, 0.03 PRACTICE, cured by [ReplaceDefrostClock],
        not by [TopUp: "the low side falls because of ice"], needs [];
}
