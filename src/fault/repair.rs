//! Repairs that a person can carry out, right or wrong, as data. What one cures is said by the faults
//! ([`FaultInfo::cures`](super::FaultInfo)); what else it does is its [`Deed`].

use serde::{Deserialize, Serialize};

use super::FaultId;
use crate::circuit::part;
use crate::rig::Rig;

/// What a repair does besides curing faults.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Deed {
    /// Nothing else: cleaning, fastening, adjusting.
    Service,
    /// A new part, without opening the loop.
    Part,
    /// A new part of the loop; recovered before, evacuated and charged by weight afterwards.
    LoopPart,
    /// A new compressor; recovered before, evacuated and charged by weight afterwards.
    Compressor,
    /// Recovered, evacuated, charged by weight.
    Recharge,
    /// A fifth of a full charge added without weighing.
    TopUp,
}

impl Deed {
    /// Does it put a new part in?
    pub fn is_part(self) -> bool {
        matches!(self, Self::Part | Self::LoopPart | Self::Compressor)
    }
    /// Does it end with the loop evacuated and charged by weight?
    pub fn recharges(self) -> bool {
        matches!(self, Self::LoopPart | Self::Compressor | Self::Recharge)
    }
}

/// What is known of a repair.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RepairInfo {
    /// Which repair.
    pub id: RepairId,
    /// Name in files and on the command line.
    pub key: &'static str,
    /// In words.
    pub words: &'static str,
    /// What it does besides curing faults.
    pub deed: Deed,
    /// Working time [min] (common practice, no source).
    pub minutes: f64,
    /// Cost of work and parts over that of an hour's work (common practice, no source).
    pub cost: f64,
    /// Caution at the work; empty where there is none beyond the usual.
    pub caution: &'static str,
}

impl RepairInfo {
    /// Hands go into guarded voltage for it.
    pub fn is_live(&self) -> bool {
        self.caution == LIVE
    }
}

const LOOP: &str =
    "refrigerant is recovered, never let out; goggles and gloves; oil of the kind on the label";
const LIVE: &str = "guarded voltage: isolate, lock, wait, prove dead before a hand goes in";
const TURNING: &str = "engine off, key out: belt and fans may start by themselves";
const HOT: &str = "hot parts and coolant: let the engine cool";
const FUSE: &str = "a fuse blew for a reason: look for it before the next one goes in, never a larger one";
const NONE: &str = "";

macro_rules! repairs {
    ($($id:ident $key:literal $words:literal $deed:ident $minutes:literal $cost:literal $caution:ident;)*) => {
        /// A repair.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum RepairId { $(#[doc = $words] $id),* }

        impl RepairId {
            /// All repairs.
            pub const ALL: [Self; [$($key),*].len()] = [$(Self::$id),*];
            /// What is known of it.
            pub fn info(self) -> &'static RepairInfo {
                const ROWS: &[RepairInfo] = &[$(RepairInfo {
                    id: RepairId::$id, key: $key, words: $words, deed: Deed::$deed,
                    minutes: $minutes, cost: $cost, caution: $caution,
                }),*];
                &ROWS[self as usize]
            }
        }
    };
}

