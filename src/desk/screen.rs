//! The pages of the window by name. What a page is called, its key and what draws it stand in
//! [`pages`](crate::desk::pages).

/// Which page fills the window.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Screen {
    /// The list of scenarios.
    Start,
    /// The bench.
    #[default]
    Bench,
    /// The rig: label, places, wiring, blocks.
    Rig,
    /// The service bay.
    Bay,
    /// The debrief.
    Debrief,
}

impl Screen {
    /// All pages, in the order of the top bar.
    pub const ALL: [Self; 5] = [Self::Start, Self::Bench, Self::Rig, Self::Bay, Self::Debrief];

    /// It is there only where a scenario stands in a service bay.
    pub fn needs_bay(self) -> bool {
        self == Self::Bay
    }
    /// Time goes on where the person can see what it does; it rests on pages that are only read.
    pub fn runs(self) -> bool {
        !matches!(self, Self::Start | Self::Debrief)
    }
}
