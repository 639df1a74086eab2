//! Phases of everything that moves. The drawing is a pure function of these and of the snapshot; only the
//! shell advances them, once a frame.

use crate::bench::{DriveKind, HoseFace, Snapshot};

/// A stretch of pipe with one flow through it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Segment {
    /// Compressor to condenser.
    Discharge,
    /// Condenser before the receiver.
    CondenserMain,
    /// Condenser to receiver.
    ToReceiver,
    /// Receiver to subcooling pass.
    FromReceiver,
    /// Subcooling pass.
    Subcooling,
    /// Liquid line to the valve.
    LiquidLine,
    /// Valve to evaporator.
    AfterValve,
    /// Evaporator.
    Evaporator,
    /// Evaporator to compressor.
    Suction,
    /// Liquid line to the chiller's valve.
    ToChiller,
    /// Chiller.
    Chiller,
    /// Chiller to the suction line.
    FromChiller,
}

/// Number of [`Segment`]s.
pub const SEGMENTS: usize = 12;

/// Mass flow that counts as full speed in the drawing [kg/s]: the compact car at idle.
const NOMINAL_FLOW_KG_S: f64 = 0.025;

/// Less than this in a hose counts as standing still, and this moves at full speed [kg/s].
const HOSE_STANDS_KG_S: f64 = 2e-8;
const HOSE_FULL_KG_S: f64 = 0.01;

/// Accumulated phases.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Motion {
    /// Way travelled in each segment, in units of nominal seconds.
    pub flow: [f64; SEGMENTS],
    /// Condenser fan angle [rad].
    pub fan: f64,
    /// Blower angle [rad].
    pub blower: f64,
    /// Compressor pulley angle [rad].
    pub pulley: f64,
    /// Compressor shaft angle [rad]; stands still with the clutch out.
    pub shaft: f64,
    /// Way travelled in low-side, high-side and centre hose of the service bay, towards the loop [pt].
    pub hoses: [f64; 3],
    /// Vacuum pump and recovery machine of the service bay [rad].
    pub machines: [f64; 2],
}

impl Motion {
    /// Move on by `dt_s` of wall time. Flow in the drawing follows mass flow, not the speed of the clock,
    /// so that twenty times real time stays readable.
    pub fn advance(&mut self, dt_s: f64, snapshot: &Snapshot) {
        let outside = &snapshot.outside;
        let turn = |angle: f64, rate: f64| (angle + dt_s * rate).rem_euclid(std::f64::consts::TAU);
        self.fan = turn(self.fan, outside.fan_speed_pct * 0.09);
        self.blower = turn(self.blower, outside.blower_pct * 0.07);
        self.pulley = turn(self.pulley, outside.engine_rpm * 0.004);
        let belt = matches!(snapshot.topology.drive, DriveKind::Belt | DriveKind::VariableBelt);
        if belt && outside.clutch_engaged {
            self.shaft = turn(self.shaft, outside.engine_rpm * 0.004);
        }
        self.bay(dt_s, snapshot);
        let Some(inside) = &snapshot.inside else { return };
        let point = |number: usize| inside.points[number - 1].flow_kg_s;
        let cells = |cells: &[crate::bench::CellState], or: f64| {
            if cells.is_empty() {
                or
            } else {
                cells.iter().map(|c| c.point.flow_kg_s).sum::<f64>() / cells.len() as f64
            }
        };
        let main = inside.condenser_main_cells.min(inside.condenser.len());
        let chiller = inside.chiller.as_ref().map_or(0.0, |c| cells(&c.cells, 0.0));
        let rates = [
            point(2),
            cells(&inside.condenser[..main], point(2)),
            inside.condenser[..main].last().map_or(point(2), |c| c.point.flow_kg_s),
            point(3),
            point(3),
            point(4),
            point(5),
            cells(&inside.evaporator, point(5)),
            point(6),
            chiller,
            chiller,
            chiller,
        ];
        for (phase, rate) in self.flow.iter_mut().zip(rates) {
            if rate.is_finite() {
                *phase += dt_s * (rate / NOMINAL_FLOW_KG_S).clamp(-3.0, 3.0);
            }
        }
    }

    /// Hoses and machines of the bay.
    fn bay(&mut self, dt_s: f64, snapshot: &Snapshot) {
        let Some(face) = &snapshot.bay else { return };
        for (phase, hose) in self.hoses.iter_mut().zip(&face.hoses) {
            *phase += dt_s * f64::from(hose_speed(hose));
        }
        for (angle, on) in self.machines.iter_mut().zip([face.bay.pump_on, face.bay.machine_on]) {
            if on {
                *angle = (*angle + dt_s * 5.0).rem_euclid(std::f64::consts::TAU);
            }
        }
    }

    /// Does anything move in the service bay?
    pub fn moves_in_bay(snapshot: &Snapshot) -> bool {
        snapshot.bay.as_ref().is_some_and(|face| {
            face.bay.pump_on || face.bay.machine_on || face.hoses.iter().any(|h| hose_speed(h) != 0.0)
        })
    }

    /// Does anything visible move in this snapshot?
    pub fn moves(snapshot: &Snapshot) -> bool {
        let outside = &snapshot.outside;
        outside.fan_speed_pct > 0.0
            || outside.blower_pct > 0.0
            || outside.engine_rpm > 0.0
            || snapshot.inside.as_ref().is_some_and(|i| i.points.iter().any(|p| p.flow_kg_s.abs() > 1e-5))
    }
}

/// How fast the marks in a hose move towards the loop [pt/s]: as the gas or liquid in it does, but neither so slow that
/// it seems to stand nor so fast that the eye loses it.
fn hose_speed(hose: &HoseFace) -> f32 {
    let flow_kg_s = hose.flow_kg_s + hose.air_kg_s;
    if !flow_kg_s.is_finite() || flow_kg_s.abs() < HOSE_STANDS_KG_S {
        return 0.0;
    }
    let share = (flow_kg_s.abs() / HOSE_FULL_KG_S).powf(0.3).clamp(0.12, 1.5);
    (flow_kg_s.signum() * share * 90.0) as f32
}
