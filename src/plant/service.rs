//! What hands do to the loop at once, between two moments: a part comes out and another goes in, oil is poured in, a
//! fresh can is put on the tap. What flows because of it is left to the network.

use serde::{Deserialize, Serialize};

use super::layout::Layout;
use super::openings::Vessel;
use super::{Plant, start, volume};

/// A part of the loop that can be taken out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LoopPart {
    /// The compressor with the oil in its sump.
    Compressor,
    /// Condenser, its subcooling pass included.
    Condenser,
    /// The vessel with the desiccant: receiver-drier or accumulator.
    Drier,
    /// Evaporator.
    Evaporator,
    /// Suction line.
    SuctionLine,
    /// Discharge line.
    DischargeLine,
    /// Liquid line.
    LiquidLine,
    /// Internal heat exchanger.
    Exchanger,
    /// A joint, a seal, a valve: nothing that holds oil worth speaking of.
    Joint,
    /// Everything, flushed clean of its oil.
    Whole,
}

/// What came out with a part.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Taken {
    /// Oil [kg].
    pub oil_kg: f64,
    /// Water, what the desiccant held included [kg].
    pub water_kg: f64,
}

impl LoopPart {
    /// Volumes of the network that belong to it; empty where there is none.
    pub(super) fn volumes(self, l: &Layout) -> Vec<usize> {
        match self {
            Self::Compressor | Self::Joint => Vec::new(),
            Self::Condenser => l.condenser.clone().chain(l.subcooler.clone()).collect(),
            Self::Drier => l.receiver.or(l.accumulator).into_iter().collect(),
            Self::Evaporator => l.evaporator.clone().collect(),
            Self::SuctionLine => vec![l.suction],
            Self::DischargeLine => vec![l.discharge],
            Self::LiquidLine => vec![l.liquid],
            Self::Whole => (0..l.loop_len()).collect(),
            Self::Exchanger => l.exchanger_liquid.clone().chain(l.exchanger_vapour.clone()).collect(),
        }
    }
}

impl Plant {
    /// Take a part out and put a dry, new one in its place. Refrigerant and air in it stay in the books of its volumes;
    /// the loop is open then and they come to the pressure of the outside.
    pub fn renew_part(&mut self, time_s: f64, part: LoopPart) -> Taken {
        self.cut_at(time_s);
        let volumes = part.volumes(&self.layout);
        let state = &mut self.after;
        let mut taken = Taken::default();
        for i in volumes {
            taken.oil_kg += std::mem::take(&mut state.oil.kg[i]);
            taken.water_kg += std::mem::take(&mut state.water.kg[i]);
        }
        if matches!(part, LoopPart::Compressor | LoopPart::Whole) {
            taken.oil_kg += std::mem::take(&mut state.oil.sump_kg);
        }
        if part == LoopPart::Compressor {
            (state.shell.wear, state.shell.battered) = (0.0, 0.0);
        }
        if part == LoopPart::Drier {
            taken.water_kg += std::mem::take(&mut state.water.bound_kg);
        }
        state.water.in_kg -= taken.water_kg;
        taken
    }

    /// Pour oil into a part [kg]: into the sump of the compressor, into the suction line where the part holds none.
    pub fn pour_oil(&mut self, time_s: f64, part: LoopPart, oil_kg: f64) {
        self.cut_at(time_s);
        let volumes = part.volumes(&self.layout);
        // Oil for a flushed loop goes into the compressor.
        if matches!(part, LoopPart::Compressor | LoopPart::Whole) {
            self.after.oil.sump_kg += oil_kg.max(0.0);
            return;
        }
        let places = if volumes.is_empty() { vec![self.layout.suction] } else { volumes };
        for &i in &places {
            self.after.oil.kg[i] += oil_kg.max(0.0) / places.len() as f64;
        }
    }

    /// A fresh vessel as it comes, in place of the one that is there. Returns refrigerant that came and that went [kg].
    pub fn fresh_vessel(&mut self, time_s: f64, vessel: Vessel) -> (f64, f64) {
        let Some(i) = self.layout.vessel(vessel) else { return (0.0, 0.0) };
        self.cut_at(time_s);
        let t = self.inputs.ambient_t_k;
        let (u, h) = start::rested(self.refrigerant, vessel, vessel.spec().start_kg, t);
        let l = &self.layout;
        let node = volume::evaluate(self.refrigerant, l.kinds[i], l.volumes_m3[i], 0.0, u, h);
        let state = &mut self.after;
        let went_kg = state.mass_kg[i];
        // Oil that had run into it goes with it.
        state.oil.lost_kg += state.oil.kg[i];
        (state.u[i], state.h[i]) = (u, h);
        (state.mass_kg[i], state.energy_j[i], state.air_kg[i]) = (node.mass.v, node.energy.v, 0.0);
        (state.wall_k[i], state.oil.kg[i], state.water.kg[i]) = (t, 0.0, 0.0);
        let came_kg = node.mass.v;
        self.outcome.nodes[i] = node;
        self.rates = None;
        (came_kg, went_kg)
    }
}
