//! A text from a spreadsheet as fields, and a field as a length.

use elbowroom_geometry::Length;
use elbowroom_geometry::units::{EntryError, LengthUnit, parse_length};

use super::Column;
use super::paste_error::PasteError;

/// The fields of a pasted text with the number of each line, without a heading line.
pub(super) fn fields(text: &str) -> Vec<(usize, Vec<String>)> {
    let lines: Vec<&str> = text.lines().map(|line| line.trim_matches([' ', '\r'])).collect();
    let has = |sign: char| lines.iter().any(|line| line.contains(sign));
    let separator = ['\t', ';', ','].into_iter().find(|sign| has(*sign));
    let split = |line: &str| -> Vec<String> {
        let fields: Vec<String> = match separator {
            Some(sign) => line.split(sign).map(|field| field.trim().to_owned()).collect(),
            None => line.split_whitespace().map(str::to_owned).collect(),
        };
        let decimal_comma = |field: String| {
            let comma = separator != Some(',') && field.matches(',').count() == 1 && !field.contains('.');
            if comma { field.replace(',', ".") } else { field }
        };
        let mut fields: Vec<String> = fields.into_iter().map(decimal_comma).collect();
        while fields.len() > 1 && fields.last().is_some_and(String::is_empty) {
            fields.pop();
        }
        fields
    };
    let mut rows: Vec<(usize, Vec<String>)> = lines
        .iter()
        .enumerate()
        .filter(|(_, line)| !line.trim().is_empty())
        .map(|(index, line)| (index + 1, split(line)))
        .collect();
    let names_only = |fields: &[String]| fields.iter().all(|field| !field.contains(|c: char| c.is_ascii_digit()));
    if rows.len() > 1 && rows.first().is_some_and(|(_, fields)| names_only(fields)) {
        rows.remove(0);
    }
    rows
}

/// Reads a length of a line.
pub(super) fn read_length(field: &str, line: usize, column: Column, unit: LengthUnit) -> Result<Length, PasteError> {
    let what = |error: EntryError| quoted(field, &error);
    parse_length(field, unit).map_err(|error| PasteError { line, column: Some(column), what: what(error) })
}

/// What is wrong with a field, the field itself first.
pub(super) fn quoted(field: &str, error: &EntryError) -> String {
    if field.is_empty() { error.to_string() } else { format!("“{field}”: {error}") }
}
