//! The first-off on the desk: measured, judged against the shown part, drawn as a ghost.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::fs;

use elbowroom_bending::Edit;
use elbowroom_bending::first_off::job::{Aside, Job};
use elbowroom_bending::first_off::{MeasurementDoubt, Tolerance, ToleranceChoice};
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::plan;
use elbowroom_bending::{End, Hand};
use elbowroom_geometry::{Angle, Length, Point3};
use elbowroom_workbench::file::{built_in_shop, read_part, write_part};
use elbowroom_workbench::{Command, MessageKind, Request, Workbench};

fn workbench() -> Workbench {
    Workbench::new(common::zigzag(), built_in_shop())
}

/// The vertices of the part as it should come off the machine.
fn vertices(workbench: &Workbench) -> Vec<Point3<f64>> {
    let plan = plan(workbench.part(), workbench.shop()).unwrap();
    plan.program.as_bent.to_vertex_form().unwrap().points().to_vec()
}

fn job(workbench: &Workbench) -> Job {
    workbench.judged().unwrap().as_ref().as_ref().unwrap().job.clone()
}

fn doubt(workbench: &Workbench) -> Option<MeasurementDoubt> {
    job(workbench).last().unwrap().doubt().cloned()
}

#[test]
fn a_measurement_is_judged_and_follows_the_part() {
    let mut workbench = workbench();
    assert!(workbench.judged().is_none() && workbench.ghost().is_none());
    let revision = workbench.revision();
    workbench.perform(Command::SetMeasurement(Measurement::Points(vertices(&workbench))));
    assert!(workbench.revision() > revision);
    let within =
        |workbench: &Workbench| job(workbench).last().unwrap().found.as_ref().unwrap().within(&workbench.tolerance());
    assert!(within(&workbench) && workbench.ghost().is_some());
    // The drawing moves by more than the tolerance, and the same piece is out of it.
    let last = vertices(&workbench).len();
    let last = workbench.part().vertex_id(last);
    workbench.perform(Command::Edit(Edit::MoveVertex(last, Point3::new(905.0, 507.0, 200.0))));
    assert!(!within(&workbench));
    let loose = ToleranceChoice::new(Some(Angle::from_degrees(10.0)), Some(Length::from_mm(40.0))).unwrap();
    workbench.perform(Command::Edit(Edit::SetTolerance(loose)));
    assert!(workbench.tolerance_choice().is_own() && within(&workbench));
    assert_eq!(workbench.undo_label(), Some("allow 10.0° and 40.0 mm"));
    workbench.perform(Command::Edit(Edit::SetTolerance(ToleranceChoice::default())));
    assert!(!within(&workbench));
    workbench.perform(Command::Undo);
    assert!(within(&workbench));
    workbench.perform(Command::ClearMeasurement);
    assert!(workbench.judged().is_none() && workbench.ghost().is_none());
}

#[test]
fn doubt_is_told_and_draws_no_ghost() {
    let mut workbench = workbench();
    let mut swapped = vertices(&workbench);
    swapped.swap(1, 2);
    workbench.perform(Command::SetMeasurement(Measurement::Points(swapped)));
    assert_eq!(doubt(&workbench), Some(MeasurementDoubt::Swapped(1, 2)));
    assert_eq!(workbench.ghost(), None);
    let mut mirrored = vertices(&workbench);
    mirrored.iter_mut().for_each(|point| point.z = -point.z);
    workbench.perform(Command::SetMeasurement(Measurement::Points(mirrored)));
    assert_eq!(doubt(&workbench), Some(MeasurementDoubt::Mirrored));
}

#[test]
fn the_ghost_is_magnified_within_bounds() {
    let mut workbench = workbench();
    let mut strayed = vertices(&workbench);
    let last = strayed.len() - 1;
    strayed[last].z += 4.0;
    workbench.perform(Command::SetMeasurement(Measurement::Points(strayed)));
    let end = |workbench: &Workbench| *workbench.ghost().unwrap().to_vertex_form().unwrap().points().last().unwrap();
    let (drawn, once) = (*vertices(&workbench).last().unwrap(), end(&workbench));
    let revision = workbench.revision();
    workbench.perform(Command::MagnifyGhost(5.0));
    assert!(workbench.revision() > revision);
    assert!(((end(&workbench) - drawn) - (once - drawn) * 5.0).norm() < 1e-6);
    workbench.perform(Command::MagnifyGhost(1e9));
    assert_eq!(workbench.ghost_magnification(), 100.0);
    workbench.perform(Command::MagnifyGhost(f64::NAN));
    assert_eq!(workbench.ghost_magnification(), 100.0);
    assert_eq!(workbench.screen().message.as_ref().unwrap().kind, MessageKind::Refused);
}

