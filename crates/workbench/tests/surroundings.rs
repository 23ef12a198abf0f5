//! Tubes on the workbench stand beside all that is around them: obstacles and other tubes are measured with every edit, and
//! only what has moved is measured again.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::around::{Stands, Surveyed, SurveyedMesh};
use elbowroom_bending::specimen::{part, row};
use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::{
    Edit, Fault, MeshSource, MeshUnit, Motion, Obstacle, ObstacleEdit, ObstacleId, Severity, Shape, System, SystemEdit,
    UpAxis,
};
use elbowroom_geometry::{Frame, Length, Point3, TriangleMesh, Vector3};
use elbowroom_workbench::file::{built_in_shop, write_system};
use elbowroom_workbench::{Command, Home, MessageKind, Request, Workbench};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// A tube of 50.8 from the origin along x, 400 and then a bend of 90°.
fn bench() -> Workbench {
    Workbench::new(part(vec![row(400.0, 0.0, 90.0)], 300.0).unwrap(), built_in_shop())
}

/// Something with its middle over the first straight.
fn over(name: &str, z: f64, shape: Shape) -> SystemEdit {
    let placement = Frame { origin: Point3::new(200.0, 0.0, z), ..Frame::world() };
    SystemEdit::AddObstacle(Arc::new(Obstacle {
        id: ObstacleId::new(0),
        name: name.into(),
        shape,
        placement,
        kind: ObstacleKind::Body,
        clearance: None,
        hidden: false,
        locked: false,
    }))
}

fn cube(name: &str, z: f64) -> SystemEdit {
    over(name, z, Shape::Cuboid([mm(20.0); 3]))
}

fn do_it(workbench: &mut Workbench, edit: SystemEdit) {
    workbench.perform(Command::EditSystem(edit));
    let message = workbench.screen().message.as_ref();
    assert!(message.is_none_or(|message| message.kind != MessageKind::Refused), "{message:?}");
}

fn lift(z: f64) -> Edit {
    Edit::Move(Motion::By(Vector3::new(0.0, 0.0, z)))
}

/// What is said of the surroundings of the tube that is worked on.
fn said(workbench: &Workbench) -> Vec<(Fault, Severity)> {
    let of_surroundings = |fault: Fault| ["too-close", "hits", "ground-too-near", "not-measured"].contains(&fault);
    let findings = workbench.solved().findings.iter().filter(|finding| of_surroundings(finding.fault));
    findings.map(|finding| (finding.fault, finding.severity)).collect()
}

fn names(workbench: &Workbench) -> Vec<&'static str> {
    said(workbench).iter().map(|(fault, _)| *fault).collect()
}

/// The least room to each thing, mm.
fn room(workbench: &Workbench) -> Vec<f64> {
    let least = |gap: &elbowroom_bending::around::Clearance| gap.measured.as_ref().map_or(f64::NAN, |gap| gap.least_mm);
    workbench.solved().clearances.iter().map(least).collect()
}

fn is_near(found: &[f64], wanted: &[f64]) -> bool {
    found.len() == wanted.len() && found.iter().zip(wanted).all(|(one, two)| (one - two).abs() < 1e-3)
}

#[test]
fn a_box_in_the_way_stops_until_the_tube_is_moved() {
    let mut workbench = bench();
    do_it(&mut workbench, cube("Beam", 30.0));
    // 30 less 10 less 25.4.
    assert!(is_near(&room(&workbench), &[-5.4]), "{:?}", room(&workbench));
    assert_eq!((names(&workbench), said(&workbench)[0].1), (vec!["hits"], Severity::Stop));
    let measured = workbench.measurements();
    // A preview measures too, and dropping it measures nothing.
    workbench.perform(Command::Preview(lift(-10.0)));
    assert!(is_near(&room(&workbench), &[4.6]), "{:?}", room(&workbench));
    assert_eq!(names(&workbench), ["too-close"]);
    workbench.perform(Command::DropPreview);
    assert_eq!((names(&workbench), workbench.measurements()), (vec!["hits"], measured + 1));
    workbench.perform(Command::Edit(lift(-60.0)));
    assert!(is_near(&room(&workbench), &[54.6]) && names(&workbench).is_empty());
    workbench.perform(Command::Undo);
    assert!(is_near(&room(&workbench), &[-5.4]) && names(&workbench) == ["hits"]);
    workbench.perform(Command::Undo);
    assert!(room(&workbench).is_empty() && names(&workbench).is_empty(), "the box is gone");
    workbench.perform(Command::Redo);
    assert_eq!(names(&workbench), ["hits"]);
}

