//! STEP out and in again.

use elbowroom_bending::{Part, Path, Seam, Tube};
use elbowroom_exchange::{Document, finished, step};
use elbowroom_geometry::Length;
use elbowroom_workbench::file::built_in_shop;
use proptest::prelude::*;

use super::parts::{apart_mm, centreline, comes_back, part, part_from, rows, system};

fn again(parts: Vec<Part>) -> (Vec<Part>, Vec<String>) {
    let text = step::write(&system(parts), "a.step").unwrap();
    let read = step::read(text.as_bytes(), "a.step").unwrap();
    let Document::System(system) = read.document else { panic!("there are tubes") };
    (system.tubes().iter().map(|tube| Part::clone(&tube.part)).collect(), read.notes)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn a_part_comes_back_as_it_was(rows in rows()) {
        let drawn = part_from(rows.0, &rows.1, rows.2);
        prop_assume!(!comes_back(&drawn));
        let (parts, notes) = again(vec![drawn.clone()]);
        prop_assert_eq!(parts.len(), 1, "{:?}", notes);
        let off = apart_mm(&drawn, &parts[0]);
        prop_assert!(off < 1e-6, "off by {} mm", off);
        prop_assert_eq!((parts[0].tube.od, parts[0].tube.wall), (drawn.tube.od, drawn.tube.wall));
        prop_assert_eq!(&parts[0].name, "Downpipe");
    }
}

#[test]
fn figures_that_people_draw_come_back_to_the_digit() {
    let drawn = part(&[(200.0, 0.0, 90.0, 90.5), (150.0, 90.0, 180.0, 90.5), (100.0, -45.0, 30.0, 120.6)], 250.0);
    let (parts, _) = again(vec![drawn.clone()]);
    assert_eq!(parts[0].path, drawn.path);
    let (parts, _) = again(vec![part(&[(200.0, 0.0, 90.0, 90.5), (150.0, 90.0, 45.0, 90.5)], 250.0)]);
    let Path::Vertices(path) = &parts[0].path else { panic!("vertices within reach") };
    assert_eq!((path.points()[1].x, path.points()[1].y), (290.5, 0.0));
}

#[test]
fn special_shapes_come_back() {
    let cases = [
        ("a straight alone", part(&[], 300.0)),
        ("a turn of nothing on a line", part(&[(100.0, 0.0, 0.0, 90.5), (100.0, 90.0, 90.0, 90.5)], 100.0)),
        ("arcs without straights", part(&[(0.0, 0.0, 90.0, 90.5), (0.0, 120.0, 60.0, 120.6)], 0.0)),
        ("half a turn in two halves", part(&[(100.0, 0.0, 90.0, 90.5), (0.0, 0.0, 90.0, 90.5)], 100.0)),
        ("more than half a turn", part(&[(100.0, 0.0, 270.0, 120.6)], 50.0)),
        ("a tube through itself", part(&[(400.0, 0.0, 270.0, 90.5)], 400.0)),
    ];
    for (what, drawn) in cases {
        let (parts, notes) = again(vec![drawn.clone()]);
        assert_eq!(parts.len(), 1, "{what}: {notes:?}");
        assert!(apart_mm(&drawn, &parts[0]) < 1e-6, "{what}");
    }
}

#[test]
fn tubes_that_meet_end_to_end_stay_apart_and_keep_their_names() {
    let first = part(&[(200.0, 0.0, 90.0, 90.5)], 300.0);
    let end = centreline(&first).end();
    let mut second = part_from(end, &[(150.0, 0.0, 45.0, 90.5)], 200.0);
    second.name = "Tail's end é".into();
    second.tube = Tube::new(Length::from_mm(50.8), Length::from_mm(1.5), "304 stainless", Seam::Welded).unwrap();
    let (parts, _) = again(vec![first.clone(), second.clone(), Part { name: "Third".into(), ..first.clone() }]);
    let names: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
    assert_eq!(names, ["Downpipe", "Tail's end é", "Third"]);
    assert!(apart_mm(&second, &parts[1]) < 1e-6);
    assert_eq!(parts[1].tube.od.mm(), 50.8);
}

#[test]
fn what_is_finished_has_the_radii_that_springback_leaves_and_the_vertices_as_drawn() {
    let mut drawn = part(&[(300.0, 0.0, 90.0, 90.5), (250.0, 60.0, 45.0, 90.5)], 300.0);
    drawn.path = Path::Vertices(drawn.path.bend_form().path.to_vertex_form().unwrap());
    let shop = built_in_shop();
    let solved = elbowroom_bending::solve(&drawn, &shop);
    let left = solved.bends[0].formed.unwrap().released.unwrap();
    let whole = finished(&system(vec![drawn.clone()]), &shop).unwrap();
    let text = step::write(&whole, "a.step").unwrap();
    let Document::System(read) = step::read(text.as_bytes(), "a.step").unwrap().document else { panic!("a tube") };
    let path = read.tubes()[0].part.path.bend_form().path;
    assert!(left.free_clr_mm > 90.6, "{}", left.free_clr_mm);
    assert!((path.rows()[0].clr.mm() - left.free_clr_mm).abs() < 1e-6);
    assert!((path.rows()[0].straight.mm() - (300.0 - left.takes_mm)).abs() < 1e-6);
    let (Path::Vertices(one), Path::Vertices(other)) = (&drawn.path, &read.tubes()[0].part.path) else {
        panic!("vertices")
    };
    for (drawn, left) in one.points().iter().zip(other.points()) {
        assert!((drawn - left).norm() < 1e-6, "{drawn} {left}");
    }
    let odd = part(&[(300.0, 0.0, 90.0, 77.7)], 300.0);
    let said = finished(&system(vec![odd]), &shop).unwrap_err().to_string();
    assert!(said.contains("bend 1 of “Downpipe” has no die set"), "{said}");
}
