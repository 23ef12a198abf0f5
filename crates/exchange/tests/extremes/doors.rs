//! A number that one door refuses is refused by all of them, and one that a door takes is taken by all.

use elbowroom_bending::forming::springback::SpringbackLine;
use elbowroom_bending::specimen::{part_along, trial};
use elbowroom_bending::{Edit, End, Knowledge, Part, Path, Seam, KnowledgeEdit, Tube};
use elbowroom_exchange::points_table;
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3, VertexPath};
use elbowroom_workbench::file::{read_part, read_shop, write_part, write_shop};

use super::EXTREMES;

const EVERY_DAY: [f64; 12] = [0.05, 0.5, 1.5, 2.0, 25.4, 30.0, 45.0, 60.3, 76.2, 120.0, 1999.0, 2000.1];

fn values() -> impl Iterator<Item = f64> {
    EXTREMES.into_iter().chain(EVERY_DAY)
}

/// A part in which every number is one that stands nowhere else.
fn part() -> Part {
    let row = |straight, rotation, angle, clr| BendRow {
        straight: Length::from_mm(straight),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        clr: Length::from_mm(clr),
    };
    let rows = vec![row(201.0, 0.0, 91.0, 77.0), row(161.0, 43.0, 61.0, 78.0)];
    let path = BendPath::new(Frame::world(), rows, Length::from_mm(221.0)).unwrap();
    let mut part = part_along(Path::Bends(path));
    part.tube = Tube::new(Length::from_mm(51.0), Length::from_mm(1.6), "304 stainless", Seam::Welded).unwrap();
    for edit in [
        Edit::ChooseClamp(Some(Length::from_mm(81.0))),
        Edit::SetStock(End::Start, Length::from_mm(11.0)),
        Edit::SetStock(End::Finish, Length::from_mm(12.0)),
        Edit::PinSeam(Some(Angle::from_degrees(13.0))),
    ] {
        part = edit.applied_to(&part).unwrap();
    }
    part
}

/// Whether file and edit agree about every value of a number of a part.
fn agree(part: &Part, field: &str, stands: &str, edit: impl Fn(f64) -> Option<Edit>) {
    let text = write_part(part);
    assert_eq!(text.matches(stands).count(), 1, "{stands}\n{text}");
    for value in values() {
        let read = read_part(&text.replacen(stands, &stands.replace(field, &format!("{value:?}")), 1), "a");
        let edited = edit(value).ok_or("refused".to_owned());
        let edited = edited.and_then(|edit| edit.applied_to(part).map_err(|refusal| refusal.to_string()));
        assert_eq!(read.is_ok(), edited.is_ok(), "{stands} {value:?}: {read:?}\n{edited:?}");
        if let (Ok(read), Ok(edited)) = (&read, &edited) {
            assert_eq!(read, edited, "{stands} {value:?}");
        }
    }
}

#[test]
fn file_and_window_of_a_part() {
    let part = part();
    let (mm, degrees) = (Length::from_mm, Angle::from_degrees);
    let (bend, finish) = (part.bend_id(1), part.straight_id(2));
    let tube = |od: f64, wall: f64| Tube::new(mm(od), mm(wall), "304 stainless", Seam::Welded).ok().map(Edit::SetTube);
    agree(&part, "51.0", "od_mm: 51.0", |value| tube(value, 1.6));
    agree(&part, "1.6", "wall_mm: 1.6", |value| tube(51.0, value));
    agree(&part, "81.0", "clamp_mm: 81.0", |value| Some(Edit::ChooseClamp(Some(mm(value)))));
    agree(&part, "13.0", "seam_start_deg: 13.0", |value| Some(Edit::PinSeam(Some(degrees(value)))));
    agree(&part, "11.0", "lead_mm: 11.0", |value| Some(Edit::SetStock(End::Start, mm(value))));
    agree(&part, "12.0", "tail_mm: 12.0", |value| Some(Edit::SetStock(End::Finish, mm(value))));
    agree(&part, "161.0", "straight_mm: 161.0", |value| Some(Edit::SetStraight(part.straight_id(1), mm(value))));
    agree(&part, "221.0", "tail_mm: 221.0", |value| Some(Edit::SetStraight(finish, mm(value))));
    agree(&part, "43.0", "rotation_deg: 43.0", |value| Some(Edit::SetRotation(bend, degrees(value))));
    agree(&part, "61.0", "angle_deg: 61.0", |value| Some(Edit::SetAngle(bend, degrees(value))));
    agree(&part, "78.0", "clr_mm: 78.0", |value| Some(Edit::SetClr(bend, mm(value))));
}

