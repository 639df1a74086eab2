//! What can be seen of a bench at one tick. The inside is handed out only when asked for by someone
//! who may see it; a learner's window gets the outside alone.

use super::bay_faces::BayFace;
use super::repairs::RepairDone;
use crate::bench::action::{Relay, Standing};
use crate::bench::electrics::Electrics;
use crate::circuit::Guard;
use crate::fault::{Fault, Group};
use crate::instrument::{MeterRange, Probe, Reading};
use crate::knobs::{Controls, Fits};
use crate::perceive::Perceived;
use crate::plant::{Drive, Metering, PlantSpec};

/// One moment of a bench.
#[derive(Clone, Debug)]
pub struct Snapshot {
    /// Tick number (50 ms each).
    pub tick: u64,
    /// Time since the scenario began [s].
    pub time_s: f64,
    /// Knobs as they stand.
    pub controls: Controls,
    /// Which parts the loop has.
    pub topology: Topology,
    /// What eyes and hands notice without a tool.
    pub outside: Outside,
    /// What a person without tools gets; it needs no leave to look inside.
    pub perceived: Perceived,
    /// Instrument faces.
    pub instruments: Instruments,
    /// The service bay, in a scenario that has one.
    pub bay: Option<BayFace>,
    /// True states; `None` unless the viewer may look inside.
    pub inside: Option<Inside>,
}

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

/// A vessel: how far it is full, and the state of what leaves it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct VesselState {
    /// Share of its volume filled with liquid.
    pub level: f64,
    /// State and flow of what leaves.
    pub point: PointState,
}

/// The internal heat exchanger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ExchangerState {
    /// Liquid side in flow order.
    pub liquid: Vec<CellState>,
    /// Vapour side in flow order.
    pub vapour: Vec<CellState>,
    /// Heat from liquid to vapour [W].
    pub heat_w: f64,
}

/// The chiller branch.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChillerState {
    /// Cells in flow order.
    pub cells: Vec<CellState>,
    /// Coolant [K].
    pub coolant_t_k: f64,
    /// Heat into the refrigerant [W].
    pub heat_w: f64,
}

/// What anybody at the car can notice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// Engine speed [rev/min]; 0 when stopped.
    pub engine_rpm: f64,
    /// The clutch plate turns with the pulley.
    pub clutch_engaged: bool,
    /// Condenser fan speed [% of full].
    pub fan_speed_pct: f64,
    /// Blower speed [% of full].
    pub blower_pct: f64,
}

/// Faces of the instruments on the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct Instruments {
    /// Hoses are fitted.
    pub hoses_fitted: bool,
    /// Low gauge needle [Pa gauge], with the gauge's own lag and flutter.
    pub low_gauge_pa: f64,
    /// High gauge needle [Pa gauge].
    pub high_gauge_pa: f64,
    /// Hand valve, low side [% open].
    pub manifold_low_pct: f64,
    /// Hand valve, high side [% open].
    pub manifold_high_pct: f64,
    /// Jumper lead in place.
    pub jumper: Option<Relay>,
    /// Jumper fuse has blown.
    pub jumper_fuse_blown: bool,
    /// Tools in place now and what they show (SI), one of each kind.
    pub placed: Vec<(Probe, f64)>,
    /// The notebook.
    pub notebook: Vec<Reading>,
    /// Suspect cards.
    pub suspects: Vec<(Group, Standing)>,
    /// Repairs so far.
    pub repairs: Vec<RepairDone>,
    /// Good parts that were replaced.
    pub parts_replaced: usize,
    /// Electrical tools, and what hands have done to the circuit.
    pub electrical: ElectricalFaces,
}

/// Faces of the electrical tools. What meter, lamp and clamp show stands in [`Instruments::placed`] as well.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ElectricalFaces {
    /// Range of the multimeter for volts.
    pub meter_range: MeterRange,
    /// The relative key is on.
    pub meter_relative: bool,
    /// The fuse of its ampere socket has blown: it shows zero until `RenewFuse("meter")`.
    pub meter_fuse_blown: bool,
    /// It was tried on a known source within the last ten minutes.
    pub meter_proven: bool,
    /// It sounds (continuity, less than 30 ohm).
    pub meter_sounds: bool,
    /// The clamp has been zeroed.
    pub clamp_zeroed: bool,
    /// What the reader shows; none while it is not plugged in.
    pub reader: Option<ReaderFace>,
    /// Jumper, plugs, relays, isolators, proving, mistakes and unsafe acts as they stand.
    pub done: Electrics,
    /// Names of all connectors that can be unplugged.
    pub connectors: Vec<String>,
    /// Fuses of the rig by part id and name.
    pub fuses: Vec<(String, String)>,
    /// Relays of the rig.
    pub relays: Vec<String>,
    /// Parts that a clamp fits round, by id and name.
    pub parts: Vec<(String, String)>,
    /// Guards of the rig that can be isolated.
    pub guards: Vec<Guard>,
}

/// A reader's screen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ReaderFace {
    /// Control unit id, value id, name, value (none where its signal makes no sense) and unit.
    pub values: Vec<(String, String, String, Option<f64>, String)>,
    /// Control unit id, what the code says, whether it is present now.
    pub codes: Vec<(String, String, bool)>,
}

