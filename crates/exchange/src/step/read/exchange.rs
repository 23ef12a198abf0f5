//! The whole file as records that can be asked for by their numbers. All of it is read once and found sound before anything
//! is taken from it; of what was read only the places are kept.

use super::scan::{Scan, Sign, Unreadable};
use super::value::Record;
use crate::error::TextError;

/// The schemas that are read, by a part of their names: AP203, AP214, AP242.
const SCHEMAS: [&str; 5] = ["CONFIG_CONTROL_DESIGN", "AUTOMOTIVE_DESIGN", "AP203", "AP214", "AP242"];

/// A sound file.
pub(super) struct Exchange<'a> {
    bytes: &'a [u8],
    /// Numbers of records and where each begins behind its `=`, by number.
    records: Vec<(u64, usize)>,
}

impl<'a> Exchange<'a> {
    /// Takes a file in.
    ///
    /// # Errors
    /// Names the line of what cannot be read: the file must be whole, every record sound, every record that is named there.
    pub fn new(bytes: &'a [u8]) -> Result<Self, TextError> {
        let told = |unreadable: Unreadable| told(bytes, unreadable);
        let mut frame = Frame { scan: Scan::new(bytes, 0), bytes };
        frame.header().map_err(told)?;
        let mut records = frame.records().map_err(told)?;
        records.sort_unstable();
        if let Some(pair) = records.windows(2).find(|pair| pair[0].0 == pair[1].0) {
            let what = format!("record #{} stands twice", pair[1].0);
            return Err(TextError::at(line_of(bytes, pair[1].1), what, "each number must stand for one record"));
        }
        let exchange = Self { bytes, records };
        for (number, at) in &exchange.records {
            let mut missing = None;
            let mut scan = Scan::new(bytes, *at);
            Record::read(&mut scan, *number, &mut |named| {
                if missing.is_none() && exchange.place(named).is_none() {
                    missing = Some(named);
                }
            })
            .map_err(told)?;
            if let Some(missing) = missing {
                let what = format!("record #{number} names #{missing}, and there is no such record");
                return Err(TextError::at(line_of(bytes, *at), what, "take a whole copy of the file"));
            }
        }
        Ok(exchange)
    }

    fn place(&self, number: u64) -> Option<usize> {
        let found = self.records.binary_search_by_key(&number, |(number, _)| *number).ok()?;
        Some(self.records[found].1)
    }

    /// The record of a number.
    pub fn record(&self, number: u64) -> Result<Record<'a>, TextError> {
        let at = self.place(number).ok_or_else(|| {
            TextError::whole(format!("there is no record #{number}"), "take a whole copy of the file")
        })?;
        Record::read(&mut Scan::new(self.bytes, at), number, &mut |_| {}).map_err(|wrong| told(self.bytes, wrong))
    }

    /// The numbers of all records of a kind, or of several with that among them, in the order of their numbers.
    pub fn all<'s>(&'s self, kind: &'s str) -> impl Iterator<Item = u64> + 's {
        self.records.iter().filter(move |(_, at)| self.is_of(*at, kind)).map(|(number, _)| *number)
    }

    fn is_of(&self, at: usize, kind: &str) -> bool {
        let mut scan = Scan::new(self.bytes, at);
        match scan.next() {
            Ok(Sign::Word(word)) => word == kind,
            Ok(Sign::Mark(b'(')) => {
                let kinds = Record::read(&mut Scan::new(self.bytes, at), 0, &mut |_| {});
                kinds.is_ok_and(|record| record.of(kind).is_some())
            }
            _ => false,
        }
    }

    /// What is wrong with a record, with its line.
    pub fn wrong(&self, number: u64, what: &str, right: &str) -> TextError {
        let what = format!("record #{number} {what}");
        match self.place(number) {
            Some(at) => TextError::at(line_of(self.bytes, at), what, right),
            None => TextError::whole(what, right),
        }
    }
}

fn told(bytes: &[u8], unreadable: Unreadable) -> TextError {
    TextError::at(line_of(bytes, unreadable.at), unreadable.what, unreadable.right)
}

/// The line of a place, counted from 1.
fn line_of(bytes: &[u8], at: usize) -> usize {
    1 + bytes[..at.min(bytes.len())].iter().filter(|byte| **byte == b'\n').count()
}

/// The frame of the file: its head, its sections, its end.
struct Frame<'a> {
    scan: Scan<'a>,
    bytes: &'a [u8],
}

impl<'a> Frame<'a> {
    fn expect(&mut self, word: &str, what: &str) -> Result<(), Unreadable> {
        let at = self.scan.at;
        let stands = self.scan.next()? == Sign::Word(word) && self.scan.next()? == Sign::Mark(b';');
        if stands { Ok(()) } else { Err(Unreadable { at, what: what.into(), right: "take a whole copy of the file" }) }
    }

