//! The instructor's page: impose, ramp or clear any of the faults, and hide or show the inside.

use egui::{ScrollArea, Ui, vec2};

use super::Draft;
use super::parts::{button, card, choice, entry, heading, prepare, slider, small, toggle};
use super::words;
use crate::bench::Action;
use crate::desk::brief::Instructor;
use crate::desk::{Command, DeskView, Papers};
use crate::fault::{FaultId, Recurs};
use crate::instrument::PipePlace;

/// How long a growing fault takes to come to its severity [s].
const GROWS_S: f64 = 300.0;

/// How a fault may come; each with its name and, where it comes and goes, with what.
fn patterns() -> [(&'static str, Pattern); 8] {
    let place = PipePlace::CompressorOutlet;
    [
        ("Constant", Pattern::Constant),
        ("Grows in 5 min", Pattern::Growing),
        ("When hot", Pattern::Recurs(Recurs::WhenHot { above_c: 60.0, place })),
        ("When cold", Pattern::Recurs(Recurs::WhenCold { below_c: 50.0, place })),
        ("When it shakes", Pattern::Recurs(Recurs::WhenVibrating { from_rpm: 1500.0, to_rpm: 2500.0 })),
        ("On the road", Pattern::Recurs(Recurs::WhenOnTheRoad { above_kmh: 40.0 })),
        ("Under high load", Pattern::Recurs(Recurs::WhenLoaded { above_bar: 15.0 })),
        ("Now and then", Pattern::Recurs(Recurs::OnceInAWhile { share: 0.3 })),
    ]
}

/// How a fault comes.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Pattern {
    Constant,
    Growing,
    Recurs(Recurs),
}

impl Pattern {
    /// What imposing it asks of the bench.
    fn action(self, id: FaultId, severity: f64) -> Action {
        match self {
            Self::Constant => Action::ImposeFault { id, severity },
            Self::Growing => Action::RampFault { id, severity, over_s: GROWS_S },
            Self::Recurs(recurs) => Action::ImposeIntermittent { id, severity, recurs },
        }
    }
    /// Said under the choice.
    fn words(self) -> String {
        match self {
            Self::Constant => "There at once, and stays.".into(),
            Self::Growing => "Grows from now on to the severity above.".into(),
            Self::Recurs(recurs) => match recurs {
                Recurs::WhenHot { above_c, .. } => {
                    format!("There while the compressor outlet is above {above_c:.0} °C.")
                }
                Recurs::WhenCold { below_c, .. } => {
                    format!("There while the compressor outlet is below {below_c:.0} °C.")
                }
                Recurs::WhenVibrating { from_rpm, to_rpm } => {
                    format!("There while the engine turns at {from_rpm:.0} to {to_rpm:.0} rpm.")
                }
                Recurs::WhenOnTheRoad { above_kmh } => format!("There above {above_kmh:.0} km/h."),
                Recurs::WhenLoaded { above_bar } => {
                    format!("There while the high side is above {above_bar:.0} bar.")
                }
                Recurs::OnceInAWhile { share } => {
                    format!("There in {:.0} % of all minutes, for no reason to be seen.", share * 100.0)
                }
            },
        }
    }
}

/// The page on its own.
pub fn instructor_ui(ui: &mut Ui, view: &DeskView, papers: &mut Papers, out: &mut Vec<Command>) {
    prepare(ui, view.theme);
    if let Some(instructor) = view.instructor {
        faults(ui, view, instructor, &mut papers.draft, out);
    }
}