#[test]
fn file_window_and_table_of_points() {
    let point = |x: f64, y: f64, z: f64| Point3::new(x, y, z);
    let path = |moved: Point3<f64>, clr: f64| {
        let points = vec![point(0.0, 0.0, 0.0), point(301.0, 0.0, 0.0), moved, point(302.0, 283.0, 151.0)];
        VertexPath::new(points, vec![Length::from_mm(76.0), Length::from_mm(clr)])
    };
    let drawn = part_along(Path::Vertices(path(point(303.0, 281.0, 7.0), 77.0).unwrap()));
    let table = points_table::write(&path(point(303.0, 281.0, 7.0), 77.0).unwrap());
    for value in values() {
        let by_table = |stands: &str| points_table::read(&table.replacen(stands, &format!("{value}"), 1), "a");
        let moved = Edit::MoveVertex(drawn.vertex_id(2), point(303.0, value, 7.0)).applied_to(&drawn);
        let whole = path(point(303.0, value, 7.0), 77.0);
        assert_eq!((by_table("281").is_ok(), whole.is_ok()), (moved.is_ok(), moved.is_ok()), "{value:?}");
        let rounded = Edit::SetClr(drawn.bend_id(1), Length::from_mm(value)).applied_to(&drawn);
        let whole = path(point(303.0, 281.0, 7.0), value);
        assert_eq!((by_table(",77").is_ok(), whole.is_ok()), (false, rounded.is_ok()), "{value:?}");
        let of_table = points_table::read(&table.replacen(",77", &format!(",{value}"), 1), "a");
        assert_eq!(of_table.is_ok(), rounded.is_ok(), "{value:?}: {of_table:?} {rounded:?}");
    }
}

/// Whether a shop file and an edit of the shop agree about every value.
fn shops_agree(field: &str, in_file: impl Fn(&str) -> String, what: impl Fn(f64) -> Option<Knowledge>) {
    let shop = elbowroom_workbench::file::built_in_shop();
    let (die, material) = (shop.die_sets[0].name.clone(), "304 stainless".to_owned());
    let text = write_shop(&shop);
    for value in values() {
        let own = in_file(&format!("{value:?}"));
        let record = format!("    springback: [(die: \"{die}\", material: \"{material}\", {own})],\n    limits");
        let read = read_shop(&text.replacen("    limits", &record, 1), "a");
        let edited = what(value).ok_or("refused".to_owned()).and_then(|what| {
            let edit = KnowledgeEdit { die: die.clone(), material: material.clone(), what };
            edit.applied_to(&shop).map_err(|refusal| refusal.to_string())
        });
        assert_eq!(read.is_ok(), edited.is_ok(), "{field} {value:?}: {:?}\n{:?}", read.err(), edited.err());
        if let (Ok(read), Ok(edited)) = (&read, &edited) {
            assert_eq!(read.springback, edited.springback, "{field} {value:?}");
        }
    }
}

#[test]
fn file_and_window_of_a_shop() {
    let line =
        |a: f64, b: f64| SpringbackLine::new(Angle::from_degrees(a), b).ok().map(|line| Knowledge::Line(Some(line)));
    shops_agree("a_deg", |value| format!("line: (a_deg: {value}, b: 0.02)"), |value| line(value, 0.02));
    shops_agree("b", |value| format!("line: (a_deg: 0.7, b: {value})"), |value| line(0.7, value));
    shops_agree("stretch", |value| format!("stretch: {value}"), |value| Some(Knowledge::Stretch(Some(value))));
    for (field, at) in [("measured_radius_mm", 0), ("drawn_length_mm", 1), ("wall_mm", 2)] {
        let own = |value: &str| format!("trials: [(set_deg: 90.0, measured_deg: 88.0, {field}: {value})]");
        shops_agree(field, own, |value| {
            let length = Some(Length::from_mm(value));
            let figures = trial(90.0, 88.0).with(|trial| {
                trial.wall = None;
                *[&mut trial.measured_radius, &mut trial.drawn_length, &mut trial.wall][at] = length;
            });
            figures.ok().map(|trial| Knowledge::Trials(vec![trial]))
        });
    }
    let trial = |set: f64, measured: f64| {
        let figures = trial(90.0, 88.0).with(|trial| {
            (trial.set, trial.measured) = (Angle::from_degrees(set), Angle::from_degrees(measured));
            trial.wall = None;
        });
        figures.ok().map(|trial| Knowledge::Trials(vec![trial]))
    };
    let own = |value: &str| format!("trials: [(set_deg: {value}, measured_deg: 88.0)]");
    shops_agree("set_deg", own, |value| trial(value, 88.0));
    let own = |value: &str| format!("trials: [(set_deg: 90.0, measured_deg: {value})]");
    shops_agree("measured_deg", own, |value| trial(90.0, value));
}
