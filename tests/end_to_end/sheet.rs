//! `elbowroom sheet`: what it writes, what it says, and what it refuses.

use std::process::Command;

use super::support::{Bench, table};

/// A square corner on legs that every clamp takes.
fn bench() -> Bench {
    let bench = Bench::new();
    bench.write("corner.csv", table(&[[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 500.0, 0.0]], 90.5));
    let tube = |id: u32, name: &str, points: &str| {
        format!(
            "(id: {id}, name: \"{name}\", tube: (od_mm: 60.3, wall_mm: 2.0, material: \"304 stainless\", seam: welded), \
             path: vertices(points_mm: [{points}], clr_mm: [90.5]))"
        )
    };
    let tubes = [
        tube(1, "Downpipe", "(0, 0, 0), (300, 0, 0), (300, 400, 0)"),
        tube(2, "Tail", "(300, 420, 0), (300, 900, 0), (900, 900, 0)"),
    ];
    bench.write("two.ron", format!("(format: \"elbowroom-system/1\", name: \"Both\", tubes: [{}])", tubes.join(", ")));
    bench
}

const CORNER: [&str; 5] = ["sheet", "corner.csv", "out.pdf", "--tube", "60.3x2"];

#[test]
fn a_sheet_is_written_as_pdf_or_svg() {
    let bench = bench();
    let ran = bench.run(&CORNER);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    assert!(ran.out.starts_with("Written: out.pdf (") && ran.out.contains(" sheets of A4)"), "{ran:?}");
    let pdf = std::fs::read(bench.path("out.pdf")).unwrap();
    assert!(pdf.starts_with(b"%PDF-1.") && pdf.trim_ascii_end().ends_with(b"%%EOF"));
    let ran = bench.run(&["sheet", "corner.csv", "out.SVG", "--tube", "60.3x2"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), "Written: out.SVG (the drawing)\n"));
    assert!(bench.read("out.SVG").contains("<svg ") && bench.read("out.SVG").contains(">Isometric"));
}

#[test]
fn all_of_it_is_written_as_a_list() {
    let bench = bench();
    let ran = bench.run(&["sheet", "two.ron", "list.csv"]);
    assert_eq!((ran.code, ran.out.as_str()), (Some(0), "Written: list.csv (all of it as a list)\n"), "{ran:?}");
    let text = bench.read("list.csv");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let value = |tube: &str, section: &str, name: &str| {
        let row = rows.iter().find(|row| &row[0] == tube && &row[1] == section && &row[3] == name);
        row.unwrap_or_else(|| panic!("{tube}, {section}, {name}:\n{text}"))[4].to_owned()
    };
    // 300 mm less the tangent of a square corner on 90.5 mm, by hand; 300 + 400 − 2 × 90.5 + 90.5 π/2 = 661.2 mm as drawn.
    assert!((value("Downpipe", "bend as drawn", "straight before").parse::<f64>().unwrap() - 209.5).abs() < 1e-9);
    assert!((value("Downpipe", "part", "length as drawn").parse::<f64>().unwrap() - 661.157).abs() < 1e-3);
    assert_eq!(value("Tail", "bend as drawn", "angle"), "90");
    assert!(
        !value("Tail", "program, as shown", "feed").starts_with('~') && !value("Tail", "setup", "Wiper").is_empty()
    );
    assert!(rows.iter().any(|row| &row[1] == "caution") && rows.iter().any(|row| &row[7] == "yes"));
}

#[test]
fn what_is_there_is_replaced_whole_and_nothing_stays_beside_it() {
    let bench = bench();
    bench.write("out.pdf", "old");
    assert_eq!(bench.run(&CORNER).code, Some(0));
    let first = std::fs::read(bench.path("out.pdf")).unwrap();
    assert!(first.starts_with(b"%PDF"));
    assert_eq!(
        bench.run(&[&CORNER[..], &["--paper", "letter", "--units", "in", "--templates"]].concat()).code,
        Some(0)
    );
    assert_ne!(std::fs::read(bench.path("out.pdf")).unwrap(), first);
    assert_eq!(
        std::fs::read_dir(bench.path("")).unwrap().filter(|entry| entry.as_ref().unwrap().path().is_file()).count(),
        3
    );
}