repairs! {
    TopUp "top_up" "top up: add a fifth of the charge without weighing" TopUp 20.0 0.7 LOOP;
    RechargeByWeight "recharge_by_weight" "recover, evacuate, charge by weight" Recharge 75.0 1.6 LOOP;
    SetOil "set_oil" "flush, put in kind and amount of oil on the label, evacuate, charge by weight" Recharge 120.0 2.5 LOOP;
    MendJoints "mend_joints" "new seals at the leaking joint, evacuate, charge by weight" LoopPart 90.0 1.8 LOOP;
    MendServiceValve "mend_service_valve" "new core and cap in the service valve, evacuate, charge by weight" LoopPart 80.0 1.7 LOOP;
    ReplaceShaftSeal "replace_shaft_seal" "replace the shaft seal, evacuate, charge by weight" LoopPart 150.0 3.0 LOOP;
    ReplaceCompressor "replace_compressor" "replace the compressor, evacuate, charge by weight" Compressor 180.0 9.0 LOOP;
    ReplaceControlValve "replace_control_valve" "replace the displacement control valve, evacuate, charge by weight" LoopPart 120.0 3.0 LOOP;
    ReplaceCondenser "replace_condenser" "replace the condenser, evacuate, charge by weight" LoopPart 150.0 5.0 LOOP;
    ReplaceEvaporator "replace_evaporator" "replace the evaporator, evacuate, charge by weight" LoopPart 360.0 9.0 LOOP;
    ReplaceExpansionValve "replace_expansion_valve" "replace the expansion valve, evacuate, charge by weight" LoopPart 120.0 2.8 LOOP;
    ReplaceOrificeTube "replace_orifice_tube" "put in the proper orifice tube, evacuate, charge by weight" LoopPart 90.0 1.9 LOOP;
    ReplaceChillerValve "replace_chiller_valve" "replace the chiller's valve, evacuate, charge by weight" LoopPart 120.0 3.5 LOOP;
    ReplaceDrier "replace_drier" "replace the vessel with the desiccant, evacuate, charge by weight" LoopPart 100.0 2.3 LOOP;
    ReplaceDischargeLine "replace_discharge_line" "replace the discharge line, evacuate, charge by weight" LoopPart 110.0 2.6 LOOP;
    ReplaceLiquidLine "replace_liquid_line" "replace the liquid line, evacuate, charge by weight" LoopPart 110.0 2.4 LOOP;
    ReplaceSuctionLine "replace_suction_line" "replace the suction line, evacuate, charge by weight" LoopPart 110.0 2.6 LOOP;
    ReplaceExchanger "replace_exchanger" "replace the internal heat exchanger, evacuate, charge by weight" LoopPart 120.0 3.0 LOOP;
    FastenBulb "fasten_bulb" "clean the pipe, fasten and insulate the bulb" Service 30.0 0.5 NONE;
    CleanCondenser "clean_condenser" "clean the condenser face" Service 40.0 0.7 TURNING;
    FitCondenserSeals "fit_condenser_seals" "fit the seals round the condenser" Service 30.0 0.7 TURNING;
    ReplaceRadiator "replace_radiator" "replace the radiator" Part 150.0 5.0 HOT;
    ReplaceViscousCoupling "replace_viscous_coupling" "replace the viscous coupling" Part 60.0 2.8 TURNING;
    ReplaceFanMotor "replace_fan_motor" "replace the condenser fan motor" Part 60.0 2.5 TURNING;
    ReplaceFanRelay "replace_fan_relay" "replace the fan relay" Part 15.0 0.5 NONE;
    ReplaceFanFuse "replace_fan_fuse" "replace the fan fuse" Part 10.0 0.2 FUSE;
    ReplaceFanStage "replace_fan_stage" "replace the power stage of the fan" Part 40.0 3.0 TURNING;
    ReplaceFanSwitch "replace_fan_switch" "replace the medium-pressure switch" Part 30.0 0.9 LOOP;
    ReplaceBelt "replace_belt" "replace and tension the belt" Part 40.0 1.2 TURNING;
    SetClutchGap "set_clutch_gap" "set the clutch's air gap with shims" Service 50.0 0.9 TURNING;
    ReplaceClutch "replace_clutch" "replace clutch plate and pulley" Part 90.0 3.5 TURNING;
    ReplaceClutchCoil "replace_clutch_coil" "replace the clutch coil" Part 100.0 2.6 TURNING;
    ReplaceClutchRelay "replace_clutch_relay" "replace the clutch relay" Part 15.0 0.5 NONE;
    ReplaceClutchFuse "replace_clutch_fuse" "replace the clutch fuse" Part 10.0 0.2 FUSE;
    ReplaceClutchDiode "replace_clutch_diode" "replace the diode across the clutch coil" Part 30.0 0.6 NONE;
    MendGrounds "mend_grounds" "clean and fasten the grounds" Service 40.0 0.7 NONE;
    MendWiring "mend_wiring" "mend plug or wire" Service 50.0 0.9 NONE;
    ReplaceBattery "replace_battery" "replace the battery" Part 20.0 2.0 NONE;
    ReplaceAlternator "replace_alternator" "replace the alternator (converter)" Part 80.0 5.0 TURNING;
    ReplaceLowPressureSwitch "replace_low_pressure_switch" "replace the low-pressure switch (dual, cycling)" Part 30.0 0.9 LOOP;
    ReplaceHighPressureSwitch "replace_high_pressure_switch" "replace the high-pressure switch" Part 30.0 0.9 LOOP;
    ReplacePressureSensor "replace_pressure_sensor" "replace the pressure sensor" Part 30.0 1.3 LOOP;
    ReplaceThermostat "replace_thermostat" "replace the evaporator's thermistor (with its amplifier)" Part 60.0 1.4 NONE;
    ReplaceOutletThermistor "replace_outlet_thermistor" "replace the outlet thermistor" Part 30.0 0.9 NONE;
    ReplaceAcSwitch "replace_ac_switch" "replace the A/C (control) switch" Part 40.0 1.2 NONE;
    ReplaceThrottleCutout "replace_throttle_cutout" "replace the throttle cut-out" Part 30.0 0.9 NONE;
    ReplaceBoxThermostat "replace_box_thermostat" "replace the box thermostat" Part 40.0 1.2 LIVE;
    ReplaceDefrostClock "replace_defrost_clock" "replace the defrost clock" Part 40.0 1.4 LIVE;
    ReplaceCabinFilter "replace_cabin_filter" "replace the cabin filter" Part 15.0 0.6 NONE;
    CleanEvaporator "clean_evaporator" "clean the evaporator" Service 60.0 1.0 NONE;
    ReplaceBlowerMotor "replace_blower_motor" "replace the blower motor" Part 60.0 2.4 NONE;
    ReplaceBlowerControl "replace_blower_control" "replace the blower's power module or resistor card" Part 40.0 1.4 NONE;
    ReplaceBlowerFuse "replace_blower_fuse" "replace the blower fuse" Part 10.0 0.2 FUSE;
    ReplaceEvaporatorFan "replace_evaporator_fan" "replace the dead evaporator fan" Part 50.0 1.8 LIVE;
    MendAirDoors "mend_air_doors" "mend the door, its linkage or its actuator" Service 90.0 1.8 NONE;
    ClearDrain "clear_drain" "clear the drain" Service 20.0 0.4 NONE;
    ReplaceStartCapacitor "replace_start_capacitor" "replace the start capacitor" Part 25.0 0.8 LIVE;
    ReplaceRunCapacitor "replace_run_capacitor" "replace the run capacitor" Part 25.0 0.8 LIVE;
    ReplaceStartRelay "replace_start_relay" "replace the start relay" Part 25.0 0.8 LIVE;
    ReplaceOverload "replace_overload" "replace the overload" Part 25.0 0.8 LIVE;
    ReplaceContactor "replace_contactor" "replace the contactor" Part 40.0 1.4 LIVE;
    ReplaceCompressorFuse "replace_compressor_fuse" "replace the compressor's fuse" Part 30.0 0.6 LIVE;
    ZeroGauges "zero_gauges" "set both gauges to zero, open to the air" Service 5.0 0.1 NONE;
    OpenHoseValve "open_hose_valve" "open the coupler of the high-side hose" Service 2.0 0.1 LOOP;
    SeatClamp "seat_clamp" "clean the pipe, seat and insulate the clamp" Service 5.0 0.1 NONE;
}

