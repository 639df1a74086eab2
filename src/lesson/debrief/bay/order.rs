//! The trade's order of work: identify, test, recover, repair, hold, evacuate, watch the rise, oil, charge, test again.

use strum::VariantArray;

use crate::bay::facts::Facts;
use crate::bay::{BayAction, StationStep, VesselValve};
use crate::bench::Action;
use crate::instrument::Probe;
use crate::plant::Vessel;
use crate::variants::all;

/// A step of the work, in the trade's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, VariantArray)]
pub(super) enum Step {
    /// What is in the loop.
    Identify,
    /// Running check before the work.
    Test,
    /// Refrigerant out, weighed.
    Recover,
    /// The part that opens the loop.
    Repair,
    /// Pressure-hold with nitrogen.
    Hold,
    /// Evacuation.
    Evacuate,
    /// Watching the vacuum rise.
    Rise,
    /// Oil put in.
    Oil,
    /// Charge put in.
    Charge,
    /// Running check after the work.
    TestAgain,
}

impl Step {
    /// All, in order.
    pub const ALL: [Self; Self::VARIANTS.len()] = all();
    /// In words.
    pub fn name(self) -> &'static str {
        match self {
            Self::Identify => "identify the refrigerant",
            Self::Test => "test before the work",
            Self::Recover => "recover and weigh",
            Self::Repair => "repair",
            Self::Hold => "hold under nitrogen",
            Self::Evacuate => "evacuate",
            Self::Rise => "watch the vacuum rise",
            Self::Oil => "put oil in",
            Self::Charge => "charge by weight",
            Self::TestAgain => "test after the work",
        }
    }
    /// Why the trade does it.
    fn why(self) -> &'static str {
        match self {
            Self::Identify => "A mixture spoils machine and cylinder.",
            Self::Test => "Without numbers from before nobody can prove that it is better now.",
            Self::Recover => "What is not recovered gets out, and its weight tells how much was missing.",
            Self::Repair => "Nothing was mended.",
            Self::Hold => "Nitrogen shows a leak before it costs a charge.",
            Self::Evacuate => "Air raises the high side, water freezes in the valve.",
            Self::Rise => "Only a vacuum that stays says tight and dry.",
            Self::Oil => "The old part took oil with it.",
            Self::Charge => "It goes out without a charge.",
            Self::TestAgain => "Nobody knows yet whether it works.",
        }
    }
    /// Is it work on the loop, rather than a check before or after?
    fn is_work(self) -> bool {
        !matches!(self, Self::Identify | Self::Test | Self::TestAgain)
    }
    /// Was it done?
    fn done(self, when: &Times, truth: &Facts) -> bool {
        match self {
            Self::Identify => truth.identified || when.of(self).is_some(),
            Self::Test | Self::TestAgain => when.of(self).is_some(),
            Self::Recover => truth.recovered(),
            Self::Repair => truth.opened(),
            Self::Hold => truth.nitrogen.is_some(),
            Self::Evacuate => truth.vacuum.is_some(),
            Self::Rise => truth.vacuum.is_some_and(|v| v.rise.is_some()),
            Self::Oil => truth.oil_added_kg > 0.0,
            Self::Charge => truth.charged(),
        }
    }
    /// Does the job ask for it, given what was done?
    fn owed(self, truth: &Facts) -> bool {
        let emptied = truth.recovered() || truth.vacuum.is_some();
        match self {
            _ if truth.opened() => true,
            Self::Identify | Self::Test | Self::TestAgain => emptied || truth.charged(),
            Self::Recover | Self::Evacuate | Self::Rise | Self::Charge => emptied,
            Self::Repair | Self::Hold | Self::Oil => false,
        }
    }
}

/// The step an action belongs to.
fn steps_of(action: &Action) -> Vec<Step> {
    match action {
        Action::Repair(id) if crate::bay::oil_balance::OilPart::of(*id, false).is_some() => {
            vec![Step::Repair]
        }
        Action::Bay(act) => match act {
            BayAction::Identify => vec![Step::Identify],
            BayAction::Machine(true) => vec![Step::Recover],
            BayAction::RegulatorBar(bar) if *bar > 0.0 => vec![Step::Hold],
            BayAction::Pump(true) => vec![Step::Evacuate],
            BayAction::Pump(false) => vec![Step::Rise],
            BayAction::Oil { .. } | BayAction::NewPartOilMl(_) => vec![Step::Oil],
            BayAction::Valve { vessel, valve }
                if *vessel != Vessel::Recovery && *valve != VesselValve::Shut =>
            {
                vec![Step::Charge]
            }
            BayAction::Station(program) => program.iter().map(|step| of_station(*step)).collect(),
            _ => Vec::new(),
        },
        _ => Vec::new(),
    }
}

