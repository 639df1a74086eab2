//! Look, listen, touch: what a person without tools notices, words first. A click writes it down. Nothing here waits
//! for leave to look inside: everybody has ears and hands.

use egui::text::{LayoutJob, TextFormat};
use egui::{FontId, Rect, Sense as Clicks, Ui, WidgetInfo, WidgetType, pos2, vec2};

use super::Draft;
use super::gate::{caution_card, gate};
use super::parts::{BODY, SMALL, choice, focus_ring, heading, prepare, small};
use crate::bench::Action;
use crate::desk::theme::Theme;
use crate::desk::{Command, DeskView, Papers};
use crate::instrument::Probe;
use crate::lesson::cautions;
use crate::perceive::{BAND_HZ, BANDS, Organ, Perceived, Percept, Place, Sense};

/// Height of the spectrum's bars [pt].
const BARS: f32 = 40.0;
/// Levels at the foot and at the top of the bars [dB].
const RANGE_DB: (f64, f64) = (20.0, 80.0);

/// The card: one row for each organ, the chosen one open.
pub fn perceived_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    heading(ui, view.theme, "Look, listen, touch");
    let Papers { draft, organ: open, .. } = papers;
    let perceived = &view.snapshot.perceived;
    for organ in Organ::ALL {
        let noticed = noticed(perceived, organ);
        let count = if noticed.is_empty() { "nothing".to_owned() } else { noticed.len().to_string() };
        if choice(ui, view.theme, organ.name(), &count, *open == Some(organ)).clicked() {
            *open = if *open == Some(organ) { None } else { Some(organ) };
        }
        if *open == Some(organ) {
            details(ui, view, organ, &noticed, draft, out);
        }
    }
}

/// What is worth a row under an organ. Dew and frost are told with the surface they stand on, and by the eye again.
fn noticed(perceived: &Perceived, organ: Organ) -> Vec<&Percept> {
    perceived.percepts.iter().filter(|p| p.sense.organ() == organ && p.notable).collect()
}

fn details(
    ui: &mut Ui,
    view: &DeskView,
    organ: Organ,
    noticed: &[&Percept],
    draft: &mut Draft,
    out: &mut Vec<Command>,
) {
    let theme = view.theme;
    let mut told: Vec<&str> = noticed.iter().filter_map(|p| p.caution).collect();
    told.dedup();
    for caution in told.into_iter().filter_map(cautions::by_id) {
        caution_card(ui, theme, caution);
    }
    if noticed.is_empty() {
        small(ui, theme, "Nothing to notice.");
    } else {
        small(ui, theme, "Click a line to write it down.");
    }
    for percept in noticed {
        let action = Action::Read(Probe::Sense(percept.sense));
        if line(ui, theme, percept, &words(&view.snapshot.perceived, percept)) {
            draft.ask(action.clone(), out);
        }
        gate(ui, theme, draft, &action, "Hold the hand near", out);
    }
    if organ == Organ::Ear {
        spectrum(ui, theme, &view.snapshot.perceived);
    }
}

/// Words of a percept; a surface says what stands on it too.
fn words(perceived: &Perceived, percept: &Percept) -> String {
    let wet = |place: Place| perceived.get(Sense::Surface(place)).filter(|p| p.notable);
    match percept.sense {
        Sense::Touch(place) if wet(place).is_some() => {
            format!("{}, {}", percept.words, perceived.words(Sense::Surface(place)))
        }
        _ => percept.words.to_owned(),
    }
}

/// One line, as tall as its words; true when it was clicked.
fn line(ui: &mut Ui, theme: &Theme, percept: &Percept, words: &str) -> bool {
    let ink = |size, color| TextFormat { font_id: FontId::proportional(size), color, ..Default::default() };
    let mut job = LayoutJob::default();
    job.append(&format!("{}: ", percept.sense.name()), 0.0, ink(SMALL, theme.muted));
    job.append(words, 0.0, ink(BODY, theme.text));
    job.wrap.max_width = ui.available_width() - 12.0;
    let galley = ui.painter().layout_job(job);
    let (_, rect) = ui.allocate_space(vec2(ui.available_width(), (galley.size().y + 6.0).max(24.0)));
    let response = ui.interact(rect, ui.id().with(("percept", percept.sense)), Clicks::click());
    let name = format!("{}, {}: {words}", percept.sense.organ().name(), percept.sense.name());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &name));
    if response.hovered() {
        ui.painter().rect_filled(rect, 3.0, theme.raised);
    }
    let at = pos2(rect.left() + 6.0, rect.center().y - galley.size().y / 2.0);
    ui.painter().galley(at, galley, theme.text);
    focus_ring(ui, theme, &response);
    response.clicked()
}

/// The spectrum as bars with its ends named; its sentence is for screen readers too.
fn spectrum(ui: &mut Ui, theme: &Theme, perceived: &Perceived) {
    let loudest = (0..BANDS)
        .max_by(|&a, &b| perceived.spectrum_db[a].total_cmp(&perceived.spectrum_db[b]))
        .unwrap_or(0);
    let sentence = format!(
        "Loudest near {:.0} Hz, about {:.0} dB. Levels are estimates.",
        BAND_HZ[loudest], perceived.spectrum_db[loudest]
    );
    small(ui, theme, &sentence);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), BARS), Clicks::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, format!("Spectrum. {sentence}")));
    let width = rect.width() / BANDS as f32;
    for (i, db) in perceived.spectrum_db.iter().enumerate() {
        let share = ((db - RANGE_DB.0) / (RANGE_DB.1 - RANGE_DB.0)).clamp(0.02, 1.0) as f32;
        let left = rect.left() + i as f32 * width;
        let bar = Rect::from_min_max(
            pos2(left, rect.bottom() - share * BARS),
            pos2(left + width - 1.5, rect.bottom()),
        );
        ui.painter().rect_filled(bar, 1.0, if i == loudest { theme.chosen } else { theme.muted });
    }
    let (ends, _) = ui.allocate_exact_size(vec2(ui.available_width(), 16.0), Clicks::hover());
    super::parts::write(ui, ends, egui::Align::Min, "25 Hz", SMALL, theme.muted);
    super::parts::write(ui, ends, egui::Align::Max, "5 kHz", SMALL, theme.muted);
}
