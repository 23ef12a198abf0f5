//! Native text taken apart without being understood, so that what somebody else wrote into it can stay as it is.

/// The fields within the outer brackets of a text, each by its name and its value as it is written there. `None` where
/// the text ends too early or is no list of fields.
pub(crate) fn outer_fields(text: &str) -> Option<Vec<(&str, &str)>> {
    let (mut depth, mut at, mut before) = (0_usize, 0, "");
    let mut fields = Vec::new();
    // The name of the field whose value is being read, and where that lies once it has begun.
    let mut open: Option<(&str, Option<(usize, usize)>)> = None;
    loop {
        let (from, to) = token(text, at)?;
        let word = &text[from..to];
        let closes = matches!(word, ")" | "]" | "}");
        if depth == 1 && (word == "," || closes) {
            if let Some((name, value)) = open.take() {
                let (from, to) = value?;
                fields.push((name, &text[from..to]));
            }
        } else if let Some((_, value)) = &mut open {
            *value = Some((value.map_or(from, |(from, _)| from), to));
        } else if depth == 1 && word == ":" {
            open = Some((before, None));
        }
        match word {
            "(" | "[" | "{" => depth += 1,
            _ if closes => depth = depth.checked_sub(1)?,
            _ => {}
        }
        if depth == 0 && word == ")" {
            return Some(fields);
        }
        (before, at) = (word, to);
    }
}

/// The next word, quoted text or sign from a place on, past spaces and comments. `None` at the end.
pub(super) fn token(text: &str, mut at: usize) -> Option<(usize, usize)> {
    loop {
        let rest = &text[at..];
        let trimmed = rest.trim_start();
        at += rest.len() - trimmed.len();
        if trimmed.starts_with("//") {
            at += trimmed.find('\n')?;
        } else if trimmed.starts_with("/*") {
            at += trimmed.find("*/")? + 2;
        } else {
            let first = trimmed.chars().next()?;
            let is_word = |letter: char| letter.is_alphanumeric() || letter == '_';
            let length = match first {
                '"' => quoted(trimmed)?,
                _ if is_word(first) => trimmed.find(|letter| !is_word(letter)).unwrap_or(trimmed.len()),
                _ => first.len_utf8(),
            };
            return Some((at, at + length));
        }
    }
}

/// The length of the quoted text that a text begins with.
fn quoted(text: &str) -> Option<usize> {
    let mut escaped = false;
    for (index, letter) in text.char_indices().skip(1) {
        match letter {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => return Some(index + 1),
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn fields_are_told_with_their_values_as_written() {
        let text = "// (head: 1)\n#![enable(implicit_some)]\n(\n  a: 1, // b: 2\n  b: (x: [1, 2], y: \"),\\\"(\"),\n  c : { \"k\": 3 } /* , d: 4 */\n)";
        let fields = outer_fields(text).unwrap();
        assert_eq!(fields, [("a", "1"), ("b", "(x: [1, 2], y: \"),\\\"(\")"), ("c", "{ \"k\": 3 }")]);
        assert_eq!(outer_fields("()"), Some(Vec::new()));
        for text in ["", "(a: 1", "(a: \"1)", "(a:)", "a: 1"] {
            assert_eq!(outer_fields(text), None, "{text}");
        }
    }
}
