//! Words of the record: whether they name what is so.

use super::Mark;
use crate::bay::RecordField;
use crate::bay::facts::Facts;
use crate::refrigerant::Refrigerant;

/// Words that tell no place or part from another.
const IDLE: [&str; 24] = [
    "a", "an", "and", "at", "by", "charge", "core", "evacuate", "fit", "for", "from", "in", "it", "leak",
    "leaking", "new", "of", "on", "put", "replace", "replaced", "the", "weight", "with",
];

fn tokens(text: &str) -> Vec<String> {
    let lower = text.to_lowercase();
    let word = |w: &str| w.strip_suffix('s').filter(|s| s.len() > 2).unwrap_or(w).to_owned();
    lower
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| !w.is_empty() && !IDLE.contains(w))
        .map(word)
        .collect()
}

/// Do the words name this thing? Half of what tells it from others must be there.
fn names(words: &str, thing: &str) -> bool {
    let (said, wanted) = (tokens(words), tokens(thing));
    let hits = wanted.iter().filter(|w| said.contains(w)).count();
    !wanted.is_empty() && 2 * hits >= wanted.len()
}

/// Is this refrigerant named, as people write it: `r134a`, `R 134a`, `HFC-134a`? A bare number is a weight or a date.
fn names_refrigerant(words: &str, name: &str) -> bool {
    let lower = |text: &str| text.to_lowercase();
    let (words, name) = (lower(words), lower(name));
    let core = name.trim_start_matches("r-");
    let told = core.ends_with(|c: char| c.is_ascii_alphabetic());
    let said: Vec<&str> =
        words.split(|c: char| !c.is_ascii_alphanumeric()).filter(|w| !w.is_empty()).collect();
    said.iter().enumerate().any(|(i, word)| match word.strip_suffix(core) {
        Some("") => told || i.checked_sub(1).is_some_and(|b| ["r", "hfc", "hfo", "hc"].contains(&said[b])),
        Some(prefix) => ["r", "hfc", "hfo", "hc"].contains(&prefix),
        None => false,
    })
}

/// Check a line of words.
pub(super) fn check(field: RecordField, words: &str, truth: &Facts) -> Mark {
    let right = |yes: bool, otherwise: String| if yes { Mark::Right } else { Mark::Wrong(otherwise) };
    match field {
        RecordField::Refrigerant => refrigerant(words, truth, false),
        RecordField::CylinderLabel => refrigerant(words, truth, true),
        RecordField::PartReplaced => match truth.repair.map(|id| id.info().words) {
            // Of "replace the condenser, evacuate, charge" the part stands in the first clause.
            Some(done) => {
                let part = done.split(',').next().unwrap_or(done);
                right(names(words, part), format!("What was done: {part}"))
            }
            None => Mark::CannotBe("no part was replaced".into()),
        },
        RecordField::LeakPlace => {
            let missed: Vec<&str> =
                truth.leaks.iter().map(String::as_str).filter(|place| !names(words, place)).collect();
            match missed.as_slice() {
                [] if truth.leaks.is_empty() => Mark::CannotBe("nothing leaks".into()),
                missed => right(missed.is_empty(), format!("It leaks at: {}", missed.join(", "))),
            }
        }
        _ => Mark::Right,
    }
}

/// The right refrigerant, and no other; a label says besides that it is used refrigerant.
fn refrigerant(words: &str, truth: &Facts, label: bool) -> Mark {
    let other = Refrigerant::names().iter().find(|n| **n != truth.refrigerant && names_refrigerant(words, n));
    if let Some(other) = other {
        return Mark::CannotBe(format!("there is no {other} in it"));
    }
    if !names_refrigerant(words, &truth.refrigerant) {
        return Mark::Wrong(format!("It is {}", truth.refrigerant));
    }
    let used =
        ["recover", "used", "reclaim", "waste", "old"].iter().any(|w| words.to_lowercase().contains(w));
    if label && !used {
        return Mark::Wrong(format!(
            "A label says that it is recovered {}, or someone takes it for new",
            truth.refrigerant
        ));
    }
    Mark::Right
}
