//! The loop as lines that know their state: each segment is a row of stations with a place in the
//! schematic and a place on the chart, so that unfolding is one linear move.

use egui::{Pos2, Vec2};

use super::chart::Axes;
use super::plan::{self, Plan, boxes, spots};
use super::{DomeData, SEGMENTS, Segment};
use crate::bench::{CellState, Inside, PointState};

/// Place and state of one station of a pipe.
#[derive(Clone, Copy, Debug)]
pub struct Station {
    /// In the schematic.
    pub folded: Pos2,
    /// At the present share of unfolding.
    pub pos: Pos2,
    /// Vapour share of the volume.
    pub void: f32,
}

/// One segment of the loop.
#[derive(Clone, Debug)]
pub struct Track {
    /// Stations in flow order.
    pub stations: Vec<Station>,
    /// Low side (dashed)?
    pub low: bool,
}

/// A state at a share of a segment's length.
type Knot = (f32, PointState);

/// All segments at a share of unfolding. Without an inside view nothing is known of states and the pipes
/// stay where they are.
pub fn tracks(plan: &Plan, axes: &Axes, inside: Option<&Inside>, dome: &DomeData, unfold: f32) -> Vec<Track> {
    let pipes = plan.pipes();
    let knots = inside.map(|inside| knots(inside, dome, plan, &pipes));
    pipes
        .iter()
        .enumerate()
        .map(|(segment, corners)| {
            let folded = plan::sample(corners, 10.0 * plan.s, 6.0 * plan.s);
            let knots = knots.as_ref().map(|k| &k[segment]);
            let n = folded.len().max(2) - 1;
            let stations = folded
                .into_iter()
                .enumerate()
                .map(|(i, folded)| {
                    let (pos, void) = match knots {
                        Some(knots) => {
                            let (h, ln_p, void) = state(knots, i as f32 / n as f32);
                            (folded.lerp(axes.at(h, ln_p.exp()), unfold), void)
                        }
                        None => (folded, 0.5),
                    };
                    Station { folded, pos, void }
                })
                .collect();
            Track { stations, low: segment >= 6 && segment != Segment::ToChiller as usize }
        })
        .take(if plan.parts.chiller { SEGMENTS } else { Segment::ToChiller as usize })
        .collect()
}

/// Enthalpy, log pressure and void at a share of a segment.
fn state(knots: &[Knot], share: f32) -> (f64, f64, f32) {
    let ln = |p: &PointState| p.p_pa.max(1e3).ln();
    let of = |p: &PointState| (p.h_j_per_kg, ln(p), p.void_fraction.clamp(0.0, 1.0) as f32);
    let Some(first) = knots.first() else { return (0.0, 0.0, 0.0) };
    let mut last = first;
    for knot in knots {
        if share <= knot.0 {
            let width = knot.0 - last.0;
            if width <= 0.0 {
                return of(&knot.1);
            }
            let u = ((share - last.0) / width).clamp(0.0, 1.0);
            let (a, b) = (of(&last.1), of(&knot.1));
            let w = f64::from(u);
            return (a.0 + w * (b.0 - a.0), a.1 + w * (b.1 - a.1), a.2 + u * (b.2 - a.2));
        }
        last = knot;
    }
    of(&last.1)
}

