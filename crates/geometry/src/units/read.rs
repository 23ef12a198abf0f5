//! Reads typed lengths and angles: sums of numbers with units.

use super::cursor::Cursor;
use super::gauge::{GAUGES, Gauge};
use super::number::{begins_number, read_divisor, read_number};
use super::{EntryError, LengthUnit};
use crate::{Angle, LARGEST_MM, Length};

/// What a unit does to the number before it.
#[derive(Clone, Copy, PartialEq)]
enum Unit {
    /// Multiplies it.
    Factor(f64),
    /// Looks it up.
    Gauge(Gauge),
}

/// What is being read: its units, and words for errors.
struct Measure {
    unit: fn(&str) -> Option<Unit>,
    default_factor: f64,
    /// The factor after which a second number in inches may follow (feet), and that of the inch.
    compound: Option<(f64, f64)>,
    example: &'static str,
    noun: &'static str,
    units: &'static str,
    largest: f64,
    largest_text: &'static str,
}

/// Reads a length such as `12.5`, `3 cm`, `1 3/4"`, `5' 3 1/2"`, `16 swg`, `60+12.5` or `2*30 mm - 1/2in`.
///
/// Bare numbers are in `default`. In a sum whose other terms are in another unit a bare number is
/// refused rather than guessed at.
///
/// # Errors
/// Says what is wrong at which character, and what would be right.
pub fn parse_length(text: &str, default: LengthUnit) -> Result<Length, EntryError> {
    let measure = Measure {
        unit: length_unit,
        default_factor: default.in_mm(),
        compound: Some((LengthUnit::Foot.in_mm(), LengthUnit::Inch.in_mm())),
        example: "a length such as 12.5, 60+12.5, 1 3/4\" or 16 swg",
        noun: "length",
        units: "mm, cm, m, in, \", ft, ', swg or bwg",
        largest: LARGEST_MM,
        largest_text: "10000000 mm",
    };
    read_sum(text, &measure).map(Length::from_mm)
}

/// Reads an angle such as `45`, `22.5°`, `90 - 7.5`, `1.2 rad` or `180/7 deg`. Bare numbers are degrees.
///
/// # Errors
/// Says what is wrong at which character, and what would be right.
pub fn parse_angle(text: &str) -> Result<Angle, EntryError> {
    let measure = Measure {
        unit: angle_unit,
        default_factor: 1f64.to_radians(),
        compound: None,
        example: "an angle such as 45, 22.5° or 90 - 7.5",
        noun: "angle",
        units: "°, deg or rad",
        largest: 1e6,
        largest_text: "1000000 rad",
    };
    read_sum(text, &measure).map(Angle::from_radians)
}

fn length_unit(name: &str) -> Option<Unit> {
    let unit = match name {
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => LengthUnit::Millimetre,
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => LengthUnit::Centimetre,
        "m" | "metre" | "metres" | "meter" | "meters" => LengthUnit::Metre,
        "in" | "inch" | "inches" | "\"" | "″" | "”" | "''" => LengthUnit::Inch,
        "ft" | "foot" | "feet" | "'" | "′" | "’" => LengthUnit::Foot,
        "swg" => return Some(Unit::Gauge(Gauge::StandardWire)),
        "bwg" => return Some(Unit::Gauge(Gauge::Birmingham)),
        _ => return None,
    };
    Some(Unit::Factor(unit.in_mm()))
}

fn angle_unit(name: &str) -> Option<Unit> {
    match name {
        "°" | "º" | "deg" | "degree" | "degrees" => Some(Unit::Factor(1f64.to_radians())),
        "rad" | "radian" | "radians" => Some(Unit::Factor(1.0)),
        _ => None,
    }
}

/// One factor of a product: a number, and its unit where it has one.
struct Quantity {
    at: usize,
    value: f64,
    factor: Option<f64>,
}

/// Reads the whole text as a sum of signed products.
fn read_sum(text: &str, measure: &Measure) -> Result<f64, EntryError> {
    let cursor = &mut Cursor::new(text);
    cursor.skip_space();
    if cursor.peek().is_none() {
        return Err(cursor.error(0, "nothing is written", format!("write {}", measure.example)));
    }
    let mut sum = 0.0;
    let mut terms: Vec<Quantity> = Vec::new();
    loop {
        cursor.skip_space();
        let sign = if read_sign(cursor) { -1.0 } else { 1.0 };
        let mut term = read_product(cursor, measure)?;
        term.value *= sign;
        // The first term is taken as it is, so that one number reads back to the bit.
        let value = term.value * term.factor.unwrap_or(measure.default_factor);
        sum = if terms.is_empty() { value } else { sum + value };
        terms.push(term);
        cursor.skip_space();
        match cursor.peek() {
            None => break,
            Some('+' | '-' | '−') => {}
            Some(c) => {
                return Err(cursor.error(
                    cursor.at,
                    format!("\"{c}\" cannot stand here"),
                    format!("write a sign and another {}, or nothing more", measure.noun),
                ));
            }
        }
    }
    let foreign = terms.iter().any(|term| term.factor.is_some_and(|factor| factor != measure.default_factor));
    if foreign && let Some(bare) = terms.iter().find(|term| term.factor.is_none() && term.value != 0.0) {
        return Err(cursor.error(
            bare.at,
            "this number has no unit, and others in the sum have one",
            format!("give it its unit as well: {}", measure.units),
        ));
    }
    if !sum.is_finite() || sum.abs() > measure.largest {
        return Err(cursor.error(
            0,
            format!("this {} is too large", measure.noun),
            format!("write at most {}", measure.largest_text),
        ));
    }
    Ok(sum)
}

