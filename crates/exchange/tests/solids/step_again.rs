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

/// A file that shows its tube by a map: the shape lies elsewhere, and may lie in several places.
#[test]
fn a_mapped_tube_lies_where_it_is_mapped_to() {
    let drawn = part(&[(200.0, 0.0, 90.0, 90.5)], 300.0);
    let text = step::write(&system(vec![drawn.clone()]), "a.step").unwrap();
    let number = |line: &str| line[1..line.find('=').unwrap()].to_owned();
    let of = |kind: &str| text.lines().find(|line| line.contains(&format!("={kind}("))).unwrap();
    let (shape, defined) = (of("ADVANCED_BREP_SHAPE_REPRESENTATION"), of("SHAPE_DEFINITION_REPRESENTATION"));
    let (shape_number, context) = (number(shape), shape.rsplit('#').next().unwrap().trim_end_matches(");"));
    // From a place that is turned by a quarter about z and lies at (5, 0, 0), to (10, 20, 30) as the world stands.
    let more = format!(
        "#90001=CARTESIAN_POINT('',(5.,0.,0.));\n#90002=DIRECTION('',(0.,0.,1.));\n#90003=DIRECTION('',(0.,1.,0.));\n\
         #90004=AXIS2_PLACEMENT_3D('',#90001,#90002,#90003);\n#90005=CARTESIAN_POINT('',(10.,20.,30.));\n\
         #90006=AXIS2_PLACEMENT_3D('',#90005,$,$);\n#90007=REPRESENTATION_MAP(#90004,#{shape_number});\n\
         #90008=MAPPED_ITEM('',#90007,#90006);\n#90009=MAPPED_ITEM('',#90007,#90004);\n\
         #90010=SHAPE_REPRESENTATION('',(#90008,#90009),#{context});\nENDSEC;\nEND-ISO"
    );
    let by_map = defined.replace(&format!("#{shape_number})"), "#90010)");
    assert_ne!(by_map, defined);
    let text = text.replace(defined, &by_map).replace("ENDSEC;\nEND-ISO", &more);
    let Document::System(read) = step::read(text.as_bytes(), "a.step").unwrap().document else { panic!("tubes") };
    let starts: Vec<_> = read.tubes().iter().map(|tube| centreline(&tube.part).elements()[0].start).collect();
    assert_eq!(starts.len(), 2);
    // The start, (-5, 0, 0) from there, is (0, 5, 0) in its axes; along x is along -y.
    assert!((starts[0].origin - elbowroom_geometry::Point3::new(10.0, 25.0, 30.0)).norm() < 1e-9, "{:?}", starts[0]);
    assert!((starts[0].tangent + elbowroom_geometry::Vector3::y()).norm() < 1e-9, "{:?}", starts[0]);
    assert!(apart_mm(&drawn, &read.tubes()[1].part) < 1e-9, "mapped to where it is, it stays");
}

/// The place in the part, the place in the assembly: whichever of the two is named first, and whichever representation.
#[test]
fn an_assembly_places_its_parts_from_their_own_place() {
    let drawn = part(&[(200.0, 0.0, 90.0, 90.5)], 300.0);
    let other = Part { name: "Other".into(), ..part(&[(200.0, 0.0, 30.0, 90.5)], 300.0) };
    let text = step::write(&system(vec![drawn, other]), "a.step").unwrap();
    let moved = text.lines().find(|line| line.contains("ITEM_DEFINED_TRANSFORMATION")).unwrap();
    let [own, there] = moved[moved.find("'',#").unwrap()..].split('#').skip(1).collect::<Vec<_>>()[..] else {
        panic!("{moved}")
    };
    let (own, there) = (own.trim_end_matches(','), there.trim_end_matches(");"));
    let more = "#90001=CARTESIAN_POINT('',(5.,0.,0.));\n#90002=DIRECTION('',(0.,0.,1.));\n#90003=DIRECTION('',(0.,1.,0.));\n\
                #90004=AXIS2_PLACEMENT_3D('',#90001,#90002,#90003);\nENDSEC;\nEND-ISO";
    let text = text.replace("ENDSEC;\nEND-ISO", more);
    let pair = |one: &str, other: &str| moved.replace(&format!("#{own},#{there})"), &format!("#{one},#{other})"));
    let plain = text.replace(moved, &pair("90004", there));
    let turned = text.replace(moved, &pair(there, "90004"));
    let relation = text.lines().find(|line| line.contains("(REPRESENTATION_RELATIONSHIP('','',")).unwrap();
    let two = relation.split("'','',").nth(1).unwrap().split(')').next().unwrap();
    let (child, parent) = two.split_once(',').unwrap();
    let exchanged = plain.replace(relation, &relation.replace(two, &format!("{parent},{child}")));
    for (what, text) in [("plain", &plain), ("places exchanged", &turned), ("representations exchanged", &exchanged)] {
        let Document::System(read) = step::read(text.as_bytes(), "a.step").unwrap().document else { panic!("tubes") };
        let starts: Vec<_> = read.tubes().iter().map(|tube| centreline(&tube.part).elements()[0].start).collect();
        // The start, (-5, 0, 0) from there, is (0, 5, 0) in its axes; along x is along -y. The other stays.
        assert!(
            (starts[0].origin - elbowroom_geometry::Point3::new(0.0, 5.0, 0.0)).norm() < 1e-9,
            "{what}: {starts:?}"
        );
        assert!((starts[0].tangent + elbowroom_geometry::Vector3::y()).norm() < 1e-9, "{what}: {starts:?}");
        assert_eq!(starts[1], elbowroom_geometry::Frame::world(), "{what}");
    }
}

#[test]
fn straights_and_arcs_by_themselves_are_one_tube() {
    let whole = part(&[(200.0, 0.0, 90.0, 90.5), (120.0, 70.0, 45.0, 90.5)], 300.0);
    let line = centreline(&whole);
    let pieces = line.elements().iter().enumerate().map(|(index, element)| {
        let (rows, tail) = match element.kind {
            elbowroom_geometry::ElementKind::Straight => (vec![], element.length_mm),
            elbowroom_geometry::ElementKind::Arc { radius_mm, angle_rad } => {
                (vec![(0.0, 0.0, angle_rad.to_degrees(), radius_mm)], 0.0)
            }
        };
        Part { name: format!("Piece {}", index + 1), ..part_from(element.start, &rows, tail) }
    });
    let (parts, notes) = again(pieces.collect());
    assert_eq!(parts.len(), 1, "{notes:?}");
    assert!(apart_mm(&whole, &parts[0]) < 1e-6);
    assert!(
        notes.iter().any(|note| note.contains("5 straights and arcs that meet end to end were joined")),
        "{notes:?}"
    );
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