#[test]
fn a_measurement_is_read_from_a_file_and_what_is_wrong_with_it_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("measured.csv");
    let mut workbench = workbench();
    let lines: String = vertices(&workbench).iter().map(|p| format!("{},{},{}\n", p.x, p.y, p.z)).collect();
    fs::write(&file, format!("x_mm,y_mm,z_mm\n{lines}")).unwrap();
    workbench.perform(Command::AskMeasurement);
    assert_eq!(workbench.take_requests(), [Request::AskMeasurement]);
    workbench.perform(Command::OpenMeasurement(file.clone()));
    assert_eq!(doubt(&workbench), None);
    let kept = workbench.pieces().to_vec();
    fs::write(&file, "x_mm,y_mm,z_mm\n0,0,zero\n").unwrap();
    workbench.perform(Command::OpenMeasurement(file));
    let said = workbench.screen().message.clone().unwrap();
    assert!(said.kind == MessageKind::Refused && said.text.contains("line 2: z is"), "{}", said.text);
    assert_eq!((workbench.pieces(), kept.len()), (kept.as_slice(), 1));
    // Another part has not been measured.
    workbench.perform(Command::OpenDemo("knot".into()));
    // The measured piece is work that is in no file yet.
    workbench.perform(Command::AnswerDiscard);
    assert!(workbench.measurement().is_none());
}

#[test]
fn a_part_without_tooling_says_why_nothing_can_be_judged() {
    let mut workbench = workbench();
    let points = vertices(&workbench);
    workbench.perform(Command::SetMeasurement(Measurement::Points(points.clone())));
    workbench.perform(Command::Edit(Edit::SetClr(elbowroom_bending::NodeId::new(1), Length::from_mm(333.0))));
    let judged = workbench.judged().unwrap();
    assert!(judged.as_ref().as_ref().unwrap_err().to_string().contains("bend 1 has no die set"));
    assert_eq!(workbench.ghost(), None);
    // A piece can only be bent by a program.
    workbench.perform(Command::AddPiece(Measurement::Points(points)));
    assert!(workbench.screen().message.as_ref().unwrap().text.contains("bend 1 has no die set"));
    assert_eq!(workbench.pieces().len(), 1);
}

#[test]
fn the_first_off_is_judged_by_the_program_that_was_chosen() {
    let mut workbench = workbench();
    let mut strayed = vertices(&workbench);
    strayed[1].y += 3.0;
    workbench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    workbench.perform(Command::Edit(Edit::BendToHand(Some(Hand::Left))));
    workbench.perform(Command::SetMeasurement(Measurement::Points(strayed)));
    let piece = &workbench.pieces()[0];
    assert_eq!((piece.from, piece.hand, piece.corrected_after), (End::Finish, Hand::Left, 0));
    let judged = workbench.judged().unwrap();
    let from_finish = judged.as_ref().as_ref().unwrap();
    assert_eq!((from_finish.plan.from, from_finish.plan.hand), (End::Finish, Hand::Left));
    // The step that strays most is the last one: it makes the drawing's first bend.
    let off = |step: usize| {
        (from_finish.job.next.steps[step].set_angle - from_finish.plan.program.steps[step].set_angle).degrees().abs()
    };
    assert!(off(2) > off(0) && from_finish.plan.drawn_bend(2) == Some(0), "{} {}", off(0), off(2));
    // Another end or side is another program: the piece is still judged, and corrects nothing.
    let revision = workbench.revision();
    workbench.perform(Command::Edit(Edit::BendFrom(End::Start)));
    assert!(workbench.revision() > revision);
    assert_eq!(job(&workbench).pieces[0].aside, Some(Aside::From(End::Finish)));
    assert!(job(&workbench).pieces[0].found.is_some() && workbench.ghost().is_some());
    workbench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    workbench.perform(Command::Edit(Edit::BendToHand(None)));
    assert_eq!(job(&workbench).pieces[0].aside, Some(Aside::Hand(Hand::Left)));
    // The drawing turned round: the piece was bent from the end that is now the start.
    workbench.perform(Command::Edit(Edit::BendToHand(Some(Hand::Left))));
    workbench.perform(Command::Edit(Edit::SwapEnds));
    workbench.perform(Command::Edit(Edit::BendFrom(End::Start)));
    assert_eq!(job(&workbench).rests_on, [0]);
}

