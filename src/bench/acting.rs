//! Actions: what is allowed now, and what each does.

use super::{Action, Bench, Refusal};
use crate::fault::{Fault, FaultId, Group};
use crate::instrument::{Probe, Reading};
use crate::knobs::{HandValve, Range};
use crate::scenario::Tool;

impl Bench {
    pub(super) fn check(&self, action: &Action) -> Result<(), Refusal> {
        let severity = |id: FaultId, value: f64| {
            if !id.info().applies_to(&self.rig) {
                return Err(Refusal::NotNow(format!("{}: this rig has no such part", id.info().name)));
            }
            if id.accepts(value) {
                return Ok(());
            }
            let (min, max) = id.info().severity.map_or((1.0, 1.0), |s| (s.min, s.max));
            Err(Refusal::OutOfRange { what: id.info().key, value, min, max, unit: "(severity)" })
        };
        let needs = |tool: Tool| {
            if self.scenario.has(tool) {
                Ok(())
            } else {
                Err(Refusal::NotNow(format!("{} is not on the bench in this scenario", tool.name())))
            }
        };
        match action {
            Action::Set(change) => match change.number().zip(change.knob().info().range()) {
                Some((value, range)) => allowed(change.key(), value, range),
                None => Ok(()),
            },
            Action::ManifoldLowPct(v) => allowed(HandValve::Low.key(), *v, HandValve::RANGE),
            Action::ManifoldHighPct(v) => allowed(HandValve::High.key(), *v, HandValve::RANGE),
            Action::Hoses(true) => needs(Tool::GaugeSet),
            Action::Jumper(Some(_)) => needs(Tool::Jumper),
            Action::ImposeFault { id, severity: s } => severity(*id, *s),
            Action::RampFault { id, severity: s, over_s } => {
                severity(*id, *s)?;
                in_range("over_s", *over_s, 0.0, 36_000.0, "s")
            }
            Action::Repair(id) => self.check_repair(*id),
            Action::Bay(act) => self.check_bay(act),
            Action::ImposeIntermittent { id, severity: s, recurs } => {
                severity(*id, *s)?;
                if id.is_contents() {
                    return Err(Refusal::NotNow("what is in the loop does not come and go".into()));
                }
                let mut numbers = recurs.numbers().into_iter();
                numbers.try_for_each(|(value, unit, min, max)| in_range("recurs", value, min, max, unit))
            }
            Action::Place(Probe::Sense(_)) => {
                Err(Refusal::NotNow("your own senses are not put anywhere: just read".into()))
            }
            Action::Place(probe) => {
                needs(tool_of(probe))?;
                match probe {
                    Probe::Meter { red: a, black: b, .. } | Probe::Lamp { tip: a, clip: b } => {
                        self.point(a).and_then(|()| self.point(b))
                    }
                    Probe::Clamp(part) if self.circuit.current(part).is_none() => {
                        Err(Refusal::NotNow(format!("there is no part {part}")))
                    }
                    Probe::UnitValue { .. } => {
                        Err(Refusal::NotNow("the reader plugs in by itself: just read".into()))
                    }
                    Probe::Volts(point) if self.circuit.volts(point).is_none() => {
                        Err(Refusal::NotNow(format!("there is no circuit point {point}")))
                    }
                    Probe::LeakDetector { place, .. } | Probe::Soap(place) | Probe::UvLamp(place)
                        if !self.has_place(*place) =>
                    {
                        Err(Refusal::NotNow(format!("there is no {} here", place.name())))
                    }
                    _ => Ok(()),
                }
            }
            Action::Read(probe @ Probe::Sense(sense)) => match self.shown(probe) {
                Some(_) => Ok(()),
                None => Err(Refusal::NotNow(format!("there is no {} here", sense.name()))),
            },
            Action::Read(probe @ Probe::UnitValue { .. }) => match self.shown(probe) {
                Some(_) => Ok(()),
                None => Err(Refusal::NotNow(
                    "the reader is not plugged in, or the unit does not send that".into(),
                )),
            },
            Action::Read(probe) => {
                if matches!(probe, Probe::LowGauge | Probe::HighGauge) && !self.gauges_live() {
                    return Err(Refusal::NotNow("fit the hoses before reading a gauge".into()));
                }
                let shown = self.rack.shown(probe, self.tick).is_some();
                if !shown && matches!(probe, Probe::Identifier | Probe::IdentifierAir) {
                    return Err(Refusal::NotNow("take a sample to the identifier first".into()));
                }
                if !shown {
                    return Err(Refusal::NotNow("put the tool on that place first and let it settle".into()));
                }
                Ok(())
            }
            Action::Diagnose(d) => {
                if d.evidence.is_empty() || d.evidence.iter().any(|&i| i >= self.notebook.len()) {
                    return Err(Refusal::NotNow("name at least one notebook reading as evidence".into()));
                }
                in_range("confidence", d.confidence, 0.0, 1.0, "")
            }
            Action::Hint => {
                let taken = self.journal().iter().filter(|(_, a)| *a == Action::Hint).count();
                if taken < self.scenario.hints.len() {
                    Ok(())
                } else {
                    Err(Refusal::NotNow("there are no more hints".into()))
                }
            }
            Action::Note(text) if text.chars().count() > 2000 => {
                Err(Refusal::NotNow("a note may have 2000 characters at most".into()))
            }
            other => self.check_electrics(other, &needs),
        }
    }

