//! The sheet of shortcuts, the trade words in plain language, and what this program is not.

use egui::{Align, Rect, ScrollArea, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::panels::parts::{BODY, SMALL, body, button, heading, prepare, small, write};
use super::papers::Papers;
use super::{Command, DeskView, keys};
use crate::lesson::cautions::DISCLAIMER;

/// Keys that are no shortcut of the bench, and what they do.
const MORE_KEYS: [(&str, &str); 3] = [
    ("Esc", "put away this sheet, a message, the tool in hand"),
    ("Tab", "next control; Space or Enter presses it"),
    ("F1", "this sheet"),
];

/// Trade word and what it means.
pub const GLOSSARY: [(&str, &str); 16] = [
    ("Charge", "how much refrigerant is in the loop, by weight"),
    ("Condenser", "the coil at the front where hot gas gives off heat and turns to liquid"),
    ("Evaporator", "the cold coil behind the dash where liquid boils and takes heat from cabin air"),
    ("Compressor", "the pump: takes cold gas at low pressure, gives hot gas at high pressure"),
    ("Expansion valve", "the restriction where pressure falls; its pintle opens as the bulb gets warm"),
    ("Pintle", "the moving needle of the expansion valve"),
    ("Receiver-drier", "a bottle that holds spare liquid and takes up water"),
    ("Low side", "from valve outlet to compressor inlet; blue and dashed here"),
    ("High side", "from compressor outlet to valve inlet; vermillion and solid here"),
    ("Gauge pressure", "pressure above that of the outside air; 0 with the hose off"),
    ("Saturation", "the one temperature at which liquid and gas stay together at a pressure"),
    ("Superheat", "how much warmer a gas is than saturation: no liquid left in it"),
    ("Subcooling", "how much colder a liquid is than saturation: no bubbles left in it"),
    ("Flash gas", "liquid that turns to gas as the pressure falls at the valve"),
    ("Cut-out", "a switch that stops the compressor at too low or too high a pressure"),
    ("p-h chart", "pressure up, heat content across: the loop drawn where its states are"),
];

/// The help sheet, over whatever else is on the screen.
pub fn help(ui: &mut Ui, view: &DeskView, _papers: &mut Papers, out: &mut Vec<Command>) {
    let theme = view.theme;
    let window = ui.ctx().content_rect().size();
    let frame = egui::Frame::new()
        .fill(theme.panel)
        .stroke(Stroke::new(1.0, theme.muted))
        .corner_radius(8)
        .inner_margin(egui::Margin::same(16));
    let sheet = egui::Modal::new("help".into()).frame(frame).show(ui.ctx(), |ui| {
        prepare(ui, theme);
        ui.set_width((window.x - 80.0).min(620.0));
        if button(ui, theme, "Close (F1)", 110.0, true).clicked() {
            out.push(Command::ToggleHelp);
        }
        let height = (window.y - 130.0).clamp(120.0, 760.0);
        ScrollArea::vertical()
            .id_salt("help")
            .max_height(height)
            .min_scrolled_height(height)
            .auto_shrink([false, false])
            .show(ui, |ui| {
                sheet_ui(ui, view);
            });
    });
    if sheet.backdrop_response.clicked() {
        out.push(Command::ToggleHelp);
    }
}

fn sheet_ui(ui: &mut Ui, view: &DeskView) {
    let theme = view.theme;
    heading(ui, theme, "Keys");
    let sheet = keys::sheet();
    for (key, what) in sheet.iter().map(|row| (row.name, row.words)).chain(MORE_KEYS) {
        shortcut(ui, view, key, what);
    }
    small(ui, theme, "Keys do nothing while you type in a text field.");
    heading(ui, theme, "Words");
    for (word, meaning) in GLOSSARY {
        body(ui, theme, &format!("{word}: {meaning}."));
    }
    heading(ui, theme, "What this is");
    body(ui, theme, DISCLAIMER);
}

fn shortcut(ui: &mut Ui, view: &DeskView, key: &str, what: &str) {
    let theme = view.theme;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 22.0), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, format!("{key}: {what}")));
    let cap = Rect::from_min_size(pos2(rect.left(), rect.top() + 1.0), vec2(54.0, 20.0));
    ui.painter().rect(cap, 4.0, theme.raised, Stroke::new(1.0, theme.line), StrokeKind::Inside);
    write(ui, cap, Align::Center, key, SMALL, theme.text);
    let words = Rect::from_min_max(pos2(cap.right() + 10.0, rect.top()), rect.max);
    write(ui, words, Align::Min, what, BODY, theme.text);
}