/// Takes the signs before a term and says whether they make it negative.
fn read_sign(cursor: &mut Cursor) -> bool {
    let mut negative = false;
    // One sign that joins the term to the sum, and one of its own: 60 + -5.
    for _ in 0..2 {
        match cursor.take(&['+', '-', '−']) {
            Some('+') => {}
            Some(_) => negative = !negative,
            None => break,
        }
        cursor.skip_space();
    }
    negative
}

/// Reads quantities with `*` and `/` between them, of which at most one has a unit.
fn read_product(cursor: &mut Cursor, measure: &Measure) -> Result<Quantity, EntryError> {
    let mut product = read_quantity(cursor, measure)?;
    loop {
        cursor.skip_space();
        if cursor.take(&['*', '×']).is_some() {
            cursor.skip_space();
            let next = read_quantity(cursor, measure)?;
            if product.factor.is_some() && next.factor.is_some() {
                return Err(cursor.error(
                    next.at,
                    format!("a {0} times a {0} is no {0}", measure.noun),
                    "leave the unit away from one of the two",
                ));
            }
            product.value *= next.value;
            product.factor = product.factor.or(next.factor);
        } else if cursor.take(&['/', '÷']).is_some() {
            product.value /= read_divisor(cursor, measure.example)?;
        } else {
            return Ok(product);
        }
    }
}

/// Reads a number and its unit; after feet a number of inches may follow.
fn read_quantity(cursor: &mut Cursor, measure: &Measure) -> Result<Quantity, EntryError> {
    let at = cursor.at;
    let value = read_number(cursor, measure.example)?;
    let Some(unit) = read_unit(cursor, measure)? else { return Ok(Quantity { at, value, factor: None }) };
    match unit {
        Unit::Factor(factor) => match measure.compound {
            Some((foot, inch)) if factor == foot => {
                let inches = read_inches_after_feet(cursor, measure, inch)?;
                Ok(Quantity { at, value: value + inches * inch / foot, factor: Some(foot) })
            }
            _ => Ok(Quantity { at, value, factor: Some(factor) }),
        },
        Unit::Gauge(gauge) => match gauge.inches(value) {
            Some(inches) => Ok(Quantity { at, value: inches, factor: Some(LengthUnit::Inch.in_mm()) }),
            None => Err(cursor.error(
                at,
                format!("gauge {value} is not in the table"),
                format!("write a whole number from {} to {}, or the thickness itself", GAUGES.0, GAUGES.1),
            )),
        },
    }
}

/// Reads the inches of `5' 3 1/2"`; 0 where none follow.
fn read_inches_after_feet(cursor: &mut Cursor, measure: &Measure, inch: f64) -> Result<f64, EntryError> {
    if cursor.peek() == Some('-') && cursor.peek_ahead(1).is_some_and(|c| c.is_ascii_digit()) {
        return Err(cursor.error(
            cursor.at,
            "this dash could join feet and inches, or take one from the other",
            "write 5' 3\" for five feet three, or 5' - 3\" with spaces for a difference",
        ));
    }
    let before_space = cursor.at;
    cursor.skip_space();
    if !cursor.peek().is_some_and(begins_number) {
        cursor.at = before_space;
        return Ok(0.0);
    }
    let inches = read_number(cursor, measure.example)?;
    cursor.skip_space();
    let at = cursor.at;
    match read_unit(cursor, measure)? {
        None => Ok(inches),
        Some(Unit::Factor(factor)) if factor == inch => Ok(inches),
        Some(_) => Err(cursor.error(at, "only inches follow feet", "write 5' 3\", or a + between the two")),
    }
}

/// Reads a unit if one follows.
fn read_unit(cursor: &mut Cursor, measure: &Measure) -> Result<Option<Unit>, EntryError> {
    cursor.skip_space();
    let at = cursor.at;
    let mut name = cursor.take_while(char::is_alphabetic);
    if name.is_empty() {
        let marks = ['"', '″', '”', '\'', '′', '’', '°', 'º'];
        name = cursor.take(&marks).map(String::from).unwrap_or_default();
        if name == "'" && cursor.take(&['\'']).is_some() {
            name = "''".to_owned();
        }
    }
    if name.is_empty() {
        return Ok(None);
    }
    let lower = name.to_lowercase();
    if let Some(unit) = (measure.unit)(&lower) {
        return Ok(Some(unit));
    }
    if matches!(lower.as_str(), "ga" | "gauge" | "g") && measure.compound.is_some() {
        return Err(cursor.error(at, "there is more than one gauge", "write swg (standard wire) or bwg (Birmingham)"));
    }
    let what = format!("\"{name}\" is no unit of {}", measure.noun);
    Err(cursor.error(at, what, format!("write {}", measure.units)))
}
