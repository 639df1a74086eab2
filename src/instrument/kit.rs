//! Tools as they lie on the bench: names, where they go, where the desk keeps them.

/// Where on the desk a tool is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shelf {
    /// In the tools panel alone.
    Bench,
    /// At the wiring.
    Wiring,
    /// In the drawing of the service bay, where it hangs on a vessel or a machine.
    Drawing,
    /// In the hand, in the service bay too: for temperatures and air.
    Air,
    /// In the hand, in the service bay too: for leaks.
    LeakSearch,
}

/// What holds of a tool.
#[derive(Clone, Copy, Debug)]
pub struct Kit {
    /// Its name for people.
    pub name: &'static str,
    /// What it can touch, in one line.
    pub touches: &'static str,
    /// Where it is worked.
    pub shelf: Shelf,
    /// It has a use in the service bay alone: it hangs on a vessel or a machine there, or looks for the dye put in there.
    pub needs_bay: bool,
}
