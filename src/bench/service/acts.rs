//! What each act in the bay does.

use super::hands::Service;
use crate::bay::{BayAction, BayMistake, OilKind, Sample, Spurt, Station, WorkedDone};
use crate::bench::clock::time_s;
use crate::plant::{LoopPart, Plant, Vessel, oil_kg};

impl Service {
    /// Do it.
    pub fn carry_out(&mut self, act: &BayAction, plant: &mut Plant, tick: u64) {
        let now = time_s(tick);
        let Some(bay) = self.bay.as_deref_mut() else { return };
        match act {
            BayAction::Protect(on) => bay.protected = *on,
            BayAction::Ventilate(on) => bay.ventilated = *on,
            BayAction::Identify => {
                bay.spurts.push(Spurt::sampling(tick));
                bay.sample = Some(sample(plant, tick));
            }
            BayAction::Fit { hose, port } => {
                if port.is_some() && bay.sample.is_none() {
                    bay.log.mistake(BayMistake::NotIdentified, tick);
                }
                let coupler = bay.coupler(*hose);
                if coupler.reaches().is_some() {
                    bay.spurts.push(Spurt::coupler_off(*hose, tick));
                }
                let coupler = bay.coupler_mut(*hose);
                (coupler.port, coupler.open) = (*port, false);
            }
            BayAction::Knob { hose, open } => bay.coupler_mut(*hose).open = *open,
            BayAction::Centre(end) if *end != bay.centre => {
                bay.spurts.push(Spurt::centre_changed(tick));
                bay.centre = *end;
                bay.loose = false;
                if let Some(vessel) = end.vessel() {
                    bay.on_scale = vessel;
                }
            }
            BayAction::Loosen(on) => bay.loose = *on,
            BayAction::Pump(on) => bay.pump_on = *on,
            BayAction::Machine(on) => bay.machine_on = *on,
            BayAction::Valve { vessel, valve } => {
                if *vessel != Vessel::Recovery {
                    bay.on_scale = *vessel;
                }
                bay.valves[*vessel] = *valve;
            }
            BayAction::Warm(on) => bay.warm = *on,
            BayAction::RegulatorBar(bar) => bay.regulator_pa = bar * 1e5,
            BayAction::Oil { ml, kind } => {
                if *kind == OilKind::Other {
                    bay.log.foreign_oil_kg += oil_kg(*ml);
                    bay.log.mistake(BayMistake::WrongOil, tick);
                }
                bay.log.oil_added_kg += oil_kg(*ml);
                plant.pour_oil(now, LoopPart::Joint, oil_kg(*ml));
            }
            BayAction::DyeMl(ml) => {
                bay.log.dye_kg += oil_kg(*ml);
                bay.log.oil_added_kg += oil_kg(*ml);
                plant.pour_oil(now, LoopPart::Joint, oil_kg(*ml));
            }
            BayAction::Spray(on) => bay.spray = *on,
            BayAction::CoverPct(pct) => bay.cover = pct / 100.0,
            BayAction::NewPartOilMl(ml) => {
                if let Some(opened) = &mut bay.opened {
                    opened.new_oil_kg = oil_kg(*ml);
                }
            }
            BayAction::CloseUp => {
                if let Some(opened) = bay.opened.take() {
                    bay.log.new_part_oil_kg += opened.new_oil_kg;
                    plant.pour_oil(now, opened.part, opened.new_oil_kg);
                }
            }
            BayAction::FreshCan => {
                let (came, went) = plant.fresh_vessel(now, Vessel::Can);
                bay.log.cans_kg.0 += came;
                bay.log.cans_kg.1 += went;
            }
            BayAction::Station(steps) => bay.station = Some(Station::new(steps.clone())),
            BayAction::StationStop => bay.station = None,
            BayAction::Write { field, value } => {
                bay.record.retain(|(f, _)| f != field);
                bay.record.push((*field, value.clone()));
                bay.record.sort_by_key(|(f, _)| *f);
            }
            BayAction::Work { what, readings, answer, unit } => bay.worked.push(WorkedDone {
                what: *what,
                readings: readings.clone(),
                answer: *answer,
                unit: *unit,
                tick,
            }),
            BayAction::HandOver => bay.handed_over = Some(tick),
            BayAction::Centre(_) | BayAction::Flame => {}
        }
    }
}

/// What stands at the low-side port.
fn sample(plant: &Plant, tick: u64) -> Sample {
    let (i, now) = (plant.layout().suction, time_s(tick));
    Sample::of(plant.at(now, |s| s.mass_kg[i]), plant.at(now, |s| s.air_kg[i]), tick)
}
