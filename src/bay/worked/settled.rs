//! Whether readings belong to one moment in which things stood still.

use super::Verdict;
use crate::instrument::{Probe, Reading};

/// Readings of one sum belong to one moment: furthest apart [s] (common practice, no source).
pub const TOGETHER_S: f64 = 60.0;
/// How far back the notebook is looked through for whether things stood still [s].
const SETTLED_S: f64 = 180.0;
/// Ticks in a second.
const PER_S: f64 = 20.0;

/// Readings too far apart, or a place that was read twice and had moved in between.
pub(super) fn moved(readings: &[&Reading], used: &[&Reading]) -> Option<Verdict> {
    let ticks = || used.iter().map(|r| r.tick);
    let apart_s = (ticks().max()? - ticks().min()?) as f64 / PER_S;
    if apart_s > TOGETHER_S {
        return Some(Verdict::TooFarApart(apart_s));
    }
    used.iter().find_map(|now| {
        let near =
            |r: &&&Reading| r.probe == now.probe && now.tick.abs_diff(r.tick) as f64 / PER_S <= SETTLED_S;
        let by = readings.iter().filter(near).map(|r| (r.value - now.value).abs()).fold(0.0, f64::max);
        let name = match &now.probe {
            Probe::LowGauge => "low gauge",
            Probe::HighGauge => "high gauge",
            Probe::Pipe(place) | Probe::Infrared { place, .. } => place.name(),
            Probe::Air(place) => place.name(),
            _ => "reading",
        };
        (by > now.uncertainty).then_some(Verdict::NotSettled(name, by))
    })
}
