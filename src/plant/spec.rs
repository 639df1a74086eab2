//! What `loop.ron` says of a loop: its parts as built.

use serde::{Deserialize, Serialize};

use super::cabin::CabinSpec;
use super::compressor::CompressorSpec;
use super::condenser_air::CondenserAirSpec;
use super::engine_bay::EngineBaySpec;
use super::metering::{ElectronicSpec, Metering};
use super::shell::ShellSpec;
use super::wall_films::{CoilWallSpec, PipeWallSpec};

/// A pipe, hose or vessel with a wall that faces the surroundings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PipeSpec {
    /// Internal volume [m3].
    pub volume_m3: f64,
    /// Wall and film.
    pub wall: PipeWallSpec,
    /// Conductance wall to the air around it [W/K].
    pub outside_w_k: f64,
    /// Share of that air that is air of the engine bay; the rest is outside air.
    #[serde(default)]
    pub engine_bay_share: f64,
}

/// A coil split into equal cells in flow order.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoilSpec {
    /// Number of cells.
    pub cells: usize,
    /// Internal volume of all cells [m3].
    pub volume_m3: f64,
    /// Channels and wall of all cells together.
    pub wall: CoilWallSpec,
    /// Flow constant of the whole pass [m2].
    pub flow_m2: f64,
}

/// An accumulator: a vessel in the suction line that keeps liquid back and gives vapour away from its top.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AccumulatorSpec {
    /// The vessel.
    pub vessel: PipeSpec,
    /// Liquid drawn through the oil bleed hole, share of the outflow by mass.
    pub bleed: f64,
}

/// An internal heat exchanger: liquid on its way to the metering warms vapour on its way to the compressor, in
/// counterflow, cell by cell.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExchangerSpec {
    /// Liquid side.
    pub liquid: CoilSpec,
    /// Vapour side; as many cells.
    pub vapour: CoilSpec,
    /// Conductance between both walls altogether [W/K].
    pub conductance_w_k: f64,
}

/// A chiller: a second evaporator beside the first that cools a coolant.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChillerSpec {
    /// Refrigerant side.
    pub coil: CoilSpec,
    /// Its expansion valve.
    pub valve: ElectronicSpec,
    /// Conductance between walls and coolant altogether, pump running [W/K].
    pub coolant_w_k: f64,
    /// Heat capacity of coolant and battery [J/K].
    pub coolant_j_k: f64,
}

/// The loop of a rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlantSpec {
    /// Refrigerant by name.
    pub refrigerant: String,
    /// Full charge [kg].
    pub full_charge_kg: f64,
    /// Flow the films of pipes and vessels are stated at [kg/s].
    pub design_flow_kg_s: f64,
    /// Compressor.
    pub compressor: CompressorSpec,
    /// Its body.
    pub shell: ShellSpec,
    /// Oil.
    pub oil: OilSpec,
    /// Desiccant, and ice at the valve.
    pub water: WaterSpec,
    /// Metering device.
    pub metering: Metering,
    /// Condenser face.
    pub condenser_air: CondenserAirSpec,
    /// Share of the condenser face in front of the subcooling pass; none without one.
    #[serde(default)]
    pub subcooler_face: f64,
    /// Engine, radiator and the space under the bonnet.
    pub engine_bay: EngineBaySpec,
    /// Evaporator air and cabin.
    pub cabin: CabinSpec,
    /// Water and frost on the evaporator.
    pub coil: CoilSurfaceSpec,
    /// Discharge line with the compressor shell.
    pub discharge_line: PipeSpec,
    /// Condenser, main pass.
    pub condenser: CoilSpec,
    /// Receiver-drier, where there is one.
    #[serde(default)]
    pub receiver: Option<PipeSpec>,
    /// Subcooling pass, where there is one.
    #[serde(default)]
    pub subcooler: Option<CoilSpec>,
    /// Liquid line.
    pub liquid_line: PipeSpec,
    /// Evaporator.
    pub evaporator: CoilSpec,
    /// Accumulator behind the evaporator, where there is one.
    #[serde(default)]
    pub accumulator: Option<AccumulatorSpec>,
    /// Internal heat exchanger between liquid and suction line, where there is one.
    #[serde(default)]
    pub exchanger: Option<ExchangerSpec>,
    /// Chiller branch, where there is one.
    #[serde(default)]
    pub chiller: Option<ChillerSpec>,
    /// Suction line.
    pub suction_line: PipeSpec,
    /// One service hose.
    pub hose: PipeSpec,
    /// Both service ports take either coupler, so hoses can be crossed.
    #[serde(default)]
    pub like_fittings: bool,
    /// Flow constant of the discharge line [m2].
    pub discharge_flow_m2: f64,
    /// Flow constant into and out of the receiver (the accumulator in a loop without one) [m2].
    pub receiver_flow_m2: f64,
    /// Flow constant of the liquid line [m2].
    pub liquid_flow_m2: f64,
    /// Flow constant of the suction line [m2].
    pub suction_flow_m2: f64,
    /// Flow constant of a service port with its hose [m2].
    pub port_flow_m2: f64,
    /// Flow constant of a manifold hand valve fully open [m2].
    pub hand_valve_flow_m2: f64,
    /// Relief valve opens here [Pa absolute].
    pub relief_pa: f64,
    /// Relief flow per pressure above that [kg/(s Pa)].
    pub relief_kg_s_pa: f64,
    /// Time constant of the fin sensor [s].
    pub fin_sensor_lag_s: f64,
    /// Evaporator cell the fin sensor sits in.
    pub fin_sensor_cell: usize,
}

/// Surface and air path of the coil of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CoilSurfaceSpec {
    /// Fins and tubes on the air side [m2].
    pub surface_m2: f64,
    /// Gap between two fins [m].
    pub fin_gap_m: f64,
    /// Conductance from the housing to the coil with the blower off [W/K].
    pub box_w_k: f64,
    /// Water that clings before it drips [kg per m2 of surface].
    pub holdup_kg_m2: f64,
    /// Share of the pressure drop of the whole air path that falls on the clean coil.
    pub resistance_share: f64,
    /// Head the blower loses from shut-off to its working flow, share of the shut-off head.
    pub blower_droop: f64,
}

/// Oil of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OilSpec {
    /// Full amount [kg].
    pub full_kg: f64,
    /// Part of it that belongs in the compressor's sump while running [kg].
    pub sump_kg: f64,
    /// Oil carried with the refrigerant at a full sump, share of the mass flow.
    pub circulating: f64,
}

/// Drier and valve of a rig as water meets them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaterSpec {
    /// Desiccant [kg].
    pub desiccant_kg: f64,
    /// Ice that closes the valve [kg].
    pub closing_ice_kg: f64,
}
