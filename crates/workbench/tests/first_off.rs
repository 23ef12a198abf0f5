//! The first-off on the desk: measured, judged against the shown part, drawn as a ghost.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use std::fs;

use elbowroom_bending::Edit;
use elbowroom_bending::first_off::{MeasurementDoubt, Tolerance};
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::plan;
use elbowroom_bending::{End, Hand};
use elbowroom_geometry::{Angle, Length, Point3};
use elbowroom_workbench::file::built_in_shop;
use elbowroom_workbench::{Command, MessageKind, Request, Workbench};

fn workbench() -> Workbench {
    Workbench::new(common::zigzag(), built_in_shop())
}

/// The vertices of the part as it should come off the machine.
fn vertices(workbench: &Workbench) -> Vec<Point3<f64>> {
    let plan = plan(workbench.part(), workbench.shop(), End::Lead, Hand::Right).unwrap();
    plan.program.as_bent.to_vertex_form().unwrap().points().to_vec()
}

fn doubt(workbench: &Workbench) -> Option<MeasurementDoubt> {
    workbench.judged().unwrap().as_ref().as_ref().unwrap().first_off.clone().err()
}

#[test]
fn a_measurement_is_judged_and_follows_the_part() {
    let mut workbench = workbench();
    assert!(workbench.judged().is_none() && workbench.ghost().is_none());
    let revision = workbench.revision();
    workbench.perform(Command::SetMeasurement(Measurement::Vertices(vertices(&workbench))));
    assert!(workbench.revision() > revision);
    let within = |workbench: &Workbench| {
        workbench.judged().unwrap().as_ref().as_ref().unwrap().first_off.as_ref().unwrap().within
    };
    assert!(within(&workbench) && workbench.ghost().is_some());
    // The drawing moves by more than the tolerance, and the same piece is out of it.
    let last = vertices(&workbench).len();
    workbench.perform(Command::Edit(Edit::MoveVertex(last, Point3::new(905.0, 507.0, 200.0))));
    assert!(!within(&workbench));
    workbench.perform(Command::SetTolerance(Some(Tolerance {
        angle: Angle::from_degrees(10.0),
        length: Length::from_mm(40.0),
    })));
    assert!(workbench.tolerance_is_own() && within(&workbench));
    workbench.perform(Command::SetTolerance(None));
    assert!(!within(&workbench));
    workbench.perform(Command::ClearMeasurement);
    assert!(workbench.judged().is_none() && workbench.ghost().is_none());
}

#[test]
fn doubt_is_told_and_draws_no_ghost() {
    let mut workbench = workbench();
    let mut swapped = vertices(&workbench);
    swapped.swap(1, 2);
    workbench.perform(Command::SetMeasurement(Measurement::Vertices(swapped)));
    assert_eq!(doubt(&workbench), Some(MeasurementDoubt::Swapped(1, 2)));
    assert_eq!(workbench.ghost(), None);
    let mut mirrored = vertices(&workbench);
    mirrored.iter_mut().for_each(|point| point.z = -point.z);
    workbench.perform(Command::SetMeasurement(Measurement::Vertices(mirrored)));
    assert_eq!(doubt(&workbench), Some(MeasurementDoubt::Mirrored));
}

#[test]
fn the_ghost_is_magnified_within_bounds() {
    let mut workbench = workbench();
    let mut strayed = vertices(&workbench);
    let last = strayed.len() - 1;
    strayed[last].z += 4.0;
    workbench.perform(Command::SetMeasurement(Measurement::Vertices(strayed)));
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
    let kept = workbench.measurement().cloned();
    fs::write(&file, "x_mm,y_mm,z_mm\n0,0,zero\n").unwrap();
    workbench.perform(Command::OpenMeasurement(file));
    let said = workbench.screen().message.clone().unwrap();
    assert!(said.kind == MessageKind::Refused && said.text.contains("line 2: z is"), "{}", said.text);
    assert_eq!(workbench.measurement().cloned(), kept);
    // Another part has not been measured.
    workbench.perform(Command::OpenDemo("knot".into()));
    assert!(workbench.measurement().is_none());
}

#[test]
fn a_part_without_tooling_says_why_nothing_can_be_judged() {
    let mut workbench = workbench();
    workbench.perform(Command::Edit(Edit::SetClr(0, Length::from_mm(333.0))));
    workbench.perform(Command::SetMeasurement(Measurement::Vertices(vec![Point3::origin(); 3])));
    let judged = workbench.judged().unwrap();
    assert!(judged.as_ref().as_ref().unwrap_err().to_string().contains("bend 1 has no die set"));
}