/// Share of a full charge that a top-up adds.
pub const TOP_UP_SHARE: f64 = 0.2;

impl RepairId {
    /// Find a repair by its key.
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|id| id.info().key == key)
    }
    /// Is it done to gauges and thermometers, not to the rig?
    pub fn is_on_tools(self) -> bool {
        matches!(self, Self::ZeroGauges | Self::OpenHoseValve | Self::SeatClamp)
    }
    /// Faults that it cures, in catalogue order.
    pub fn cures(self) -> impl Iterator<Item = FaultId> {
        FaultId::ALL.into_iter().filter(move |id| id.info().cures.contains(&self))
    }
    /// Fuses that it renews, as far as a rig has them.
    pub fn fuses(self) -> &'static [&'static str] {
        match self {
            Self::ReplaceFanFuse => &[part::FAN_FUSE],
            Self::ReplaceClutchFuse => &[part::CLUTCH_FUSE, part::AC_FUSE],
            Self::ReplaceBlowerFuse => &[part::BLOWER_FUSE],
            Self::ReplaceCompressorFuse => &[part::COMPRESSOR_FUSE, part::MAIN_FUSE, part::CONTROL_FUSE],
            _ => &[],
        }
    }
    /// Is there anything on this rig to do it to? A repair that cures no fault that the rig can have has no object.
    pub fn applies_to(self, rig: &Rig) -> bool {
        self == Self::TopUp || self.cures().any(|id| id.info().applies_to(rig))
    }
}
