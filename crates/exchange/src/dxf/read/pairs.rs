//! The pairs of code and value that a drawing is made of, from a text file or a binary one.

use std::borrow::Cow;

use crate::error::TextError;

/// What a binary drawing begins with.
const BINARY: &[u8] = b"AutoCAD Binary DXF\r\n\x1a\0";
/// The longest value that is looked at, bytes; a bound on what a message can quote.
const LONGEST: usize = 4096;

/// A value of a drawing.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Value<'a> {
    /// A text.
    Text(Cow<'a, str>),
    /// A number.
    Number(f64),
    /// Bytes that are passed over.
    Bytes,
}

impl Value<'_> {
    /// The number that it is.
    pub fn number(&self) -> Option<f64> {
        match self {
            Self::Number(number) => Some(*number),
            Self::Text(text) => text.trim().parse().ok().filter(|number: &f64| number.is_finite()),
            Self::Bytes => None,
        }
    }

    /// The text that it is.
    pub fn text(&self) -> &str {
        if let Self::Text(text) = self { text.trim() } else { "" }
    }
}

/// A code with its value.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pair<'a> {
    /// What the value is.
    pub code: i32,
    /// The value.
    pub value: Value<'a>,
    /// Where the code stands: a line of a text file, counted from 1; `None` in a binary one.
    pub line: Option<usize>,
}

/// The pairs of a drawing, one after the other.
pub(super) struct Pairs<'a> {
    bytes: &'a [u8],
    at: usize,
    line: usize,
    binary: Option<Wide>,
}

/// How long the codes of a binary drawing are.
#[derive(Clone, Copy, PartialEq)]
enum Wide {
    /// One byte, and three where the first is 255: R12 and before.
    One,
    /// Two bytes: R13 and later.
    Two,
}

impl<'a> Pairs<'a> {
    /// Begins to read.
    pub fn new(bytes: &'a [u8]) -> Self {
        match bytes.strip_prefix(BINARY) {
            // The first code is 0, and the text behind it SECTION: with codes of two bytes another 0 lies between.
            Some(rest) => {
                let wide = if rest.get(1) == Some(&0) { Wide::Two } else { Wide::One };
                Self { bytes, at: BINARY.len(), line: 1, binary: Some(wide) }
            }
            None => {
                let at = if bytes.starts_with(b"\xef\xbb\xbf") { 3 } else { 0 };
                Self { bytes, at, line: 1, binary: None }
            }
        }
    }

    /// The next pair; `None` where the file ends.
    pub fn next(&mut self) -> Result<Option<Pair<'a>>, TextError> {
        match self.binary {
            Some(wide) => self.next_binary(wide),
            None => self.next_text(),
        }
    }

    /// An error at what was read last.
    pub fn wrong(&self, what: impl Into<String>, right: &str) -> TextError {
        match self.binary {
            Some(_) => TextError::whole(format!("{} (at byte {})", what.into(), self.at), right),
            None => TextError::at(self.line.saturating_sub(1).max(1), what, right),
        }
    }

    fn next_line(&mut self) -> Option<Cow<'a, str>> {
        let rest = self.bytes.get(self.at..).filter(|rest| !rest.is_empty())?;
        let length = rest.iter().position(|byte| *byte == b'\n').unwrap_or(rest.len());
        self.at += length + 1;
        self.line += 1;
        let line = &rest[..length];
        Some(String::from_utf8_lossy(line.strip_suffix(b"\r").unwrap_or(line)))
    }

    fn next_text(&mut self) -> Result<Option<Pair<'a>>, TextError> {
        let line = self.line;
        let Some(code) = self.next_line() else { return Ok(None) };
        if code.trim().is_empty() && self.at >= self.bytes.len() {
            return Ok(None);
        }
        let Ok(code) = code.trim().parse::<i32>() else {
            let shown: String = code.trim().chars().take(40).collect();
            let right = "in a drawing a line with a number stands before each value; take a whole copy of it";
            return Err(self.wrong(format!("\"{shown}\" stands where a code must"), right));
        };
        let Some(value) = self.next_line() else {
            return Err(self.wrong(format!("the value of code {code} is missing"), "take a whole copy of the file"));
        };
        Ok(Some(Pair { code, value: Value::Text(value), line: Some(line) }))
    }

    fn taken(&mut self, count: usize) -> Result<&'a [u8], TextError> {
        let taken = self.at.checked_add(count).and_then(|end| self.bytes.get(self.at..end));
        let taken =
            taken.ok_or_else(|| self.wrong("the file breaks off in a value", "take a whole copy of the file"))?;
        self.at += count;
        Ok(taken)
    }

    fn next_binary(&mut self, wide: Wide) -> Result<Option<Pair<'a>>, TextError> {
        if self.at >= self.bytes.len() {
            return Ok(None);
        }
        let code = match wide {
            Wide::Two => i32::from(i16::from_le_bytes(fixed(self.taken(2)?))),
            Wide::One => match self.taken(1)?[0] {
                255 => i32::from(i16::from_le_bytes(fixed(self.taken(2)?))),
                code => i32::from(code),
            },
        };
        let value = match code {
            10..=59 | 110..=149 | 210..=239 | 460..=469 | 1010..=1059 => {
                Value::Number(f64::from_le_bytes(fixed(self.taken(8)?)))
            }
            60..=79 | 170..=179 | 270..=289 | 370..=389 | 400..=409 | 1060..=1070 => {
                Value::Number(f64::from(i16::from_le_bytes(fixed(self.taken(2)?))))
            }
            90..=99 | 420..=429 | 440..=459 | 1071 => {
                Value::Number(f64::from(i32::from_le_bytes(fixed(self.taken(4)?))))
            }
            160..=169 => Value::Number(i64::from_le_bytes(fixed(self.taken(8)?)) as f64),
            290..=299 => Value::Number(f64::from(self.taken(1)?[0])),
            310..=319 | 1004 => {
                let length = usize::from(self.taken(1)?[0]);
                self.taken(length)?;
                Value::Bytes
            }
            _ => {
                let rest = &self.bytes[self.at..];
                let Some(length) = rest.iter().take(LONGEST).position(|byte| *byte == 0) else {
                    return Err(
                        self.wrong(format!("the text of code {code} does not end"), "take a whole copy of the file")
                    );
                };
                self.at += length + 1;
                Value::Text(String::from_utf8_lossy(&rest[..length]))
            }
        };
        Ok(Some(Pair { code, value, line: None }))
    }
}

/// As many bytes as were asked for.
fn fixed<const N: usize>(bytes: &[u8]) -> [u8; N] {
    let mut out = [0; N];
    out.copy_from_slice(&bytes[..N]);
    out
}
