//! How the work in the bay went, in plain words: functions of the journal and of what came of it ([`Facts`]), then the work
//! record line by line and the arithmetic.

mod order;

use super::acts;
use crate::bay::BayMistake;
use crate::bay::facts::{Facts, Vacuum};
use crate::bay::oil_balance::{OilPart, OilVerdict, oil_for, oil_ml, oil_verdict, range_ml};
use crate::bay::record::{self, Finding, Mark};
use crate::bay::worked::{self, Worked};
use crate::bay::{BayAction, BayDanger, WorkedDone};
use crate::bench::{Action, Bench};
use crate::constants::MICRON_PA;

/// Shortest evacuation [min]: common practice, no source; the vacuum gauge is the truth.
const PUMPED_MIN: f64 = 15.0;
/// Vacuum to reach [Pa absolute]: 500 microns (common practice, no source).
const VACUUM_PA: f64 = 67.0;
/// Rise that counts as none, and the shortest watch: 500 microns more in five minutes (common practice, no source).
const RISE_PA: f64 = 67.0;
const WATCH_MIN: f64 = 5.0;
/// A watch stopped by hand may be so much short [s].
const WATCH_SHORT_S: f64 = 10.0;
/// Shortest hold under nitrogen [min] and the loss that counts as none [Pa] (common practice, no source).
const HOLD_MIN: f64 = 10.0;
const HOLD_PA: f64 = 5e3;
/// A charge is right within 15 g (SAE J2788) or 5 % of it (own choice), the first from memory.
const CHARGE_KG: f64 = 0.015;
const CHARGE_SHARE: f64 = 0.05;
/// Below this a release counts as traces [kg]: what low-loss fittings let go (own estimate).
const TRACES_KG: f64 = 1e-3;
/// What hands let out up to here may be what good practice cannot help [kg] (own estimate): gas in the hoses, and after a
/// recovery the last grams out of the oil that the pump draws off.
const HELPLESS_KG: (f64, f64) = (0.003, 0.01);
/// Release from which a bay without extraction is a hazard of its own [kg] (own estimate).
const CLOUD_KG: f64 = 0.05;

/// How the work in the bay went, in words; empty without a bay or before anything was done in it.
pub fn bay_review(bench: &Bench) -> Vec<String> {
    let (Some(bay), Some(truth)) = (bench.bay(), bench.bay_facts()) else { return Vec::new() };
    if !bench.journal().iter().any(|(_, action)| matches!(action, Action::Bay(_))) {
        return Vec::new();
    }
    let mut lines = lines(bench.journal(), &truth);
    if bay.handed_over.is_some() {
        lines.extend(record_lines(&record::check(&bay.record, &truth)));
    }
    lines.extend(bay.worked.iter().map(|done| checked(bench, done).to_string()));
    lines
}

/// An answer of arithmetic, checked against the readings it was worked out from.
pub fn checked(bench: &Bench, done: &WorkedDone) -> Worked {
    worked::check_in(
        bench.notebook(),
        &done.readings,
        done.what,
        done.answer,
        done.unit,
        bench.plant().refrigerant(),
        bench.plant().inputs().ambient_pa,
    )
}

/// All there is to say of the work itself, the gravest first.
fn lines(journal: &[(u64, Action)], truth: &Facts) -> Vec<String> {
    let mut all = unsafe_acts(journal, truth);
    all.extend(vented(truth));
    all.extend(mistakes(truth));
    all.extend(order::words(journal, truth));
    all.extend(hold(truth));
    all.extend(truth.vacuum.iter().flat_map(vacuum));
    all.extend(oil(truth));
    all.extend(charge(journal, truth));
    all
}

/// What the work record came to: how many lines are in order, then each that is not.
fn record_lines(findings: &[Finding]) -> Vec<String> {
    let right = findings.iter().filter(|f| f.right()).count();
    let head = format!("Work record: {right} of {} lines in order.", findings.len());
    let wrong = findings.iter().filter(|f| f.mark != Mark::Right).map(ToString::to_string);
    core::iter::once(head).chain(wrong).collect()
}

fn grams(kg: f64) -> String {
    let g = kg * 1e3;
    let digits = usize::from(g.abs() < 9.95);
    format!("{g:.digits$} g")
}

