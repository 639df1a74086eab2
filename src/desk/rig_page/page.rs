//! What a person has chosen on the page of the rig.

use super::hold::Hold;

/// Pages of the rig.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// Service label.
    Label,
    /// Where things sit.
    Places,
    /// Wiring.
    #[default]
    Wiring,
    /// What works on what.
    Blocks,
}

/// What a person has chosen on the page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// Open tab.
    pub tab: Tab,
    /// Place chosen.
    pub place: Option<String>,
    /// Part or supply chosen in the wiring, by id.
    pub part: Option<String>,
    /// Letters typed to find a point.
    pub find: String,
    /// Tool in hand at the wiring.
    pub hold: Hold,
    /// The next point takes the black lead (clip, second end) instead of the red one.
    pub black_next: bool,
    /// Point of the red lead, tip or first end.
    pub red: Option<String>,
    /// Point of the black lead, clip or second end; the body where nothing else is said.
    pub black: Option<String>,
    /// What the dial stands on, by its place.
    pub mode: usize,
    /// First relay of a swap.
    pub relay: Option<String>,
}
