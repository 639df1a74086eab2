//! What is in hand at the wiring.

use crate::instrument::Tool;

/// What is in hand at the wiring.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hold {
    /// Multimeter.
    #[default]
    Meter,
    /// Test lamp.
    Lamp,
    /// Clamp ammeter.
    Clamp,
    /// Jumper lead.
    Jumper,
    /// Reader.
    Reader,
    /// Bare hands: plugs, relays, fuses, isolators.
    Hands,
}

impl Hold {
    /// All of them with their names and the tool of the bench that each is.
    pub const ALL: [(Self, &'static str, Option<Tool>); 6] = [
        (Self::Meter, "Multimeter", Some(Tool::Meter)),
        (Self::Lamp, "Test lamp", Some(Tool::TestLamp)),
        (Self::Clamp, "Clamp ammeter", Some(Tool::ClampAmmeter)),
        (Self::Jumper, "Jumper lead", Some(Tool::Jumper)),
        (Self::Reader, "Reader", Some(Tool::Reader)),
        (Self::Hands, "Hands", None),
    ];
    /// Does it have two ends of its own to put on points?
    pub fn leads(self) -> bool {
        matches!(self, Self::Meter | Self::Lamp | Self::Jumper)
    }
}
