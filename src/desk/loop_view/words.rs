//! What the drawing says in words.

use super::DomeData;
use crate::bench::{Inside, PointState};

/// Flow below which the loop counts as standing [kg/s].
const STILL_KG_S: f64 = 2.0e-4;

/// What is seen in the sight glass; `share` of the glass is bubbles.
pub fn sight_glass(share: f64) -> &'static str {
    match share {
        s if s < 0.02 => "clear",
        s if s < 0.25 => "a few bubbles",
        s if s < 0.985 => "many bubbles",
        _ => "no liquid",
    }
}

/// "70 % liquid by mass, 12 % by volume", where a flow is two-phase.
pub fn wetness(point: &PointState) -> Option<(String, String)> {
    let two_phase = point.x.is_finite() && (0.0..1.0).contains(&point.x);
    two_phase.then(|| {
        let volume = (1.0 - point.void_fraction) * 100.0;
        let volume = if volume < 10.0 {
            format!("{volume:.1} % by volume")
        } else {
            format!("{volume:.0} % by volume")
        };
        (format!("{:.0} % liquid by mass,", (1.0 - point.x) * 100.0), volume)
    })
}

/// The state of the whole loop, where it needs a sentence on the chart.
pub fn whole_loop(inside: &Inside) -> Option<&'static str> {
    let points = &inside.points;
    let dry = points.iter().all(|p| p.void_fraction > 0.999) && inside.receiver_level < 1e-3;
    let still = points.iter().all(|p| p.flow_kg_s.abs() < STILL_KG_S);
    let (low, high) = points
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(low, high), p| (low.min(p.p_total_pa), high.max(p.p_total_pa)));
    let level = high < low * 1.05 + 1.0e4;
    match (dry, still && level) {
        (true, true) => Some("Stopped, and no dome to enter: there is vapour only."),
        (true, false) => Some("Vapour only: the loop never enters the dome."),
        (false, true) => Some("Stopped: one pressure all round, so the loop is a flat line."),
        (false, false) if still => Some("Stopped: the two sides are still evening out."),
        (false, false) => None,
    }
}

/// Pressure the air in the loop adds on the high side [Pa], if it is worth saying.
pub fn air_share_pa(inside: &Inside) -> Option<f64> {
    let at = inside.points.iter().skip(1).take(3).map(|p| p.p_total_pa - p.p_pa).fold(0.0_f64, f64::max);
    (at > 1.0e4).then_some(at)
}

/// Saturation temperature \[K\] at a point.
pub fn saturation_k(dome: &DomeData, point: &PointState) -> f64 {
    dome.saturation_c(point.p_pa) + crate::units::ZERO_C_K
}

#[cfg(test)]
mod tests {
    use super::*;

    fn standing(p_pa: f64, void_fraction: f64) -> Inside {
        let point = PointState { p_pa, p_total_pa: p_pa, void_fraction, ..PointState::default() };
        Inside { points: [point; 6], receiver_level: 1.0 - void_fraction, ..Inside::default() }
    }

    #[test]
    fn a_standing_loop_is_said_to_be_flat_and_an_empty_one_dry() {
        assert!(whole_loop(&standing(8.0e5, 0.7)).is_some_and(|t| t.contains("flat line")));
        assert!(whole_loop(&standing(1.0e5, 1.0)).is_some_and(|t| t.contains("vapour only")));
    }

    #[test]
    fn wetness_counts_mass_and_volume() {
        let point = PointState { x: 0.3, void_fraction: 0.88, ..PointState::default() };
        let (mass, volume) = wetness(&point).unwrap_or_default();
        assert_eq!((mass.as_str(), volume.as_str()), ("70 % liquid by mass,", "12 % by volume"));
        assert!(wetness(&PointState { x: f64::NAN, ..point }).is_none());
    }
}
