//! Text from outside made fit for a message: on one line, of bounded length, with nothing in it that a terminal obeys.
//!
//! What a person's file holds (names, titles, values) stands in errors and lists. Raw, an escape sequence in a title clears
//! the screen of who reads it, a bidirectional mark turns a line round, and a megabyte of letters hides what is said of it.

/// Longest name or word quoted from a file [characters].
pub const WORD: usize = 60;
/// Longest piece of a file quoted in a message [characters].
pub const PIECE: usize = 160;
/// Longest line of a message [characters]; lists of valid names are long.
pub const LINE: usize = 4_000;

/// The text on one line of at most `most` characters.
///
/// Line ends and tabs become blanks; other control characters, and marks that turn the direction of writing, are
/// written as their number (`\u{1b}`). What is cut off leaves a `…`.
pub fn fit(text: &str, most: usize) -> String {
    let mut out = String::new();
    let mut length = 0;
    for c in text.chars() {
        let piece = match c {
            '\n' | '\r' | '\t' => " ".to_owned(),
            c if obeyed(c) => c.escape_unicode().to_string(),
            c => c.to_string(),
        };
        length += piece.chars().count();
        if length > most {
            // Room for the mark itself.
            while length > most && out.pop().is_some() {
                length = out.chars().count() + 1;
            }
            out.push('…');
            return out;
        }
        out += &piece;
    }
    out
}

/// The same line by line, at most so many lines.
pub fn fit_lines(text: &str, lines: usize) -> String {
    let mut all = text.lines();
    let mut shown: Vec<String> = all.by_ref().take(lines).map(|line| fit(line, LINE)).collect();
    if all.next().is_some() {
        shown.push("…".into());
    }
    shown.join("\n")
}

/// A number of a file: as it is, or with an exponent where it would fill the line with zeros.
pub fn number(value: f64) -> String {
    let size = value.abs();
    let plain = size == 0.0 || !size.is_finite() || (1e-6..1e15).contains(&size);
    if plain { value.to_string() } else { format!("{value:e}") }
}

/// What is wrong with a text that people will read, if anything: a control character other than line end and tab, or
/// more than `most` characters.
pub fn fault_in_text(text: &str, most: usize) -> Option<String> {
    let mut rest = text.chars().peekable();
    let mut length = 0_usize;
    while let Some(c) = rest.next() {
        length += 1;
        // A file that was written on Windows ends its lines so.
        let line_end = c == '\n' || c == '\t' || (c == '\r' && rest.peek() == Some(&'\n'));
        if obeyed(c) && !line_end {
            return Some(format!("the control character {} is not allowed in a text", c.escape_unicode()));
        }
    }
    (length > most).then(|| format!("this text has {length} characters, at most {most} are allowed"))
}

/// Does a terminal obey this character instead of showing it?
fn obeyed(c: char) -> bool {
    let turns =
        matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{61c}');
    let breaks = matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}');
    c.is_control() || turns || breaks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_a_terminal_obeys_is_left() {
        assert_eq!(fit("warm\tat\r\nthe lights", 99), "warm at  the lights");
        assert_eq!(fit("\u{1b}[2J\u{0}\u{202e}x\u{9b}", 99), "\\u{1b}[2J\\u{0}\\u{202e}x\\u{9b}");
        assert_eq!(fit("35 °C, é, 冷", 99), "35 °C, é, 冷");
    }

    #[test]
    fn what_is_too_long_is_cut_and_says_so() {
        assert_eq!(fit("abcdef", 6), "abcdef");
        assert_eq!(fit("abcdefg", 6), "abcde…");
        for most in 1..20 {
            for text in ["\u{1b}".repeat(9), "é\u{1b}".repeat(9), "x".repeat(100_000)] {
                let cut = fit(&text, most);
                assert!(cut.chars().count() <= most && cut.ends_with('…'), "{most}: {cut}");
            }
        }
        assert_eq!(fit_lines("a\nb\u{7}\nc", 2), "a\nb\\u{7}\n…");
    }

    #[test]
    fn a_number_never_fills_the_line() {
        for value in [0.0, -0.5, 33.0, 1e14, 1e300, f64::MAX, f64::MIN_POSITIVE, f64::NAN, f64::NEG_INFINITY]
        {
            let text = number(value);
            assert!(text.len() < 30, "{text}");
            assert!(value.is_nan() || text.parse() == Ok(value), "{text}");
        }
        assert_eq!(number(400.0), "400");
    }

    #[test]
    fn texts_for_people_hold_letters() {
        assert_eq!(fault_in_text("Two lines,\r\n\tone tab.\n", 99), None);
        assert!(fault_in_text("a\u{1b}[31m", 99).is_some_and(|why| why.contains("\\u{1b}")));
        assert!(fault_in_text("a\rb", 99).is_some() && fault_in_text("a\u{202e}b", 99).is_some());
        assert!(fault_in_text("four", 3).is_some_and(|why| why.contains("at most 3")));
    }
}