fn knots(
    inside: &Inside,
    dome: &DomeData,
    plan: &Plan,
    pipes: &[Vec<Pos2>; SEGMENTS],
) -> [Vec<Knot>; SEGMENTS] {
    let point = |n: usize| inside.points[n - 1];
    let share = |segment: usize, n: usize| plan::share_at(&pipes[segment], plan.at(spots::POINTS[n - 1]));
    let through = |from: PointState, cells: &[CellState]| {
        let n = cells.len().max(1) as f32;
        let cells = cells.iter().enumerate().map(move |(i, c)| ((i + 1) as f32 / n, c.point));
        std::iter::once((0.0, from)).chain(cells).collect::<Vec<_>>()
    };
    let main = inside.condenser_main_cells.min(inside.condenser.len());
    let (condenser, subcooling) = inside.condenser.split_at(main);
    let condensed = condenser.last().map_or(point(2), |c| c.point);
    let drawn = if plan.parts.receiver { drawn_from_receiver(inside, dome) } else { condensed };
    let subcooled = subcooling.last().map_or(point(3), |c| c.point);
    let cold = inside.chiller.as_ref().map_or(&[][..], |c| &c.cells);
    // What throttling leaves: the enthalpy before the valve at the pressure behind it.
    let throttled =
        cold.first().map_or(point(5), |cell| PointState { h_j_per_kg: point(4).h_j_per_kg, ..cell.point });
    let chilled = cold.last().map_or(point(6), |c| c.point);
    // Suction passes the cold side of the exchanger and the accumulator between evaporator and compressor.
    let mut suction = vec![(0.0, point(6)), (share(8, 6), point(6))];
    let at = |x: f32| plan::share_at(&pipes[8], plan.at(egui::pos2(x, spots::JOIN.y)));
    if let Some(vessel) = &inside.accumulator {
        suction.push((at(boxes::ACCUMULATOR.center().x), vessel.point));
    }
    if let Some(exchanger) = &inside.exchanger {
        let [_, side] = boxes::EXCHANGER;
        let n = exchanger.vapour.len().max(1) as f32;
        suction.extend(
            exchanger
                .vapour
                .iter()
                .enumerate()
                .map(|(i, c)| (at(egui::lerp(side.left()..=side.right(), (i as f32 + 1.0) / n)), c.point)),
        );
    }
    suction.extend([(share(8, 1), point(1)), (1.0, point(1))]);
    suction.sort_by(|a, b| a.0.total_cmp(&b.0));
    [
        vec![(0.0, point(2)), (1.0, point(2))],
        through(point(2), condenser),
        vec![(0.0, condensed), (1.0, condensed)],
        vec![(0.0, drawn), (1.0, drawn)],
        through(drawn, subcooling),
        vec![(0.0, subcooled), (share(5, 3), point(3)), (share(5, 4), point(4)), (1.0, point(4))],
        vec![(0.0, point(5)), (1.0, point(5))],
        through(point(5), &inside.evaporator),
        suction,
        vec![(0.0, point(4)), (1.0, point(4))],
        through(throttled, cold),
        vec![(0.0, chilled), (1.0, chilled)],
    ]
}

/// What leaves the receiver: liquid from its foot while there is any, else what is in it.
fn drawn_from_receiver(inside: &Inside, dome: &DomeData) -> PointState {
    let vessel = inside.receiver;
    if inside.receiver_level > 0.02 {
        let h = dome.liquid_h(vessel.p_pa).min(vessel.h_j_per_kg);
        PointState { h_j_per_kg: h, void_fraction: 0.0, x: f64::NAN, ..vessel }
    } else {
        vessel
    }
}

/// The healthy loop (or any other) as a closed line on the chart.
pub fn outline(axes: &Axes, inside: &Inside) -> Vec<Pos2> {
    let at = |p: &PointState| axes.at(p.h_j_per_kg, p.p_pa);
    let mut line = vec![at(&inside.points[0]), at(&inside.points[1])];
    line.extend(inside.condenser.iter().map(|c| at(&c.point)));
    line.extend(inside.points[2..5].iter().map(at));
    line.extend(inside.evaporator.iter().map(|c| at(&c.point)));
    line.push(at(&inside.points[5]));
    line.extend(inside.exchanger.iter().flat_map(|e| &e.vapour).map(|c| at(&c.point)));
    line.push(at(&inside.points[0]));
    line
}

/// Points of a line about 5 pt apart, to see what lies in its way.
pub fn dotted(line: &[Pos2]) -> Vec<Pos2> {
    let mut out = Vec::new();
    for pair in line.windows(2) {
        let n = ((pair[1] - pair[0]).length() / 5.0).ceil().clamp(1.0, 1e3) as usize;
        out.extend((0..n).map(|i| pair[0].lerp(pair[1], i as f32 / n as f32)));
    }
    out
}

impl Track {
    /// The line moved sideways by `offset` (to the left of the flow).
    pub fn beside(&self, offset: f32) -> Vec<Pos2> {
        (0..self.stations.len()).map(|i| self.stations[i].pos + self.normal(i) * offset).collect()
    }

    /// Direction across the pipe at a station.
    pub fn normal(&self, i: usize) -> Vec2 {
        let last = self.stations.len() - 1;
        let (a, b) = (self.stations[i.saturating_sub(1)].pos, self.stations[(i + 1).min(last)].pos);
        let along = b - a;
        if along.length() > 1e-3 { along.normalized().rot90() } else { Vec2::ZERO }
    }
}
