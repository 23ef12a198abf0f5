//! Reads what was measured on a first-off: typed, pasted from a spreadsheet, or from a comma-separated file.
//!
//! Columns are divided by tabs, semicolons, commas or spaces; decimals are written with a point. A head line
//! may say what the columns are: `x_mm,y_mm,z_mm` (a points table with its `clr_mm` will do), or
//! `straight_mm,rotation_deg,angle_deg` with the tail alone on the last line. A bend of near half a turn gives two
//! points: where its arc begins and where it ends.

use std::borrow::Cow;
use std::fmt;

use elbowroom_bending::measurement::{MeasuredRow, Measurement};
use elbowroom_bending::text::harmless;
use elbowroom_geometry::units::{LengthUnit, parse_angle, parse_length};
use elbowroom_geometry::{Angle, LARGEST_MM, Length, Point3};

/// What a table without a head line holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Kind {
    /// Points: x, y, z.
    #[default]
    Points,
    /// Bend rows: straight, rotation, angle; the tail alone on the last line.
    Rows,
}

/// What is wrong with a table, on which line, and what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableProblem {
    /// The line, counted from 1.
    pub line: usize,
    /// What is wrong, and what would be right.
    pub what: String,
}

impl fmt::Display for TableProblem {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "line {}: {}", self.line, harmless(&self.what))
    }
}

/// The heads that say what the columns are.
const POINTS: [&str; 3] = ["x_mm", "y_mm", "z_mm"];
const ROWS: [&str; 3] = ["straight_mm", "rotation_deg", "angle_deg"];
/// The column that a points table has beside.
const RADIUS: &str = "clr_mm";

/// Reads a table. Without a head line it holds what `kind` says, bare lengths in `unit`; under a head line
/// they are in mm.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_measured(text: &str, kind: Kind, unit: LengthUnit) -> Result<Measurement, TableProblem> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    // Lines are looked at one by one, as often as need be: kept, they would take many times the room of the text.
    let lines = text.lines().enumerate().filter_map(|(index, line)| Line::of(index + 1, line));
    match lines.clone().next() {
        Some(first) if first.is_head() => {
            let (kind, columns) = (first.kind()?, first.fields.len());
            table(kind, lines.skip(1), LengthUnit::Millimetre, columns)
        }
        // A fourth column is a radius, which a first-off does not need; but between commas it may as well be what
        // stood behind a decimal comma.
        _ => {
            let most = if lines.clone().any(|line| line.by_commas) { 3 } else { 4 };
            table(kind, lines, unit, most)
        }
    }
}

fn table<'a>(
    kind: Kind,
    lines: impl Iterator<Item = Line<'a>> + Clone,
    unit: LengthUnit,
    most: usize,
) -> Result<Measurement, TableProblem> {
    match kind {
        Kind::Points => points(lines, unit, most),
        Kind::Rows => rows(lines, unit, most),
    }
}

/// Fields beyond this many are not looked at: no table has so many columns.
const MOST_FIELDS: usize = 64;

/// Whether a field is a number with a decimal comma.
fn is_comma_number(field: &str) -> bool {
    let parts = field.split_once(',');
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    parts.is_some_and(|(whole, rest)| digits(whole.trim_start_matches(['-', '+'])) && digits(rest))
}

/// One line with something on it.
struct Line<'a> {
    number: usize,
    /// Whether commas part its columns.
    by_commas: bool,
    fields: Vec<Cow<'a, str>>,
}

impl<'a> Line<'a> {
    fn of(number: usize, line: &'a str) -> Option<Self> {
        let separator = ['\t', ';', ','].into_iter().find(|sign| line.contains(*sign));
        let fields: Vec<&str> = match separator {
            Some(sign) => line.split(sign).map(str::trim).take(MOST_FIELDS).collect(),
            None => line.split_whitespace().take(MOST_FIELDS).collect(),
        };
        let quoted = |field: &'a str| field.strip_prefix('"').and_then(|rest| rest.strip_suffix('"'));
        let mut fields: Vec<Cow<'a, str>> = fields
            .into_iter()
            .map(|field| quoted(field).unwrap_or(field).trim())
            // Between tabs and semicolons a comma is that of decimals.
            .map(|field| {
                if separator != Some(',') && is_comma_number(field) {
                    Cow::Owned(field.replace(',', "."))
                } else {
                    Cow::Borrowed(field)
                }
            })
            .collect();
        while fields.last().is_some_and(|field| field.is_empty()) {
            fields.pop();
        }
        (!fields.is_empty()).then_some(Self { number, by_commas: separator == Some(','), fields })
    }

    /// Whether it says what the columns are: no field begins as a number does.
    fn is_head(&self) -> bool {
        let begins_as_number = |field: &Cow<str>| field.starts_with(|c: char| c.is_ascii_digit() || "+-.".contains(c));
        !self.fields.iter().any(begins_as_number)
    }

