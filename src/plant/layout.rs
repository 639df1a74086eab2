//! The loop of a rig as numbers: volumes, walls, flow constants; and which index is which volume.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::boundary::OpenPlace;
use super::cabin::CabinSpec;
use super::coil::CoilSurfaceSpec;
use super::compressor::CompressorSpec;
use super::condenser_air::CondenserAirSpec;
use super::engine_bay::EngineBaySpec;
use super::linear::Pattern;
use super::metering::ValveSpec;
use super::oil::OilSpec;
use super::shell::ShellSpec;
use super::volume::Kind;
use super::wall_films::{CoilWallSpec, PipeWallSpec, Wall};
use super::water::WaterSpec;

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
    pub bay_share: f64,
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
    /// Expansion valve.
    pub valve: ValveSpec,
    /// Condenser face.
    pub condenser_air: CondenserAirSpec,
    /// Share of the condenser face in front of the subcooling pass.
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
    /// Receiver-drier.
    pub receiver: PipeSpec,
    /// Subcooling pass.
    pub subcooler: CoilSpec,
    /// Liquid line.
    pub liquid_line: PipeSpec,
    /// Evaporator.
    pub evaporator: CoilSpec,
    /// Suction line.
    pub suction_line: PipeSpec,
    /// One service hose.
    pub hose: PipeSpec,
    /// Flow constant of the discharge line [m2].
    pub discharge_flow_m2: f64,
    /// Flow constant into and out of the receiver [m2].
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

/// Which index is which volume, in flow order from the suction line.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Suction line.
    pub suction: usize,
    /// Discharge line.
    pub discharge: usize,
    /// Condenser cells.
    pub condenser: std::ops::Range<usize>,
    /// Receiver.
    pub receiver: usize,
    /// Subcooler cells.
    pub subcooler: std::ops::Range<usize>,
    /// Liquid line.
    pub liquid: usize,
    /// Evaporator cells.
    pub evaporator: std::ops::Range<usize>,
    /// Low-side hose.
    pub low_hose: usize,
    /// High-side hose.
    pub high_hose: usize,
    /// Manifold and centre hose.
    pub centre: usize,
    /// Each volume [m3].
    pub volumes_m3: Vec<f64>,
    /// Each volume's kind.
    pub kinds: Vec<Kind>,
    /// Each volume's wall.
    pub walls: Vec<Wall>,
    /// Pipes in flow order: (from, to, flow constant [m2]).
    pub pipes: Vec<(usize, usize, f64)>,
    /// Which volumes touch, for the Newton matrix.
    pub pattern: Arc<Pattern>,
}

#[derive(Default)]
struct Builder {
    design_flow_kg_s: f64,
    volumes_m3: Vec<f64>,
    kinds: Vec<Kind>,
    walls: Vec<Wall>,
}

impl Builder {
    fn add(&mut self, volume_m3: f64, kind: Kind, wall: Wall) -> usize {
        self.volumes_m3.push(volume_m3);
        self.kinds.push(kind);
        self.walls.push(wall);
        self.volumes_m3.len() - 1
    }
    fn pipe(&mut self, pipe: &PipeSpec, kind: Kind) -> usize {
        self.add(pipe.volume_m3, kind, Wall::Pipe(pipe.wall, self.design_flow_kg_s))
    }
    fn coil(&mut self, coil: &CoilSpec) -> std::ops::Range<usize> {
        let first = self.volumes_m3.len();
        let cell = Wall::Cell(coil.wall.part(coil.cells));
        for _ in 0..coil.cells {
            self.add(coil.volume_m3 / coil.cells as f64, Kind::Channel, cell);
        }
        first..first + coil.cells
    }
}

impl Layout {
    /// Lay out a rig.
    pub fn new(spec: &PlantSpec) -> Self {
        let mut b = Builder { design_flow_kg_s: spec.design_flow_kg_s, ..Builder::default() };
        let suction = b.pipe(&spec.suction_line, Kind::Channel);
        let discharge = b.pipe(&spec.discharge_line, Kind::Channel);
        let condenser = b.coil(&spec.condenser);
        let receiver = b.pipe(&spec.receiver, Kind::Separator);
        let subcooler = b.coil(&spec.subcooler);
        let liquid = b.pipe(&spec.liquid_line, Kind::Channel);
        let evaporator = b.coil(&spec.evaporator);
        let low_hose = b.pipe(&spec.hose, Kind::Separator);
        let high_hose = b.pipe(&spec.hose, Kind::Separator);
        let centre = b.pipe(&spec.hose, Kind::Separator);
        let Builder { volumes_m3, kinds, walls, .. } = b;

        // n cells in series with n steps share one pass: each step takes the constant times sqrt n.
        let mut pipes = vec![(discharge, condenser.start, spec.discharge_flow_m2)];
        let mut series = |r: &std::ops::Range<usize>, flow_m2: f64| {
            for i in r.start..r.end - 1 {
                pipes.push((i, i + 1, flow_m2 * ((r.len() - 1) as f64).sqrt()));
            }
        };
        series(&condenser, spec.condenser.flow_m2);
        series(&subcooler, spec.subcooler.flow_m2);
        series(&evaporator, spec.evaporator.flow_m2);
        pipes.push((condenser.end - 1, receiver, spec.receiver_flow_m2));
        pipes.push((receiver, subcooler.start, spec.receiver_flow_m2));
        pipes.push((subcooler.end - 1, liquid, spec.liquid_flow_m2));
        pipes.push((evaporator.end - 1, suction, spec.suction_flow_m2));
        // Besides the pipes: compressor, expansion valve with its bulb at the evaporator outlet, hoses.
        let outlet = evaporator.end - 1;
        let pairs = pipes.iter().map(|&(i, j, _)| (i, j)).chain([
            (suction, discharge),
            (liquid, evaporator.start),
            (liquid, outlet),
            (evaporator.start, outlet),
            (suction, low_hose),
            (liquid, high_hose),
            (low_hose, centre),
            (high_hose, centre),
        ]);
        let pattern = Arc::new(Pattern::new(volumes_m3.len(), pairs));
        Self {
            pattern,
            suction,
            discharge,
            condenser,
            receiver,
            subcooler,
            liquid,
            evaporator,
            low_hose,
            high_hose,
            centre,
            volumes_m3,
            kinds,
            walls,
            pipes,
        }
    }
    /// The volume of a place that may be open.
    pub fn open_place(&self, place: OpenPlace) -> usize {
        match place {
            OpenPlace::SuctionLine => self.suction,
            OpenPlace::DischargeLine => self.discharge,
            OpenPlace::Condenser => self.condenser.end - 1,
            OpenPlace::LiquidLine => self.liquid,
            OpenPlace::Evaporator => self.evaporator.start,
        }
    }
    /// Number of volumes.
    pub fn len(&self) -> usize {
        self.volumes_m3.len()
    }
    /// Never: a loop has volumes.
    pub fn is_empty(&self) -> bool {
        self.volumes_m3.is_empty()
    }
}
