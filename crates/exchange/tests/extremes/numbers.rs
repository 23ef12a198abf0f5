//! Where numbers stand in a text, and other numbers in their place.

use std::ops::Range;

/// Every number of a native file, outside of texts and comments.
pub fn of_native(text: &str) -> Vec<Range<usize>> {
    let bytes = text.as_bytes();
    let (mut found, mut at) = (Vec::new(), 0);
    while at < bytes.len() {
        let rest = &text[at..];
        at += match bytes[at] {
            b'"' => 2 + rest[1..].find('"').unwrap_or(rest.len() - 2),
            b'/' if rest.starts_with("//") => rest.find('\n').unwrap_or(rest.len()),
            sign if sign.is_ascii_alphabetic() || sign == b'_' => word(rest),
            sign if sign.is_ascii_digit() || sign == b'-' => {
                found.push(at..at + word(rest));
                word(rest)
            }
            sign => {
                if sign.is_ascii() {
                    1
                } else {
                    rest.chars().next().map_or(1, char::len_utf8)
                }
            }
        };
    }
    found
}

fn word(text: &str) -> usize {
    text.find(|sign: char| !(sign.is_ascii_alphanumeric() || "_.-+".contains(sign))).unwrap_or(text.len())
}

/// Every number of a table, below its head.
pub fn of_table(text: &str) -> Vec<Range<usize>> {
    let first = text.find('\n').map_or(0, |end| end + 1);
    let mut found = Vec::new();
    let mut at = first;
    for field in text[first..].split_inclusive([',', '\n']) {
        let number = field.trim_end_matches([',', '\n']);
        if !number.is_empty() {
            found.push(at..at + number.len());
        }
        at += field.len();
    }
    found
}

/// A text with a number in place of what stands somewhere.
pub fn with(text: &str, at: &Range<usize>, value: f64) -> String {
    format!("{}{value:?}{}", &text[..at.start], &text[at.end..])
}

/// What a number stands for: the word before it, for the messages of these tests.
pub fn name(text: &str, at: &Range<usize>) -> String {
    let before = &text[..at.start];
    let line = before.lines().count();
    format!("line {line}: {}", before.lines().last().unwrap_or_default().trim())
}