#[test]
fn pieces_are_added_measured_again_taken_back_and_kept_in_the_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("measured.ron");
    let mut workbench = workbench();
    let right = vertices(&workbench);
    let mut strayed = right.clone();
    strayed[4].z += 5.0;
    workbench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    workbench.perform(Command::SetMeasurement(Measurement::Points(strayed)));
    assert_eq!(workbench.undo_label(), Some("measure piece 1"));
    assert!(workbench.unsaved());
    let next = job(&workbench).next;
    workbench.perform(Command::AddPiece(Measurement::Points(right.clone())));
    let second = &workbench.pieces()[1];
    assert_eq!((second.corrected_after, second.blank), (1, next.blank));
    let set: Vec<_> = second.steps.iter().map(|step| step.set_angle).collect();
    assert!(set.iter().zip(&next.steps).all(|(was, next)| (*was - next.set_angle).degrees().abs() < 1e-9));
    // Bent by the correction and right: that correction stands, and the plan is not corrected anew.
    for (now, before) in job(&workbench).next.steps.iter().zip(&next.steps) {
        assert!((now.set_angle - before.set_angle).degrees().abs() < 1e-6);
        assert!((now.feed - before.feed).mm().abs() < 1e-6);
    }
    let two = workbench.pieces().to_vec();
    workbench.perform(Command::SaveAs(file.clone()));
    let mut opened = self::workbench();
    opened.perform(Command::Open(file));
    assert_eq!((opened.pieces(), opened.unsaved()), (two.as_slice(), false));
    assert_eq!(opened.part().tooling.from, End::Finish, "who opens the part goes on as it was bent");
    // The second piece is within tolerance and changes nothing.
    assert_eq!(job(&opened).rests_on, [0]);
    // Measured again: the settings stay.
    let mut again = right;
    again[2].y += 1.0;
    workbench.perform(Command::SetMeasurement(Measurement::Points(again.clone())));
    assert_eq!(workbench.undo_label(), Some("measure piece 2 again"));
    assert_eq!(workbench.pieces()[1].steps, two[1].steps);
    assert_eq!(workbench.measurement(), Some(&Measurement::Points(again)));
    workbench.perform(Command::Undo);
    assert_eq!(workbench.pieces(), two);
    workbench.perform(Command::ClearMeasurement);
    assert_eq!((workbench.pieces(), workbench.undo_label()), (&two[..1], Some("put piece 2 away")));
    workbench.perform(Command::Undo);
    assert_eq!(workbench.pieces(), two);
}

#[test]
fn a_piece_of_another_drawing_is_told_and_kept() {
    let mut workbench = workbench();
    workbench.perform(Command::SetMeasurement(Measurement::Points(vertices(&workbench))));
    workbench.perform(Command::Edit(Edit::RemoveVertices([2, 3].map(elbowroom_bending::NodeId::new).to_vec())));
    assert_eq!(job(&workbench).pieces[0].aside, Some(Aside::Bends { bent: 3, drawn: 2 }));
    assert_eq!((workbench.pieces().len(), workbench.ghost()), (1, None));
    workbench.perform(Command::Undo);
    assert_eq!(job(&workbench).pieces[0].aside, None);
}

#[test]
fn a_measurement_that_no_file_can_hold_is_refused() {
    let mut workbench = workbench();
    let mut points = vertices(&workbench);
    points[1].x = f64::NAN;
    workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
    assert!(workbench.pieces().is_empty());
    let said = workbench.screen().message.clone().unwrap();
    assert!(said.kind == MessageKind::Refused && said.text.contains("easured point 2 of piece 1"), "{}", said.text);
}

