//! Reading a points table, with errors that name the line and what would be right.

use csv::{ByteRecord, ReaderBuilder};
use elbowroom_geometry::{LARGEST_MM, Length, MOST_BENDS, Point3, VertexPath};
use elbowroom_workbench::file::FileProblem;

use super::{COLUMNS, HEADER};
use crate::error::TextError;

/// Reads a points table. Lengths are mm; every number keeps its full double precision. `file` is what the
/// person calls the table; it stands in the errors.
///
/// Empty lines are passed over; spaces round a number, a byte order mark, quotes and either kind of line
/// ending are accepted. Takes time in proportion to the length of the table.
///
/// # Errors
/// Says the line, what is wrong on it and what would be right: another header, a row of other than four
/// columns, a number that cannot be read or is out of range, a radius missing or out of place, fewer
/// than two points.
pub fn read(text: &str, file: &str) -> Result<VertexPath, FileProblem> {
    read_table(text.as_bytes()).map_err(|error| error.in_file(file))
}

fn read_table(bytes: &[u8]) -> Result<VertexPath, TextError> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let mut lines = LineCounter { bytes, at: 0, line: 1 };
    let mut reader = ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes);
    let mut record = ByteRecord::new();
    let mut next = |record: &mut ByteRecord| -> Result<Option<usize>, TextError> {
        let read = reader.read_byte_record(record);
        let more =
            read.map_err(|error| TextError::whole(error.to_string(), "a points table is comma-separated text"))?;
        Ok(more.then(|| lines.line_of(record)))
    };

    match next(&mut record)? {
        None => return Err(TextError::at(1, "the table is empty", format!("the first line must be {HEADER}"))),
        Some(line) => check_header(&record, line)?,
    }
    let (mut points, mut clr) = (Vec::new(), Vec::new());
    // The radius of the row before, which may be empty only if that row turns out to be an end.
    let mut before: Option<(usize, Option<f64>)> = None;
    while let Some(line) = next(&mut record)? {
        if record.iter().all(|field| field.trim_ascii().is_empty()) {
            continue;
        }
        let row = Row { record: &record, line };
        row.check_width()?;
        if points.len() >= MOST_BENDS + 2 {
            let right = format!("a tube has {MOST_BENDS} bends or fewer");
            return Err(TextError::at(line, format!("the table has more than {} points", points.len()), right));
        }
        points.push(Point3::new(row.coordinate(0)?, row.coordinate(1)?, row.coordinate(2)?));
        if let Some((line_before, radius)) = before.replace((line, row.radius()?))
            && points.len() > 2
        {
            clr.push(Length::from_mm(radius.ok_or_else(|| missing_radius(line_before))?));
        }
        if let (1, Some((_, Some(_)))) = (points.len(), before) {
            return Err(radius_on_end(line, "first"));
        }
    }
    match before {
        Some((line, Some(_))) if points.len() > 1 => return Err(radius_on_end(line, "last")),
        Some(_) if points.len() > 1 => {}
        last => {
            let has = if last.is_some() { "has only one point" } else { "has no points" };
            let line = last.map_or(1, |(line, _)| line);
            let right = "a tube needs at least two: a first row, a last row, and one for each bend between";
            return Err(TextError::at(line, format!("the table {has}"), right));
        }
    }
    VertexPath::new(points, clr).map_err(|refusal| TextError::whole(refusal.to_string(), "mend that row"))
}

fn check_header(record: &ByteRecord, line: usize) -> Result<(), TextError> {
    if record.iter().eq(COLUMNS.iter().map(|column| column.as_bytes())) {
        return Ok(());
    }
    let was: Vec<_> = record.iter().map(shown).collect();
    Err(TextError::at(line, format!("the header is {}", was.join(",")), format!("it must be exactly {HEADER}")))
}

/// One line of the table below the header.
struct Row<'a> {
    record: &'a ByteRecord,
    line: usize,
}

impl Row<'_> {
    fn check_width(&self) -> Result<(), TextError> {
        let has = self.record.len();
        if has == COLUMNS.len() {
            return Ok(());
        }
        let mut right = format!("it must have 4: {HEADER}, the last one empty on the first and last row");
        if self.record.iter().any(|field| field.contains(&b';')) {
            right.push_str("; columns are divided by commas, and decimals by points");
        }
        let columns = if has == 1 { "column" } else { "columns" };
        Err(TextError::at(self.line, format!("the row has {has} {columns}"), right))
    }

    fn field(&self, column: usize) -> &[u8] {
        self.record.get(column).unwrap_or_default().trim_ascii()
    }

    fn coordinate(&self, column: usize) -> Result<f64, TextError> {
        self.number(column, -LARGEST_MM, "millimetres such as 120.5")
    }

    /// The radius, or `None` where the column is empty.
    fn radius(&self) -> Result<Option<f64>, TextError> {
        if self.field(3).is_empty() {
            return Ok(None);
        }
        self.number(3, 0.0, "the centreline radius in millimetres such as 90.5").map(Some)
    }

    fn number(&self, column: usize, low: f64, wanted: &str) -> Result<f64, TextError> {
        let (field, name) = (self.field(column), COLUMNS[column]);
        if field.is_empty() {
            return Err(TextError::at(self.line, format!("{name} is empty"), format!("write {wanted}")));
        }
        let read = std::str::from_utf8(field).ok().and_then(|text| text.parse::<f64>().ok());
        match read {
            Some(value) if value.is_finite() && value >= low && value <= LARGEST_MM => Ok(value),
            Some(_) => {
                let right = format!("it must be a number from {low} to {LARGEST_MM}");
                Err(TextError::at(self.line, format!("{name} is {}", shown(field)), right))
            }
            None => {
                let what = format!("{name} is \"{}\", which is not a number", shown(field));
                Err(TextError::at(self.line, what, format!("write {wanted}")))
            }
        }
    }
}

