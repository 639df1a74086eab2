//! Where the person is: the page shown, what is switched on, units, colours, and what was said to them.

use crate::desk::theme::{DARK, LIGHT, Theme};
use crate::desk::view::UiState;
use crate::message::fit_lines;
use crate::units::Units;

/// Most lines of what is said.
const MOST_LINES: usize = 24;
/// Unfolding takes so long [s].
const UNFOLD_S: f64 = 0.5;

/// The person's side of the desk.
pub struct Seat {
    /// Choices of the person.
    pub ui_state: UiState,
    /// Units shown.
    pub units: Units,
    /// Colours.
    pub theme: Theme,
    /// They want to leave.
    pub quit: bool,
    /// Wall clock [s].
    pub clock_s: f64,
    /// How far the drawing is unfolded, 0 to 1.
    unfold: f64,
}

impl Seat {
    /// At the bench, with the inside shown or not.
    pub fn new(show_inside: bool) -> Self {
        Self {
            ui_state: UiState { show_inside, ..UiState::default() },
            units: Units::default(),
            theme: DARK,
            quit: false,
            clock_s: 0.0,
            unfold: 0.0,
        }
    }
    /// The same person before another case: how they like to see things stays, what they held is put down.
    pub fn turn_to(&mut self, fresh: Self) {
        let old = std::mem::take(&mut self.ui_state);
        self.ui_state =
            UiState { unfolded: old.unfolded, reduced_motion: old.reduced_motion, ..fresh.ui_state };
    }
    /// Wall time passes [s]; the drawing folds or unfolds.
    pub fn pass(&mut self, wall_s: f64) {
        self.clock_s += wall_s;
        let step = if self.ui_state.reduced_motion { 1.0 } else { wall_s / UNFOLD_S };
        let way = if self.ui_state.unfolded { step } else { -step };
        self.unfold = (self.unfold + way).clamp(0.0, 1.0);
    }
    /// Share of unfolding, eased, 0 to 1.
    pub fn unfold(&self) -> f32 {
        let unfold = self.unfold as f32;
        unfold * unfold * (3.0 - 2.0 * unfold)
    }
    /// The drawing is on its way, or about to set out.
    pub fn unfolds(&self) -> bool {
        self.unfold != f64::from(u8::from(self.ui_state.unfolded))
    }
    /// The other colours.
    pub fn toggle_theme(&mut self) {
        self.theme = if self.theme.dark { LIGHT } else { DARK };
    }
    /// Tell the person something, as a full sentence.
    pub fn say(&mut self, text: &str) {
        let text = fit_lines(text, MOST_LINES);
        let mut letters = text.chars();
        let start: String = letters.next().map(|c| c.to_uppercase().collect()).unwrap_or_default();
        let mut sentence = start + letters.as_str();
        if !sentence.ends_with(['.', '!', '?', ')']) {
            sentence.push('.');
        }
        self.ui_state.notice = Some(sentence);
    }
}