    /// The head of the file up to its data.
    fn header(&mut self) -> Result<(), Unreadable> {
        let bytes = self.bytes;
        if let Some(rest) = bytes.strip_prefix(b"\xef\xbb\xbf") {
            self.scan.at = bytes.len() - rest.len();
        }
        let at = self.scan.at;
        let begins = bytes[at..].trim_ascii_start().starts_with(b"ISO-10303-21");
        if !begins {
            let what = "the file does not begin with ISO-10303-21".to_owned();
            return Err(Unreadable { at, what, right: "a STEP file begins with ISO-10303-21; as text" });
        }
        self.expect("ISO-10303-21", "the file does not begin with ISO-10303-21;")?;
        self.expect("HEADER", "there is no HEADER; behind the first line")?;
        let mut schema = None;
        loop {
            let at = self.scan.at;
            match self.scan.next()? {
                Sign::Word("ENDSEC") => break,
                Sign::Word(_) => {
                    let mut record = Scan::new(bytes, at);
                    let entry = Record::read(&mut record, 0, &mut |_| {})?;
                    self.scan = record;
                    if entry.kind() == "FILE_SCHEMA" {
                        let names = entry.values().first().map(|names| names.list()).unwrap_or_default();
                        let names: Vec<String> = names.iter().filter_map(|name| name.text()).collect();
                        schema = Some((at, names.join(", ").to_uppercase()));
                    }
                }
                _ => return Err(wrong(at, "the head of the file holds something else than its entries")),
            }
        }
        let end = self.scan.at;
        if self.scan.next()? != Sign::Mark(b';') {
            return Err(wrong(end, "ENDSEC does not end with a semicolon"));
        }
        let right = "it must be one of AP203, AP214 and AP242; write the file as one of them";
        match schema {
            Some((_, name)) if SCHEMAS.iter().any(|known| name.contains(known)) => Ok(()),
            Some((at, name)) => {
                let name: String = name.chars().take(60).collect();
                Err(Unreadable { at, what: format!("the schema {name} is unknown here"), right })
            }
            None => Err(Unreadable { at: end, what: "the head of the file names no schema".into(), right }),
        }
    }

    /// Where every record begins, by its number; all sections that hold none are passed over.
    fn records(&mut self) -> Result<Vec<(u64, usize)>, Unreadable> {
        let mut records = Vec::new();
        loop {
            let at = self.scan.at;
            match self.scan.next()? {
                Sign::Word("END-ISO-10303-21") => {
                    return match self.scan.next()? {
                        Sign::Mark(b';') => Ok(records),
                        _ => Err(wrong(at, "END-ISO-10303-21 does not end with a semicolon")),
                    };
                }
                Sign::Word(section) => self.section(section == "DATA", &mut records)?,
                Sign::End => {
                    return Err(wrong(at, "the file breaks off: END-ISO-10303-21 is missing"));
                }
                _ => return Err(wrong(at, "something stands between the sections of the file")),
            }
        }
    }

    fn section(&mut self, is_data: bool, records: &mut Vec<(u64, usize)>) -> Result<(), Unreadable> {
        // The word of the section, with what may stand in brackets behind it, ends with a semicolon.
        self.pass_statement()?;
        loop {
            let at = self.scan.at;
            match self.scan.next()? {
                Sign::Word("ENDSEC") => {
                    let at = self.scan.at;
                    let closed = self.scan.next()? == Sign::Mark(b';');
                    return if closed { Ok(()) } else { Err(wrong(at, "ENDSEC does not end with a semicolon")) };
                }
                Sign::Number(number) if is_data => {
                    let at = self.scan.at;
                    if self.scan.next()? != Sign::Mark(b'=') {
                        return Err(wrong(at, format!("there is no = behind #{number}")));
                    }
                    records.push((number, self.scan.at));
                    self.pass_statement()?;
                }
                Sign::End => return Err(wrong(at, "the file breaks off: ENDSEC is missing")),
                _ if is_data => return Err(wrong(at, "something else than a record stands here")),
                _ => self.pass_statement()?,
            }
        }
    }

    fn pass_statement(&mut self) -> Result<(), Unreadable> {
        loop {
            let at = self.scan.at;
            match self.scan.next()? {
                Sign::Mark(b';') => return Ok(()),
                Sign::End => return Err(wrong(at, "the file breaks off: a semicolon is missing")),
                _ => {}
            }
        }
    }
}

fn wrong(at: usize, what: impl Into<String>) -> Unreadable {
    Unreadable { at, what: what.into(), right: "take a whole copy of the file" }
}