#[test]
fn another_shop_leaves_all_where_it_stands() {
    let home = tempfile::tempdir().unwrap();
    let mut workbench = Workbench::at_home(Home::at(home.path()));
    let system = System::of(part(vec![row(400.0, 0.0, 90.0)], 300.0).unwrap());
    let file = home.path().join("hill.ron");
    fs::write(&file, write_system(&cube("Beam", 30.0).applied_to(&system).unwrap())).unwrap();
    workbench.perform(Command::Open(file));
    let (measured, solved) = (workbench.measurements(), workbench.solves());
    assert_eq!(names(&workbench), ["hits"]);
    workbench.perform(Command::UseOwnShop);
    assert_eq!((workbench.measurements(), workbench.solves()), (measured, solved + 1));
    assert_eq!(names(&workbench), ["hits"]);
}

#[test]
fn only_what_has_moved_is_measured_again() {
    let mut workbench = bench();
    for (name, z) in [("One", 100.0), ("Two", 200.0), ("Three", 300.0)] {
        do_it(&mut workbench, cube(name, z));
    }
    assert_eq!(workbench.measurements(), 3, "each when it came in");
    let change = |edit| SystemEdit::ChangeObstacle(ObstacleId::new(2), edit);
    let placement = Frame { origin: Point3::new(200.0, 0.0, 50.0), ..Frame::world() };
    do_it(&mut workbench, change(ObstacleEdit::Place(placement)));
    assert_eq!(workbench.measurements(), 4, "the one that was moved");
    assert!(is_near(&room(&workbench), &[64.6, 14.6, 264.6]), "{:?}", room(&workbench));
    assert_eq!(names(&workbench), ["too-close"]);
    do_it(&mut workbench, change(ObstacleEdit::SetClearance(Some(mm(10.0)))));
    assert_eq!((workbench.measurements(), names(&workbench)), (5, vec![]));
    do_it(&mut workbench, change(ObstacleEdit::SetHidden(true)));
    assert!(is_near(&room(&workbench), &[64.6, 14.6, 264.6]), "hidden ones count");
    do_it(&mut workbench, SystemEdit::RemoveObstacle(ObstacleId::new(1)));
    do_it(&mut workbench, SystemEdit::Rename("Hill".into()));
    assert_eq!(workbench.measurements(), 5, "the rest is as it was");
    assert!(is_near(&room(&workbench), &[14.6, 264.6]), "{:?}", room(&workbench));
    workbench.perform(Command::Edit(lift(1.0)));
    assert_eq!(workbench.measurements(), 7, "the tube, against both");
    assert!(is_near(&room(&workbench), &[13.6, 263.6]), "{:?}", room(&workbench));
    let kept: Vec<_> = workbench.neighbours().map(|(obstacle, _)| obstacle.name.clone()).collect();
    assert_eq!(kept, ["Two", "Three"]);
}

