//! Where the leads are, and where they go when a point is chosen.

use super::hold::Hold;
use super::page::Page;
use crate::bench::Action;
use crate::circuit::spec::GROUND;
use crate::desk::panels::Draft;
use crate::desk::{Command, DeskView};
use crate::instrument::{MeterMode, Probe, Tool, is_over};

/// Where the red lead of a meter is that shows volts, and how many [V].
pub fn red_lead<'a>(view: &DeskView<'a>) -> Option<(&'a str, f64)> {
    view.snapshot.instruments.placed.iter().find_map(|(probe, value)| match probe {
        Probe::Meter { mode: MeterMode::VoltsDc, red, .. } if !is_over(*value) => {
            Some((red.as_str(), *value))
        }
        _ => None,
    })
}

/// Can a lead be put on a point at all?
pub fn has_meter(view: &DeskView) -> bool {
    let leads = [Tool::Meter, Tool::TestLamp, Tool::Jumper];
    leads.iter().any(|tool| view.brief.has(*tool))
}

/// What the list of points is for now.
pub fn next_words(page: &Page) -> &'static str {
    match (page.hold, page.black_next) {
        (Hold::Meter, false) => "Points for the red lead",
        (Hold::Meter, true) => "Points for the black lead",
        (Hold::Lamp, false) => "Points for the tip",
        (Hold::Lamp, true) => "Points for the clip",
        (Hold::Jumper, false) => "Points for the first end",
        (Hold::Jumper, true) => "Points for the second end",
        (Hold::Clamp, _) => "Points (a clamp goes round a part: click its symbol)",
        (Hold::Reader | Hold::Hands, _) => "Points of the circuit",
    }
}

/// A point was chosen, in the drawing or in the list.
pub fn touch(view: &DeskView, page: &mut Page, draft: &mut Draft, point: &str, out: &mut Vec<Command>) {
    settle(view, page);
    match page.hold {
        Hold::Meter | Hold::Lamp | Hold::Jumper => {
            if page.black_next {
                page.black = Some(point.to_owned());
            } else {
                page.red = Some(point.to_owned());
                // A jumper has no habit of the body: its other end comes next.
                page.black_next = page.hold == Hold::Jumper;
            }
            apply(page, draft, out);
        }
        Hold::Clamp | Hold::Reader | Hold::Hands => {}
    }
}

/// Put the tool where its ends are, once both are said.
pub fn apply(page: &Page, draft: &mut Draft, out: &mut Vec<Command>) {
    let Some(red) = page.red.clone() else { return };
    let black = page.black.clone();
    match page.hold {
        Hold::Meter => {
            let black = black.unwrap_or_else(|| GROUND.into());
            draft.ask(Action::Place(Probe::Meter { mode: mode(page), red, black }), out);
        }
        Hold::Lamp => {
            let clip = black.unwrap_or_else(|| GROUND.into());
            draft.ask(Action::Place(Probe::Lamp { tip: red, clip }), out);
        }
        Hold::Jumper => {
            if let Some(black) = black.filter(|b| *b != red) {
                draft.ask(Action::JumperBetween(Some((red, black))), out);
            }
        }
        _ => {}
    }
}

/// What the dial of the meter stands on.
pub fn mode(page: &Page) -> MeterMode {
    MeterMode::ALL.get(page.mode).copied().unwrap_or(MeterMode::VoltsDc)
}

/// A tool that lies on the bench of this scenario.
pub fn on_bench(view: &DeskView, hold: Hold) -> bool {
    Hold::ALL.iter().any(|(h, _, tool)| *h == hold && tool.is_none_or(|t| view.brief.has(t)))
}

/// Take something in hand that is there.
pub fn settle(view: &DeskView, page: &mut Page) {
    if !on_bench(view, page.hold) {
        let first = Hold::ALL.iter().map(|(h, ..)| *h).find(|&h| on_bench(view, h));
        page.hold = first.unwrap_or(Hold::Hands);
    }
}
