//! The nearest valid name to a mistyped one, for hints.

/// Fewest single-letter insertions, deletions and replacements that turn one word into the other.
fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, &cb) in b.iter().enumerate() {
            let replace = diagonal + usize::from(ca != cb);
            diagonal = row[j + 1];
            row[j + 1] = replace.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

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
        .map(|candidate| (distance(&word, &candidate.to_lowercase()), candidate))
        .min_by_key(|&(d, _)| d)
        .filter(|&(d, _)| d <= (length / 3).max(2))
        .map(|(_, candidate)| candidate)
}

/// A hint for an unknown name: the nearest valid one, else all of them.
pub fn hint<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str> + Clone) -> String {
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
        assert_eq!(distance("kitten", "sitting"), 3);
        let names = ["undercharge", "overcharge", "air_in_loop"];
        assert_eq!(nearest("overchage", names), Some("overcharge"));
        assert_eq!(nearest("banana", names), None);
        assert_eq!(nearest(&"x".repeat(1_000_000), names), None);
    }
}