    fn kind(&self) -> Result<Kind, TableProblem> {
        let names: Vec<String> = self.fields.iter().map(|field| field.to_lowercase()).collect();
        let is = |wanted: &[&str]| names.iter().map(String::as_str).eq(wanted.iter().copied());
        if is(&POINTS) || is(&[POINTS.as_slice(), &[RADIUS]].concat()) {
            return Ok(Kind::Points);
        }
        if is(&ROWS) || is(&[ROWS.as_slice(), &[RADIUS]].concat()) {
            return Ok(Kind::Rows);
        }
        let (was, points, rows) = (self.fields.join(","), POINTS.join(","), ROWS.join(","));
        Err(self.wrong(format!("the head is \u{201c}{was}\u{201d}; it must be {points} or {rows}")))
    }

    fn wrong(&self, what: String) -> TableProblem {
        TableProblem { line: self.number, what }
    }

    fn field(&self, column: usize, name: &str) -> Result<&str, TableProblem> {
        match self.fields.get(column) {
            Some(field) if !field.is_empty() => Ok(field),
            _ => Err(self.wrong(format!("{name} is missing; write it as a number"))),
        }
    }

    fn length(&self, column: usize, name: &str, unit: LengthUnit) -> Result<Length, TableProblem> {
        let field = self.field(column, name)?;
        // Numbers as other programs write them, such as 1.5e-3, then whatever a field of this program takes.
        let length = match field.parse::<f64>() {
            Ok(value) => Length::from_mm(value * unit.in_mm()),
            Err(_) => parse_length(field, unit)
                .map_err(|error| self.wrong(format!("{name} is \u{201c}{field}\u{201d}: {error}")))?,
        };
        if length.is_finite() && length.mm().abs() <= LARGEST_MM {
            return Ok(length);
        }
        Err(self.wrong(format!("{name} is {field}; it must be a number up to {LARGEST_MM} mm")))
    }

    fn angle(&self, column: usize, name: &str) -> Result<Angle, TableProblem> {
        let field = self.field(column, name)?;
        let angle = match field.parse::<f64>() {
            Ok(value) => Angle::from_degrees(value),
            Err(_) => {
                parse_angle(field).map_err(|error| self.wrong(format!("{name} is \u{201c}{field}\u{201d}: {error}")))?
            }
        };
        if angle.is_finite() && angle.degrees().abs() <= 360.0 {
            return Ok(angle);
        }
        Err(self.wrong(format!("{name} is {field}; it must be a number of degrees from -360 to 360")))
    }

    fn at_most(&self, columns: usize, what: &str) -> Result<(), TableProblem> {
        if self.fields.len() <= columns {
            return Ok(());
        }
        let (has, was) = (self.fields.len(), self.fields.join(","));
        Err(self.wrong(format!(
            "it has {has} columns, \u{201c}{was}\u{201d}; it must have {what}, and decimals are written with a point"
        )))
    }
}

fn points<'a>(
    lines: impl Iterator<Item = Line<'a>> + Clone,
    unit: LengthUnit,
    most: usize,
) -> Result<Measurement, TableProblem> {
    let mut points = Vec::with_capacity(lines.clone().count());
    let mut last = 1;
    for line in lines {
        last = line.number;
        line.at_most(most, "x, y and z")?;
        let at = |column: usize| line.length(column, ["x", "y", "z"][column], unit).map(Length::mm);
        points.push(Point3::new(at(0)?, at(1)?, at(2)?));
    }
    if points.len() < 2 {
        let what = "a first-off needs at least two points: both ends, and those of each bend between".into();
        return Err(TableProblem { line: last, what });
    }
    Ok(Measurement::Points(points))
}

