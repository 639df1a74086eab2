//! Find a field in RON source text by its path, such as `faults[2].severity`, so that a problem found
//! after reading can still name its line and column.

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Open,
    Close,
    Comma,
    Colon,
    Hash,
    Word,
}

#[derive(Clone, Copy, Debug)]
struct Token {
    kind: Kind,
    start: usize,
    end: usize,
}

/// Byte offset of the value at `path`; of its nearest parent when the field was left out.
pub fn locate(text: &str, path: &str) -> usize {
    let mut at = skip_attributes(text);
    for step in path.split(['.', '[', ']']).filter(|s| !s.is_empty()) {
        match enter(text, at, step) {
            Some(next) => at = next,
            None => break,
        }
    }
    Tokens { text, at }.next().map_or(0, |t| t.start)
}

/// From the offset where a value begins to the offset where one of its entries begins.
fn enter(text: &str, at: usize, step: &str) -> Option<usize> {
    let mut tokens = Tokens { text, at }.skip_while(|t| t.kind == Kind::Word);
    if tokens.next()?.kind != Kind::Open {
        return None;
    }
    let mut tokens = tokens.peekable();
    let wanted: Option<usize> = step.parse().ok();
    let (mut depth, mut item) = (0_usize, 0_usize);
    while let Some(token) = tokens.next() {
        if depth == 0 {
            let named = token.kind == Kind::Word
                && text[token.start..token.end] == *step
                && tokens.peek().is_some_and(|t| t.kind == Kind::Colon);
            match wanted {
                Some(n) if n == item && token.kind != Kind::Close => return Some(token.start),
                None if named => {
                    tokens.next();
                    return tokens.next().map(|t| t.start);
                }
                _ => {}
            }
        }
        match token.kind {
            Kind::Open => depth += 1,
            Kind::Close => depth = depth.checked_sub(1)?,
            Kind::Comma if depth == 0 => item += 1,
            _ => {}
        }
    }
    None
}

/// Offset behind leading `#![enable(...)]` lines, which are no part of the value.
fn skip_attributes(text: &str) -> usize {
    let mut tokens = Tokens { text, at: 0 };
    let mut after = 0;
    while tokens.next().is_some_and(|t| t.kind == Kind::Hash) {
        let mut depth = 0_usize;
        for token in tokens.by_ref() {
            match token.kind {
                Kind::Open => depth += 1,
                Kind::Close if depth <= 1 => break,
                Kind::Close => depth -= 1,
                _ => {}
            }
        }
        after = tokens.at;
    }
    after
}

/// RON as the tokens that matter here; comments vanish, a quoted text is one word. They are read off one by one, for a file
/// of brackets alone would be as many tokens as letters.
struct Tokens<'a> {
    text: &'a str,
    at: usize,
}

impl Iterator for Tokens<'_> {
    type Item = Token;

    fn next(&mut self) -> Option<Token> {
        let (text, bytes) = (self.text, self.text.as_bytes());
        while self.at < bytes.len() {
            let start = self.at;
            let kind = match bytes[start] {
                b'(' | b'[' | b'{' => Some(Kind::Open),
                b')' | b']' | b'}' => Some(Kind::Close),
                b',' => Some(Kind::Comma),
                b':' => Some(Kind::Colon),
                b'#' => Some(Kind::Hash),
                _ => None,
            };
            if let Some(kind) = kind {
                self.at += 1;
                return Some(Token { kind, start, end: self.at });
            } else if bytes[start..].starts_with(b"//") {
                self.at += text[start..].find('\n').unwrap_or(text.len() - start);
            } else if bytes[start..].starts_with(b"/*") {
                self.at = after_block_comment(bytes, start);
            } else if let Some(end) = after_quoted(text, start) {
                self.at = end;
                return Some(Token { kind: Kind::Word, start, end });
            } else if is_word(bytes[start]) {
                while self.at < bytes.len() && is_word(bytes[self.at]) {
                    self.at += 1;
                }
                return Some(Token { kind: Kind::Word, start, end: self.at });
            } else {
                self.at += 1;
            }
        }
        None
    }
}

fn is_word(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || b"_.+-".contains(&byte) || byte >= 0x80
}

fn after_block_comment(bytes: &[u8], mut i: usize) -> usize {
    let mut depth = 0_usize;
    while i < bytes.len() {
        if bytes[i..].starts_with(b"/*") {
            depth += 1;
            i += 2;
        } else if bytes[i..].starts_with(b"*/") {
            depth -= 1;
            i += 2;
            if depth == 0 {
                break;
            }
        } else {
            i += 1;
        }
    }
    i.min(bytes.len())
}

/// The end of a text in quotes (plain, raw or a single letter) that begins at `i`.
fn after_quoted(text: &str, i: usize) -> Option<usize> {
    let rest = &text[i..];
    if let Some(raw) = rest.strip_prefix('r') {
        let hashes = raw.bytes().take_while(|&b| b == b'#').count();
        let body = raw[hashes..].strip_prefix('"')?;
        let close = format!("\"{}", "#".repeat(hashes));
        let length = body.find(&close).map_or(body.len(), |at| at + close.len());
        return Some(text.len() - body.len() + length);
    }
    let quote = rest.bytes().next().filter(|b| b"\"'".contains(b))?;
    let mut escaped = false;
    for (at, byte) in rest.bytes().enumerate().skip(1) {
        if !escaped && byte == quote {
            return Some(i + at + 1);
        }
        escaped = byte == b'\\' && !escaped;
    }
    Some(text.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r#"#![enable(implicit_some)]
Scenario( // severity: no
    title: "faults: [ (severity: 9)",
    /* faults: [] /* nested */ */
    faults: [
        (id: overcharge),
        HiddenFault(id: undercharge, onset: after_s(-3), severity: 7),
    ],
)"#;

    #[test]
    fn a_path_finds_its_value_past_comments_and_quotes() {
        assert!(TEXT[locate(TEXT, "faults[1].severity")..].starts_with("7),"));
        assert!(TEXT[locate(TEXT, "faults[1].onset")..].starts_with("after_s(-3)"));
        assert!(TEXT[locate(TEXT, "title")..].starts_with("\"faults"));
    }

    #[test]
    fn a_left_out_field_is_found_at_its_parent() {
        assert!(TEXT[locate(TEXT, "faults[0].severity")..].starts_with("(id: overcharge)"));
        assert!(TEXT[locate(TEXT, "start.ambient_c")..].starts_with("Scenario("));
        assert_eq!(locate("", "a.b"), 0);
        assert_eq!(locate("(((((", "a[0].b"), 0);
    }
}
