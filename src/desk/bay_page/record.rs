//! The work record that a shop would keep: its lines as a form, and what Pintle finds in them once it is handed in.

use egui::{Align, Rect, Sense, TextEdit, Ui, pos2, vec2};

use super::hands::Hands;
use crate::bay::record::{Section, check};
use crate::bay::{BayAction, RecordField, RecordValue};
use crate::desk::panels::parts::{SMALL, body, button, focus_ring, heading, small, write};
use crate::scenario::Mode;

/// Width of an entry for a number, and for words [pt].
const NUMBER: f32 = 74.0;
const WORDS: f32 = 150.0;
/// Width of a unit [pt].
const UNIT: f32 = 74.0;

/// The page.
pub fn record(ui: &mut Ui, hands: &mut Hands) {
    let theme = hands.view.theme;
    let handed = hands.face.bay.handed_over.is_some();
    findings(ui, hands, handed);
    for section in Section::ALL {
        heading(ui, theme, section.title());
        for field in RecordField::ALL.into_iter().filter(|f| f.line().section == section) {
            line(ui, hands, field);
        }
    }
    ui.add_space(6.0);
    if !handed {
        small(
            ui,
            theme,
            "What is not written down was not done. Leave lines empty that the job does not ask for.",
        );
        let response = button(ui, theme, "Hand the record in", ui.available_width(), true);
        if response.clicked() {
            hands.bay(BayAction::HandOver, response.rect);
        }
    }
}

fn line(ui: &mut Ui, hands: &mut Hands, field: RecordField) {
    let theme = hands.view.theme;
    let info = field.line();
    let written = hands.face.bay.written(field).map(value_words).unwrap_or_default();
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 26.0), Sense::hover());
    let width = if field.takes_words() { WORDS } else { NUMBER };
    let end = if field.takes_words() { rect.right() } else { rect.right() - UNIT - 4.0 };
    let entry = Rect::from_min_max(pos2(end - width, rect.top() + 1.0), pos2(end, rect.bottom() - 1.0));
    let name = Rect::from_min_max(rect.min, pos2(entry.left() - 6.0, rect.bottom()));
    write(ui, name, Align::Min, info.title, SMALL, theme.text);
    if !field.takes_words() {
        let unit = Rect::from_min_max(pos2(entry.right() + 4.0, rect.top()), rect.max);
        write(ui, unit, Align::Min, info.unit, SMALL, theme.muted);
    }
    // What is being typed stands beside what is written until it is left.
    let mut text = hands.page.typed.remove(&field).unwrap_or_else(|| written.clone());
    let id = ui.id().with(("record", field.line().title));
    let edit = TextEdit::singleline(&mut text).id(id).char_limit(200).desired_width(width - 10.0);
    let response = ui.put(entry, edit);
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(info.title));
    focus_ring(ui, theme, &response);
    if response.lost_focus() && text.trim() != written {
        match value(field, &text) {
            Some(value) => hands.bay(BayAction::Write { field, value }, entry),
            None => {
                hands.page.typed.insert(field, text);
            }
        }
    } else if response.has_focus() {
        hands.page.typed.insert(field, text);
    } else if text.trim() != written {
        // It was no number: it stays in sight, and says so.
        small(ui, theme, "A number belongs here.");
        hands.page.typed.insert(field, text);
    }
}

fn value_words(value: &RecordValue) -> String {
    match value {
        RecordValue::Number(x) => format!("{x}"),
        RecordValue::Words(words) => words.clone(),
    }
}

/// What was typed as a value of its line; an emptied line is empty words.
fn value(field: RecordField, text: &str) -> Option<RecordValue> {
    let text = text.trim();
    if field.takes_words() || text.is_empty() {
        return Some(RecordValue::Words(text.to_owned()));
    }
    let number = text.replace(',', ".").replace('−', "-").parse::<f64>().ok()?;
    number.is_finite().then_some(RecordValue::Number(number))
}

/// What Pintle finds: after handing in, and in Explore whenever it is asked for.
fn findings(ui: &mut Ui, hands: &mut Hands, handed: bool) {
    let theme = hands.view.theme;
    let explore = hands.view.brief.mode == Mode::Explore;
    if !handed && explore {
        let word = if hands.page.checking { "Hide what Pintle finds" } else { "Check it as it stands" };
        if button(ui, theme, word, ui.available_width(), false).clicked() {
            hands.page.checking = !hands.page.checking;
        }
    }
    let Some(facts) = hands.view.facts.filter(|_| handed || (explore && hands.page.checking)) else { return };
    let found = check(&hands.face.bay.record, facts);
    let right = found.iter().filter(|f| f.right()).count();
    heading(ui, theme, &format!("Checked: {right} of {} lines right", found.len()));
    if found.is_empty() {
        small(ui, theme, "Nothing was done yet that a record asks for.");
    }
    for finding in found.iter().filter(|f| !f.right()) {
        body(ui, theme, &finding.to_string());
    }
}
