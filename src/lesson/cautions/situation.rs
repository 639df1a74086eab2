//! How things stand when an action is asked for.

use crate::bay::{CentreEnd, VesselValve};
use crate::bench::{DriveKind, Snapshot};

/// Pressure over the air outside that spits when it is let go [Pa] (common practice, no source).
const SPITS_PA: f64 = 0.2e5;
/// Pressure of refrigerant below which only traces are left [Pa] (own estimate).
const TRACES_PA: f64 = 0.1e5;
/// Share of the outside pressure below which the loop counts as under vacuum.
const VACUUM: f64 = 0.5;

/// How things stand when an action is asked for; what makes one act harmless and the same act dangerous a minute later.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Situation<'a> {
    /// Refrigerant of the rig, such as `R-134a`.
    pub refrigerant: &'a str,
    /// The compressor stands under traction voltage.
    pub electric: bool,
    /// The compressor turns.
    pub running: bool,
    /// Loop, hoses or what hangs on them hold more pressure than the air outside.
    pub pressure: bool,
    /// There is refrigerant in loop or hoses, more than traces.
    pub refrigerant_in: bool,
    /// The loop is under vacuum.
    pub vacuum: bool,
    /// A sample has been to the identifier.
    pub identified: bool,
    /// What the centre hose ends in.
    pub centre: CentreEnd,
    /// What hangs on the centre hose gives liquid.
    pub liquid: bool,
}

impl<'a> Situation<'a> {
    /// As it can be seen: by the gauges where a hose is open to the loop, else the worst is assumed. Without a bay there is
    /// a charged loop and nothing on the centre hose.
    pub fn of(snapshot: &'a Snapshot) -> Self {
        let ambient_pa = snapshot.controls.ambient_pa();
        let now = Self {
            refrigerant: "",
            electric: snapshot.topology.drive == DriveKind::Electric,
            running: match snapshot.topology.drive {
                DriveKind::Belt => snapshot.outside.engine_rpm > 0.0 && snapshot.outside.clutch_engaged,
                // What turns without a plate to be seen may pump at any time.
                DriveKind::VariableBelt => snapshot.outside.engine_rpm > 0.0,
                DriveKind::Electric | DriveKind::Hermetic => snapshot.controls.engine_on,
            },
            pressure: true,
            refrigerant_in: true,
            vacuum: false,
            identified: false,
            centre: CentreEnd::Cap,
            liquid: false,
        };
        let Some(face) = &snapshot.bay else { return now };
        let bay = &face.bay;
        let valve = bay.centre.vessel().map(|vessel| bay.valves[vessel as usize]);
        let sees = bay.low.reaches().is_some() || bay.high.reaches().is_some();
        let highest_pa = face.hoses.iter().map(|h| h.p_pa).fold(0.0, f64::max);
        let refrigerant_pa = face.hoses.iter().map(|h| h.p_pa * (1.0 - h.air)).fold(0.0, f64::max);
        Self {
            refrigerant: &face.refrigerant,
            pressure: !sees || highest_pa > ambient_pa + SPITS_PA,
            refrigerant_in: !sees || refrigerant_pa > TRACES_PA,
            vacuum: sees && highest_pa < VACUUM * ambient_pa,
            identified: bay.sample.is_some(),
            centre: bay.centre,
            liquid: valve == Some(VesselValve::Liquid),
            ..now
        }
    }
}
