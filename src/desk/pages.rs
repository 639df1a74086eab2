//! The pages of the window: what draws each, and its button and key. Top bar, shortcuts and help read it here, so a new
//! page is a [`Screen`], an entry here and the file that draws it.

use egui::{CentralPanel, Frame, Key, Margin, Ui};

use super::bench_page::bench_ui;
use super::notice::notice;
use super::panel::Panel;
use super::papers::Papers;
use super::screen::Screen;
use super::{Command, DeskView, bay_page, panels, rig_page};

/// A page.
#[derive(Clone, Copy)]
pub struct Page {
    /// What draws it, in all the room under the top bar.
    pub draw: Panel,
    /// How to get there and back from the bench; pages that are reached in another way have none.
    pub way: Option<Way>,
}

/// The button in the top bar and its key.
#[derive(Clone, Copy)]
pub struct Way {
    /// Word on the button.
    pub name: &'static str,
    /// The key.
    pub key: Key,
    /// What is there, said by the button.
    pub hint: &'static str,
    /// What the key does, said by the help sheet.
    pub words: &'static str,
}

/// The page of a screen.
pub fn page(screen: Screen) -> Page {
    match screen {
        Screen::Start => Page { draw: start, way: None },
        Screen::Bench => Page { draw: bench_ui, way: None },
        Screen::Rig => Page {
            draw: rig,
            way: Some(Way {
                name: "Rig",
                key: Key::G,
                hint: "Service label, places, wiring and blocks of this rig",
                words: "the rig: label, places, wiring, blocks; and back",
            }),
        },
        Screen::Bay => Page {
            draw: bay,
            way: Some(Way {
                name: "Bay",
                key: Key::B,
                hint: "Hoses, machines and cylinders of the service bay",
                words: "the service bay, and back",
            }),
        },
        Screen::Debrief => Page { draw: debrief, way: None },
    }
}

/// Pages with a button, in the order of the top bar.
pub fn ways() -> impl Iterator<Item = (Screen, Way)> {
    Screen::ALL.into_iter().filter_map(|screen| page(screen).way.map(|way| (screen, way)))
}

fn start(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    full(ui, view, out, |ui, out| panels::start_ui(ui, view, papers, out));
}

fn debrief(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    full(ui, view, out, |ui, out| panels::debrief_ui(ui, view, papers, out));
}

fn rig(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    full(ui, view, out, |ui, out| rig_page::rig_ui(ui, view, papers, out));
}

fn bay(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    framed(ui, view, Margin::symmetric(12, 8), |ui| bay_page::bay_ui(ui, view, papers, out));
}

/// A page to read, with a wide margin, and at its foot what the bench has to say.
fn full(
    ui: &mut Ui,
    view: &DeskView,
    out: &mut Vec<Command>,
    contents: impl FnOnce(&mut Ui, &mut Vec<Command>),
) {
    framed(ui, view, Margin::symmetric(24, 16), |ui| {
        let rect = ui.available_rect_before_wrap();
        contents(ui, out);
        notice(ui, rect, view, out);
    });
}

fn framed(ui: &mut Ui, view: &DeskView, margin: Margin, contents: impl FnOnce(&mut Ui)) {
    let frame = Frame::new().fill(view.theme.ground).inner_margin(margin);
    CentralPanel::no_frame().frame(frame).show(ui, contents);
}
