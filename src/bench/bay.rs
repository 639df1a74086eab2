//! The service bay on the bench: what is allowed, what each act does, and what the plant is told because of it.

use super::{Bench, Refusal};
use crate::bay::cylinder::FillLimit;
use crate::bay::{
    Bay, BayAction, BayDanger, BayMistake, CentreEnd, Hose, OilKind, RecordValue, Sample, Spurt, Station,
    StationStep, VesselValve, WorkedDone,
};
use crate::bench::action::Action;
use crate::knobs::Change;
use crate::moist_air;
use crate::plant::{CentreHose, Inputs, OIL_KG_M3, OpenPlace, Units, Vessel};

/// Marked test pressure of the low side [Pa gauge] (common practice, no source: labels say 10 to 15 bar).
pub const LOW_SIDE_TEST_PA: f64 = 15e5;
/// A loop with more than this may not be opened [Pa gauge].
const MAY_OPEN_PA: f64 = 0.3e5;
/// Flow constant of a coupler that comes off with its knob open, and of a hose end that is being changed [m2] (own
/// estimate), and how long that takes in ticks.
const COMES_OFF_M2: f64 = 1e-6;
const COMES_OFF_TICKS: u64 = 10;
const CHANGE_TICKS: u64 = 40;
/// Flow constant of a cracked fitting [m2] (own estimate), and of the identifier's sampling nozzle.
const CRACK_M2: f64 = 1e-7;
const NOZZLE_M2: f64 = 1e-8;
/// Time the identifier draws, in ticks.
const SAMPLE_TICKS: u64 = 400;
/// Share of the way to the wet bulb that spray cools the air on the condenser (own estimate).
const SPRAY_SHARE: f64 = 0.7;

fn no<T>(why: impl Into<String>) -> Result<T, Refusal> {
    Err(Refusal::NotNow(why.into()))
}

/// Oil of a volume [kg].
pub fn oil_kg(ml: f64) -> f64 {
    ml * 1e-6 * OIL_KG_M3
}

impl Bench {
    /// The service bay, in a scenario that has one.
    pub fn bay(&self) -> Option<&Bay> {
        self.bay.as_deref()
    }

    /// Most refrigerant that may be in a vessel [kg]: 80 % of its volume as liquid at 25 °C (reference/teaching.md, S10).
    pub fn vessel_limit_kg(&self, vessel: Vessel) -> f64 {
        FillLimit::of(&vessel.spec(), self.plant.refrigerant()).net_kg()
    }

    /// Refrigerant in a vessel [kg]; none without a bay.
    pub fn vessel_kg(&self, vessel: Vessel) -> f64 {
        let now = self.time_s();
        self.plant.layout().vessel(vessel).map_or(0.0, |i| self.plant.at(now, |s| s.mass_kg[i]))
    }

    fn compressor_runs(&self) -> bool {
        self.plant.inputs().compressor_rpm > 0.0
    }
    /// Highest pressure in the loop [Pa gauge].
    pub(super) fn loop_gauge_pa(&self) -> f64 {
        let (l, now) = (self.plant.layout(), self.time_s());
        let p = |i: usize| self.plant.look(i, now).p_pa;
        p(l.suction).max(p(l.liquid)).max(p(l.discharge)) - self.controls.ambient_pa()
    }

