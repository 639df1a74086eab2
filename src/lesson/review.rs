//! The debrief of a session, worked out by playing it again under every story.

use super::debrief::{Belief, Debrief, DebriefLine, Hypothesis};
use super::timeline;
use crate::bench::{Action, Bench, BenchError, Inside, RepairDone};
use crate::diagnosis::{self, Prediction, Story};
use crate::fault::{Fault, FaultId};
use crate::units::{DeltaK, GaugePa, Kelvin, Units};

/// Standard deviations within which a reading fits a story, and beyond which it speaks against it.
const FITS: f64 = 2.0;
const AGAINST: f64 = 3.0;

/// Work out the debrief of a bench on which a diagnosis was handed in. `None` without one.
///
/// # Errors
/// When a shadow bench cannot be set up.
pub fn review(bench: &Bench) -> Result<Option<Debrief>, BenchError> {
    let Some(diagnosis) = bench.diagnosis() else { return Ok(None) };
    let scenario = bench.scenario();
    let stories = diagnosis::stories(bench.rig());
    // Once hands have changed what is in the loop, readings tell of their work, no longer of how the car came.
    let until = bench.work_began().unwrap_or(u64::MAX).min(bench.tick());
    let before = |tick: u64| tick <= until;
    let done = bench.journal().iter().take_while(|(tick, _)| before(*tick)).count();
    let read = bench.notebook().iter().take_while(|reading| before(reading.tick)).count();
    let (journal, notebook) = (&bench.journal()[..done], &bench.notebook()[..read]);
    let predictions = diagnosis::predict_all(scenario, bench.seed(), journal, until, &stories)?;
    let belief = diagnosis::weigh(notebook, &predictions);
    let best_of =
        |cause: Option<FaultId>| belief.iter().find(|w| w.fault == cause).map_or(Story::Healthy, |w| w.best);
    let told = |story: Story| predictions.iter().find(|p| p.story == story);
    let healthy = told(Story::Healthy);
    let named = told(best_of(diagnosis.cause));
    // The truth is the scenario as it really ran, with an instructor's faults among its actions.
    let (real, truth) = as_it_was(bench, journal, until)?;

    let lines = notebook
        .iter()
        .enumerate()
        .map(|(i, reading)| {
            let of = |p: Option<&Prediction>| {
                p.and_then(|p| p.expected.get(i).copied().flatten()).unwrap_or(f64::NAN)
            };
            let true_value = real.get(i).copied().flatten().unwrap_or(reading.value);
            let mut line = DebriefLine {
                reading: reading.clone(),
                healthy: of(healthy),
                named: of(named),
                truth: true_value,
                sigma: diagnosis::spread(&reading.probe, reading.value, true_value),
                used_as_evidence: diagnosis.evidence.contains(&i),
                note: String::new(),
            };
            line.note = remark(&line, diagnosis.cause);
            line
        })
        .collect();
    Ok(Some(Debrief {
        verdict_right: is_right(bench, diagnosis.cause, &truth),
        named: diagnosis.cause.map_or(Hypothesis::Healthy, Hypothesis::Fault),
        confidence: diagnosis.confidence,
        because: diagnosis.because.clone(),
        inside: inside_words(bench, healthy),
        truth,
        lines,
        belief: belief
            .iter()
            .map(|w| Belief {
                hypothesis: w.fault.map_or(Hypothesis::Healthy, Hypothesis::Fault),
                share: w.share,
            })
            .collect(),
        cautions: timeline::unsafe_acts(bench.electrics())
            .into_iter()
            .chain(timeline::breaches(bench.journal(), bench.scenario(), bench.tick()))
            .collect(),
        mistakes: timeline::mistakes(bench.electrics()),
        bay: super::bay_review(bench),
        scenario_debrief: scenario.debrief.clone(),
        repairs: bench.repairs().iter().map(repair_words).collect(),
        parts_replaced: bench.parts_replaced(),
        timeline: timeline::timeline(bench.journal()),
    }))
}

/// Right when it is one of the accepted causes or, where none are listed, a fault that is present. "Nothing is wrong"
/// is right where the scenario accepts no cause and no fault was present.
fn is_right(bench: &Bench, cause: Option<FaultId>, truth: &[Fault]) -> bool {
    let accepted = &bench.scenario().accepted_causes;
    match cause {
        None => accepted.is_empty() && truth.is_empty(),
        Some(id) if accepted.is_empty() => truth.iter().any(|f| f.id == id),
        Some(id) => accepted.contains(&id),
    }
}