fn rows<'a>(
    lines: impl Iterator<Item = Line<'a>> + Clone,
    unit: LengthUnit,
    most: usize,
) -> Result<Measurement, TableProblem> {
    let count = lines.clone().count();
    let Some(last) = lines.clone().last() else {
        let what = "nothing is written; write straight, rotation and angle of each bend, then the straight behind the last bend".into();
        return Err(TableProblem { line: 1, what });
    };
    if last.fields.len() > 1 {
        let was = last.fields.join(",");
        let what =
            format!("it is \u{201c}{was}\u{201d}; the last line must hold the straight behind the last bend alone");
        return Err(last.wrong(what));
    }
    let mut measured = Vec::with_capacity(count - 1);
    for line in lines.take(count - 1) {
        line.at_most(most, "straight, rotation and angle")?;
        let angle = line.angle(2, "the angle")?;
        if angle < Angle::ZERO {
            let what = format!(
                "the angle is {}; it must be 0 or more: a bend the other way is a rotation by 180°",
                line.fields[2]
            );
            return Err(line.wrong(what));
        }
        measured.push(MeasuredRow {
            straight: line.length(0, "the straight", unit)?,
            rotation: line.angle(1, "the rotation")?,
            angle,
        });
    }
    Ok(Measurement::Rows(measured, last.length(0, "the straight behind the last bend", unit)?))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    fn vertices(text: &str) -> Vec<[f64; 3]> {
        match read_measured(text, Kind::Points, LengthUnit::Millimetre).unwrap() {
            Measurement::Points(points) => points.iter().map(|p| [p.x, p.y, p.z]).collect(),
            Measurement::Rows(..) => panic!("these are rows"),
        }
    }

    #[test]
    fn every_divider_and_both_heads_are_read() {
        let expected = [[0.0, 0.0, 0.0], [250.5, -1e-3, 0.0], [250.0, 310.0, 40.0]];
        for divider in ["\t", ";", ",", ", ", " ", "   "] {
            let line = |a: &str, b: &str, c: &str| format!("{a}{divider}{b}{divider}{c}\r\n");
            let body = line("0", "0", "0") + &line("250.5", "-1e-3", "0") + "\n" + &line("250", "310", "40");
            assert_eq!(vertices(&body), expected, "{divider:?}");
            assert_eq!(vertices(&(line("x_mm", "y_mm", "z_mm") + &body)), expected, "{divider:?}");
        }
        let table = "\u{feff}x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n\"250.5\",-1e-3,0,90.5\n250,310,40,\n";
        assert_eq!(vertices(table), expected);
    }

    #[test]
    fn units_hold_where_no_head_says_otherwise() {
        let inches = |text| read_measured(text, Kind::Points, LengthUnit::Inch).unwrap();
        let Measurement::Points(points) = inches("0 0 0\n1 0 5mm") else { panic!() };
        assert_eq!((points[1].x, points[1].z), (25.4, 5.0));
        let Measurement::Points(points) = inches("x_mm y_mm z_mm\n0 0 0\n1 0 5") else { panic!() };
        assert_eq!(points[1].x, 1.0);
    }

    #[test]
    fn bend_rows_are_read_with_their_tail() {
        let expected = Measurement::Rows(
            vec![
                MeasuredRow {
                    straight: Length::from_mm(200.0),
                    rotation: Angle::ZERO,
                    angle: Angle::from_degrees(91.0),
                },
                MeasuredRow {
                    straight: Length::from_mm(150.5),
                    rotation: Angle::from_degrees(-45.0),
                    angle: Angle::from_degrees(30.0),
                },
            ],
            Length::from_mm(120.0),
        );
        let read = |text| read_measured(text, Kind::Rows, LengthUnit::Millimetre).unwrap();
        assert_eq!(read("200 0 91\n150.5 -45 30\n120"), expected);
        let with_head = "straight_mm,rotation_deg,angle_deg\n200,0,91\n150.5,-45,30\n120,,\n";
        assert_eq!(read_measured(with_head, Kind::Points, LengthUnit::Inch).unwrap(), expected);
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line() {
        let told = |text: &str, kind| read_measured(text, kind, LengthUnit::Millimetre).unwrap_err().to_string();
        for (text, kind, said) in [
            ("", Kind::Points, "line 1: a first-off needs at least two points"),
            ("0 0 0", Kind::Points, "line 1: a first-off needs at least two"),
            ("0 0 0\n\n1 2", Kind::Points, "line 3: z is missing"),
            ("0 0 0\n1 2 three", Kind::Points, "line 2: z is \u{201c}three\u{201d}"),
            ("0 0 0\n1 2 NaN", Kind::Points, "line 2: z is NaN; it must be a number"),
            ("0 0 0\n1 2 1e300", Kind::Points, "line 2: z is 1e300; it must be a number"),
            (
                "0,0,0\n1,5,2,5,3,5",
                Kind::Points,
                "line 2: it has 6 columns, \u{201c}1,5,2,5,3,5\u{201d}; it must have x, y and z",
            ),
            (
                "x,y,z\n0,0,0\n1,1,1",
                Kind::Points,
                "line 1: the head is \u{201c}x,y,z\u{201d}; it must be x_mm,y_mm,z_mm or",
            ),
            ("", Kind::Rows, "line 1: nothing is written"),
            (
                "100 0 90\n100 0 90",
                Kind::Rows,
                "line 2: it is \u{201c}100,0,90\u{201d}; the last line must hold the straight",
            ),
            ("100 0 -90\n100", Kind::Rows, "line 1: the angle is -90; it must be 0 or more"),
            ("100 0 900\n100", Kind::Rows, "line 1: the angle is 900; it must be a number of degrees"),
        ] {
            let was = told(text, kind);
            assert!(was.starts_with(said), "{text:?}\n  said   {was}\n  wanted {said}");
        }
    }
}