    /// What would make an act in the bay deadly; such an act is stopped.
    pub(super) fn bay_danger(&self, action: &Action) -> Option<BayDanger> {
        let bay = self.bay.as_deref()?;
        let on_vessel = |valve: VesselValve| valve != VesselValve::Shut;
        let open_vessel =
            |centre: CentreEnd| centre.vessel().is_some_and(|vessel| on_vessel(bay.valves[vessel as usize]));
        let high_open = self.manifold_high_pct > 0.0 && bay.high.reaches().is_some();
        let bare = !bay.protected;
        match action {
            Action::Set(Change::EngineOn(true)) if bay.opened.is_some() => Some(BayDanger::StartedOpen),
            Action::Set(Change::EngineOn(true)) if high_open && open_vessel(bay.centre) => {
                Some(BayDanger::VesselOnHighSide)
            }
            Action::ManifoldHighPct(pct)
                if *pct > 0.0
                    && self.compressor_runs()
                    && bay.high.port.is_some()
                    && open_vessel(bay.centre) =>
            {
                Some(BayDanger::VesselOnHighSide)
            }
            Action::Hoses(_) if bare => Some(BayDanger::Unprotected),
            Action::Repair(id) if id.info().deed.recharges() => {
                if bare {
                    Some(BayDanger::Unprotected)
                } else {
                    (self.loop_gauge_pa() > MAY_OPEN_PA).then_some(BayDanger::UnderPressure)
                }
            }
            Action::Bay(act) => match act {
                BayAction::Centre(CentreEnd::CompressedAir) => Some(BayDanger::CompressedAir),
                BayAction::Centre(CentreEnd::Oxygen) => Some(BayDanger::Oxygen),
                BayAction::Flame => Some(BayDanger::Flame),
                BayAction::RegulatorBar(bar) if bar * 1e5 > LOW_SIDE_TEST_PA => {
                    Some(BayDanger::NitrogenTooHigh)
                }
                BayAction::Valve { vessel, valve }
                    if on_vessel(*valve)
                        && bay.centre.vessel() == Some(*vessel)
                        && high_open
                        && self.compressor_runs() =>
                {
                    Some(BayDanger::VesselOnHighSide)
                }
                BayAction::Machine(true)
                    if self.vessel_kg(Vessel::Recovery) >= self.vessel_limit_kg(Vessel::Recovery) =>
                {
                    Some(BayDanger::FullCylinder)
                }
                BayAction::Fit { .. }
                | BayAction::Centre(_)
                | BayAction::Loosen(true)
                | BayAction::Oil { .. }
                | BayAction::DyeMl(_)
                | BayAction::NewPartOilMl(_)
                | BayAction::Identify
                    if bare =>
                {
                    Some(BayDanger::Unprotected)
                }
                _ => None,
            },
            _ => None,
        }
    }

    /// Is an act in the bay possible at all?
    pub(super) fn check_bay(&self, act: &BayAction) -> Result<(), Refusal> {
        let Some(bay) = self.bay.as_deref() else {
            return no("there is no service bay in this scenario");
        };
        let range = super::acting::in_range;
        let busy = bay.station.as_ref().is_some_and(|s| s.step().is_some());
        match act {
            BayAction::Fit { .. }
            | BayAction::Centre(_)
            | BayAction::Knob { .. }
            | BayAction::Loosen(_)
            | BayAction::Pump(_)
            | BayAction::Machine(_)
            | BayAction::Valve { .. }
            | BayAction::RegulatorBar(_)
            | BayAction::Oil { .. }
            | BayAction::DyeMl(_)
            | BayAction::FreshCan
                if busy =>
            {
                no("the station is at work on the hoses: stop it first")
            }
            BayAction::Fit { hose, port: Some(port) } => {
                let other = if *hose == Hose::Low { bay.high } else { bay.low };
                if *port != hose.own_port() && !self.plant.spec().like_fittings {
                    no(format!(
                        "the fittings differ: the coupler of the {} does not go on this port",
                        hose.name()
                    ))
                } else if other.port == Some(*port) {
                    no("the other hose sits on that port")
                } else {
                    Ok(())
                }
            }
            BayAction::Knob { hose, .. } if bay.coupler(*hose).port.is_none() => {
                no(format!("the {} is not on a port", hose.name()))
            }
            BayAction::RegulatorBar(bar) => range("regulator", *bar, 0.0, 40.0, "bar"),
            BayAction::Oil { ml, .. } => {
                range("oil", *ml, 1.0, 300.0, "mL")?;
                if bay.low.reaches().is_none() && bay.high.reaches().is_none() {
                    return no("no hose is open to the loop: the oil has nowhere to go");
                }
                Ok(())
            }
            BayAction::DyeMl(ml) => {
                range("dye", *ml, 0.5, 30.0, "mL")?;
                if bay.low.reaches().is_none() && bay.high.reaches().is_none() {
                    return no("no hose is open to the loop: the dye has nowhere to go");
                }
                Ok(())
            }
            BayAction::CoverPct(pct) => range("cover", *pct, 0.0, 100.0, "%"),
            BayAction::CloseUp if bay.opened.is_none() => no("nothing is open"),
            BayAction::NewPartOilMl(ml) => match bay.opened {
                Some(_) => range("oil", *ml, 0.0, 300.0, "mL"),
                None => no("no new part is going in"),
            },
            BayAction::FreshCan if bay.valves[Vessel::Can as usize] != VesselValve::Shut => {
                no("shut the can's tap first")
            }
            BayAction::Station(steps) => self.check_program(bay, steps, busy),
            BayAction::Write { value, .. } => match value {
                RecordValue::Number(x) if !x.is_finite() => no("that is no number"),
                RecordValue::Words(words) if words.chars().count() > 500 => {
                    no("a line of the record may have 500 characters at most")
                }
                _ => Ok(()),
            },
            BayAction::Work { readings, answer, .. } => {
                if !answer.is_finite() {
                    no("that is no number")
                } else if readings.is_empty() || readings.iter().any(|&i| i >= self.notebook.len()) {
                    no("name the notebook readings it was worked out from")
                } else {
                    Ok(())
                }
            }
            _ => Ok(()),
        }
    }

