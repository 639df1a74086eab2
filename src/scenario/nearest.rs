//! The nearest valid name to a mistyped one, for hints.

/// The candidate closest to `word`, if any is close enough to be what was meant.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // A long word is no typing slip, and the comparison would cost its length for every candidate.
    let length = word.chars().take(101).count();
    if length > 100 {
        return None;
    }
    let word = word.to_lowercase();
    candidates
        .into_iter()
        .map(|candidate| (strsim::levenshtein(&word, &candidate.to_lowercase()), candidate))
        .min_by_key(|&(d, _)| d)
        .filter(|&(d, _)| d <= (length / 3).max(2))
        .map(|(_, candidate)| candidate)
}

/// Names that files of earlier days have, and what took their place.
const GONE: [(&str, &str); 2] = [
    ("voltmeter", "there is no voltmeter any more; the meter shows volts: write meter"),
    (
        "volts",
        "there is no voltmeter any more; the meter shows volts: write meter(mode: volts_dc, red: \"POINT\", black: \"ground\")",
    ),
];

/// A hint for an unknown name: what took its place, the nearest valid one, else all of them.
pub fn hint<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str> + Clone) -> String {
    if let Some((_, instead)) = GONE.iter().find(|(gone, _)| *gone == word) {
        return (*instead).to_owned();
    }
    match nearest(word, candidates.clone()) {
        Some(name) => format!("nearest valid name: {name}"),
        None => {
            let mut names: Vec<&str> = candidates.into_iter().collect();
            names.sort_unstable();
            format!("valid names: {}", names.join(", "))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_keys_finds_its_word() {
        let names = ["undercharge", "overcharge", "air_in_loop"];
        assert_eq!(nearest("overchage", names), Some("overcharge"));
        assert_eq!(nearest("banana", names), None);
        assert!(hint("volts", ["low_gauge", "meter"]).contains("mode: volts_dc"));
        assert_eq!(nearest(&"x".repeat(1_000_000), names), None);
    }
}
