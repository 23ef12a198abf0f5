//! One record with its values.

use std::borrow::Cow;

use elbowroom_bending::text::harmless;

use super::scan::{Scan, Sign, Unreadable};

/// How deep lists may lie in lists. Those of the standard lie three deep; a bound on the stack.
const DEEPEST: usize = 32;
/// The most values of one record: ten times the faces of the largest solids (common practice, no source). A bound on memory.
const MOST_VALUES: usize = 500_000;

/// A value of a record.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Value<'a> {
    /// Another record.
    Ref(u64),
    /// A number.
    Number(f64),
    /// A text, as it stands between its apostrophes.
    Text(&'a [u8]),
    /// A word between full stops, such as `T`.
    Choice(&'a str),
    /// Values in brackets.
    List(Vec<Value<'a>>),
    /// Values that say what they are, such as `LENGTH_MEASURE(25.4)`.
    Typed(Box<(&'a str, Vec<Value<'a>>)>),
    /// Nothing, or nothing that is said here.
    Nothing,
}

impl<'a> Value<'a> {
    /// The record that it names.
    pub fn reference(&self) -> Option<u64> {
        if let Self::Ref(number) = self { Some(*number) } else { None }
    }

    /// The number that it is, of whatever kind it says to be.
    pub fn number(&self) -> Option<f64> {
        match self {
            Self::Number(number) => Some(*number),
            Self::Typed(typed) => typed.1.first().and_then(Self::number),
            _ => None,
        }
    }

    /// The values of a list; none of what is no list.
    pub fn list(&self) -> &[Value<'a>] {
        if let Self::List(values) = self { values } else { &[] }
    }

    /// Whether it is `.T.`, where it is a truth at all.
    pub fn truth(&self) -> Option<bool> {
        match self {
            Self::Choice("T") => Some(true),
            Self::Choice("F") => Some(false),
            _ => None,
        }
    }

    /// The text that it is, as it can be shown.
    pub fn text(&self) -> Option<String> {
        if let Self::Text(bytes) = self { Some(harmless(&decoded(bytes)).into_owned()) } else { None }
    }
}

/// A record: one kind with its values, or several kinds at once.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Record<'a> {
    /// Its number.
    pub number: u64,
    /// What it is, with the values of each.
    pub kinds: Vec<(&'a str, Vec<Value<'a>>)>,
}

impl<'a> Record<'a> {
    /// Reads a record behind its `=`, up to its semicolon. With `each` every record that it names is told.
    pub fn read(scan: &mut Scan<'a>, number: u64, each: &mut dyn FnMut(u64)) -> Result<Self, Unreadable> {
        let mut reading = Reading { scan, left: MOST_VALUES, each };
        let at = reading.scan.at;
        let mut kinds = Vec::with_capacity(1);
        match reading.scan.next()? {
            Sign::Word(kind) => kinds.push(reading.kind(kind)?),
            Sign::Mark(b'(') => loop {
                let at = reading.scan.at;
                match reading.scan.next()? {
                    Sign::Word(kind) => kinds.push(reading.kind(kind)?),
                    Sign::Mark(b')') if !kinds.is_empty() => break,
                    _ => return Err(wrong(at, "a record of several kinds has something else between them")),
                }
            },
            _ => return Err(wrong(at, "a record does not say what it is")),
        }
        let at = reading.scan.at;
        match reading.scan.next()? {
            Sign::Mark(b';') => Ok(Self { number, kinds }),
            _ => Err(wrong(at, format!("record #{number} does not end with a semicolon"))),
        }
    }

    /// The values of one of its kinds.
    pub fn of(&self, kind: &str) -> Option<&[Value<'a>]> {
        self.kinds.iter().find(|(known, _)| *known == kind).map(|(_, values)| values.as_slice())
    }

    /// The kind of a record that is of one; of several the first.
    pub fn kind(&self) -> &'a str {
        self.kinds.first().map_or("", |(kind, _)| kind)
    }

    /// Its values, of several kinds those of the first.
    pub fn values(&self) -> &[Value<'a>] {
        self.kinds.first().map_or(&[], |(_, values)| values)
    }
}

fn wrong(at: usize, what: impl Into<String>) -> Unreadable {
    Unreadable { at, what: what.into(), right: "take a whole copy of the file" }
}

struct Reading<'s, 'a> {
    scan: &'s mut Scan<'a>,
    left: usize,
    each: &'s mut dyn FnMut(u64),
}

