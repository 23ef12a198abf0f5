//! Obstacles of a document: edits with their labels, there and back, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::sync::Arc;

use elbowroom_bending::specimen::{part, row};
use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::{
    MeshSource, MeshUnit, Obstacle, ObstacleEdit, ObstacleId, Shape, System, SystemEdit, SystemEvent, UpAxis,
};
use elbowroom_geometry::{Frame, Length, Point3};
use elbowroom_workbench::file::{read_system, write_system};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn obstacle(name: &str) -> Obstacle {
    Obstacle {
        id: ObstacleId::new(0),
        name: name.into(),
        shape: Shape::Cuboid([mm(10.0), mm(20.0), mm(30.0)]),
        placement: Frame::world(),
        kind: ObstacleKind::Body,
        clearance: None,
        hidden: false,
        locked: false,
    }
}

fn made(system: &System, edit: &SystemEdit) -> (System, Vec<SystemEvent>) {
    let after = edit.applied_to(system).unwrap();
    let events = SystemEvent::between(system, &after);
    (after, events)
}

#[test]
fn each_edit_of_an_obstacle_does_what_its_label_says() {
    let system = System::of(part(vec![row(300.0, 0.0, 90.0)], 300.0).unwrap());
    let add = SystemEdit::AddObstacle(Arc::new(obstacle("Chassis")));
    let (system, events) = made(&system, &add);
    let id = ObstacleId::new(1);
    assert_eq!((events, add.label(&system)), (vec![SystemEvent::Obstacle(id)], "add an obstacle".to_owned()));
    let elsewhere = Frame { origin: Point3::new(1.0, 2.0, 3.0), ..Frame::world() };
    let edits = [
        (ObstacleEdit::Rename("Frame".into()), "rename obstacle \u{201c}Chassis\u{201d}"),
        (ObstacleEdit::Reshape(Shape::Plane), "reshape obstacle \u{201c}Frame\u{201d}"),
        (ObstacleEdit::Place(elsewhere), "move obstacle \u{201c}Frame\u{201d}"),
        (ObstacleEdit::SetKind(ObstacleKind::Wiring), "say the kind of obstacle \u{201c}Frame\u{201d}"),
        (ObstacleEdit::SetClearance(Some(mm(40.0))), "set the clearance of obstacle \u{201c}Frame\u{201d}"),
        (ObstacleEdit::SetHidden(true), "hide obstacle \u{201c}Frame\u{201d}"),
        (ObstacleEdit::SetLocked(true), "lock obstacle \u{201c}Frame\u{201d}"),
    ];
    let mut now = system.clone();
    for (edit, label) in edits {
        let edit = SystemEdit::ChangeObstacle(id, edit);
        assert_eq!(edit.label(&now), label);
        let (after, events) = made(&now, &edit);
        assert_eq!(events, [SystemEvent::Obstacle(id)], "{label}");
        assert!(!after.holds_the_same_as(&now), "{label}");
        assert!(made(&after, &edit.clone()).1.is_empty() || label.starts_with("reshape") || label.starts_with("move"));
        now = after;
    }
    let wanted = Obstacle {
        id,
        name: "Frame".into(),
        shape: Shape::Plane,
        placement: elsewhere,
        kind: ObstacleKind::Wiring,
        clearance: Some(mm(40.0)),
        hidden: true,
        locked: true,
    };
    assert_eq!(**now.obstacle(id).unwrap(), wanted);
    // Locked, it neither moves nor goes; the rest can be changed.
    for edit in [
        SystemEdit::ChangeObstacle(id, ObstacleEdit::Place(Frame::world())),
        SystemEdit::ChangeObstacle(id, ObstacleEdit::Reshape(Shape::Plane)),
        SystemEdit::RemoveObstacle(id),
    ] {
        assert!(edit.applied_to(&now).unwrap_err().to_string().contains("\u{201c}Frame\u{201d} is locked"));
    }
    let (now, _) = made(&now, &SystemEdit::ChangeObstacle(id, ObstacleEdit::SetLocked(false)));
    let remove = SystemEdit::RemoveObstacle(id);
    assert_eq!(remove.label(&now), "remove obstacle \u{201c}Frame\u{201d}");
    let (after, events) = made(&now, &remove);
    assert_eq!((after.obstacles().len(), events), (0, vec![SystemEvent::Obstacle(id)]));
    // Its id is never given again.
    let (again, _) = made(&after, &add);
    assert_eq!(again.obstacles()[0].id, ObstacleId::new(2));
}

#[test]
fn names_are_its_own_and_numbers_are_guarded() {
    let system = System::of(part(vec![row(300.0, 0.0, 90.0)], 300.0).unwrap());
    let add = |system: &System, one: Obstacle| SystemEdit::AddObstacle(Arc::new(one)).applied_to(system);
    let system = add(&add(&system, obstacle("Axle")).unwrap(), obstacle("Axle")).unwrap();
    assert_eq!(system.obstacles()[1].name, "Axle 2");
    let rename = SystemEdit::ChangeObstacle(ObstacleId::new(2), ObstacleEdit::Rename("Axle".into()));
    assert!(rename.applied_to(&system).unwrap_err().to_string().contains("another obstacle is called"));
    let missing = SystemEdit::RemoveObstacle(ObstacleId::new(9)).applied_to(&system).unwrap_err().to_string();
    assert_eq!(missing, "there is no obstacle of the id 9");
    let far = Frame { origin: Point3::new(0.0, 2e7, 0.0), ..Frame::world() };
    let nowhere = Frame { tangent: nalgebra::Vector3::zeros(), ..Frame::world() };
    for (spoilt, field) in [
        (Obstacle { shape: Shape::Cuboid([mm(0.0); 3]), ..obstacle("A") }, "the edge of the box along x"),
        (Obstacle { placement: far, ..obstacle("A") }, "y of the place"),
        (Obstacle { placement: nowhere, ..obstacle("A") }, "the direction"),
        (Obstacle { clearance: Some(mm(-1.0)), ..obstacle("A") }, "the clearance"),
        (Obstacle { clearance: Some(mm(f64::NAN)), ..obstacle("A") }, "the clearance"),
        (Obstacle { kind: ObstacleKind::Moving { travel: mm(-2.0) }, ..obstacle("A") }, "the travel"),
        (obstacle("  "), "the name of an obstacle"),
    ] {
        let said = add(&system, spoilt).unwrap_err().to_string();
        assert!(said.starts_with(field), "{said}");
    }
}

#[test]
fn what_is_written_reads_back_to_the_bit() {
    let system = System::of(part(vec![row(300.0, 0.0, 90.0)], 300.0).unwrap());
    let packed = Some(b"v 0 0 0\n".to_vec().into());
    let source =
        MeshSource { file: "a b/c.obj".into(), fingerprint: "ab".into(), unit: MeshUnit::Metre, up: UpAxis::X, packed };
    let tilted =
        Frame::along(Point3::new(0.1, 0.2, 0.3), nalgebra::Vector3::new(1.0, 2.0, 3.0), nalgebra::Vector3::x());
    let one = Obstacle {
        shape: Shape::Mesh(source),
        placement: tilted.unwrap(),
        kind: ObstacleKind::Moving { travel: mm(1.0 / 3.0) },
        clearance: Some(mm(0.1)),
        ..obstacle("Arm")
    };
    let system = SystemEdit::AddObstacle(Arc::new(one)).applied_to(&system).unwrap();
    let again = read_system(&write_system(&system), "written").unwrap();
    assert_eq!(again.obstacles(), system.obstacles());
    assert!(again.holds_the_same_as(&system));
}