#[test]
fn a_part_at_stop_has_its_sheet_and_says_why_on_standard_error() {
    let bench = bench();
    let jog = [[0.0, 0.0, 0.0], [380.0, 0.0, 0.0], [500.0, 160.0, 0.0], [1010.0, 170.0, 0.0]];
    bench.write("jog.csv", table(&jog, 90.5));
    let ran = bench.run(&["sheet", "jog.csv", "jog.pdf", "--tube", "60.3x2"]);
    assert_eq!(ran.code, Some(1), "{ran:?}");
    assert!(ran.err.starts_with("elbowroom: stop: Bend 2") && bench.path("jog.pdf").exists(), "{ran:?}");
    // The drawing makes no tube: the sheet says so, and so does standard error.
    bench.write("none.csv", table(&[[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [100.0, 0.0, 0.0]], 90.5));
    let ran = bench.run(&["sheet", "none.csv", "none.pdf", "--tube", "60.3x2"]);
    assert_eq!(ran.code, Some(1), "{ran:?}");
    assert!(ran.err.contains("there is no program") && bench.path("none.pdf").exists(), "{ran:?}");
}

#[test]
fn a_system_has_an_overview_and_every_tube_or_the_one_that_is_named() {
    let bench = bench();
    let ran = bench.run(&["sheet", "two.ron", "two.pdf"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    let sheets = |out: &str| -> usize { out.split(['(', ' ']).nth(3).unwrap().parse().unwrap() };
    let all = sheets(&ran.out);
    let one = sheets(&bench.run(&["sheet", "two.ron", "one.pdf", "--only", "Tail"]).out);
    assert!(one >= 3 && all > 2 * one, "{all} {one}");
    let ran = bench.run(&["sheet", "two.ron", "two.svg"]);
    assert_eq!(ran.out, "Written: two.svg (3 drawings, under one another)\n");
}

#[test]
fn what_cannot_be_is_refused_and_nothing_is_written() {
    let bench = bench();
    bench.refused(&["sheet", "corner.csv", "out.docx", "--tube", "60.3x2"], &["out.docx", ".pdf", ".svg"]);
    bench.refused(&["sheet", "corner.csv", "corner.csv", "--tube", "60.3x2"], &["corner.csv", "would be replaced"]);
    bench.refused(&["sheet", "corner.csv", "out.pdf"], &["--tube 60.3x2"]);
    bench.refused(&["sheet", "gone.ron", "out.pdf"], &["gone.ron"]);
    bench.refused(&["sheet", "two.ron", "out.pdf", "--only", "Nose"], &["Downpipe", "Tail"]);
    bench.refused(&["sheet", "corner.csv", "no/such/out.pdf", "--tube", "60.3x2"], &["out.pdf"]);
    bench.refused(&[&CORNER[..], &["--paper", "a3"]].concat(), &["a4", "letter"]);
    assert!(!bench.path("out.pdf").exists());
}

/// By the readers of poppler and of Python, where they are there.
#[test]
fn independent_readers_read_it() {
    let bench = bench();
    assert_eq!(
        bench.run(&[&CORNER[..], &["--customer", "Größe & Söhne <x>", "--date", "2026-12-01"]].concat()).code,
        Some(0)
    );
    let wanted = ["Bend program", "Größe & Söhne <x>", "2026-12-01", "power presses", "309.5", "Inspection over all"];
    if let Ok(read) = Command::new("pdftotext").arg(bench.path("out.pdf")).arg("-").output() {
        let text = String::from_utf8(read.stdout).unwrap();
        for words in wanted {
            assert!(text.contains(words), "pdftotext does not find \"{words}\":\n{text}");
        }
    }
    let Some(folder) = std::env::var_os("ELBOWROOM_READERS") else { return };
    let python = std::path::PathBuf::from(folder).join("bin/python");
    let script = elbowroom_tests::root().join("tests/readers/pdf.py");
    let read = Command::new(python).arg(script).arg(bench.path("out.pdf")).args(wanted).output().unwrap();
    assert!(read.status.success(), "{}", String::from_utf8_lossy(&read.stderr));
}
