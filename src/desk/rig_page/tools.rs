//! Tools beside the wiring: multimeter, test lamp, clamp and jumper, each with its face and its leads. Cautions
//! stand before the act.

use egui::{Align2, Sense, Ui, WidgetInfo, WidgetType, vec2};

use super::hands::hands;
use super::hold::Hold;
use super::page::Page;
use super::reader::reader;
use super::touch::{apply, mode, on_bench, settle};
use crate::bench::Action;
use crate::circuit::spec::GROUND;
use crate::desk::panels::gate::gate;
use crate::desk::panels::parts::{SMALL, body, button, card, choice, heading, row, small, toggle, write};
use crate::desk::panels::{Draft, words};
use crate::desk::{Command, DeskView, fonts};
use crate::instrument::{MeterMode, MeterRange, Probe};
use crate::knobs::Change;

/// The list of tools and the one in hand.
pub fn tools(ui: &mut Ui, view: &DeskView, page: &mut Page, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    settle(view, page);
    heading(ui, theme, "In hand");
    let here: Vec<_> = Hold::ALL.into_iter().filter(|(h, ..)| on_bench(view, *h)).collect();
    for pair in here.chunks(2) {
        ui.columns(2, |columns| {
            for (column, (hold, name, _)) in columns.iter_mut().zip(pair) {
                if choice(column, theme, name, "", page.hold == *hold).clicked() && page.hold != *hold {
                    page.hold = *hold;
                    (page.red, page.black, page.black_next) = (None, None, false);
                    draft.pending = None;
                }
            }
        });
    }
    match page.hold {
        Hold::Meter => multimeter(ui, view, page, draft, out),
        Hold::Lamp => lamp(ui, view, page, out),
        Hold::Clamp => clamp(ui, view, out),
        Hold::Jumper => jumper(ui, view, page, out),
        Hold::Reader => reader(ui, view, out),
        Hold::Hands => hands(ui, view, page, draft, out),
    }
    // Whatever waits for its caution, waits here; the engine has its own place below.
    let waiting = draft.pending.clone().filter(|action| !matches!(action, Action::Set(Change::EngineOn(_))));
    if let Some(action) = waiting {
        gate(ui, theme, draft, &action, "Do it, hands clear", out);
    }
}

/// What a placed tool shows now.
fn shown(view: &DeskView, wanted: impl Fn(&Probe) -> bool) -> Option<(Probe, f64)> {
    view.snapshot.instruments.placed.iter().find(|(probe, _)| wanted(probe)).cloned()
}

/// The face: large figures, what they are of, and the button that writes them down.
fn face(ui: &mut Ui, view: &DeskView, what: &str, reading: Option<&(Probe, f64)>, out: &mut Vec<Command>) {
    let theme = view.theme;
    let text = reading.map_or_else(|| "- - -".to_owned(), |(p, v)| words::value(view.units, p, *v));
    card(ui, theme, theme.line, |ui| {
        let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 34.0), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, format!("Meter shows {text}")));
        let font = fonts::bold(24.0);
        ui.painter().text(rect.right_center(), Align2::RIGHT_CENTER, &text, font, theme.text);
        write(ui, rect, egui::Align::Min, what, SMALL, theme.muted);
    });
    if let Some((probe, _)) = reading {
        ui.columns(2, |columns| {
            let width = columns[0].available_width();
            if button(&mut columns[0], theme, "Write it down", width, true).clicked() {
                out.push(Command::Act(Action::Read(probe.clone())));
            }
            if button(&mut columns[1], theme, "Take it away", width, false).clicked() {
                out.push(Command::Act(Action::Remove(probe.clone())));
            }
        });
    }
}

/// Which lead moves next, with where each is.
fn leads(ui: &mut Ui, view: &DeskView, page: &mut Page, names: [&str; 2]) {
    let theme = view.theme;
    let label = |id: &Option<String>| match id.as_deref() {
        None => "nowhere".to_owned(),
        Some(GROUND) => "body".to_owned(),
        Some(id) => {
            let point = view.rig.circuit.points.iter().find(|p| p.id == id);
            point.map_or_else(|| id.to_owned(), |p| p.label.clone())
        }
    };
    let black = match (&page.black, page.hold) {
        (None, Hold::Meter | Hold::Lamp) => Some(GROUND.to_owned()),
        (black, _) => black.clone(),
    };
    for (n, (name, at)) in names.into_iter().zip([label(&page.red), label(&black)]).enumerate() {
        let next = page.black_next == (n == 1);
        if choice(ui, theme, &format!("{name}: {at}"), "", next).clicked() {
            page.black_next = n == 1;
        }
    }
}