fn of_station(step: StationStep) -> Step {
    match step {
        StationStep::Recover => Step::Recover,
        StationStep::EvacuateMin(_) => Step::Evacuate,
        StationStep::HoldMin(_) => Step::Rise,
        StationStep::OilMl(_) => Step::Oil,
        StationStep::ChargeG(_) => Step::Charge,
    }
}

/// When each step began [ticks].
#[derive(Default)]
struct Times([Option<u64>; Step::ALL.len()]);

impl Times {
    fn of(&self, step: Step) -> Option<u64> {
        self.0[step as usize]
    }
    fn slot(&mut self, step: Step) -> &mut Option<u64> {
        &mut self.0[step as usize]
    }
}

fn times(journal: &[(u64, Action)]) -> Times {
    let mut when = Times::default();
    for (tick, action) in journal {
        for step in steps_of(action) {
            when.slot(step).get_or_insert(*tick);
        }
    }
    let work = Step::ALL.into_iter().filter(|s| s.is_work()).filter_map(|s| when.of(s)).min();
    // A check is read off both gauges; before the first work, and after the last charge.
    let read = |wanted: &dyn Fn(u64) -> bool| {
        let of = |probe: Probe| {
            let reads = journal.iter().filter(|(tick, a)| *a == Action::Read(probe.clone()) && wanted(*tick));
            reads.map(|(tick, _)| *tick).next()
        };
        Some(of(Probe::LowGauge)?.max(of(Probe::HighGauge)?))
    };
    *when.slot(Step::Test) = read(&|tick| work.is_none_or(|first| tick <= first));
    let charged = when.of(Step::Charge);
    *when.slot(Step::TestAgain) = charged.and_then(|at| read(&|tick| tick > at));
    when
}

/// Was the loop emptied again after it was charged last?
pub(super) fn emptied_again(journal: &[(u64, Action)]) -> bool {
    let last = |step| journal.iter().rev().find(|(_, a)| steps_of(a).contains(&step)).map(|(tick, _)| *tick);
    matches!((last(Step::Recover), last(Step::Charge)), (Some(out), Some(filled)) if out > filled)
}

/// Pairs whose order matters, and why.
const BEFORE: [(Step, Step, &str); 7] = [
    (Step::Identify, Step::Recover, "a mixture was in the machine by then"),
    (Step::Recover, Step::Repair, "what was in the loop got out"),
    (Step::Hold, Step::Evacuate, "a leak costs the time of the pump"),
    (Step::Repair, Step::Evacuate, "the opened loop is full of wet air again"),
    (Step::Hold, Step::Charge, "nitrogen does not come out of a charge again"),
    (Step::Evacuate, Step::Charge, "air and water were in the loop by then"),
    (Step::Oil, Step::Charge, "oil goes in by the vacuum, not against pressure"),
];

/// Steps left out, and steps that came too late.
pub(super) fn words(journal: &[(u64, Action)], truth: &Facts) -> Vec<String> {
    let when = times(journal);
    // A loop that stands empty at the end owes neither vacuum nor charge yet.
    let rest = !truth.opened() && emptied_again(journal);
    let later = [Step::Evacuate, Step::Rise];
    let owed: Vec<Step> =
        Step::ALL.into_iter().filter(|s| s.owed(truth) && !(rest && later.contains(s))).collect();
    let (done, left_out): (Vec<Step>, Vec<Step>) = owed.into_iter().partition(|s| s.done(&when, truth));
    let mut all: Vec<String> =
        left_out.iter().map(|step| format!("Left out: {}. {}", step.name(), step.why())).collect();
    for (first, then, why) in BEFORE {
        let both = done.contains(&first) && done.contains(&then);
        if both && matches!((when.of(first), when.of(then)), (Some(a), Some(b)) if a > b) {
            all.push(format!("Too late: {} came after {}; {why}.", first.name(), then.name()));
        }
    }
    if all.is_empty() && !done.is_empty() && !rest {
        all.push("Every step of the trade's order was done, and in its order.".into());
    }
    all
}