fn missing_radius(line: usize) -> TextError {
    let right = "every row but the first and the last needs its centreline radius in millimetres such as 90.5";
    TextError::at(line, "clr_mm is empty", right)
}

fn radius_on_end(line: usize, which: &str) -> TextError {
    let right = "leave it empty: an end of the tube has no bend (the comma before it stays)";
    TextError::at(line, format!("clr_mm is filled in on the {which} row"), right)
}

/// A field as it may stand in a message: short, and without control characters.
fn shown(field: &[u8]) -> String {
    const LONGEST: usize = 40;
    let text = String::from_utf8_lossy(field);
    let mut short: String = text.chars().take(LONGEST).map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect();
    if text.chars().nth(LONGEST).is_some() {
        short.push('…');
    }
    short
}

/// Finds the line of a record. The reader's own count stands at the empty lines before a record, so this
/// passes over them; each byte is looked at once.
struct LineCounter<'a> {
    bytes: &'a [u8],
    at: usize,
    line: usize,
}

impl LineCounter<'_> {
    fn line_of(&mut self, record: &ByteRecord) -> usize {
        let start = record.position().map_or(0, |position| position.byte() as usize).min(self.bytes.len());
        let blank = self.bytes[start..].iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).count();
        let start = start + blank;
        if start > self.at {
            self.line += self.bytes[self.at..start].iter().filter(|byte| **byte == b'\n').count();
            self.at = start;
        }
        self.line
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    fn error(text: &str) -> String {
        read(text, "a.csv").unwrap_err().to_string()
    }

    #[test]
    fn a_sound_table_is_read() {
        let path = read("x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n250,0,-1e-3,90.5\n250,310.25,40,\n", "a.csv").unwrap();
        assert_eq!(path.points(), [[0.0, 0.0, 0.0].into(), [250.0, 0.0, -1e-3].into(), [250.0, 310.25, 40.0].into()]);
        assert_eq!(path.clr(), [Length::from_mm(90.5)]);
    }

    #[test]
    fn spreadsheets_leave_marks_quotes_spaces_and_empty_lines() {
        let plain = read("x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n250,0,0,90.5\n250,310,40,\n", "a.csv").unwrap();
        let dressed = "\u{feff}x_mm,y_mm,z_mm,clr_mm\r\n\r\n0, 0 ,0,\r\n\"250\",0,0,90.5\r\n250,310,40,\r\n,,,\r\n\r\n";
        assert_eq!(read(dressed, "a.csv").unwrap(), plain);
        assert_eq!(read("x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n250,0,0,90.5\n250,310,40,", "a.csv").unwrap(), plain);
    }

    #[test]
    fn errors_name_the_line_and_what_would_be_right() {
        let head = "x_mm,y_mm,z_mm,clr_mm\n";
        let cases = [
            (String::new(), "a.csv, line 1: the table is empty; the first line must be x_mm,y_mm,z_mm,clr_mm"),
            (
                "x,y,z,r\n0,0,0,\n".into(),
                "a.csv, line 1: the header is x,y,z,r; it must be exactly x_mm,y_mm,z_mm,clr_mm",
            ),
            (format!("{head}0,0,0,\n1,2,three,4\n5,5,5,\n"), "a.csv, line 3: z_mm is \"three\", which is not a number"),
            (format!("{head}0,0,0,\n\n\n1,2,three,4\n5,5,5,\n"), "a.csv, line 5: z_mm is \"three\""),
            (format!("{head}0,0,0,\n1,2,NaN,4\n5,5,5,\n"), "a.csv, line 3: z_mm is NaN; it must be a number from"),
            (format!("{head}0,0,0,\n1,2,1e400,4\n5,5,5,\n"), "a.csv, line 3: z_mm is 1e400; it must be a number from"),
            (format!("{head}0,0,0,\n1,2,3,-4\n5,5,5,\n"), "a.csv, line 3: clr_mm is -4; it must be a number from 0 to"),
            (format!("{head}0,0,0,\n1,,3,4\n5,5,5,\n"), "a.csv, line 3: y_mm is empty; write millimetres"),
            (format!("{head}0,0,0,\n1,2,3,\n5,5,5,\n"), "a.csv, line 3: clr_mm is empty; every row but the first"),
            (format!("{head}0,0,0,9\n1,2,3,4\n5,5,5,\n"), "a.csv, line 2: clr_mm is filled in on the first row"),
            (format!("{head}0,0,0,\n1,2,3,4\n5,5,5,9\n"), "a.csv, line 4: clr_mm is filled in on the last row"),
            (format!("{head}0,0,0\n1,2,3,4\n5,5,5\n"), "a.csv, line 2: the row has 3 columns; it must have 4"),
            (format!("{head}0;0;0;\n1;2;3;4\n"), "a.csv, line 2: the row has 1 column; it must have 4"),
            (head.into(), "a.csv, line 1: the table has no points; a tube needs at least two"),
            (format!("{head}0,0,0,\n"), "a.csv, line 2: the table has only one point; a tube needs at least two"),
            (format!("{head}\u{1}\u{7},0,0,\n1,1,1,\n"), "a.csv, line 2: x_mm is \"\u{fffd}\u{fffd}\", which is not"),
        ];
        for (text, wanted) in cases {
            let said = error(&text);
            assert!(said.starts_with(wanted), "{text:?}\n  said   {said}\n  wanted {wanted}");
        }
    }
}