    pub(super) fn carry_out(&mut self, action: &Action) {
        match action {
            Action::Set(change) => self.controls.turn(*change),
            Action::Hoses(v) => {
                self.hoses_fitted = *v;
                self.bay_hoses(*v);
            }
            Action::ManifoldLowPct(v) => self.manifold_low_pct = *v,
            Action::ManifoldHighPct(v) => self.manifold_high_pct = *v,
            Action::Jumper(v) => {
                self.jumper = *v;
                self.electrics.jumper_between = None;
            }
            Action::ImposeFault { id, severity } => {
                self.disturbances.stop(*id);
                self.faults.impose(Fault { id: *id, severity: *severity });
            }
            Action::ImposeIntermittent { id, severity, recurs } => {
                self.faults.clear(*id);
                self.disturbances.recur(Fault { id: *id, severity: *severity }, *recurs);
                self.disturb();
            }
            Action::RampFault { id, severity, over_s } => {
                let from = self.faults.severity(*id);
                self.disturbances.ramp(*id, from, *severity, self.tick, *over_s);
            }
            Action::ClearFault { id } => {
                self.disturbances.stop(*id);
                self.faults.clear(*id);
            }
            Action::Repair(id) => self.repair(*id),
            Action::Bay(act) => self.carry_out_bay(act),
            Action::Place(probe) => {
                let circuit = &self.circuit;
                let volts = |id: &str| circuit.volts(id);
                let truth = self.truth(self.time_s(), &volts, Some(circuit));
                self.rack.place(probe, &truth);
                self.watch_ohms(probe);
            }
            Action::Read(probe) => {
                if let Some((value, uncertainty)) = self.shown(probe) {
                    self.notebook.push(Reading { tick: self.tick, probe: probe.clone(), value, uncertainty });
                }
                self.watch_ohms(probe);
            }
            Action::Note(_) | Action::Hint => {}
            Action::Suspect { group, standing } => {
                if let Some(i) = Group::ALL.iter().position(|g| g == group) {
                    self.suspects[i] = *standing;
                }
            }
            Action::Diagnose(d) => self.diagnosis = Some(d.clone()),
            other => self.carry_out_electrics(other),
        }
    }
}

/// The tool a probe needs on the bench.
pub fn tool_of(probe: &Probe) -> Tool {
    match probe {
        Probe::LowGauge | Probe::HighGauge => Tool::GaugeSet,
        Probe::Pipe(_) => Tool::PipeThermometer,
        Probe::Air(_) => Tool::AirThermometer,
        Probe::Volts(_) => Tool::Voltmeter,
        Probe::Meter { .. } => Tool::Meter,
        Probe::Lamp { .. } => Tool::TestLamp,
        Probe::Clamp(_) => Tool::ClampAmmeter,
        Probe::UnitValue { .. } => Tool::Reader,
        Probe::SightGlass => Tool::SightGlass,
        Probe::VacuumGauge => Tool::VacuumGauge,
        Probe::RecoveryScale | Probe::ChargingScale | Probe::OilGraduation => Tool::Scales,
        Probe::Infrared { .. } => Tool::InfraredThermometer,
        Probe::WetBulb(_) => Tool::Psychrometer,
        Probe::Airflow => Tool::AirflowMeter,
        Probe::LeakDetector { .. } => Tool::LeakDetector,
        Probe::Soap(_) => Tool::SoapSolution,
        Probe::UvLamp(_) => Tool::UvLamp,
        Probe::Identifier | Probe::IdentifierAir => Tool::Identifier,
        Probe::Sense(_) => Tool::Senses,
    }
}

pub(super) fn in_range(
    what: &'static str,
    value: f64,
    min: f64,
    max: f64,
    unit: &'static str,
) -> Result<(), Refusal> {
    allowed(what, value, Range::new(unit, min, max))
}

fn allowed(what: &'static str, value: f64, range: Range) -> Result<(), Refusal> {
    let Range { unit, min, max } = range;
    if range.holds(value) { Ok(()) } else { Err(Refusal::OutOfRange { what, value, min, max, unit }) }
}
