//! The loop of a rig as numbers: volumes, walls, flow constants; and which index is which volume.

use std::sync::Arc;

use super::inputs::Passages;
use super::linear::Pattern;
use super::openings::{CentreHose, OpenPlace, Vessel};
use super::spec::{AccumulatorSpec, CoilSpec, PipeSpec, PlantSpec};
use super::volume::Kind;
use super::wall_films::Wall;

/// Which narrowing of [`Passages`] a pipe may suffer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Narrowing {
    /// None.
    #[default]
    None,
    /// See [`Passages::discharge`].
    Discharge,
    /// See [`Passages::condenser`].
    Condenser,
    /// See [`Passages::drier`].
    Drier,
    /// See [`Passages::liquid`].
    Liquid,
    /// See [`Passages::suction`].
    Suction,
    /// See [`Passages::exchanger`].
    Exchanger,
    /// Drier and liquid line in one.
    DrierAndLiquid,
    /// Drier (in the accumulator) and suction line in one.
    DrierAndSuction,
}

impl Narrowing {
    /// Open share of such a pipe.
    pub fn open(self, passages: &Passages) -> f64 {
        match self {
            Self::None => 1.0,
            Self::Discharge => passages.discharge,
            Self::Condenser => passages.condenser,
            Self::Drier => passages.drier,
            Self::Liquid => passages.liquid,
            Self::Suction => passages.suction,
            Self::Exchanger => passages.exchanger,
            Self::DrierAndLiquid => passages.drier * passages.liquid,
            Self::DrierAndSuction => passages.drier * passages.suction,
        }
    }
}

