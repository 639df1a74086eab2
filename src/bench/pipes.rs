//! Which volume of the plant a pipe thermometer's place stands for.

use crate::instrument::PipePlace;
use crate::plant::Plant;

/// Pipe at a place [K].
pub fn pipe_t_k(plant: &Plant, place: PipePlace, now: f64) -> f64 {
    let l = plant.layout();
    let i = match place {
        PipePlace::CompressorInlet => l.suction,
        PipePlace::CompressorOutlet => l.discharge,
        PipePlace::CondenserOutlet => l.condenser_outlet(),
        PipePlace::ValveInlet => l.metering_inlet(),
        PipePlace::ValveOutlet => l.evaporator.start,
        PipePlace::EvaporatorOutlet => l.evaporator.end - 1,
    };
    plant.look(i, now).t_k
}
