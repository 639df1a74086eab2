//! The true state of everything, for who may look inside.

use crate::fault::Fault;

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
