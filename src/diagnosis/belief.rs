//! From predictions to belief.

use super::shadow::{Prediction, Story};
use crate::fault::FaultId;
use crate::instrument::{MeterMode, Probe, Reading, sigma};

/// Prior of nothing being wrong; the faults share the rest by their base rates.
const HEALTHY_PRIOR: f64 = 0.05;
/// No single reading may count for more than this many log units: instruments are sometimes misused.
const MOST_PER_READING: f64 = 8.0;

/// Belief in a fault (or in nothing being wrong), summed over its severities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// `None`: nothing wrong.
    pub fault: Option<FaultId>,
    /// Share of belief, 0 to 1.
    pub share: f64,
    /// The severity that fits best.
    pub best: Story,
}

/// Standard deviation of a reading about a prediction: the instrument, and the coarse net of severities.
pub fn spread(probe: &Probe, value: f64, predicted: f64) -> f64 {
    let instrument = sigma(probe, value);
    let net = match probe {
        Probe::LowGauge => 0.1e5,
        Probe::HighGauge => 0.4e5,
        Probe::Pipe(_) | Probe::Air(_) => 1.0,
        Probe::Volts(_) => 0.15,
        Probe::Meter { mode: MeterMode::VoltsDc, .. } => 0.15,
        // Ohms and amperes: a twentieth, and the drift of leads and zero.
        Probe::Meter { .. } | Probe::Clamp(_) => 0.05 * predicted.abs() + 0.3,
        Probe::UnitValue { .. } => 0.02 * predicted.abs() + 0.1,
        Probe::SightGlass | Probe::Lamp { .. } => 0.1,
        Probe::Sense(sense) => 0.5 * sense.limit(),
        Probe::Infrared { .. } | Probe::WetBulb(_) => 1.0,
        Probe::Airflow => 0.05 * predicted.abs() + 0.002,
        // A vacuum is a matter of decades; the net of severities is coarse there.
        Probe::VacuumGauge => 0.3 * predicted.abs() + 10.0,
        Probe::RecoveryScale | Probe::ChargingScale => 0.02,
        Probe::OilGraduation => 5e-6,
        Probe::LeakDetector { .. } | Probe::Soap(_) | Probe::UvLamp(_) => 0.2,
        Probe::Identifier | Probe::IdentifierAir => 0.01,
    };
    let steepness = 0.03
        * predicted.abs().min(match probe {
            Probe::LowGauge | Probe::HighGauge => f64::INFINITY,
            _ => 0.0,
        });
    (instrument * instrument + net * net + steepness * steepness).sqrt()
}

/// Weigh all stories by the notebook. Sorted, likeliest first; shares sum to 1.
pub fn weigh(notebook: &[Reading], predictions: &[Prediction]) -> Vec<Weighed> {
    let count =
        |id: FaultId| predictions.iter().filter(|p| p.story.fault().is_some_and(|f| f.id == id)).count();
    // The faults told of are those of the rig; their weights become shares.
    let mut told: Vec<FaultId> = predictions.iter().filter_map(|p| p.story.fault()).map(|f| f.id).collect();
    told.dedup();
    let total: f64 = told.iter().map(|id| id.info().base_rate.weight).sum();
    let scores: Vec<(Story, f64)> = predictions
        .iter()
        .map(|p| {
            let prior = match p.story.fault() {
                None => HEALTHY_PRIOR,
                Some(f) => {
                    (1.0 - HEALTHY_PRIOR) * f.id.info().base_rate.weight / total / count(f.id).max(1) as f64
                }
            };
            let mut log = libm::log(prior);
            for (reading, expected) in notebook.iter().zip(&p.expected) {
                let Some(expected) = expected else { continue };
                let z = (reading.value - expected) / spread(&reading.probe, reading.value, *expected);
                log -= (0.5 * z * z).min(MOST_PER_READING);
            }
            (p.story, log)
        })
        .collect();
    let top = scores.iter().map(|s| s.1).fold(f64::NEG_INFINITY, f64::max);
    let total: f64 = scores.iter().map(|s| libm::exp(s.1 - top)).sum();
    let mut weighed: Vec<(Weighed, f64)> = Vec::new();
    for (story, log) in scores {
        let fault = story.fault().map(|f| f.id);
        let share = libm::exp(log - top) / total;
        match weighed.iter_mut().find(|(w, _)| w.fault == fault) {
            Some((w, best)) => {
                w.share += share;
                if log > *best {
                    (w.best, *best) = (story, log);
                }
            }
            None => weighed.push((Weighed { fault, share, best: story }, log)),
        }
    }
    let mut weighed: Vec<Weighed> = weighed.into_iter().map(|(w, _)| w).collect();
    weighed.sort_by(|a, b| b.share.total_cmp(&a.share));
    weighed
}
