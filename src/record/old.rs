//! Records of format 1. They hold no readings and no hash of their own, and some name an ideal voltmeter, which the meter has
//! replaced since.

use super::file::{FORMAT, Record};
use crate::scenario::locate::locate;

/// Text of a record of format 1 with the names of today; `None` where the text is of another format.
pub fn modernised(text: &str) -> Option<String> {
    let at = locate(text, "format");
    let digits: String = text.get(at..)?.chars().take_while(char::is_ascii_digit).take(12).collect();
    if digits.parse() != Ok(1_u64) {
        return None;
    }
    let mut modern = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(['"', 'v']) {
        let (before, from) = rest.split_at(at);
        modern.push_str(before);
        // Part of a longer word?
        let inside = before.chars().next_back().is_some_and(|c| c.is_alphanumeric() || c == '_');
        let (written, taken) = match from {
            quoted if quoted.starts_with('"') => {
                let end = end_of_string(quoted);
                (quoted[..end].to_owned(), end)
            }
            _ if inside => ("v".into(), 1),
            word if is_word(word, "voltmeter") => ("meter".into(), "voltmeter".len()),
            word if word.starts_with("volts(\"") => {
                let point = &word["volts(".len()..];
                let end = end_of_string(point);
                let meter = format!("meter(mode: volts_dc, red: {}, black: \"ground\"", &point[..end]);
                (meter, "volts(".len() + end)
            }
            _ => ("v".into(), 1),
        };
        modern.push_str(&written);
        rest = &from[taken..];
    }
    modern.push_str(rest);
    Some(modern)
}

/// What a record of format 1 has not, in the terms of today. Its hash was that of the state.
pub fn complete(record: &mut Record) {
    record.format = FORMAT;
    record.state = std::mem::take(&mut record.hash);
    let mut seen = Vec::new();
    record.scenario.tools.retain(|tool| {
        let new = !seen.contains(tool);
        seen.push(*tool);
        new
    });
}

fn is_word(text: &str, word: &str) -> bool {
    text.strip_prefix(word).is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric() || c == '_'))
}

/// Bytes of the string that a text begins with, both quotes included.
fn end_of_string(text: &str) -> usize {
    let mut escaped = false;
    for (at, c) in text.char_indices().skip(1) {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_voltmeter_becomes_the_meter_and_words_of_people_stay() {
        let old = r#"(format: 1, tools: [voltmeter, revolts], a: [place(volts("fan_relay_87")), note("my \"voltmeter\" volts(\"x\")")])"#;
        let new = modernised(old).unwrap();
        assert!(new.contains("tools: [meter, revolts]"), "{new}");
        assert!(
            new.contains(r#"place(meter(mode: volts_dc, red: "fan_relay_87", black: "ground"))"#),
            "{new}"
        );
        assert!(new.contains(r#"note("my \"voltmeter\" volts(\"x\")")"#), "{new}");
        assert_eq!(modernised("(format: 2, tools: [voltmeter])"), None);
        for broken in ["(format: 1, v", "(format: 1, \"v\\", "(format: 1, volts(\"", ""] {
            let _no_panic = modernised(broken);
        }
    }
}