/// What a person chose lives in the document: a correction that is put aside stays so in the file, and undo takes it back.
#[test]
fn a_correction_put_aside_stays_aside_in_the_file() {
    let mut workbench = workbench();
    let mut points = vertices(&workbench);
    let last = points.len() - 1;
    points[last].z += 6.0;
    workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
    let plan = plan(workbench.part(), workbench.shop()).unwrap();
    assert!(!job(&workbench).put_aside && job(&workbench).planned(&plan).program != plan.program);
    workbench.perform(Command::Edit(Edit::CorrectBy(false)));
    let aside = job(&workbench);
    assert!(aside.put_aside && aside.planned(&plan).program.steps == plan.program.steps);
    let text = write_part(workbench.part());
    assert!(text.contains("as_planned: true"), "{text}");
    assert_eq!(read_part(&text, "system.ron").unwrap(), **workbench.part());
    workbench.perform(Command::Undo);
    assert!(!job(&workbench).put_aside && !write_part(workbench.part()).contains("as_planned"));
}

/// What a person allows lives in the document: file, undo and recovery keep it, and what it leaves open stays usual.
#[test]
fn the_tolerance_is_kept_with_the_tube() {
    let mut workbench = workbench();
    let usual = workbench.tolerance();
    let own = ToleranceChoice::new(None, Some(Length::from_mm(0.75))).unwrap();
    workbench.perform(Command::Edit(Edit::SetTolerance(own)));
    assert!(workbench.unsaved());
    let text = write_part(workbench.part());
    assert!(text.contains("length_mm: 0.75") && !text.contains("angle_deg: 1"), "{text}");
    let again = read_part(&text, "system.ron").unwrap();
    assert_eq!(again, **workbench.part());
    let opened = Workbench::new(again, built_in_shop());
    assert_eq!(opened.tolerance(), Tolerance { length: Length::from_mm(0.75), ..usual });
    // One wild figure in the file is refused by the very guard of the window.
    let wild = text.replacen("length_mm: 0.75", "length_mm: -0.75", 1);
    let said = read_part(&wild, "system.ron").unwrap_err().to_string();
    assert!(said.contains("the tolerance of lengths is -0.75 mm; it must be more than 0 mm"), "{said}");
    workbench.perform(Command::Undo);
    assert_eq!(workbench.tolerance(), usual);
}

/// A doubt can be overruled by who has measured again; the choice is told, undone, kept in the file, and gone with the next
/// measurement of the piece.
#[test]
fn who_has_measured_again_can_stand_by_it() {
    let mut workbench = workbench();
    let mut points = vertices(&workbench);
    points[1].y += 60.0;
    workbench.perform(Command::SetMeasurement(Measurement::Points(points.clone())));
    assert!(doubt(&workbench).is_some() && job(&workbench).rests_on.is_empty() && workbench.ghost().is_none());
    workbench.perform(Command::TakeAsMeasured(0, true));
    assert_eq!(workbench.undo_label(), Some("take piece 1 as measured"));
    let taken = job(&workbench);
    let last = taken.last().unwrap();
    assert!(last.doubt().is_none() && last.overruled.is_some() && last.found.is_some() && workbench.ghost().is_some());
    let said = last.verdict(&workbench.tolerance(), workbench.part().units);
    assert!(said.starts_with("Out of tolerance") && said.contains("measured again and is taken as it is"), "{said}");
    assert_eq!(
        (taken.rests_on.as_slice(), taken.next.correction.as_ref().unwrap().as_measured.as_slice()),
        (&[0][..], &[0][..])
    );
    let text = write_part(workbench.part());
    assert!(text.contains("as_measured: true"), "{text}");
    assert_eq!(read_part(&text, "system.ron").unwrap(), **workbench.part());
    workbench.perform(Command::Undo);
    assert!(doubt(&workbench).is_some() && !write_part(workbench.part()).contains("as_measured"));
    workbench.perform(Command::Redo);
    assert!(doubt(&workbench).is_none());
    workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
    assert!(doubt(&workbench).is_some(), "another measurement is doubted anew");
    workbench.perform(Command::TakeAsMeasured(7, true));
    assert_eq!(workbench.screen().message.as_ref().unwrap().text, "There is no piece 8: 1 was measured.");
}

/// What cannot be compared at all is no matter of standing by it.
#[test]
fn a_point_too_few_stays_doubted_however_often_it_was_measured() {
    let mut workbench = workbench();
    let mut points = vertices(&workbench);
    points.pop();
    workbench.perform(Command::SetMeasurement(Measurement::Points(points)));
    workbench.perform(Command::TakeAsMeasured(0, true));
    assert!(matches!(doubt(&workbench), Some(MeasurementDoubt::Count { .. })));
}