    fn check_program(&self, bay: &Bay, steps: &[StationStep], busy: bool) -> Result<(), Refusal> {
        let range = super::acting::in_range;
        if busy {
            return no("the station is at work: stop it first");
        }
        if bay.opened.is_some() {
            return no("the loop is open: close up first");
        }
        if steps.is_empty() || steps.len() > 12 {
            return no("a program has 1 to 12 steps");
        }
        let on = |hose: Hose| bay.coupler(hose).reaches() == Some(hose.own_port());
        if !on(Hose::Low) || !on(Hose::High) {
            return no("fit both hoses and open their knobs first");
        }
        steps.iter().try_for_each(|step| match step {
            StationStep::Recover => Ok(()),
            StationStep::EvacuateMin(min) | StationStep::HoldMin(min) => {
                range("minutes", *min, 1.0, 600.0, "min")
            }
            StationStep::OilMl(ml) => range("oil", *ml, 1.0, 300.0, "mL"),
            StationStep::ChargeG(g) => range("charge", *g, 10.0, 5000.0, "g"),
        })
    }

    /// Do it.
    pub(super) fn carry_out_bay(&mut self, act: &BayAction) {
        let (tick, now) = (self.tick, self.time_s());
        let sample = self.sample();
        let Some(bay) = self.bay.as_deref_mut() else { return };
        match act {
            BayAction::Protect(on) => bay.protected = *on,
            BayAction::Ventilate(on) => bay.ventilated = *on,
            BayAction::Identify => {
                bay.spurts.push(Spurt {
                    place: OpenPlace::SuctionLine,
                    m2: NOZZLE_M2,
                    until_tick: tick + SAMPLE_TICKS,
                });
                bay.sample = Some(sample);
            }
            BayAction::Fit { hose, port } => {
                if port.is_some() && bay.sample.is_none() {
                    bay.log.mistake(BayMistake::NotIdentified, tick);
                }
                let coupler = bay.coupler(*hose);
                if coupler.reaches().is_some() {
                    // The valve core shuts behind it, but not before some has spat out of the hose.
                    let place = hose_place(*hose);
                    bay.spurts.push(Spurt { place, m2: COMES_OFF_M2, until_tick: tick + COMES_OFF_TICKS });
                }
                let coupler = bay.coupler_mut(*hose);
                (coupler.port, coupler.open) = (*port, false);
            }
            BayAction::Knob { hose, open } => bay.coupler_mut(*hose).open = *open,
            BayAction::Centre(end) if *end != bay.centre => {
                // What was left in the hose goes into the air, and air comes in, while it is changed.
                let place = OpenPlace::CentreHose;
                bay.spurts.push(Spurt { place, m2: COMES_OFF_M2, until_tick: tick + CHANGE_TICKS });
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
                bay.valves[*vessel as usize] = *valve;
            }
            BayAction::Warm(on) => bay.warm = *on,
            BayAction::RegulatorBar(bar) => bay.regulator_pa = bar * 1e5,
            BayAction::Oil { ml, kind } => {
                if *kind == OilKind::Other {
                    bay.log.foreign_oil_kg += oil_kg(*ml);
                    bay.log.mistake(BayMistake::WrongOil, tick);
                }
                bay.log.oil_added_kg += oil_kg(*ml);
                self.plant.pour_oil(now, Units::Joint, oil_kg(*ml));
            }
            BayAction::DyeMl(ml) => {
                bay.log.dye_kg += oil_kg(*ml);
                bay.log.oil_added_kg += oil_kg(*ml);
                self.plant.pour_oil(now, Units::Joint, oil_kg(*ml));
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
                    self.plant.pour_oil(now, opened.part, opened.new_oil_kg);
                }
            }
            BayAction::FreshCan => {
                let (came, went) = self.plant.fresh_vessel(now, Vessel::Can);
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

    /// Both hoses at once: on their own ports with the knobs open, or off with the knobs shut first.
    pub(super) fn bay_hoses(&mut self, on: bool) {
        let tick = self.tick;
        let Some(bay) = self.bay.as_deref_mut() else { return };
        if on && bay.sample.is_none() {
            bay.log.mistake(BayMistake::NotIdentified, tick);
        }
        for hose in [Hose::Low, Hose::High] {
            let coupler = bay.coupler_mut(hose);
            (coupler.port, coupler.open) = (on.then(|| hose.own_port()), on);
        }
    }

    /// What stands at the low-side port.
    fn sample(&self) -> Sample {
        let (i, now) = (self.plant.layout().suction, self.time_s());
        let (mass, air) = (self.plant.at(now, |s| s.mass_kg[i]), self.plant.at(now, |s| s.air_kg[i]));
        let all = (mass + air).max(1e-9);
        Sample { refrigerant: mass / all, air: air / all, tick: self.tick }
    }

    /// What the bay makes of the plant's inputs.
    pub(super) fn bay_into(&self, inputs: &mut Inputs) {
        let Some(bay) = self.bay.as_deref() else { return };
        let ambient_pa = self.controls.ambient_pa();
        (inputs.low_hose, inputs.high_hose) = (bay.low.reaches(), bay.high.reaches());
        if self.effects.instruments.high_hose_shut {
            inputs.high_hose = None;
        }
        if let Some(station) = bay.station.as_ref().filter(|s| s.step().is_some()) {
            (inputs.manifold_low, inputs.manifold_high) = station.valves();
        }
        inputs.centre_hose = bay.centre_hose(ambient_pa);
        if let Some(opened) = &bay.opened {
            (inputs.joint_m2, inputs.joint_place) = (crate::bay::JOINT_M2, opened.place);
        }
        if let Some(spurt) = bay.spurts.iter().max_by(|a, b| a.m2.total_cmp(&b.m2)) {
            (inputs.crack_m2, inputs.crack_place) = (spurt.m2, spurt.place);
            if spurt.place == OpenPlace::CentreHose {
                inputs.centre_hose = CentreHose::Capped;
            }
        } else if bay.loose {
            (inputs.crack_m2, inputs.crack_place) = (CRACK_M2, OpenPlace::CentreHose);
        }
        // The station keeps its supply cylinder warm.
        let heats = bay.station.as_ref().is_some_and(|s| s.step().is_some());
        inputs.warm_bath = if heats { Some(Vessel::Supply) } else { bay.warm.then_some(bay.on_scale) };
        inputs.fins_blocked = inputs.fins_blocked.max(bay.cover);
        if bay.spray {
            let wet_k = moist_air::wet_bulb_k(inputs.ambient_t_k, inputs.ambient_w, ambient_pa);
            inputs.spray_k = SPRAY_SHARE * (inputs.ambient_t_k - wet_k).max(0.0);
        }
        let oil_kg = self.plant.at(self.time_s(), |s| s.oil.total_kg()).max(1e-6);
        let foreign = (bay.log.foreign_oil_kg / oil_kg).clamp(0.0, 1.0);
        // Oils that do not mix leave a thinner film; half the film at a half-and-half mixture (own estimate).
        inputs.oil_film *= 1.0 - foreign * (2.0 - foreign) * 0.66;
    }
}

/// The end of a hose, where it may be open to the air.
fn hose_place(hose: Hose) -> OpenPlace {
    match hose {
        Hose::Low => OpenPlace::LowHose,
        Hose::High => OpenPlace::HighHose,
    }
}
