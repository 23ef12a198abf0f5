//! The signs of a STEP file, one after the other (ISO 10303-21, clear text encoding; from memory).

/// What stands at a place of the file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Sign<'a> {
    /// `#12`
    Number(u64),
    /// A keyword such as `CARTESIAN_POINT`, or a word of the frame such as `ENDSEC`.
    Word(&'a str),
    /// A number.
    Real(f64),
    /// What stands between apostrophes, as it stands there.
    Text(&'a [u8]),
    /// What stands between full stops, such as `T`.
    Choice(&'a str),
    /// A bit string between quotes, which is passed over.
    Bits,
    /// One of `( ) , ; = $ *`.
    Mark(u8),
    /// There is nothing more.
    End,
}

/// What cannot be read, and what would be right.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Unreadable {
    /// Where it stands, as a place in the bytes.
    pub at: usize,
    /// What is wrong.
    pub what: String,
    /// What would be right.
    pub right: &'static str,
}

/// A place in the bytes of a file from which signs are read.
#[derive(Clone, Copy)]
pub(super) struct Scan<'a> {
    bytes: &'a [u8],
    /// Where the next sign is looked for.
    pub at: usize,
}

impl<'a> Scan<'a> {
    /// Reads from a place on.
    pub fn new(bytes: &'a [u8], at: usize) -> Self {
        Self { bytes, at }
    }

    /// The next sign, blanks and remarks passed over.
    pub fn next(&mut self) -> Result<Sign<'a>, Unreadable> {
        self.pass_blanks()?;
        let start = self.at;
        let Some(&first) = self.bytes.get(start) else { return Ok(Sign::End) };
        match first {
            b'(' | b')' | b',' | b';' | b'=' | b'$' | b'*' => {
                self.at += 1;
                Ok(Sign::Mark(first))
            }
            b'#' => {
                self.at += 1;
                let digits = self.run(|byte| byte.is_ascii_digit());
                let number = digits.parse().ok().filter(|_| digits.len() < 20);
                number.map(Sign::Number).ok_or_else(|| {
                    self.unreadable(start, "there is no number behind #", "a record has a number such as #12")
                })
            }
            b'\'' => self.text(start),
            b'"' => {
                self.at += 1;
                self.run(|byte| byte.is_ascii_hexdigit());
                self.closed_by(b'"', start, "a bit string is not closed", "it must end with \"")?;
                Ok(Sign::Bits)
            }
            b'.' if self.bytes.get(start + 1).is_some_and(u8::is_ascii_alphabetic) => {
                self.at += 1;
                let word = self.run(|byte| byte.is_ascii_alphanumeric() || byte == b'_');
                self.closed_by(b'.', start, "a word between full stops is not closed", "it must end with a full stop")?;
                Ok(Sign::Choice(word))
            }
            b'0'..=b'9' | b'+' | b'-' | b'.' => {
                let digits = self.run(|byte| byte.is_ascii_digit() || b"+-.eE".contains(&byte));
                let value = digits.trim_start_matches('+').parse::<f64>().ok().filter(|value| value.is_finite());
                value.map(Sign::Real).ok_or_else(|| {
                    let shown: String = digits.chars().take(40).collect();
                    let what = format!("\"{shown}\" is no number");
                    self.unreadable(start, what, "it must be a number such as 120.5 or 1.E-3")
                })
            }
            b'A'..=b'Z' | b'a'..=b'z' | b'_' | b'!' => {
                self.at += 1;
                let of_word = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'_' || byte == b'-';
                self.run(of_word);
                Ok(Sign::Word(std::str::from_utf8(&self.bytes[start..self.at]).unwrap_or_default()))
            }
            _ => {
                let what = format!("\"{}\" stands where nothing like it can", char::from(first).escape_default());
                Err(self.unreadable(start, what, "take a whole copy of the file"))
            }
        }
    }

    fn text(&mut self, start: usize) -> Result<Sign<'a>, Unreadable> {
        self.at += 1;
        loop {
            match self.bytes[self.at..].iter().position(|byte| *byte == b'\'') {
                None => {
                    return Err(self.unreadable(start, "a text is not closed", "it must end with an apostrophe"));
                }
                Some(ahead) => self.at += ahead + 1,
            }
            // Two of them are one that belongs to the text.
            if self.bytes.get(self.at) != Some(&b'\'') {
                return Ok(Sign::Text(&self.bytes[start + 1..self.at - 1]));
            }
            self.at += 1;
        }
    }

    fn closed_by(&mut self, by: u8, start: usize, what: &str, right: &'static str) -> Result<(), Unreadable> {
        if self.bytes.get(self.at) != Some(&by) {
            return Err(self.unreadable(start, what, right));
        }
        self.at += 1;
        Ok(())
    }

    fn run(&mut self, belongs: impl Fn(u8) -> bool) -> &'a str {
        let start = self.at;
        let length = self.bytes[start..].iter().take_while(|byte| belongs(**byte)).count();
        self.at += length;
        std::str::from_utf8(&self.bytes[start..self.at]).unwrap_or_default()
    }

    fn pass_blanks(&mut self) -> Result<(), Unreadable> {
        loop {
            self.at += self.bytes[self.at..].iter().take_while(|byte| byte.is_ascii_whitespace()).count();
            if !self.bytes[self.at..].starts_with(b"/*") {
                return Ok(());
            }
            let start = self.at;
            match self.bytes[start + 2..].windows(2).position(|pair| pair == b"*/") {
                Some(ahead) => self.at = start + 2 + ahead + 2,
                None => return Err(self.unreadable(start, "a remark is not closed", "it must end with */")),
            }
        }
    }

    fn unreadable(&self, at: usize, what: impl Into<String>, right: &'static str) -> Unreadable {
        Unreadable { at, what: what.into(), right }
    }
}