fn multimeter(ui: &mut Ui, view: &DeskView, page: &mut Page, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    let faces = &view.snapshot.instruments.electrical;
    let signs = ["V", "ohm", "continuity", "A"];
    for (row, pair) in signs.chunks(2).enumerate() {
        ui.columns(2, |columns| {
            for (n, (column, sign)) in columns.iter_mut().zip(pair).enumerate() {
                let n = 2 * row + n;
                if choice(column, theme, sign, "", page.mode == n).clicked() {
                    page.mode = n;
                    apply(page, draft, out);
                }
            }
        });
    }
    let reading = shown(view, |p| matches!(p, Probe::Meter { .. }));
    let what = if faces.meter_sounds { "continuity" } else { mode(page).name() };
    face(ui, view, what, reading.as_ref(), out);
    leads(ui, view, page, ["Red", "Black"]);
    if mode(page) == MeterMode::VoltsDc {
        let ranges = [
            (MeterRange::Auto, "auto"),
            (MeterRange::Six, "6 V"),
            (MeterRange::Sixty, "60 V"),
            (MeterRange::SixHundred, "600 V"),
        ];
        ui.columns(4, |columns| {
            for (column, (range, name)) in columns.iter_mut().zip(ranges) {
                if choice(column, theme, name, "", faces.meter_range == range).clicked() {
                    out.push(Command::Act(Action::MeterRange(range)));
                }
            }
        });
    } else if mode(page).is_ohm() && toggle(ui, theme, "Relative key", faces.meter_relative).clicked() {
        out.push(Command::Act(Action::MeterRelative(!faces.meter_relative)));
    }
    if faces.meter_fuse_blown {
        body(ui, theme, "The fuse of the ampere socket has blown.");
        if button(ui, theme, "New fuse in the meter", ui.available_width(), false).clicked() {
            out.push(Command::Act(Action::RenewFuse("meter".into())));
        }
    }
}

fn lamp(ui: &mut Ui, view: &DeskView, page: &mut Page, out: &mut Vec<Command>) {
    let reading = shown(view, |p| matches!(p, Probe::Lamp { .. }));
    face(ui, view, "lamp", reading.as_ref(), out);
    leads(ui, view, page, ["Tip", "Clip"]);
}

fn clamp(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let theme = view.theme;
    let reading = shown(view, |p| matches!(p, Probe::Clamp(_)));
    face(ui, view, "amperes", reading.as_ref(), out);
    small(ui, theme, "Click the symbol of the part whose wire it goes round.");
    let zeroed = if view.snapshot.instruments.electrical.clamp_zeroed { "zeroed" } else { "not zeroed" };
    row(ui, theme, "Clamp", zeroed);
    if button(ui, theme, "Zero key", ui.available_width(), false).clicked() {
        out.push(Command::Act(Action::ClampZero));
    }
}

fn jumper(ui: &mut Ui, view: &DeskView, page: &mut Page, out: &mut Vec<Command>) {
    let theme = view.theme;
    leads(ui, view, page, ["First end", "Second end"]);
    let instruments = &view.snapshot.instruments;
    if instruments.electrical.done.jumper_between.is_some() {
        body(ui, theme, "The lead is on. Take it off as soon as you have seen what you wanted.");
        if button(ui, theme, "Take the lead off", ui.available_width(), true).clicked() {
            (page.red, page.black, page.black_next) = (None, None, false);
            out.push(Command::Act(Action::JumperBetween(None)));
        }
    }
    if instruments.jumper_fuse_blown {
        body(ui, theme, "The fuse of the lead has blown.");
        if button(ui, theme, "New fuse in the lead", ui.available_width(), false).clicked() {
            out.push(Command::Act(Action::RenewFuse("jumper".into())));
        }
    }
}