/// Acts that were stopped, and what was unsafe and was not.
fn unsafe_acts(journal: &[(u64, Action)], truth: &Facts) -> Vec<String> {
    let stopped =
        |&(danger, tick): &(BayDanger, u64)| acts::stopped(danger.caution().id, tick, danger.words());
    let mut all: Vec<String> = truth.stopped.iter().map(stopped).collect();
    let aired = journal.iter().any(|(_, a)| matches!(a, Action::Bay(BayAction::Ventilate(true))));
    if truth.lost_kg() > CLOUD_KG && !aired {
        all.push(format!(
            "S2: {} got out and the extraction was never on. It gathers low and takes your breath.",
            grams(truth.lost_kg())
        ));
    }
    if let Some(cylinder) = truth.cylinder.filter(|c| c.gross_kg > c.limit.gross_kg()) {
        all.push(format!(
            "S10: the recovery cylinder weighs {:.1} kg: too full. {}",
            cylinder.gross_kg,
            cylinder.limit.words()
        ));
    }
    all
}

/// Venting is never silent; what a leak lost is told apart from what hands let out.
fn vented(truth: &Facts) -> Vec<String> {
    let name = &truth.refrigerant;
    let parts = |by_hand: bool| {
        let told = truth.vented.iter().filter(|v| v.by_hand == by_hand && v.kg >= 0.1 * TRACES_KG);
        told.map(|v| format!("{} by {}", grams(v.kg), v.how)).collect::<Vec<_>>().join(", ")
    };
    let (own_kg, leaked_kg) = (truth.vented_kg(), truth.lost_kg() - truth.vented_kg());
    let mut all = Vec::new();
    if own_kg >= TRACES_KG {
        let helpless_kg = if truth.recovered() { HELPLESS_KG.1 } else { HELPLESS_KG.0 };
        let law = if own_kg < helpless_kg {
            "The law lets go only what good practice cannot help (S7)."
        } else {
            "Venting is against the law (S7)."
        };
        all.push(format!("You let out {} of {name}: {}. {law}", grams(own_kg), parts(true)));
    } else if own_kg > 0.0 {
        all.push(format!("Your hands let out no more than traces of {name} ({}).", grams(own_kg)));
    }
    if leaked_kg >= TRACES_KG {
        all.push(format!("Lost besides: {}.", parts(false)));
    }
    all
}

fn mistakes(truth: &Facts) -> Vec<String> {
    let words = |&(kind, tick): &(BayMistake, u64)| {
        let hurt = match kind {
            BayMistake::LiquidIntoRunning if truth.battered > 0.0 => {
                format!(" It has done {:.0} % of what breaks the valves.", 100.0 * truth.battered)
            }
            _ => String::new(),
        };
        format!("{}{hurt}", acts::mistake(tick, kind.words()))
    };
    truth.mistakes.iter().map(words).collect()
}

fn hold(truth: &Facts) -> Vec<String> {
    let Some(hold) = truth.nitrogen else { return Vec::new() };
    let minutes = hold.held_s / 60.0;
    let change = hold.change_pa(truth.ambient_pa);
    let mut all = Vec::new();
    if minutes < HOLD_MIN {
        all.push(format!(
            "The nitrogen was held for {minutes:.0} min. A small leak needs {HOLD_MIN:.0} to show."
        ));
    }
    if change < -HOLD_PA {
        all.push(format!(
            "At one temperature the nitrogen fell by {:.2} bar: there still is a leak.",
            -change / 1e5
        ));
    }
    all
}