/// One of the six numbered state points.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PointState {
    /// Refrigerant pressure (partial pressure where air is mixed in) [Pa absolute].
    pub p_pa: f64,
    /// Total pressure a gauge would feel [Pa absolute].
    pub p_total_pa: f64,
    /// Enthalpy of the flow [J/kg].
    pub h_j_per_kg: f64,
    /// Temperature [K].
    pub t_k: f64,
    /// Vapour mass share of the flow; NaN in a single phase.
    pub x: f64,
    /// Vapour volume share in place, 0 to 1.
    pub void_fraction: f64,
    /// Mass flow through the point, positive round the loop [kg/s].
    pub flow_kg_s: f64,
}

/// One cell of a heat exchanger.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CellState {
    /// State of the refrigerant in the cell, as it leaves it.
    pub point: PointState,
    /// Wall temperature [K].
    pub wall_t_k: f64,
    /// Heat from wall into refrigerant [W].
    pub heat_w: f64,
}

/// The true state of everything.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Inside {
    /// Points 1 to 6.
    pub points: [PointState; 6],
    /// Condenser cells in flow order, the subcooling pass (after the receiver) last.
    pub condenser: Vec<CellState>,
    /// How many of `condenser` come before the receiver.
    pub condenser_main_cells: usize,
    /// Evaporator cells in flow order.
    pub evaporator: Vec<CellState>,
    /// Receiver: share of its volume filled with liquid; 0 without one.
    pub receiver_level: f64,
    /// State in the receiver; all zero without one.
    pub receiver: PointState,
    /// Accumulator, where there is one.
    pub accumulator: Option<VesselState>,
    /// Internal heat exchanger, where there is one.
    pub exchanger: Option<ExchangerState>,
    /// Chiller branch, where there is one.
    pub chiller: Option<ChillerState>,
    /// Bubble share in the sight glass (liquid line), 0 to 1.
    pub sight_glass_bubbles: f64,
    /// Valve opening, share of full lift (above 1 when stuck beyond it).
    pub valve_lift: f64,
    /// Pressures on the valve diaphragm [Pa]: bulb (opens), evaporator (closes), spring (closes).
    pub valve_bulb_pa: f64,
    /// Closing pressure under the diaphragm [Pa].
    pub valve_evaporator_pa: f64,
    /// Spring force as pressure [Pa].
    pub valve_spring_pa: f64,
    /// Bulb temperature [K].
    pub bulb_t_k: f64,
    /// Mass flow through the compressor [kg/s].
    pub m_compressor_kg_s: f64,
    /// Mass flow through the expansion valve [kg/s].
    pub m_metering_kg_s: f64,
    /// Heat out of the refrigerant in the condenser [W].
    pub q_condenser_w: f64,
    /// Heat into the refrigerant in the evaporator [W].
    pub q_evaporator_w: f64,
    /// Shaft work into the refrigerant [W].
    pub w_compressor_w: f64,
    /// Heat into the refrigerant from lines, hoses, receiver and shell [W].
    pub q_other_w: f64,
    /// Superheat at point 6 [K].
    pub superheat_k: f64,
    /// Subcooling at point 4 [K].
    pub subcooling_k: f64,
    /// True gauge pressure where the low gauge sits [Pa].
    pub gauge_low_pa: f64,
    /// True gauge pressure where the high gauge sits [Pa].
    pub gauge_high_pa: f64,
    /// Compressor speed [rev/min]; 0 with the clutch out.
    pub compressor_rpm: f64,
    /// Refrigerant in loop and hoses [kg].
    pub charge_kg: f64,
    /// Refrigerant let out so far [kg].
    pub released_kg: f64,
    /// Refrigerant put in by service since the start, negative when taken out [kg].
    pub serviced_kg: f64,
    /// Air in loop and hoses [kg].
    pub air_kg: f64,
    /// Air off the vents [K].
    pub vent_t_k: f64,
    /// Cabin air [K].
    pub cabin_t_k: f64,
    /// Outside air [K].
    pub ambient_t_k: f64,
    /// Air on the condenser: outside air and what comes round again [K].
    pub condenser_air_on_t_k: f64,
    /// Air off the condenser [K].
    pub condenser_air_off_t_k: f64,
    /// Air mass flow over the condenser [kg/s].
    pub condenser_air_kg_s: f64,
    /// Condensate forming on the evaporator [kg/s].
    pub condensate_kg_s: f64,
    /// Air mass flow through the evaporator [kg/s].
    pub evaporator_air_kg_s: f64,
    /// Body of the compressor [K].
    pub shell_t_k: f64,
    /// Friction of the compressor [W].
    pub friction_w: f64,
    /// Wear of its bearings; 1 is seized.
    pub compressor_wear: f64,
    /// Damage to its reeds by liquid, 0 to 1.
    pub reeds_battered: f64,
    /// Oil in its sump [kg].
    pub oil_sump_kg: f64,
    /// Oil in the whole loop [kg].
    pub oil_kg: f64,
    /// Refrigerant dissolved in the sump's oil [kg].
    pub dissolved_kg: f64,
    /// Water in the whole loop [kg].
    pub water_kg: f64,
    /// Water bound by the desiccant [kg].
    pub water_bound_kg: f64,
    /// Ice in the expansion valve [kg].
    pub valve_ice_kg: f64,
    /// Water clinging to the evaporator [kg].
    pub coil_water_kg: f64,
    /// Frost on the evaporator [kg].
    pub coil_frost_kg: f64,
    /// Water run out of the drain so far [kg].
    pub drained_kg: f64,
    /// Engine and coolant [K].
    pub engine_t_k: f64,
    /// Air and metal under the bonnet [K].
    pub bay_t_k: f64,
    /// Circuit points with their volts against battery minus, in the order of the rig.
    pub volts: Vec<(String, f64)>,
    /// Faults present.
    pub faults: Vec<Fault>,
}