/// The page inside another panel, for whoever holds what an instructor gets.
pub fn faults(
    ui: &mut Ui,
    view: &DeskView,
    instructor: &Instructor,
    draft: &mut Draft,
    out: &mut Vec<Command>,
) {
    let theme = view.theme;
    heading(ui, theme, "Inside view");
    if toggle(ui, theme, "Show the inside", view.ui_state.show_inside).clicked() {
        out.push(Command::ToggleInside);
    }
    let present = instructor.present.as_ref();
    if present.is_none() {
        small(ui, theme, "While the inside is hidden, the list does not tell which faults are in.");
    }
    let width = ui.available_width();
    entry(ui, theme, "Find a fault", "Find: letters of a name or group", &mut draft.find, width);
    ScrollArea::vertical().id_salt("faults").auto_shrink([false, false]).show(ui, |ui| {
        let mut none = true;
        for group in words::groups(view) {
            let here: Vec<FaultId> = FaultId::on(view.rig)
                .filter(|&id| id.info().group == group && words::found(id, &draft.find))
                .collect();
            if here.is_empty() {
                continue;
            }
            none = false;
            heading(ui, theme, group.name());
            for id in here {
                let active =
                    present.and_then(|faults| faults.iter().find(|f| f.id == id)).map(|f| f.severity);
                let state = active.map(|s| in_words(id, s)).unwrap_or_default();
                let open = draft.fault == Some(id);
                let row = choice(ui, theme, id.info().name, &state, open);
                if row.clicked() {
                    draft.fault = (!open).then_some(id);
                    // What opens below it comes into sight.
                    row.scroll_to_me(Some(egui::Align::Min));
                }
                if open {
                    act_on(ui, view, draft, id, out);
                }
            }
        }
        if none {
            small(ui, theme, "No fault of this rig has these letters.");
        }
    });
}

/// A severity with its meaning kept short.
fn in_words(id: FaultId, severity: f64) -> String {
    if id.info().severity.is_none() { "active".into() } else { format!("active, {}", amount(id, severity)) }
}

/// A severity with its unit; a share as a percentage.
fn amount(id: FaultId, severity: f64) -> String {
    match id.info().severity.map(|s| s.unit).unwrap_or_default() {
        "" => format!("{:.0} %", severity * 100.0),
        unit if severity.abs() >= 100.0 => format!("{severity:.0} {unit}"),
        unit => format!("{severity:.1} {unit}"),
    }
}

fn act_on(ui: &mut Ui, view: &DeskView, draft: &mut Draft, id: FaultId, out: &mut Vec<Command>) {
    let (theme, info) = (view.theme, id.info());
    card(ui, theme, theme.chosen, |ui| {
        small(ui, theme, info.changes);
        let severity = draft.severity[id as usize];
        if let Some(s) = info.severity {
            let step = (s.max - s.min) / 100.0;
            let new = slider(ui, theme, s.meaning, &amount(id, severity), severity, s.min..=s.max, step);
            draft.severity[id as usize] = new.unwrap_or(severity).clamp(s.min, s.max);
        }
        let severity = draft.severity[id as usize];
        let patterns = patterns();
        for pair in patterns.chunks(2) {
            ui.columns(2, |columns| {
                for (column, (name, pattern)) in columns.iter_mut().zip(pair) {
                    let able = info.severity.is_some() || *pattern != Pattern::Growing;
                    let chosen = patterns.get(draft.pattern).is_some_and(|(n, _)| n == name);
                    let response =
                        column.add_enabled_ui(able, |ui| choice(ui, theme, name, "", chosen)).inner;
                    if response.clicked() {
                        draft.pattern = patterns.iter().position(|(n, _)| n == name).unwrap_or(0);
                    }
                }
            });
        }
        let (_, mut pattern) = patterns.get(draft.pattern).copied().unwrap_or(patterns[0]);
        if info.severity.is_none() && pattern == Pattern::Growing {
            pattern = Pattern::Constant;
        }
        small(ui, theme, &pattern.words());
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
            let half = (ui.available_width() - 4.0) / 2.0;
            if button(ui, theme, "Impose", half, true).clicked() {
                out.push(Command::Act(pattern.action(id, severity)));
            }
            if button(ui, theme, "Clear", half, false).clicked() {
                out.push(Command::Act(Action::ClearFault { id }));
            }
        });
        small(ui, theme, &format!("Cured by: {}.", info.repair()));
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pattern_is_within_what_a_bench_takes() {
        for (name, pattern) in patterns() {
            let Pattern::Recurs(recurs) = pattern else { continue };
            for (value, unit, least, most) in recurs.numbers() {
                assert!(
                    (least..=most).contains(&value),
                    "{name}: {value} {unit} is not in {least} to {most}"
                );
            }
        }
    }
}
