//! Which cautions stand before an act as things are: in the service bay the situation counts, as far as a person can see
//! it on gauges and hoses.

use crate::bay::VesselValve;
use crate::bench::{Action, DriveKind};
use crate::desk::DeskView;
use crate::lesson::cautions::{Caution, Situation, before, before_here};
use crate::units::ATMOSPHERE_PA;

/// Pressure that counts as none [Pa gauge] (common practice, no source).
const NO_PRESSURE_PA: f64 = 0.2e5;
/// Both gauges below this: a vacuum, with traces of refrigerant at most [Pa gauge] (own estimate).
const VACUUM_PA: f64 = -0.8 * ATMOSPHERE_PA;

/// The cautions of an act.
pub fn cautions_of(view: &DeskView, action: &Action) -> Vec<&'static Caution> {
    match situation(view) {
        Some(now) => before_here(action, &now),
        None => before(action).to_vec(),
    }
}

/// How things stand, as the gauges tell it. Where no hose is open to the loop the worst is assumed.
fn situation<'a>(view: &'a DeskView) -> Option<Situation<'a>> {
    let face = view.snapshot.bay.as_ref()?;
    let (bay, gauges, outside) = (&face.bay, &view.snapshot.instruments, &view.snapshot.outside);
    let told = bay.low.reaches().is_some() || bay.high.reaches().is_some();
    let highest = gauges.low_gauge_pa.max(gauges.high_gauge_pa);
    let vacuum = told && highest < VACUUM_PA;
    let drive = view.snapshot.topology.drive;
    let running = match drive {
        DriveKind::Belt => outside.engine_rpm > 0.0 && outside.clutch_engaged,
        DriveKind::VariableBelt => outside.engine_rpm > 0.0,
        DriveKind::Electric | DriveKind::Hermetic => view.snapshot.controls.engine_on,
    };
    let valve = bay.centre.vessel().map(|vessel| bay.valves[vessel]);
    Some(Situation {
        refrigerant: &face.refrigerant,
        electric: drive == DriveKind::Electric,
        running,
        pressure: !told || highest > NO_PRESSURE_PA,
        refrigerant_in: !vacuum,
        vacuum,
        identified: bay.sample.is_some(),
        centre: bay.centre,
        liquid: valve == Some(VesselValve::Liquid),
    })
}