#[test]
fn tubes_are_measured_against_each_other() {
    let mut workbench = bench();
    let first = workbench.system().active();
    do_it(&mut workbench, SystemEdit::DuplicateTube(first));
    let second = workbench.system().active();
    // The copy lies 101.6 along y: the bend of the first one goes through its straight.
    assert_eq!(names(&workbench), ["hits"]);
    let of = |workbench: &Workbench, id| workbench.solved_tube(id).unwrap().clearances.clone();
    assert_eq!(&*of(&workbench, first)[0].to, workbench.system().tubes()[1].name());
    assert_eq!(workbench.measurements(), 2, "each against the other");
    workbench.perform(Command::Edit(lift(60.0)));
    assert!(is_near(&room(&workbench), &[9.2]), "60 less 50.8: {:?}", room(&workbench));
    assert!((of(&workbench, first)[0].measured.as_ref().unwrap().least_mm - 9.2).abs() < 1e-3);
    assert_eq!((workbench.measurements(), names(&workbench)), (4, vec![]));
    // Far away nothing is measured, and the first one is by itself again.
    workbench.perform(Command::Edit(lift(500.0)));
    assert_eq!((workbench.measurements(), of(&workbench, first).len(), of(&workbench, second).len()), (4, 0, 0));
    // A third one far from the first is measured against the second alone.
    let alone = Arc::clone(workbench.solved_tube(first).unwrap());
    do_it(&mut workbench, SystemEdit::DuplicateTube(second));
    assert_eq!(workbench.measurements(), 6);
    assert!(Arc::ptr_eq(&alone, workbench.solved_tube(first).unwrap()));
    do_it(&mut workbench, SystemEdit::RemoveTube(second));
    assert_eq!((workbench.measurements(), workbench.solved().clearances.len()), (6, 0), "its neighbour is gone");
    // A hidden tube counts: it is there all the same.
    workbench.perform(Command::Undo);
    let measured = workbench.measurements();
    do_it(&mut workbench, SystemEdit::HideTube(second));
    assert_eq!((workbench.measurements(), workbench.solved().clearances.len()), (measured, 1));
}

/// A file that tells how high a plate of 2 m by 2 m lies, mm.
fn survey(source: &MeshSource, folder: &Path) -> Surveyed {
    let file = folder.join(&source.file);
    let text = fs::read_to_string(&file).map_err(|error| error.to_string())?;
    let z: f64 = text.parse().map_err(|_| "it is no number".to_owned())?;
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    let points = corners.map(|(x, y)| Point3::new(1000.0 * x, 1000.0 * y, z)).to_vec();
    let mesh = TriangleMesh::new(points, vec![[0, 1, 2], [0, 2, 3]]).map_err(|refusal| refusal.to_string())?;
    Ok(SurveyedMesh { mesh: Arc::new(mesh), fingerprint: text })
}

fn plate(file: &str) -> SystemEdit {
    let source = MeshSource {
        file: file.into(),
        fingerprint: "-55.4".into(),
        unit: MeshUnit::Millimetre,
        up: UpAxis::Z,
        packed: None,
    };
    over("Plate", 0.0, Shape::Mesh(source))
}

