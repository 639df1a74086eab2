//! The cautions: signal word, hazard, what may happen, how to avoid it. Which action each belongs to is said in
//! [`before`] and [`before_here`].
//!
//! Ids count the cautions from S1 to S25 (S0 is [`DISCLAIMER`]); a letter behind an id is a second
//! case of the same caution. The words are our own.

mod at;
mod caution;
mod situation;
mod table;

pub use at::{before, before_here};
pub use caution::{Caution, SignalWord};
pub use situation::Situation;
pub use table::*;

/// The caution with this id.
pub fn by_id(id: &str) -> Option<&'static Caution> {
    ALL.into_iter().find(|caution| caution.id == id)
}

/// Safety class of a refrigerant after ASHRAE 34 / ISO 817 (caution S4): the caution and the
/// class in words. None for one that is not in the table.
pub fn class(refrigerant: &str) -> Option<(&'static Caution, &'static str)> {
    Some(match refrigerant {
        "R-134a" => (&S4B, "R-134a: class A1, no flame spreads"),
        "R-1234yf" => (&S4, "R-1234yf: class A2L, burns slowly"),
        "R-32" => (&S4, "R-32: class A2L, burns slowly"),
        "R-290" => (&S4C, "R-290: class A3, burns fiercely"),
        _ => return None,
    })
}

/// A mixture whose parts boil at different temperatures: the 400 series of ASHRAE 34 (from memory). No rig of ours holds
/// one.
pub fn is_blend(refrigerant: &str) -> bool {
    refrigerant.starts_with("R-4")
}

/// What this program is and is not (S0): for About, the label page and the README.
pub const DISCLAIMER: &str = "Pintle is a training aid. It is not a service manual, not a licence and never \
a certificate. What it lets you do is not proof that doing it is safe. On a real car follow the maker's data, \
local codes and licensed practice. The values shown are those of a model car.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_is_whole_and_short() {
        for caution in ALL {
            assert_eq!(by_id(caution.id), Some(caution));
            for part in [caution.hazard, caution.consequence, caution.avoidance] {
                assert!(part.ends_with('.') && part.split_whitespace().count() <= 20, "{part}");
            }
        }
    }

    #[test]
    fn the_table_of_the_reference_is_complete_with_its_signal_words() {
        use SignalWord::{Caution as C, Danger as D, Notice as N, Warning as W};
        // S1 to S25; what the law asks for is a notice.
        let words = [W, W, W, W, D, D, N, N, N, D, W, W, D, W, W, C, D, W, C, N, N, N, D, W, W];
        for (i, word) in words.into_iter().enumerate() {
            let id = format!("S{}", i + 1);
            assert_eq!(by_id(&id).map(|c| c.signal), Some(word), "{id}");
        }
        assert!(N < C && C < W && W < D);
    }

    #[test]
    fn every_refrigerant_of_ours_has_its_class() {
        for name in crate::refrigerant::Refrigerant::names() {
            assert!(class(name).is_some() && !is_blend(name), "{name}");
        }
        assert!(is_blend("R-410A"));
    }

    #[test]
    fn the_readme_prints_the_disclaimer() {
        let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain(include_str!("../../README.md")).contains(&plain(DISCLAIMER)));
    }
}
