//! A plain table of text: columns lined up, figures to the right.

use elbowroom_geometry::units::format_number;

/// Lines up rows of cells under a head: the first column to the left, every other one to the right.
/// Ends each line without trailing spaces.
pub(crate) fn lined_up(head: &[&str], rows: &[Vec<String>]) -> String {
    lines_up(head, rows.iter().cloned()).collect()
}

/// The lines of such a table, each made when it is taken, of rows that are made twice: once for the widths of the
/// columns and once for the lines. A long table of cells takes many times the room of its text, and its text many times
/// the room of what it is about.
pub(crate) fn lines_up(head: &[&str], rows: impl Iterator<Item = Vec<String>> + Clone) -> impl Iterator<Item = String> {
    let mut widths: Vec<usize> = head.iter().map(|cell| cell.chars().count()).collect();
    for row in rows.clone() {
        for (width, cell) in widths.iter_mut().zip(&row) {
            *width = (*width).max(cell.chars().count());
        }
    }
    let head: Vec<String> = head.iter().map(|cell| (*cell).to_owned()).collect();
    std::iter::once(head).chain(rows).map(move |row| {
        let mut line = String::new();
        for (column, (cell, &width)) in row.iter().zip(&widths).enumerate() {
            line += &if column == 0 { format!("{cell:<width$}") } else { format!("  {cell:>width$}") };
        }
        line.truncate(line.trim_end().len());
        line.push('\n');
        line
    })
}

/// A figure to a tenth, and never `-0.0`.
pub(crate) fn tenth(value: f64) -> String {
    format_number(value, 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up() {
        let rows = [vec!["1".into(), "12.0".into(), "×".into()], vec!["tail".into(), "3.5".into()]];
        assert_eq!(
            lined_up(&["Bend", "Straight", "CLR"], &rows),
            "\
Bend  Straight  CLR\n\
1         12.0    ×\n\
tail       3.5\n"
        );
    }

    #[test]
    fn no_minus_zero() {
        assert_eq!(tenth(-0.01), "0.0");
        assert_eq!(tenth(-0.06), "-0.1");
    }
}
