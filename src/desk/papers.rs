//! What a person has begun and where their pages stand: letters typed, tabs open, leads in hand, an act that waits
//! behind its caution. It belongs to the session, not to egui's memory, so a case that is opened anew begins with
//! clean papers and a test can lay any of them on the desk.
//!
//! Panels change it in place (`&mut Papers`) and by no other way: a letter in a text field or a tab concerns nobody
//! but the panel that draws it, and a command for each letter would only be a longer way to the same field. What
//! anything else hears of (the bench, the clock, the page shown) goes through a [`Command`](crate::desk::Command).

use std::sync::Arc;

use super::bay_page::Page as BayPage;
use super::loop_view::Choices;
use super::panels::Draft;
use super::rig_page::{Drawing, Graph, Page as RigPage};
use crate::perceive::Organ;

/// Everything begun at the desk in one case.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Papers {
    /// What waits, is typed or is chosen in the panels.
    pub draft: Draft,
    /// Choices on the page of the rig.
    pub rig: RigPage,
    /// Choices on the page of the service bay; none until it is first shown.
    pub bay: Option<BayPage>,
    /// Open row under Look, listen, touch.
    pub organ: Option<Organ>,
    /// What was worked out for drawing.
    pub drawn: Drawn,
}

impl Papers {
    /// Papers for another case, or the same one from its start. Nothing of the last case is left on them but
    /// which tab and door stand open, and what follows from the rig or the window alone.
    pub fn fresh(&self) -> Self {
        Self {
            draft: Draft { tab: self.draft.tab, door: self.draft.door, ..Draft::default() },
            drawn: Drawn { labels: Choices::default(), ..self.drawn.clone() },
            ..Self::default()
        }
    }
}

/// Layouts that cost more than a frame has time for, or that should not jump from frame to frame. They follow from
/// rig and window, and say nothing about the person.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawn {
    /// Width of the top bar's buttons in the last frame [pt].
    pub bar_pt: Option<f32>,
    /// Where the labels of the chart stood in the last frame.
    pub labels: Choices,
    /// Wiring of a rig, by the rig's id.
    pub wiring: Option<(String, Arc<Drawing>)>,
    /// Blocks and arrows of a rig, by the rig's id.
    pub blocks: Option<(String, Arc<Graph>)>,
}
