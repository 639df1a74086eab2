//! What stays on the screen as long as it lasts, on every page: that work is not being kept, that the model could not solve
//! something, that a session was made by another version; and long work with a way to leave it.

use egui::{Align, Frame, Label, Layout, Margin, Panel, ProgressBar, RichText, Stroke, Ui};

use super::{Command, DeskView, Working, fonts};

/// Under the top bar; nothing while there is nothing to say.
pub fn standing_ui(ui: &mut Ui, view: &DeskView, out: &mut Vec<Command>) {
    if view.standing.is_empty() && view.working.is_none() {
        return;
    }
    let theme = view.theme;
    let frame = Frame::new()
        .fill(theme.raised)
        .stroke(Stroke::new(1.0, theme.chosen))
        .inner_margin(Margin::symmetric(14, 5));
    Panel::top("standing").resizable(false).frame(frame).show(ui, |ui| {
        for words in view.standing {
            let text = RichText::new(words).font(fonts::regular(fonts::BODY)).color(theme.text);
            ui.add(Label::new(text).wrap());
        }
        if let Some(working) = view.working {
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| work(ui, view, working, out));
        }
    });
}

fn work(ui: &mut Ui, view: &DeskView, working: Working, out: &mut Vec<Command>) {
    let (words, share) = match working {
        Working::TakingUp(share) => ("The session is played up to where it was left", share),
        Working::Reviewing(share) => ("The debrief is being worked out", share),
    };
    let text = RichText::new(words).font(fonts::regular(fonts::BODY)).color(view.theme.text);
    ui.label(text);
    let percent = format!("{:.0} %", 100.0 * share);
    ui.add(ProgressBar::new(share).desired_width(220.0).fill(view.theme.chosen).text(percent));
    if ui.button("Cancel").clicked() {
        out.push(Command::GiveUp);
    }
}
