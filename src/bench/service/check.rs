//! Is an act in the bay possible at all?

use super::hands::Service;
use crate::bay::{Bay, BayAction, Hose, RecordValue, StationStep, VesselValve};
use crate::bench::refusal::{Refusal, in_range as range, no};
use crate::plant::Vessel;

impl Service {
    /// Is an act in the bay possible at all? Fittings of both ports may be alike on a rig; `notes` is how many readings the
    /// notebook holds.
    pub fn check(&self, act: &BayAction, like_fittings: bool, notes: usize) -> Result<(), Refusal> {
        let Some(bay) = self.bay() else {
            return no("there is no service bay in this scenario");
        };
        let busy = bay.at_work().is_some();
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
                if *port != hose.own_port() && !like_fittings {
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
            BayAction::FreshCan if bay.valves[Vessel::Can] != VesselValve::Shut => {
                no("shut the can's tap first")
            }
            BayAction::Station(steps) => check_program(bay, steps, busy),
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
                } else if readings.is_empty()
                    || readings.len() > notes
                    || readings.iter().any(|&i| i >= notes)
                {
                    no("name the notebook readings it was worked out from")
                } else {
                    Ok(())
                }
            }
            _ => Ok(()),
        }
    }
}

fn check_program(bay: &Bay, steps: &[StationStep], busy: bool) -> Result<(), Refusal> {
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