/// What the instruments of the real session would have shown without noise, and the faults at its end.
fn as_it_was(
    bench: &Bench,
    journal: &[(u64, Action)],
    until: u64,
) -> Result<(Vec<Option<f64>>, Vec<Fault>), BenchError> {
    let mut again = Bench::new(bench.scenario(), bench.seed())?;
    let mut expected = Vec::new();
    let go_to = |again: &mut Bench, tick: u64| {
        again.advance(u32::try_from(tick.saturating_sub(again.tick())).unwrap_or(u32::MAX));
    };
    let mut truth: Option<Vec<Fault>> = None;
    for (tick, action) in journal {
        go_to(&mut again, *tick);
        // A repair on the last tick is no part of how it was.
        if *tick == until && bench.work_began().is_some() {
            truth.get_or_insert_with(|| again.faults().iter().collect());
        }
        if let Action::Read(probe) = action {
            expected.push(again.expected(probe));
        }
        // It was accepted the first time, so it is accepted now.
        drop(again.apply(action.clone()));
    }
    go_to(&mut again, until);
    let truth = truth.unwrap_or_else(|| again.faults().iter().collect());
    Ok((expected, truth))
}

/// What one reading says about the named cause.
fn remark(line: &DebriefLine, cause: Option<FaultId>) -> String {
    let off = |x: f64| if x.is_nan() { f64::INFINITY } else { line.deviations(x).abs() };
    let (healthy, named) = (off(line.healthy), off(line.named));
    let Some(cause) = cause else {
        return match healthy {
            h if h > AGAINST => "speaks against nothing being wrong".into(),
            h if h <= FITS => "fits a healthy loop".into(),
            _ => "within doubt".into(),
        };
    };
    let name = cause.info().name.to_lowercase();
    if named > AGAINST {
        format!("speaks against {name}")
    } else if named <= FITS && healthy > AGAINST {
        format!("fits {name}, and a healthy loop would differ")
    } else if named <= FITS && healthy <= FITS {
        "fits a healthy loop as well: it decides nothing".into()
    } else {
        "within doubt".into()
    }
}

/// What a repair came to: what it cured, or why it did not.
fn repair_words(done: &RepairDone) -> String {
    let info = done.repair.info();
    let what = match done.cured.as_slice() {
        [] => "cured nothing".to_owned(),
        cured => {
            let names: Vec<String> = cured.iter().map(|id| id.info().name.to_lowercase()).collect();
            format!("cured {}", names.join(", "))
        }
    };
    let good = if done.good_part { "; the part taken out was good" } else { "" };
    format!("{}: {what}{good} ({:.0} min)", info.words, info.minutes)
}

/// What the inside looked like, a line each, beside the healthy loop at the same moment.
fn inside_words(bench: &Bench, healthy: Option<&Prediction>) -> Vec<String> {
    let units = Units::default();
    let Some(now) = bench.snapshot(true).inside else { return Vec::new() };
    let well = healthy.and_then(|p| p.bench.snapshot(true).inside);
    let both = |what: &str, show: &dyn Fn(&Inside) -> String| {
        let beside = well.as_ref().map_or_else(String::new, |w| format!(", a healthy loop {}", show(w)));
        format!("{what} {}{beside}", show(&now))
    };
    let mut lines = vec![
        both("Low side", &|i| units.pressure(GaugePa(i.gauge_low_pa))),
        both("High side", &|i| units.pressure(GaugePa(i.gauge_high_pa))),
        both("Superheat", &|i| units.difference(DeltaK(i.superheat_k))),
        both("Subcooling", &|i| units.difference(DeltaK(i.subcooling_k))),
        both("Discharge pipe", &|i| units.temperature(Kelvin(i.points[1].t_k))),
        both("Receiver filled to", &|i| format!("{:.0} %", 100.0 * i.receiver_level)),
        both("Valve opening", &|i| format!("{:.0} % of full lift", 100.0 * i.valve_lift)),
        both("Air over the condenser", &|i| format!("{:.2} kg/s", i.condenser_air_kg_s)),
        both("Refrigerant flow", &|i| format!("{:.1} g/s", 1e3 * i.m_metering_kg_s)),
        both("Vent air", &|i| units.temperature(Kelvin(i.vent_t_k))),
    ];
    if now.air_kg > 1e-5 {
        lines.push(format!("{:.1} g of air in the loop", 1e3 * now.air_kg));
    }
    for fault in &now.faults {
        lines.push(format!("{}: {}", fault.id.info().name, fault.id.info().changes));
    }
    lines
}