fn vacuum(v: &Vacuum) -> Vec<String> {
    let mut all = Vec::new();
    let minutes = v.pumped_s / 60.0;
    if minutes < PUMPED_MIN {
        all.push(format!(
            "The pump ran {minutes:.0} min. Fifteen is the least in the trade, and only the vacuum gauge knows when it is enough."
        ));
    }
    if v.deepest_pa > VACUUM_PA {
        all.push(format!(
            "It came down to {:.0} Pa ({:.0} microns). Below {VACUUM_PA:.0} Pa (500 microns) water is out; above, it stays and freezes in the valve.",
            v.deepest_pa,
            v.deepest_pa / MICRON_PA
        ));
    }
    match v.rise {
        Some((_, seconds)) if seconds < 60.0 * WATCH_MIN - WATCH_SHORT_S => all.push(format!(
            "You watched the rise for {:.0} min. It takes {WATCH_MIN:.0} to tell water from a leak.",
            seconds / 60.0
        )),
        Some((rise_pa, seconds)) if rise_pa > RISE_PA => all.push(format!(
            "It rose by {rise_pa:.0} Pa in {:.0} min. A leak climbs on in a straight line; water and refrigerant out of the oil slow down and stop. Find out which before you charge.",
            seconds / 60.0
        )),
        _ => {}
    }
    all
}

fn oil(truth: &Facts) -> Vec<String> {
    let mut all = Vec::new();
    if !truth.opened() && truth.oil_added_kg <= 0.0 {
        return all;
    }
    let part = truth.repair.and_then(|repair| OilPart::of(repair, !truth.receiver));
    if let Some(part) = part {
        let (low, high) = range_ml(part, oil_ml(truth.drained_oil_kg));
        // What recovery took along goes back in too.
        let took = oil_ml(truth.recovered_oil_kg);
        let put = oil_ml(truth.oil_added_kg);
        // The measuring glass has marks every 10 mL.
        if put < low + took - 10.0 || put > high + took + 10.0 {
            all.push(format!(
                "You put {put:.0} mL of oil in. For this part {low:.0} to {high:.0} mL go in, and the {took:.0} mL that recovery took. {}",
                oil_for(part).words
            ));
        }
    }
    let verdict = oil_verdict(truth.oil_kg, truth.label_oil_kg);
    if verdict != OilVerdict::Right {
        all.push(format!(
            "{} There are {:.0} mL in the loop, the label says {:.0}.",
            verdict.words(),
            oil_ml(truth.oil_kg),
            oil_ml(truth.label_oil_kg)
        ));
    }
    all
}

/// Too much or too little, and why the gauges did not say so.
fn charge(journal: &[(u64, Action)], truth: &Facts) -> Vec<String> {
    if !truth.charged() {
        return Vec::new();
    }
    // Emptied again, the recovery scale tells what was in it.
    let emptied = order::emptied_again(journal);
    let held_kg = if emptied { truth.recovered_kg + truth.charge_kg } else { truth.charge_kg };
    let over_kg = held_kg - truth.label_charge_kg;
    let doubt_kg = CHARGE_KG.max(CHARGE_SHARE * truth.label_charge_kg);
    if over_kg.abs() <= doubt_kg || emptied && over_kg < 0.0 {
        return Vec::new();
    }
    let much = grams(over_kg.abs());
    if over_kg < 0.0 {
        let hoses = grams(truth.hoses_kg);
        return vec![if over_kg + truth.hoses_kg > -doubt_kg {
            format!(
                "{much} are missing in the loop, and {hoses} stand in the hoses. Let them into the low side, slowly, before the hoses come off."
            )
        } else {
            format!("{much} are missing in the loop. Weigh what goes in; what stays in the hoses counts too.")
        }];
    }
    if truth.weighed {
        return vec![format!(
            "There are {much} too much in the loop, though you weighed. Was it empty before?"
        )];
    }
    let mut all = vec![format!(
        "{much} too much went into the loop: you filled it by the gauges and never looked at the scale."
    )];
    all.push(if truth.receiver {
        "Pressure cannot tell you when to stop: while the receiver fills, the valve feeds the coil as before and both \
         gauges stay on their plateau. Only when the receiver is full does liquid back up into the condenser: then \
         subcooling rises first, and the high side after it."
            .into()
    } else {
        "Pressure cannot tell you when to stop: while the accumulator fills, the gauges hardly move. Only when it is full \
         does liquid reach the compressor."
            .into()
    });
    if let Some(k) = truth.subcooling_k.filter(|_| !emptied) {
        all.push(format!("Subcooling now is {k:.0} K: liquid pipe and high gauge would have told you."));
    }
    all
}

#[cfg(test)]
#[path = "bay_tests.rs"]
mod tests;