impl<'a> Reading<'_, 'a> {
    fn kind(&mut self, kind: &'a str) -> Result<(&'a str, Vec<Value<'a>>), Unreadable> {
        let at = self.scan.at;
        match self.scan.next()? {
            Sign::Mark(b'(') => Ok((kind, self.values(0)?)),
            _ => Err(wrong(at, format!("{} has no values in brackets", &kind[..kind.len().min(40)]))),
        }
    }

    /// Values behind an opening bracket, up to the closing one.
    fn values(&mut self, depth: usize) -> Result<Vec<Value<'a>>, Unreadable> {
        let mut values = Vec::new();
        let mut open = true;
        loop {
            let at = self.scan.at;
            let sign = self.scan.next()?;
            match sign {
                Sign::Mark(b')') if !open || values.is_empty() => return Ok(values),
                Sign::Mark(b',') if !open => {
                    open = true;
                    continue;
                }
                _ if !open => return Err(wrong(at, "values are parted by nothing")),
                _ => {}
            }
            self.left = self.left.checked_sub(1).ok_or_else(|| {
                let what = format!("a record has more than {MOST_VALUES} values");
                Unreadable { at, what, right: "it must have fewer; such a record describes no tube" }
            })?;
            open = false;
            values.push(self.value(sign, at, depth)?);
        }
    }

    fn value(&mut self, sign: Sign<'a>, at: usize, depth: usize) -> Result<Value<'a>, Unreadable> {
        if depth >= DEEPEST {
            let what = format!("lists lie in lists more than {DEEPEST} deep");
            return Err(Unreadable { at, what, right: "they must not; such a record describes no tube" });
        }
        Ok(match sign {
            Sign::Number(number) => {
                (self.each)(number);
                Value::Ref(number)
            }
            Sign::Real(number) => Value::Number(number),
            Sign::Text(text) => Value::Text(text),
            Sign::Choice(word) => Value::Choice(word),
            Sign::Bits | Sign::Mark(b'$' | b'*') => Value::Nothing,
            Sign::Mark(b'(') => Value::List(self.values(depth + 1)?),
            Sign::Word(kind) => match self.scan.next()? {
                Sign::Mark(b'(') => Value::Typed(Box::new((kind, self.values(depth + 1)?))),
                _ => return Err(wrong(at, format!("{} has no value in brackets", &kind[..kind.len().min(40)]))),
            },
            Sign::Mark(_) => return Err(wrong(at, "a value is missing")),
            Sign::End => return Err(wrong(at, "the file breaks off in a record")),
        })
    }
}

/// A text with its escapes undone (ISO 10303-21, 6.4.3; from memory). What is no escape stays as it stands.
fn decoded(bytes: &[u8]) -> Cow<'_, str> {
    let text = String::from_utf8_lossy(bytes);
    if !text.contains(['\\', '\'']) {
        return text;
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text.as_ref();
    while let Some(sign) = rest.chars().next() {
        let (taken, put) = escape(rest).unwrap_or((sign.len_utf8(), sign.to_string()));
        out.push_str(&put);
        rest = rest.get(taken..).unwrap_or_default();
    }
    Cow::Owned(out)
}

/// What an escape at the start of a text means, and how long it is.
fn escape(rest: &str) -> Option<(usize, String)> {
    if rest.starts_with("''") {
        return Some((2, "'".into()));
    }
    if rest.starts_with("\\\\") {
        return Some((2, "\\".into()));
    }
    if let Some(hex) = rest.strip_prefix("\\X\\") {
        return Some((5, char::from(u8::from_str_radix(hex.get(..2)?, 16).ok()?).into()));
    }
    if let Some(after) = rest.strip_prefix("\\S\\") {
        let sign = after.chars().next().filter(char::is_ascii)?;
        return Some((4, char::from(sign as u8 | 0x80).into()));
    }
    let (wide, hex) = match (rest.strip_prefix("\\X2\\"), rest.strip_prefix("\\X4\\")) {
        (Some(hex), _) => (4, hex),
        (_, Some(hex)) => (8, hex),
        _ => return None,
    };
    let hex = &hex[..hex.find("\\X0\\")?];
    let units: Option<Vec<u32>> = hex
        .as_bytes()
        .chunks(wide)
        .map(|digits| std::str::from_utf8(digits).ok().and_then(|digits| u32::from_str_radix(digits, 16).ok()))
        .collect();
    let units = units?;
    let put = if wide == 4 {
        let units: Vec<u16> = units.into_iter().map(|unit| unit as u16).collect();
        String::from_utf16_lossy(&units)
    } else {
        units.into_iter().map(|unit| char::from_u32(unit).unwrap_or('\u{fffd}')).collect()
    };
    Some((4 + hex.len() + 4, put))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_read_as_they_were_meant() {
        for (stands, means) in [
            ("Downpipe", "Downpipe"),
            ("a''b\\\\c", "a'b\\c"),
            ("Rohr \\X2\\00F8\\X0\\ 60", "Rohr ø 60"),
            ("\\X4\\0001F600\\X0\\", "\u{1f600}"),
            ("\\X\\E9", "é"),
            ("\\S\\i", "é"),
            ("\\X2\\D83DDE00\\X0\\", "\u{1f600}"),
            ("half \\X2\\00F", "half \\X2\\00F"),
            ("\\Q", "\\Q"),
        ] {
            assert_eq!(Value::Text(stands.as_bytes()).text().as_deref(), Some(means));
        }
    }
}
