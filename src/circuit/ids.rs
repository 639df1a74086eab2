//! Names of parts and points that code asks for by name. A rig's `circuit.ron` may have them or not; whatever else it
//! names is its own affair.

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident $id:literal;)*) => {
        $($(#[$doc])* pub const $name: &str = $id;)*
        /// All of them.
        pub const ALL: &[&str] = &[$($name),*];
    };
}

/// Parts and supplies that faults change and repairs renew.
pub mod part {
    ids! {
        /// Fuse of the A/C feed.
        AC_FUSE "ac_fuse";
        /// A/C button.
        AC_SWITCH "ac_switch";
        /// The charging of the 12 V battery, which is no part of its own.
        ALTERNATOR "alternator";
        /// The 12 V battery, a supply.
        BATTERY "battery";
        /// Fuse of the blower.
        BLOWER_FUSE "blower_fuse";
        /// Power module of the blower.
        BLOWER_MODULE "blower_module";
        /// Motor of the blower.
        BLOWER_MOTOR "blower_motor";
        /// Third resistor of the blower's resistor card.
        CARD_RESISTOR_3 "card_resistor_3";
        /// Solenoid valve of the chiller.
        CHILLER_VALVE "chiller_valve";
        /// The magnetic clutch with its coil.
        CLUTCH_COIL "clutch_coil";
        /// Diode across the clutch coil.
        CLUTCH_DIODE "clutch_diode";
        /// Fuse of the clutch.
        CLUTCH_FUSE "clutch_fuse";
        /// Ground of the clutch.
        CLUTCH_GROUND "clutch_ground";
        /// Coil of the clutch relay.
        CLUTCH_RELAY_COIL "clutch_relay_coil";
        /// Contact of the clutch relay.
        CLUTCH_RELAY_CONTACT "clutch_relay_contact";
        /// Wire to the clutch, through its plug.
        CLUTCH_WIRE "clutch_wire";
        /// Fuse of an electric or hermetic compressor.
        COMPRESSOR_FUSE "compressor_fuse";
        /// Fan of a stationary condenser.
        CONDENSER_FAN "condenser_fan";
        /// Coil of the compressor's contactor.
        CONTACTOR_COIL "contactor_coil";
        /// Contact of the compressor's contactor.
        CONTACTOR_CONTACT "contactor_contact";
        /// Coil of the contactor in the plus line of traction voltage.
        CONTACTOR_PLUS_COIL "contactor_plus_coil";
        /// Contact of the contactor in the plus line of traction voltage.
        CONTACTOR_PLUS_CONTACT "contactor_plus_contact";
        /// Fuse of the control circuit of a cold room.
        CONTROL_FUSE "control_fuse";
        /// Control switch of a cold room.
        CONTROL_SWITCH "control_switch";
        /// Control valve of a variable compressor.
        CONTROL_VALVE "control_valve";
        /// Pressure switch on the accumulator that cycles the clutch.
        CYCLING_SWITCH "cycling_switch";
        /// Defrost clock of a cold room.
        DEFROST_CLOCK "defrost_clock";
        /// First fan of a cold room's evaporator.
        EVAPORATOR_FAN_1 "evaporator_fan_1";
        /// Thermistor in the evaporator's fins.
        EVAPORATOR_THERMISTOR "evaporator_thermistor";
        /// Electronic expansion valve.
        EXPANSION_VALVE "expansion_valve";
        /// Fuse of the condenser fan.
        FAN_FUSE "fan_fuse";
        /// Ground of the condenser fan.
        FAN_GROUND "fan_ground";
        /// Motor of the condenser fan.
        FAN_MOTOR "fan_motor";
        /// Coil of the fan relay.
        FAN_RELAY_COIL "fan_relay_coil";
        /// Contact of the fan relay.
        FAN_RELAY_CONTACT "fan_relay_contact";
        /// Power stage of the condenser fan.
        FAN_STAGE "fan_stage";
        /// High-pressure control of a cold room.
        HIGH_CONTROL "high_control";
        /// High-pressure cut-out.
        HIGH_CUTOUT "high_cutout";
        /// High-side pressure sensor.
        HIGH_SENSOR "high_sensor";
        /// Interlock loop through the compressor's plug.
        INTERLOCK_COMPRESSOR "interlock_compressor";
        /// Low-pressure control of a cold room.
        LOW_CONTROL "low_control";
        /// Main fuse of a cold room or of traction voltage.
        MAIN_FUSE "main_fuse";
        /// Medium-pressure switch that asks for the fan's high speed.
        MEDIUM_SWITCH "medium_switch";
        /// Thermistor at the evaporator's outlet.
        OUTLET_THERMISTOR "outlet_thermistor";
        /// Overload of a hermetic compressor.
        OVERLOAD "overload";
        /// Pressure sensor on the high side.
        PRESSURE_SENSOR "pressure_sensor";
        /// Pressure switch with a low and a high contact.
        PRESSURE_SWITCH "pressure_switch";
        /// Run capacitor of a hermetic compressor.
        RUN_CAPACITOR "run_capacitor";
        /// Start capacitor of a hermetic compressor.
        START_CAPACITOR "start_capacitor";
        /// Contact of the start relay.
        START_RELAY_CONTACT "start_relay_contact";
        /// Start winding of a hermetic compressor.
        START_WINDING "start_winding";
        /// Thermostat: of a cold room's air, or the amplifier behind a thermistor in the fins.
        THERMOSTAT "thermostat";
        /// Switch that lets the clutch go at full throttle.
        THROTTLE_CUTOUT "throttle_cutout";
        /// Feed of the control unit.
        UNIT_WIRE "unit_wire";
    }
}

/// Points that leads and senses go to. `ground` is [`GROUND`](super::spec::GROUND), which every rig has.
pub mod point {
    ids! {
        /// Behind the A/C button.
        AC_SWITCH_OUT "ac_switch_out";
        /// Plus pole of the 12 V battery.
        BATTERY_PLUS "battery_plus";
        /// Contact of the clutch relay, feed (30 as in DIN 72552).
        CLUTCH_RELAY_30 "clutch_relay_30";
        /// Contact of the clutch relay, to the clutch (87).
        CLUTCH_RELAY_87 "clutch_relay_87";
        /// Contact of the fan relay, feed (30).
        FAN_RELAY_30 "fan_relay_30";
        /// Contact of the fan relay, to the fan (87).
        FAN_RELAY_87 "fan_relay_87";
    }
}
