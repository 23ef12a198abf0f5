//! DXF out and in again, and drawings written by hand.

use elbowroom_bending::{Part, Path};
use elbowroom_exchange::{Document, Line, dxf};
use elbowroom_geometry::Centreline;
use proptest::prelude::*;

use super::parts::{apart_mm, comes_back, part, part_from, rows, system};

fn lines(bytes: &[u8]) -> Result<(Vec<Line>, Vec<String>), String> {
    let read = dxf::read(bytes, "a.dxf").map_err(|problem| problem.to_string())?;
    match read.document {
        Document::Lines(lines) => Ok((lines, read.notes)),
        Document::System(_) => Err("a drawing knows no tube".into()),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn a_centreline_comes_back_as_it_was(rows in rows()) {
        let drawn = part_from(rows.0, &rows.1, rows.2);
        prop_assume!(!comes_back(&drawn));
        let text = dxf::write(&Document::System(Box::new(system(vec![drawn.clone()]))), "a.dxf").unwrap();
        let (lines, notes) = lines(text.as_bytes()).unwrap();
        prop_assert_eq!(lines.len(), 1, "{:?}", notes);
        let back = Part { path: lines[0].path.clone(), ..drawn.clone() };
        let off = apart_mm(&drawn, &back);
        prop_assert!(off < 1e-6, "off by {} mm", off);
    }
}

/// A drawing of entities, with the unit of a number where there is one.
fn drawing(unit: Option<u32>, entities: &[&str]) -> String {
    let head =
        unit.map_or(String::new(), |unit| format!("0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n{unit}\n0\nENDSEC\n"));
    let body: String = entities.iter().map(|entity| entity.replace(' ', "\n") + "\n").collect();
    format!("{head}0\nSECTION\n2\nENTITIES\n{body}0\nENDSEC\n0\nEOF\n")
}

#[test]
fn lines_and_arcs_in_any_order_and_direction_are_one_centreline() {
    // Straight 100 along x, a quarter turn of 50 to the left, straight 80 along y: drawn from behind and the other way round.
    let entities = [
        "0 LINE 8 PIPE 10 150 20 130 30 0 11 150 21 50 31 0",
        "0 ARC 8 PIPE 10 100 20 50 30 0 40 50 50 270 51 0",
        "0 LINE 8 PIPE 10 0 20 0 30 0 11 100 21 0 31 0",
    ];
    let (read, notes) = lines(drawing(Some(4), &entities).as_bytes()).unwrap();
    assert!(notes.is_empty(), "{notes:?}");
    let Path::Vertices(path) = &read[0].path else { panic!("vertices") };
    let points: Vec<[f64; 3]> = path.points().iter().map(|point| [point.x, point.y, point.z]).collect();
    assert_eq!(points, [[150.0, 130.0, 0.0], [150.0, 0.0, 0.0], [0.0, 0.0, 0.0]]);
    assert_eq!(path.clr()[0].mm(), 50.0);
    // In inches all of it is 25.4 times as large.
    let (inch, _) = lines(drawing(Some(1), &entities).as_bytes()).unwrap();
    let length = |line: &Line| Centreline::of(&line.path.bend_form().path).length_mm();
    assert!((length(&inch[0]) - 25.4 * length(&read[0])).abs() < 1e-9);
    let (_, notes) = lines(drawing(None, &entities).as_bytes()).unwrap();
    assert_eq!(notes, ["The drawing names no unit: its figures are taken as millimetres."]);
    let said = lines(drawing(Some(20), &entities).as_bytes()).unwrap_err();
    assert!(said.contains("unit is number 20"), "{said}");
}

#[test]
fn polylines_are_read_with_their_bulges_and_their_corners() {
    // A bulge of 1 is half a turn: from (100, 0) anticlockwise to (100, 60), so the radius is 30.
    let light = "0 LWPOLYLINE 8 U 90 4 70 0 10 0 20 0 10 100 20 0 42 1 10 100 20 60 10 0 20 60";
    let (read, _) = lines(drawing(Some(4), &[light]).as_bytes()).unwrap();
    let path = read[0].path.bend_form().path;
    assert_eq!(path.rows().len(), 1);
    assert!((path.rows()[0].angle.degrees() - 180.0).abs() < 1e-9);
    assert_eq!((path.rows()[0].clr.mm(), path.rows()[0].straight.mm(), path.tail().mm()), (30.0, 100.0, 100.0));
    let heavy = "0 POLYLINE 8 L 66 1 70 8 0 VERTEX 8 L 10 0 20 0 30 5 70 32 0 VERTEX 8 L 10 100 20 0 30 5 70 32 \
                 0 VERTEX 8 L 10 100 20 90 30 5 70 32 0 SEQEND 8 L";
    let (read, notes) = lines(drawing(Some(4), &[heavy]).as_bytes()).unwrap();
    let Path::Vertices(path) = &read[0].path else { panic!("vertices") };
    assert_eq!((path.points().len(), path.points()[2].z, path.clr()[0].mm()), (3, 5.0, 0.0));
    assert!(notes[0].contains("1 corners have no arc"), "{notes:?}");
}

#[test]
fn what_is_no_centreline_is_told() {
    let circle = "0 CIRCLE 8 A 10 0 20 0 30 0 40 9";
    let line = "0 LINE 8 A 10 0 20 0 30 0 11 100 21 0 31 0";
    let (read, notes) = lines(drawing(Some(4), &[circle, line]).as_bytes()).unwrap();
    assert_eq!((read.len(), notes.as_slice()), (1, &["1 of the kind CIRCLE were passed over.".to_owned()][..]));
    let said = lines(drawing(Some(4), &[circle]).as_bytes()).unwrap_err();
    assert!(said.contains("holds no centreline: 1 of the kind CIRCLE"), "{said}");
    let fork = [line, "0 LINE 8 A 10 100 20 0 11 200 21 0", "0 LINE 8 A 10 100 20 0 11 100 21 90"];
    let said = lines(drawing(Some(4), &fork).as_bytes()).unwrap_err();
    assert!(said.contains("more than two ends meet at (100, 0, 0)"), "{said}");
    let ring = "0 LWPOLYLINE 8 A 70 1 10 0 20 0 10 9 20 0 10 9 20 9";
    let said = lines(drawing(Some(4), &[ring]).as_bytes()).unwrap_err();
    assert!(said.contains("1 closed outlines"), "{said}");
    let kinds: Vec<String> = (0..500).map(|kind| format!("0 KIND{kind} 8 A")).collect();
    let kinds: Vec<&str> = kinds.iter().map(String::as_str).chain([line]).collect();
    let (_, notes) = lines(drawing(Some(4), &kinds).as_bytes()).unwrap();
    assert!(notes.len() < 21 && notes.iter().any(|note| note.starts_with("488 of the kind OTHERS")), "{notes:?}");
    let long = "0 LWPOLYLINE 8 A".to_owned() + &(0..300_000).map(|n| format!(" 10 {n} 20 0")).collect::<String>();
    let said = lines(drawing(Some(4), &[&long]).as_bytes()).unwrap_err();
    assert!(said.contains("more than 100000 straights and arcs"), "{said}");
    for (text, wanted) in [
        ("0\nSECTION\n2\nENTITIES\n0\nLINE\n", "breaks off"),
        ("0\nSECTION\n2\nENTITIES\n0\nENDSEC\n", "EOF is missing"),
        ("hello\n", "line 1: \"hello\" stands where a code must"),
        ("0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nx\n", "line 8: code 10 of a LINE is no number"),
        ("0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n5\n0\nENDSEC\n", "line 5: a LINE lacks its code 20"),
    ] {
        let said = lines(text.as_bytes()).unwrap_err();
        assert!(said.contains(wanted), "{said}");
    }
}

/// A quarter turn of 90.5 after 200 and before 300, of 60.3: by hand 200 + 90.5 + 30.15 wide, 300 + 90.5 + 30.15 deep, 60.3 high.
#[test]
fn a_drawing_says_how_wide_and_high_the_tube_is_outside_over_outside() {
    let tube = part(&[(200.0, 0.0, 90.0, 90.5)], 300.0);
    let text = dxf::write(&Document::System(Box::new(system(vec![tube]))), "a.dxf").unwrap();
    let told: Vec<&str> = text.lines().filter(|line| line.ends_with(" mm")).collect();
    // Rounded to a tenth, as lengths are shown: 320.65 and 420.65.
    let near = |told: &str, wanted: f64| (told.trim_end_matches(" mm").parse::<f64>().unwrap() - wanted).abs() < 0.051;
    assert_eq!(told.len(), 6, "{told:?}");
    for (told, wanted) in told.iter().zip([320.65, 60.3, 320.65, 420.65, 420.65, 60.3]) {
        assert!(near(told, wanted), "{told} for {wanted}");
    }
    for words in ["200.0", "300.0", "R90.5 90.00%%d", "START 0.0, 0.0, 0.0", "Downpipe: %%c 60.3 x 2 mm, 304 stainless"]
    {
        assert!(text.lines().any(|line| line == words), "{words} is not written");
    }
}

#[test]
fn several_tubes_come_back_by_themselves() {
    let one = part(&[(200.0, 0.0, 90.0, 90.5)], 300.0);
    let mut other = part(&[(100.0, 0.0, 45.0, 90.5)], 100.0);
    other.name = "Tail".into();
    other.path = Path::Bends(
        part_from(
            elbowroom_geometry::Frame {
                origin: elbowroom_geometry::Point3::new(0.0, 0.0, 500.0),
                ..elbowroom_geometry::Frame::world()
            },
            &[(100.0, 0.0, 45.0, 90.5)],
            100.0,
        )
        .path
        .bend_form()
        .path,
    );
    let text = dxf::write(&Document::System(Box::new(system(vec![one, other]))), "a.dxf").unwrap();
    assert_eq!(lines(text.as_bytes()).unwrap().0.len(), 2);
}
