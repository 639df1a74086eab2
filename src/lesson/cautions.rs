//! The cautions that stand at their actions: signal word, hazard, what may happen, how to avoid it.
//!
//! Ids follow the table of cautions in the teaching reference. The words are our own.

use crate::bench::{Action, guarding};
use crate::circuit::Guard;

/// How bad it can get, after the meaning of the words in ANSI Z535: a warning can kill or maim, a
/// caution can hurt, a danger will kill or maim.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SignalWord {
    /// Could cause a lesser injury.
    Caution,
    /// Could kill or seriously injure.
    Warning,
    /// Will kill or seriously injure.
    Danger,
}

impl SignalWord {
    /// The word as it is printed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Caution => "CAUTION",
            Self::Warning => "WARNING",
            Self::Danger => "DANGER",
        }
    }
}

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Number in the table of cautions, such as `S1`.
    pub id: &'static str,
    /// Signal word.
    pub signal: SignalWord,
    /// What is dangerous.
    pub hazard: &'static str,
    /// What it can do to you.
    pub consequence: &'static str,
    /// What to do about it.
    pub avoidance: &'static str,
}

impl Caution {
    /// The whole caution as one line, for screen readers and records.
    pub fn sentence(&self) -> String {
        format!("{}. {} {} {}", self.signal.word(), self.hazard, self.consequence, self.avoidance)
    }
}

/// Liquid refrigerant on skin and eyes.
pub const S1: Caution = Caution {
    id: "S1",
    signal: SignalWord::Warning,
    hazard: "Refrigerant spits out when hoses go on or off.",
    consequence: "It freezes skin and blinds eyes.",
    avoidance: "Goggles and gloves on. If it hits you: rinse 15 minutes, see a doctor.",
};
/// Pressure in a standing loop.
pub const S12: Caution = Caution {
    id: "S12",
    signal: SignalWord::Warning,
    hazard: "The loop holds pressure with the engine off, over 20 bar when it runs.",
    consequence: "A hose let go under pressure whips and cuts.",
    avoidance: "Hand valves shut, low-loss fittings. Follow local codes and licensed practice.",
};
/// Fans and belts.
pub const S15: Caution = Caution {
    id: "S15",
    signal: SignalWord::Warning,
    hazard: "The fan may start without warning.",
    consequence: "Fans and belts take fingers, hair and sleeves.",
    avoidance: "Hands, hair and rings clear before you bridge the relay.",
};
/// Hot pipes.
pub const S16: Caution = Caution {
    id: "S16",
    signal: SignalWord::Caution,
    hazard: "The compressor and its outlet pipe are hot.",
    consequence: "They burn skin at a touch.",
    avoidance: "Gloves on. Hold the clamp by its grips.",
};
/// Bare hands on hot parts, near what turns.
pub const S16B: Caution = Caution {
    id: "S16b",
    signal: SignalWord::Caution,
    hazard: "This part can be hotter than 60 °C, and belts turn close by.",
    consequence: "Bare metal that hot burns skin within a second or two.",
    avoidance: "Hold the hand near first. Touch nothing that feels hot from there. Sleeves clear.",
};
/// Traction voltage.
pub const S13: Caution = Caution {
    id: "S13",
    signal: SignalWord::Danger,
    hazard: guarding::TRACTION.hazard,
    consequence: guarding::TRACTION.consequence,
    avoidance: guarding::TRACTION.avoidance,
};
/// Mains.
pub const S17: Caution = Caution {
    id: "S17",
    signal: SignalWord::Danger,
    hazard: guarding::MAINS.hazard,
    consequence: guarding::MAINS.consequence,
    avoidance: guarding::MAINS.avoidance,
};
/// Escaping refrigerant.
pub const S2: Caution = Caution {
    id: "S2",
    signal: SignalWord::Warning,
    hazard: "Escaping refrigerant is heavier than air and gathers low.",
    consequence: "It takes the air you breathe and upsets the heart.",
    avoidance: "Stop the engine, open the doors, step away until it has cleared. No flame.",
};
/// Exhaust gas indoors.
pub const S18: Caution = Caution {
    id: "S18",
    signal: SignalWord::Warning,
    hazard: "A running engine indoors makes carbon monoxide.",
    consequence: "You cannot smell it and it kills.",
    avoidance: "Exhaust hose on, wheels chocked, doors open.",
};
/// Cut-outs made useless by the jumper.
pub const S25: Caution = Caution {
    id: "S25",
    signal: SignalWord::Warning,
    hazard: "A bridged clutch relay defeats both pressure cut-outs.",
    consequence: "The compressor can burst a hose or run dry and seize.",
    avoidance: "Prove the charge first. Engine at idle. Seconds only.",
};

/// All cautions of the bench.
pub const ALL: [&Caution; 10] = [&S1, &S2, &S12, &S13, &S15, &S16, &S16B, &S17, &S18, &S25];

/// The caution with this id.
pub fn by_id(id: &str) -> Option<&'static Caution> {
    ALL.into_iter().find(|caution| caution.id == id)
}

/// The cautions that must be shown before an action is done.
pub fn before(action: &Action) -> &'static [&'static Caution] {
    use crate::bench::Relay;
    use crate::instrument::{PipePlace, Probe};
    use crate::perceive::Sense;
    match action {
        Action::EngineOn(true) => &[&S18],
        Action::Hoses(_) => &[&S1, &S12],
        Action::Jumper(Some(Relay::Clutch)) => &[&S25, &S15],
        Action::Jumper(Some(Relay::Fan)) => &[&S15],
        // Any two points may be those of a relay: a fan or the clutch may start.
        Action::JumperBetween(Some(_)) => &[&S15, &S25],
        Action::Isolate(Guard::Traction, _) | Action::ProveDead(Guard::Traction) => &[&S13],
        Action::Isolate(Guard::Mains, _) | Action::ProveDead(Guard::Mains) => &[&S17],
        Action::Place(Probe::Pipe(PipePlace::CompressorOutlet)) => &[&S16],
        Action::Read(Probe::Sense(Sense::Touch(place))) if place.usually_hot() => &[&S16B],
        _ => &[],
    }
}

/// What this program is and is not (S0).
pub const DISCLAIMER: &str = "Pintle is a training aid. It is not a service manual, not a licence and never \
a certificate. What it lets you do is not proof that doing it is safe. On a real car follow the maker's data, \
local codes and licensed practice. The values shown are those of a model car.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::{Action, Relay};

    #[test]
    fn every_dangerous_action_has_its_caution() {
        let ids = |a: Action| before(&a).iter().map(|c| c.id).collect::<Vec<_>>();
        assert_eq!(ids(Action::EngineOn(true)), ["S18"]);
        assert!(ids(Action::EngineOn(false)).is_empty());
        assert_eq!(ids(Action::Hoses(true)), ["S1", "S12"]);
        assert_eq!(ids(Action::Jumper(Some(Relay::Fan))), ["S15"]);
        assert_eq!(ids(Action::Jumper(Some(Relay::Clutch))), ["S25", "S15"]);
        for caution in ALL {
            assert_eq!(by_id(caution.id), Some(caution));
            for part in [caution.hazard, caution.consequence, caution.avoidance] {
                assert!(part.ends_with('.') && part.split_whitespace().count() <= 20, "{part}");
            }
        }
    }
}
