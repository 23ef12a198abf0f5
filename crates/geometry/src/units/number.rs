//! Plain numbers, fractions and mixed numbers.

use super::EntryError;
use super::cursor::Cursor;

/// The ready-made fractions of Unicode that are of use on a tape measure.
const VULGAR: [(char, f64); 9] = [
    ('½', 0.5),
    ('¼', 0.25),
    ('¾', 0.75),
    ('⅛', 0.125),
    ('⅜', 0.375),
    ('⅝', 0.625),
    ('⅞', 0.875),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
];

/// Whether a number can begin with this character.
pub(super) fn begins_number(c: char) -> bool {
    c.is_ascii_digit() || c == '.' || vulgar(c).is_some()
}

fn vulgar(c: char) -> Option<f64> {
    VULGAR.iter().find(|(glyph, _)| *glyph == c).map(|(_, value)| *value)
}

/// Reads `12.5`, `3/4`, `1 3/4`, `½` or `1½`.
pub(super) fn read_number(cursor: &mut Cursor, example: &str) -> Result<f64, EntryError> {
    if let Some(value) = cursor.peek().and_then(vulgar) {
        cursor.at += 1;
        return Ok(value);
    }
    let (whole, is_integer) = read_plain(cursor, example)?;
    let after_whole = cursor.at;
    if is_integer && begins_dashed_fraction(cursor) {
        return Err(cursor.error(
            cursor.at,
            "this dash could join a whole number and a fraction, or take one from the other",
            "write 1 3/4 for one and three quarters, or 1 - 3/4 with spaces for a difference",
        ));
    }
    let spaced = cursor.skip_space();
    if is_integer && let Some(value) = cursor.peek().and_then(vulgar) {
        cursor.at += 1;
        return Ok(whole + value);
    }
    if spaced && cursor.peek().is_some_and(|c| c.is_ascii_digit()) {
        let at = cursor.at;
        let (above, _) = read_plain(cursor, example)?;
        cursor.skip_space();
        if !is_integer || cursor.take(&['/', '⁄']).is_none() {
            return Err(cursor.error(
                at,
                "two numbers follow one another with no sign between them",
                "write a sign, as in 60 + 12.5, or a whole number and a fraction, as in 1 3/4",
            ));
        }
        return Ok(whole + above / read_divisor(cursor, example)?);
    }
    if cursor.take(&['/', '⁄']).is_some() {
        return Ok(whole / read_divisor(cursor, example)?);
    }
    cursor.at = after_whole;
    Ok(whole)
}

/// Reads what stands under a fraction's line.
pub(super) fn read_divisor(cursor: &mut Cursor, example: &str) -> Result<f64, EntryError> {
    cursor.skip_space();
    let at = cursor.at;
    let (below, _) = read_plain(cursor, example)?;
    if below == 0.0 {
        return Err(cursor.error(at, "nothing can be divided by 0", "divide by another number, as in 3/4"));
    }
    Ok(below)
}

/// Whether `-3/4` follows without a space.
fn begins_dashed_fraction(cursor: &Cursor) -> bool {
    if cursor.peek() != Some('-') {
        return false;
    }
    let digits = (1..).take_while(|place| cursor.peek_ahead(*place).is_some_and(|c| c.is_ascii_digit())).count();
    digits > 0 && cursor.peek_ahead(1 + digits) == Some('/')
}

/// Whether a comma follows that can be nothing but a decimal one: digits behind it, other than the three of a
/// thousand, unless a thousand cannot begin so.
fn decimal_comma(cursor: &Cursor, digits: &str) -> bool {
    if cursor.peek() != Some(',') || digits.is_empty() {
        return false;
    }
    let behind = (1..).take_while(|place| cursor.peek_ahead(*place).is_some_and(|c| c.is_ascii_digit())).count();
    let further = cursor.peek_ahead(1 + behind).is_some_and(|c| c == ',' || c == '.');
    behind > 0 && !further && (behind != 3 || digits.starts_with('0') || digits.len() > 3)
}

/// Reads digits with a decimal point and an exponent, and says whether it was a whole number.
fn read_plain(cursor: &mut Cursor, example: &str) -> Result<(f64, bool), EntryError> {
    let at = cursor.at;
    let mut digits = cursor.take_while(|c| c.is_ascii_digit());
    let mut is_integer = true;
    if cursor.take(&['.']).is_some() {
        is_integer = false;
        digits = format!("{digits}.{}", cursor.take_while(|c| c.is_ascii_digit()));
    }
    if is_integer && decimal_comma(cursor, &digits) {
        cursor.at += 1;
        is_integer = false;
        digits = format!("{digits}.{}", cursor.take_while(|c| c.is_ascii_digit()));
    }
    if cursor.peek() == Some(',') && !digits.is_empty() {
        return Err(cursor.error(
            cursor.at,
            "it is not clear whether the comma stands before decimals or between thousands",
            "write a point before decimals and nothing between thousands, as in 1250.5",
        ));
    }
    if digits.is_empty() || digits == "." {
        let (what, would_be_right) = match cursor.peek() {
            None => ("a number is missing at the end".to_owned(), format!("write {example}")),
            Some(c) => (format!("\"{c}\" does not begin a number"), format!("write {example}")),
        };
        return Err(cursor.error(at, what, would_be_right));
    }
    if let Some(exponent) = read_exponent(cursor) {
        is_integer = false;
        digits += &exponent;
    }
    digits
        .parse()
        .map(|value| (value, is_integer))
        .map_err(|_| cursor.error(at, format!("\"{digits}\" is no number"), format!("write {example}")))
}

/// Reads `e-12` if it is there; a letter that only looks like it is left alone.
fn read_exponent(cursor: &mut Cursor) -> Option<String> {
    if !matches!(cursor.peek(), Some('e' | 'E')) {
        return None;
    }
    let signed = usize::from(matches!(cursor.peek_ahead(1), Some('+' | '-')));
    if !cursor.peek_ahead(1 + signed).is_some_and(|c| c.is_ascii_digit()) {
        return None;
    }
    cursor.at += 1;
    let sign = cursor.take(&['+', '-']).map(String::from).unwrap_or_default();
    Some(format!("e{sign}{}", cursor.take_while(|c| c.is_ascii_digit())))
}
