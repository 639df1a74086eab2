//! The names of all faults, in catalogue order.

use serde::{Deserialize, Serialize};

macro_rules! names {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {
        /// A fault of the catalogue. The names in files are the snake_case forms.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum FaultId { $($(#[$doc])* $name),* }

        impl FaultId {
            /// All faults in catalogue order.
            pub const ALL: [Self; Self::COUNT] = [$(Self::$name),*];
            /// Number of faults.
            pub const COUNT: usize = [$(stringify!($name)),*].len();
        }
    };
}

names! {
    // Air over the condenser.
    /// Condenser fan motor open circuit.
    CondenserFanMotorOpen,
    /// Condenser fan relay coil open circuit.
    CondenserFanRelayOpen,
    /// Condenser fan slow.
    CondenserFanSlow,
    /// Condenser fan fuse blown.
    CondenserFanFuseBlown,
    /// Condenser fan relay contact burnt.
    CondenserFanContactWorn,
    /// Condenser fan ground corroded.
    CondenserFanGroundBad,
    /// Condenser fan power stage dead.
    CondenserFanStageOpen,
    /// Condenser fan without high speed.
    FanHighSpeedMissing,
    /// Viscous fan coupling worn.
    ViscousCouplingWorn,
    /// Condenser fins blocked.
    CondenserFinsBlocked,
    /// Condenser fins corroded.
    CondenserFinsCorroded,
    /// Condenser air recirculation.
    #[serde(alias = "hot_air_recirculation")]
    CondenserAirRecirculation,
    /// Radiator clogged, engine hot.
    RadiatorClogged,

    // Amount and purity of the refrigerant, and how it gets away.
    /// Undercharge.
    Undercharge,
    /// Overcharge.
    Overcharge,
    /// Shaft seal leaks.
    LeakShaftSeal,
    /// Discharge hose leaks.
    LeakHose,
    /// Joint at the condenser leaks.
    LeakCondenserJoint,
    /// Evaporator leaks.
    LeakEvaporator,
    /// Service valve leaks.
    LeakServiceValve,
    /// Hose burst.
    HoseBurst,
    /// Air in the loop.
    AirInLoop,
    /// Water in the loop.
    Moisture,
    /// Desiccant saturated.
    DesiccantSaturated,
    /// Evacuated too briefly.
    PoorEvacuation,

    // Metering and restrictions.
    /// Expansion valve stuck open.
    TxvStuckOpen,
    /// Expansion valve stuck closed.
    TxvStuckClosed,
    /// Screen of the expansion valve clogged.
    TxvScreenClogged,
    /// Bulb of the expansion valve has lost its charge.
    BulbChargeLost,
    /// Bulb of the expansion valve loose.
    BulbLoose,
    /// Equaliser blocked.
    EqualiserBlocked,
    /// Orifice tube clogged.
    OrificeTubeClogged,
    /// Orifice tube missing or too wide.
    OrificeTubeTooWide,
    /// Electronic expansion valve jammed.
    ElectronicValveJammed,
    /// Electronic expansion valve open circuit.
    ElectronicValveOpen,
    /// Chiller valve open circuit.
    ChillerValveOpen,
    /// Discharge line or muffler restricted.
    #[serde(alias = "discharge_line_narrowed")]
    DischargeLineRestricted,
    /// Condenser blocked inside.
    CondenserBlockedInside,
    /// Drier clogged.
    DrierClogged,
    /// Liquid line kinked.
    LiquidLineKinked,
    /// Suction line collapsed inside.
    #[serde(alias = "suction_line_narrowed")]
    SuctionLineRestricted,
    /// Internal heat exchanger restricted.
    #[serde(alias = "exchanger_narrowed")]
    ExchangerRestricted,
    /// Internal heat exchanger fouled.
    ExchangerFouled,

    // The compressor, its belt and its clutch.
    /// Compressor leaking inside.
    CompressorLeak,
    /// Too little oil.
    LowOil,
    /// Too much oil.
    ExcessOil,
    /// Oil of the wrong kind.
    WrongOil,
    /// Compressor seized.
    CompressorSeized,
    /// Displacement stuck at least stroke.
    StrokeStuckLeast,
    /// Displacement stuck at full stroke.
    StrokeStuckFull,
    /// Displacement control valve open circuit.
    ControlValveOpen,
    /// Belt slips.
    BeltSlip,
    /// Clutch air gap too wide.
    ClutchGapWide,
    /// Clutch facing worn.
    ClutchFacingWorn,
    /// Clutch coil open circuit.
    ClutchCoilOpen,
    /// Clutch coil with bridged turns.
    ClutchCoilShorted,

    // Supply, relays, wiring, switches and sensors.
    /// Clutch diode shorted.
    ClutchDiodeShorted,
    /// Clutch diode open.
    ClutchDiodeOpen,
    /// Clutch fuse blown.
    ClutchFuseBlown,
    /// Clutch relay coil open circuit.
    ClutchRelayOpen,
    /// Clutch relay contact burnt.
    ClutchContactWorn,
    /// Clutch relay contact welded.
    ClutchContactWelded,
    /// Clutch ground corroded.
    ClutchGroundBad,
    /// Clutch plug corroded.
    ClutchPlugCorroded,
    /// Battery weak.
    BatteryWeak,
    /// Battery not charged.
    NotCharging,
    /// Control unit without supply.
    ControlUnitDead,
    /// Low-pressure switch never closes.
    LowPressureSwitchOpen,
    /// Low-pressure switch never opens.
    LowPressureSwitchClosed,
    /// High-pressure switch never closes.
    HighPressureSwitchOpen,
    /// High-pressure switch never opens.
    HighPressureSwitchClosed,
    /// Pressure sensor reads wrong.
    PressureSensorOff,
    /// Pressure sensor open circuit.
    PressureSensorOpen,
    /// Evaporator thermistor reads wrong.
    ThermistorOff,
    /// Evaporator thermistor open circuit.
    ThermistorOpen,
    /// Evaporator thermistor shorted.
    ThermistorShorted,
    /// Outlet thermistor reads wrong.
    OutletThermistorOff,
    /// A/C switch never closes.
    AcSwitchOpen,
    /// Throttle cut-out never closes.
    ThrottleCutoutOpen,
    /// Box thermostat reads wrong.
    BoxThermostatOff,
    /// Defrost clock stuck.
    DefrostClockStuck,

    // Air over the evaporator and the doors that mix and direct it.
    /// Cabin filter clogged.
    CabinFilterClogged,
    /// Evaporator fouled.
    EvaporatorFouled,
    /// Evaporator fins corroded.
    EvaporatorFinsCorroded,
    /// Blower motor open circuit.
    BlowerMotorOpen,
    /// Blower slow.
    BlowerSlow,
    /// Blower fuse blown.
    BlowerFuseBlown,
    /// Blower power module dead.
    BlowerModuleOpen,
    /// Blower resistor burnt through.
    BlowerResistorOpen,
    /// One evaporator fan dead.
    EvaporatorFanOpen,
    /// Blend door stuck towards warm.
    BlendDoorStuck,
    /// Fresh-air door stuck open.
    FreshAirDoorOpen,
    /// Mode door stuck.
    ModeDoorStuck,
    /// Drain of the evaporator box blocked.
    DrainBlocked,

    // Mains or traction side of a compressor with its own motor.
    /// Start capacitor weak.
    StartCapacitorWeak,
    /// Run capacitor weak.
    RunCapacitorWeak,
    /// Contact of the start relay stays open.
    StartRelayOpen,
    /// Start winding open circuit.
    StartWindingOpen,
    /// Overload stays open.
    OverloadOpen,
    /// Contactor coil open circuit.
    ContactorCoilOpen,
    /// Contactor contact burnt.
    ContactorContactWorn,
    /// Compressor fuse blown.
    CompressorFuseBlown,
    /// Interlock loop open.
    InterlockOpen,

    // What goes wrong with the tools themselves.
    /// Low gauge off its zero.
    LowGaugeOff,
    /// High gauge off its zero.
    HighGaugeOff,
    /// Valve of the high-side hose shut.
    HighHoseShut,
    /// Clamp thermometer badly seated.
    ClampBadlySeated,
}