/// A pipe between two volumes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pipe {
    /// From this volume.
    pub from: usize,
    /// To that volume.
    pub to: usize,
    /// Flow constant as built [m2].
    pub flow_m2: f64,
    /// What may narrow it.
    pub narrowing: Narrowing,
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
    /// Receiver, where there is one.
    pub receiver: Option<usize>,
    /// Subcooler cells; none without one.
    pub subcooler: std::ops::Range<usize>,
    /// Liquid line.
    pub liquid: usize,
    /// Evaporator cells.
    pub evaporator: std::ops::Range<usize>,
    /// Accumulator, where there is one.
    pub accumulator: Option<usize>,
    /// Liquid side of the internal heat exchanger in flow order; none without one.
    pub exchanger_liquid: std::ops::Range<usize>,
    /// Its vapour side in flow order.
    pub exchanger_vapour: std::ops::Range<usize>,
    /// Chiller cells; none without one.
    pub chiller: std::ops::Range<usize>,
    /// Low-side hose.
    pub low_hose: usize,
    /// High-side hose.
    pub high_hose: usize,
    /// Manifold and centre hose.
    pub centre: usize,
    /// First of the service bay's vessels, in the order of [`Vessel::ALL`], where the plant stands in the bay.
    pub vessels: Option<usize>,
    /// Each volume [m3].
    pub volumes_m3: Vec<f64>,
    /// Each volume's kind.
    pub kinds: Vec<Kind>,
    /// Each volume's wall.
    pub walls: Vec<Wall>,
    /// Pipes.
    pub pipes: Vec<Pipe>,
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
    fn vessel(&mut self, pipe: Option<&PipeSpec>, kind: Kind) -> Option<usize> {
        pipe.map(|pipe| self.pipe(pipe, kind))
    }
    /// Cells of a coil, none where there is none.
    fn branch(&mut self, coil: Option<&CoilSpec>) -> std::ops::Range<usize> {
        let end = self.volumes_m3.len();
        coil.map_or(end..end, |coil| self.coil(coil))
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
    /// Lay out a rig, in the service bay with its vessels or without.
    pub fn new(spec: &PlantSpec, in_service_bay: bool) -> Self {
        let mut b = Builder { design_flow_kg_s: spec.design_flow_kg_s, ..Builder::default() };
        let suction = b.pipe(&spec.suction_line, Kind::Channel);
        let discharge = b.pipe(&spec.discharge_line, Kind::Channel);
        let condenser = b.coil(&spec.condenser);
        let receiver = b.vessel(spec.receiver.as_ref(), Kind::Separator);
        let subcooler = b.branch(spec.subcooler.as_ref());
        let liquid = b.pipe(&spec.liquid_line, Kind::Channel);
        let evaporator = b.coil(&spec.evaporator);
        let bleed = |a: &AccumulatorSpec| Kind::Accumulator { bleed: a.bleed };
        let accumulator = spec.accumulator.as_ref().map(|a| b.pipe(&a.vessel, bleed(a)));
        let exchanger_liquid = b.branch(spec.exchanger.as_ref().map(|x| &x.liquid));
        let exchanger_vapour = b.branch(spec.exchanger.as_ref().map(|x| &x.vapour));
        let chiller = b.branch(spec.chiller.as_ref().map(|c| &c.coil));
        let low_hose = b.pipe(&spec.hose, Kind::Separator);
        let high_hose = b.pipe(&spec.hose, Kind::Separator);
        let centre = b.pipe(&spec.hose, Kind::Separator);
        let first = b.volumes_m3.len();
        let vessels = in_service_bay.then_some(first);
        for vessel in Vessel::ALL.into_iter().filter(|_| in_service_bay) {
            b.pipe(&vessel.spec().pipe(), Kind::Accumulator { bleed: 0.0 });
        }
        let Builder { volumes_m3, kinds, walls, .. } = b;
        let mut layout = Self {
            suction,
            discharge,
            condenser,
            receiver,
            subcooler,
            liquid,
            evaporator,
            accumulator,
            exchanger_liquid,
            exchanger_vapour,
            chiller,
            low_hose,
            high_hose,
            centre,
            vessels,
            pattern: Arc::default(),
            volumes_m3,
            kinds,
            walls,
            pipes: Vec::new(),
        };
        layout.pipes = layout.join(spec);
        // Besides the pipes: compressor, metering with its bulb at the evaporator outlet, hoses.
        let (inlet, outlet) = (layout.metering_inlet(), layout.evaporator.end - 1);
        let chiller_inlet = layout.chiller.clone().next().map(|first| (inlet, first));
        let pairs = layout.pipes.iter().map(|pipe| (pipe.from, pipe.to)).chain([
            (suction, discharge),
            (inlet, layout.evaporator.start),
            (inlet, outlet),
            (layout.evaporator.start, outlet),
            (suction, low_hose),
            (liquid, high_hose),
            (low_hose, centre),
            (high_hose, centre),
        ]);
        let hung = Vessel::ALL.into_iter().filter_map(|vessel| Some((layout.vessel(vessel)?, centre)));
        // Hoses can be crossed where the fittings are alike.
        let crossed = [(liquid, low_hose), (suction, high_hose)].into_iter().filter(|_| spec.like_fittings);
        let pairs = pairs.chain(chiller_inlet).chain(hung).chain(crossed);
        layout.pattern = Arc::new(Pattern::new(layout.len(), pairs));
        layout
    }

    /// The pipes, in the order flows are summed up in.
    fn join(&self, spec: &PlantSpec) -> Vec<Pipe> {
        use Narrowing as N;
        let mut pipes = Vec::new();
        let mut pipe = |from, to, flow_m2, narrowing| pipes.push(Pipe { from, to, flow_m2, narrowing });
        pipe(self.discharge, self.condenser.start, spec.discharge_flow_m2, N::Discharge);
        // n cells in series with n steps share one pass: each step takes the constant times sqrt n.
        let middle = self.condenser.start + self.condenser.len() / 2;
        let passes = [
            (&self.condenser, Some(&spec.condenser), middle),
            (&self.subcooler, spec.subcooler.as_ref(), 0),
            (&self.evaporator, Some(&spec.evaporator), 0),
            (&self.exchanger_liquid, spec.exchanger.as_ref().map(|x| &x.liquid), 0),
            (&self.exchanger_vapour, spec.exchanger.as_ref().map(|x| &x.vapour), 0),
            (&self.chiller, spec.chiller.as_ref().map(|c| &c.coil), 0),
        ];
        for (cells, coil, narrow) in passes {
            let Some(coil) = coil else { continue };
            for i in cells.start..cells.end - 1 {
                let narrowing = if i + 1 == narrow { N::Condenser } else { N::None };
                pipe(i, i + 1, coil.flow_m2 * ((cells.len() - 1) as f64).sqrt(), narrowing);
            }
        }
        // From the condenser to the metering.
        let mut from = self.condenser.end - 1;
        if let Some(receiver) = self.receiver {
            pipe(from, receiver, spec.receiver_flow_m2, N::None);
            from = receiver;
        }
        if !self.subcooler.is_empty() {
            let narrowing = if self.receiver.is_some() { N::Drier } else { N::None };
            pipe(from, self.subcooler.start, spec.receiver_flow_m2, narrowing);
            from = self.subcooler.end - 1;
        }
        let narrowing = if Some(from) == self.receiver { N::DrierAndLiquid } else { N::Liquid };
        pipe(from, self.liquid, spec.liquid_flow_m2, narrowing);
        if !self.exchanger_liquid.is_empty() {
            pipe(self.liquid, self.exchanger_liquid.start, spec.liquid_flow_m2, N::None);
        }
        // From the evaporator to the compressor.
        let mut from = self.evaporator.end - 1;
        let mut narrowing = N::Suction;
        if let Some(accumulator) = self.accumulator {
            let flow_m2 = if self.receiver.is_some() { spec.suction_flow_m2 } else { spec.receiver_flow_m2 };
            pipe(from, accumulator, flow_m2, N::None);
            (from, narrowing) =
                (accumulator, if self.receiver.is_some() { N::Suction } else { N::DrierAndSuction });
        }
        if !self.exchanger_vapour.is_empty() {
            pipe(from, self.exchanger_vapour.start, spec.suction_flow_m2, N::Exchanger);
            (from, narrowing) = (self.exchanger_vapour.end - 1, N::Suction);
        }
        pipe(from, self.suction, spec.suction_flow_m2, narrowing);
        if !self.chiller.is_empty() {
            pipe(self.chiller.end - 1, self.suction, spec.suction_flow_m2, N::None);
        }
        pipes
    }

    /// Volume of a vessel of the service bay, if the plant stands in it.
    pub fn vessel(&self, vessel: Vessel) -> Option<usize> {
        self.vessels.map(|first| first + vessel as usize)
    }
    /// Number of volumes of loop and hoses, which come before the vessels.
    pub fn loop_len(&self) -> usize {
        self.vessels.unwrap_or(self.len())
    }
    /// Turn the vessels as they hang: liquid comes first out of one that is upside down or on its liquid valve.
    pub fn turn_vessels(&mut self, centre_hose: CentreHose) {
        for vessel in Vessel::ALL {
            if let Some(i) = self.vessel(vessel) {
                let liquid = centre_hose == CentreHose::Vessel { vessel, liquid: true };
                self.kinds[i] = if liquid { Kind::Separator } else { Kind::Accumulator { bleed: 0.0 } };
            }
        }
    }
    /// The volume the metering draws from.
    pub fn metering_inlet(&self) -> usize {
        if self.exchanger_liquid.is_empty() { self.liquid } else { self.exchanger_liquid.end - 1 }
    }
    /// The last volume of the condenser, its subcooling pass included.
    pub fn condenser_outlet(&self) -> usize {
        if self.subcooler.is_empty() { self.condenser.end - 1 } else { self.subcooler.end - 1 }
    }
    /// The vessel that keeps spare charge: receiver, accumulator, or the liquid line where there is neither.
    pub fn store(&self) -> usize {
        self.receiver.or(self.accumulator).unwrap_or(self.liquid)
    }
    /// The volume of a place that may be open.
    pub fn open_place(&self, place: OpenPlace) -> usize {
        match place {
            OpenPlace::SuctionLine => self.suction,
            OpenPlace::DischargeLine => self.discharge,
            OpenPlace::Condenser => self.condenser.end - 1,
            OpenPlace::LiquidLine => self.liquid,
            OpenPlace::Evaporator => self.evaporator.start,
            OpenPlace::LowHose => self.low_hose,
            OpenPlace::HighHose => self.high_hose,
            OpenPlace::CentreHose => self.centre,
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
