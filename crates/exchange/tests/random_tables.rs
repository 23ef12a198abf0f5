//! Points tables at random: there and back to the bit, and no text that makes the reader panic.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_exchange::points_table::{HEADER, read, write};
use elbowroom_geometry::{LARGEST_MM, Length, Point3, VertexPath};
use proptest::prelude::*;

/// Any coordinate that is accepted, the tiny and the huge included.
fn coordinate() -> impl Strategy<Value = f64> {
    prop_oneof![
        -2000.0..2000.0,
        -LARGEST_MM..LARGEST_MM,
        any::<f64>().prop_filter("in range", |x| x.abs() <= LARGEST_MM),
        Just(-0.0)
    ]
}

fn path() -> impl Strategy<Value = VertexPath> {
    prop::collection::vec((coordinate(), coordinate(), coordinate(), coordinate()), 2..40).prop_map(|rows| {
        let clr = rows[1..rows.len() - 1].iter().map(|row| Length::from_mm(row.3.abs())).collect();
        VertexPath::new(rows.iter().map(|row| Point3::new(row.0, row.1, row.2)).collect(), clr).unwrap()
    })
}

fn bits(path: &VertexPath) -> Vec<u64> {
    let points = path.points().iter().flat_map(|point| [point.x, point.y, point.z]);
    points.chain(path.clr().iter().map(|clr| clr.mm())).map(f64::to_bits).collect()
}

proptest! {
    #[test]
    fn a_table_reads_back_to_the_bit(path in path()) {
        let text = write(&path);
        let back = read(&text, "a.csv").map_err(|problem| TestCaseError::fail(format!("{problem}\n{text}")))?;
        prop_assert_eq!(bits(&back), bits(&path));
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in "(.|[-0-9.,;\"\r\n \t]){0,200}") {
        prop_assert!(read(&text, "a.csv").is_err());
    }

    #[test]
    fn no_rows_make_the_reader_panic(rows in "([-+0-9.eEinfNaN,;\"\r\n ]){0,200}") {
        let read = read(&format!("{HEADER}\n{rows}"), "a.csv");
        prop_assert!(read.is_ok() || read.unwrap_err().line.is_some());
    }

    /// Wherever one field of a sound table is spoilt, the error names that very line.
    #[test]
    fn a_spoilt_field_is_found_on_its_line(path in path(), place in any::<prop::sample::Index>(), column in 0..3usize) {
        let text = write(&path);
        let mut lines: Vec<String> = text.lines().map(Into::into).collect();
        let line = 1 + place.index(path.points().len());
        let mut fields: Vec<&str> = lines[line].split(',').collect();
        fields[column] = "spoilt";
        lines[line] = fields.join(",");
        let problem = read(&lines.join("\n"), "a.csv").unwrap_err();
        prop_assert_eq!(problem.line, Some(line + 1));
        prop_assert!(problem.what.contains("spoilt"));
    }
}
