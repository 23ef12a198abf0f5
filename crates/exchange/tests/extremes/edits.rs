//! Every number that can be typed or dragged in the window, as the edit that it becomes.

use elbowroom_bending::specimen::{part, part_along, row, shop, tube};
use elbowroom_bending::{Edit, End, Part, Path};
use elbowroom_geometry::{Angle, BendRow, HandleId, Length, Point3};

use super::{EXTREMES, worked};

/// The same tube as rows and as vertices.
fn parts() -> [Part; 2] {
    let rows = part(vec![row(200.0, 0.0, 90.0), row(160.0, 45.0, 60.0), row(130.0, -90.0, 20.0)], 220.0).unwrap();
    let drawn = part_along(Path::Vertices(rows.path.bend_form().path.to_vertex_form().unwrap()));
    [rows, drawn]
}

/// Every edit of a part that takes a number, with that number; of rows and points each number in turn.
fn edits(part: &Part, value: f64) -> Vec<Edit> {
    let (mm, angle) = (Length::from_mm(value), Angle::from_degrees(value));
    let (bend, before, vertex) = (part.bend_id(1), part.bend_id(1), part.vertex_id(2));
    let mut edits = vec![
        Edit::ChooseClamp(Some(mm)),
        Edit::SetStock(End::Start, mm),
        Edit::SetStock(End::Finish, mm),
        Edit::SetStraight(before, mm),
        Edit::SetRotation(bend, angle),
        Edit::SetAngle(bend, angle),
        Edit::SetClr(bend, mm),
        Edit::SetEveryClr(mm),
        Edit::Together("far, turned round".into(), vec![Edit::SetStraight(before, mm), Edit::SwapEnds]),
        Edit::Together("far, in the other form".into(), vec![Edit::SetStraight(before, mm), Edit::ChangeForm]),
        Edit::PinSeam(Some(angle)),
        Edit::InsertVertex(before, Point3::new(250.0, 10.0, 0.0), mm),
    ];
    for axis in 0..3 {
        let mut at = Point3::new(250.0, 30.0, 20.0);
        at[axis] = value;
        edits.extend([
            Edit::MoveVertex(vertex, at),
            Edit::MoveVertices(vec![(vertex, at)]),
            Edit::SetStart(at),
            Edit::InsertVertex(before, at, Length::from_mm(76.2)),
            Edit::MoveHandle(HandleId::Vertex(bend), at),
            Edit::MoveHandle(HandleId::ArcStart(bend), at),
            Edit::MoveHandle(HandleId::ArcEnd(bend), at),
            Edit::MoveHandle(HandleId::Start, at),
            Edit::MoveHandle(HandleId::Finish, at),
        ]);
    }
    for field in 0..4 {
        let mut row: BendRow = row(150.0, 30.0, 45.0);
        match field {
            0 => row.straight = mm,
            1 => row.rotation = angle,
            2 => row.angle = angle,
            _ => row.clr = mm,
        }
        edits.extend([Edit::InsertRows(before, vec![row]), Edit::ReplaceRows(before, vec![row])]);
    }
    edits
}

#[test]
fn edits_of_a_part() {
    let shop = shop();
    let (mut refused, mut taken, mut wrong) = (0, 0, Vec::new());
    for part in parts() {
        for value in EXTREMES {
            for edit in edits(&part, value) {
                let told = format!("{edit:?}");
                let outcome = std::panic::catch_unwind(|| edit.applied_to(&part).map(|part| worked::out(&part, &shop)));
                match outcome {
                    Err(_) => wrong.push(told),
                    Ok(Ok(())) => taken += 1,
                    Ok(Err(said)) => {
                        refused += 1;
                        assert!(said.to_string().len() < 400, "{told}: {said}");
                    }
                }
            }
        }
        for value in EXTREMES {
            let (mm, sound) = (Length::from_mm(value), tube());
            for sizes in [(mm, sound.wall), (sound.od, mm)] {
                let change = |tube: &mut elbowroom_bending::TubeFigures| (tube.od, tube.wall) = sizes;
                let Ok(tube) = sound.with(change) else { continue };
                worked::out(&Edit::SetTube(tube).applied_to(&part).unwrap(), &shop);
            }
        }
    }
    assert!(wrong.is_empty(), "worked out wrongly, as said above:\n{}", wrong.join("\n"));
    assert!(refused > 100 && taken > 100, "{refused} refused, {taken} taken");
}