#[test]
fn a_mesh_is_read_once_and_sought_beside_the_file_of_the_system() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = bench().surveying_by(survey);
    do_it(&mut workbench, plate("plate.mesh"));
    assert_eq!(
        said(&workbench).iter().map(|(fault, severity)| (*fault, *severity)).collect::<Vec<_>>(),
        [("not-measured", Severity::Stop)],
        "the system is in no file"
    );
    assert!(room(&workbench)[0].is_nan());
    let why = workbench.neighbours().next().unwrap().1.stands.as_ref().unwrap_err().to_string();
    assert!(why.contains("in no file yet"), "{why}");
    fs::create_dir(folder.path().join("other")).unwrap();
    fs::write(folder.path().join("plate.mesh"), "-55.4").unwrap();
    workbench.perform(Command::SaveAs(folder.path().join("hill.ron")));
    assert!(is_near(&room(&workbench), &[30.0]) && names(&workbench).is_empty(), "{:?}", said(&workbench));
    assert!(
        matches!(&workbench.neighbours().next().unwrap().1.stands, Ok(Stands::Body(body, _)) if body.as_mesh().is_some())
    );
    let read = workbench.readings();
    for z in [1.0, -3.0, 0.5] {
        workbench.perform(Command::Edit(lift(z)));
    }
    let place = Frame { origin: Point3::new(0.0, 0.0, -10.0), ..Frame::world() };
    do_it(&mut workbench, SystemEdit::ChangeObstacle(ObstacleId::new(1), ObstacleEdit::Place(place)));
    assert!(is_near(&room(&workbench), &[38.5]), "{:?}", room(&workbench));
    workbench.perform(Command::Save);
    assert_eq!(workbench.readings(), read, "it is there already");
    // Elsewhere it is not there; a system that is opened there says so too.
    let other = folder.path().join("other").join("hill.ron");
    workbench.perform(Command::SaveAs(other.clone()));
    assert_eq!((names(&workbench), workbench.readings()), (vec!["not-measured"], read + 1));
    fs::write(folder.path().join("other").join("plate.mesh"), "-30.4").unwrap();
    let mut workbench = bench().surveying_by(survey);
    workbench.perform(Command::Open(other.clone()));
    let mut found = names(&workbench);
    found.sort_unstable();
    assert_eq!((found, workbench.readings()), (vec!["not-measured", "too-close"], 1), "it has changed");
    // Nobody there who reads it: never clear.
    let mut workbench = bench();
    workbench.perform(Command::Open(other));
    assert_eq!(names(&workbench), ["not-measured"]);
}

#[test]
fn a_single_tube_without_obstacles_measures_nothing() {
    let mut workbench = bench();
    workbench.perform(Command::Edit(lift(1.0)));
    assert_eq!((workbench.measurements(), workbench.readings(), workbench.solves()), (0, 0, 2));
    assert!(workbench.neighbours().next().is_none());
}

#[test]
fn a_mesh_file_comes_in_by_the_way_that_leads_to_it() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("Floor pan.mesh");
    let add = Command::AddObstacleMesh(file.clone(), MeshUnit::Millimetre, UpAxis::Z);
    let mut workbench = bench().surveying_by(survey);
    workbench.perform(add.clone());
    let message = workbench.screen().message.clone().unwrap();
    assert!(message.kind == MessageKind::Refused && workbench.system().obstacles().is_empty(), "{message:?}");
    fs::write(&file, "-55.4").unwrap();
    let file_of = |workbench: &Workbench| match &workbench.system().obstacles().last().unwrap().shape {
        Shape::Mesh(source) => (source.file.clone(), source.fingerprint.clone()),
        other => panic!("{other:?}"),
    };
    // In no file yet: by its whole path.
    workbench.perform(add.clone());
    assert_eq!(file_of(&workbench), (file.to_str().unwrap().to_owned(), "-55.4".to_owned()));
    assert!(is_near(&room(&workbench), &[30.0]) && names(&workbench).is_empty(), "{:?}", said(&workbench));
    assert_eq!((workbench.readings(), workbench.undo_label()), (2, Some("add an obstacle")), "refused once, read once");
    assert_eq!(workbench.system().obstacles()[0].name, "Floor pan");
    // Beside its own file: by the way from there.
    fs::create_dir(folder.path().join("tubes")).unwrap();
    workbench.perform(Command::SaveAs(folder.path().join("tubes").join("hill.ron")));
    workbench.perform(add);
    assert_eq!(file_of(&workbench).0, "../Floor pan.mesh");
    assert_eq!(workbench.system().obstacles()[1].name, "Floor pan 2");
    assert!(is_near(&room(&workbench), &[30.0, 30.0]), "{:?}", room(&workbench));
    workbench.perform(Command::AskObstacle(MeshUnit::Inch, UpAxis::Y));
    assert!(workbench.take_requests().contains(&Request::AskObstacle(MeshUnit::Inch, UpAxis::Y)));
}
