//! Tools beside the wiring: multimeter, test lamp, clamp, jumper, reader, and what hands do to plugs, relays, fuses and
//! isolators. Cautions stand before the act.

use egui::{Align2, Sense, Ui, WidgetInfo, WidgetType, vec2};

use super::Page;
use crate::bench::Action;
use crate::circuit::Guard;
use crate::circuit::spec::GROUND;
use crate::desk::panels::gate::gate;
use crate::desk::panels::parts::{SMALL, body, button, card, choice, heading, row, small, toggle, write};
use crate::desk::panels::{Draft, words};
use crate::desk::{Command, DeskView, fonts};
use crate::instrument::{MeterMode, MeterRange, Probe, Tool};
use crate::knobs::Change;

/// What is in hand at the wiring.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hold {
    /// Multimeter.
    #[default]
    Meter,
    /// Test lamp.
    Lamp,
    /// Clamp ammeter.
    Clamp,
    /// Jumper lead.
    Jumper,
    /// Reader.
    Reader,
    /// Bare hands: plugs, relays, fuses, isolators.
    Hands,
}

impl Hold {
    const ALL: [(Self, &'static str, Option<Tool>); 6] = [
        (Self::Meter, "Multimeter", Some(Tool::Meter)),
        (Self::Lamp, "Test lamp", Some(Tool::TestLamp)),
        (Self::Clamp, "Clamp ammeter", Some(Tool::ClampAmmeter)),
        (Self::Jumper, "Jumper lead", Some(Tool::Jumper)),
        (Self::Reader, "Reader", Some(Tool::Reader)),
        (Self::Hands, "Hands", None),
    ];
    /// Does it have two ends of its own to put on points?
    pub fn leads(self) -> bool {
        matches!(self, Self::Meter | Self::Lamp | Self::Jumper)
    }
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
fn apply(page: &Page, draft: &mut Draft, out: &mut Vec<Command>) {
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

fn mode(page: &Page) -> MeterMode {
    MeterMode::ALL.get(page.mode).copied().unwrap_or(MeterMode::VoltsDc)
}

/// A tool that lies on the bench of this scenario.
fn on_bench(view: &DeskView, hold: Hold) -> bool {
    Hold::ALL.iter().any(|(h, _, tool)| *h == hold && tool.is_none_or(|t| view.scenario.has(t)))
}

/// Take something in hand that is there.
fn settle(view: &DeskView, page: &mut Page) {
    if !on_bench(view, page.hold) {
        let first = Hold::ALL.iter().map(|(h, ..)| *h).find(|&h| on_bench(view, h));
        page.hold = first.unwrap_or(Hold::Hands);
    }
}

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
    ui.columns(4, |columns| {
        let signs = ["V", "ohm", "sound", "A"];
        for (n, (column, sign)) in columns.iter_mut().zip(signs).enumerate() {
            if choice(column, theme, sign, "", page.mode == n).clicked() {
                page.mode = n;
                apply(page, draft, out);
            }
        }
    });
    let reading = shown(view, |p| matches!(p, Probe::Meter { .. }));
    let what = if faces.meter_sounds { "sounds" } else { mode(page).name() };
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

fn reader(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    let theme = view.theme;
    let faces = &view.snapshot.instruments.electrical;
    if toggle(ui, theme, "In the diagnostic socket", faces.done.reader).clicked() {
        out.push(Command::Act(Action::Reader(!faces.done.reader)));
    }
    let Some(face) = &faces.reader else {
        small(ui, theme, "Not plugged in, or no control unit answers.");
        return;
    };
    if face.codes.is_empty() {
        small(ui, theme, "No codes stored.");
    }
    for (_, says, present) in &face.codes {
        body(ui, theme, &format!("{says} ({})", if *present { "present" } else { "stored" }));
    }
    if !face.codes.is_empty() && button(ui, theme, "Clear codes", ui.available_width(), false).clicked() {
        out.push(Command::Act(Action::ClearCodes));
    }
    small(ui, theme, "Click a value to write it down.");
    for (unit, id, name, value, of) in &face.values {
        let text = value.map_or_else(|| "no sense".to_owned(), |v| reader_value(v, of));
        let row = ui.push_id((unit, id), |ui| choice(ui, theme, name, &text, false)).inner;
        if row.clicked() {
            let probe = Probe::UnitValue { unit: unit.clone(), id: id.clone() };
            out.push(Command::Act(Action::Read(probe)));
        }
    }
}

/// A value of a control unit; temperatures and pressures as people say them.
fn reader_value(value: f64, unit: &str) -> String {
    words::signed(&match unit {
        "K" if value > 150.0 => format!("{:.1} °C", crate::units::Kelvin(value).c()),
        "K" => format!("{value:.1} K"),
        "Pa" => format!("{:.2} bar", value / 1e5),
        "" => format!("{value:.0}"),
        unit => format!("{value:.1} {unit}"),
    })
}

fn hands(ui: &mut Ui, view: &DeskView, page: &mut Page, draft: &mut Draft, out: &mut Vec<Command>) {
    let theme = view.theme;
    let faces = &view.snapshot.instruments.electrical;
    for &guard in &faces.guards {
        let name = match guard {
            Guard::Traction => "traction voltage",
            Guard::Mains | Guard::None => "mains",
        };
        let isolated = faces.done.isolated.contains(&guard);
        if toggle(ui, theme, &format!("Isolate {name} and lock"), isolated).clicked() {
            draft.ask(Action::Isolate(guard, !isolated), out);
        }
        let proven = if faces.meter_proven { "proven" } else { "not proven" };
        if choice(ui, theme, "Prove the meter on a known source", proven, false).clicked() {
            out.push(Command::Act(Action::ProveMeter));
        }
        let dead = if faces.done.proven_dead.contains(&guard) { "dead" } else { "not proven" };
        if choice(ui, theme, &format!("Prove {name} dead"), dead, false).clicked() {
            draft.ask(Action::ProveDead(guard), out);
        }
    }
    for act in faces.done.unsafe_acts.iter().rev().take(1) {
        body(ui, theme, &format!("Stopped: {}", act.kind.words()));
    }
    heading(ui, theme, "Plugs");
    for plug in &faces.connectors {
        let out_now = faces.done.unplugged.contains(plug);
        let name = plug.replace('_', " ");
        if choice(ui, theme, &name, if out_now { "unplugged" } else { "" }, out_now).clicked() {
            draft.ask(Action::Unplug(plug.clone(), !out_now), out);
        }
    }
    if faces.relays.len() > 1 {
        heading(ui, theme, "Swap two relays: choose one, then the other");
        for relay in &faces.relays {
            let swapped = faces.done.swapped.iter().any(|(a, b)| a == relay || b == relay);
            let first = page.relay.as_ref() == Some(relay);
            let name = relay.replace('_', " ");
            if choice(ui, theme, &name, if swapped { "swapped" } else { "" }, first).clicked() {
                match page.relay.take() {
                    Some(other) if other != *relay => {
                        draft.ask(Action::SwapRelays(other, relay.clone()), out);
                    }
                    Some(_) => {}
                    None => page.relay = Some(relay.clone()),
                }
            }
        }
    }
    heading(ui, theme, "Put in a new fuse");
    for (id, name) in &faces.fuses {
        if ui.push_id(id, |ui| choice(ui, theme, name, "", false)).inner.clicked() {
            draft.ask(Action::RenewFuse(id.clone()), out);
        }
    }
}
