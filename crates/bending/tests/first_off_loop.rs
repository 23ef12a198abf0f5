//! The first-off corrected: a straying machine, one correction, a part that is at least ten times nearer;
//! and measurements that are wrong are told, not followed.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use elbowroom_bending::Hand;
use elbowroom_bending::first_off::{MeasurementDoubt, Tolerance, compare, corrected};
use elbowroom_bending::forming::springback::{SpringbackBasis, SpringbackLine};
use elbowroom_bending::forward::{MachineError, replay};
use elbowroom_bending::program::{Forming, Program, program};
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3};
use proptest::prelude::*;

fn forming() -> Forming {
    Forming {
        die_clr: Length::from_mm(90.5),
        line: SpringbackLine { a: Angle::from_degrees(0.8), b: 0.02 },
        basis: SpringbackBasis::Trials,
        stretch: 0.03,
        clamp: Length::from_mm(120.0),
    }
}

fn programmed(rows: &[(f64, f64, f64)]) -> Program {
    let rows: Vec<BendRow> = rows
        .iter()
        .map(|&(straight, rotation, angle)| BendRow {
            straight: Length::from_mm(straight),
            rotation: Angle::from_degrees(rotation),
            angle: Angle::from_degrees(angle),
            clr: Length::from_mm(90.5),
        })
        .collect();
    let forming = vec![forming(); rows.len()];
    let path = BendPath::new(Frame::world(), rows, Length::from_mm(250.0)).unwrap();
    program(&path, &forming, Length::from_mm(20.0), Length::from_mm(60.0)).unwrap()
}

fn usual() -> Program {
    programmed(&[(180.0, 0.0, 60.0), (160.0, 50.0, 40.0), (220.0, -75.0, 70.0), (190.0, 110.0, 35.0)])
}

fn measured(program: &Program, errors: &[MachineError]) -> Vec<Point3<f64>> {
    replay(program, Hand::Right, errors).vertices().unwrap()
}

fn worst(offs: &[f64]) -> f64 {
    offs.iter().copied().fold(0.0, f64::max)
}

fn error() -> impl Strategy<Value = MachineError> {
    (-1.5..1.5f64, -1.5..1.5f64, -2.0..2.0f64).prop_map(|(set, rotation, feed)| MachineError {
        set_angle: Angle::from_degrees(set),
        rotation: Angle::from_degrees(rotation),
        feed: Length::from_mm(feed),
    })
}

proptest! {
    #[test]
    fn one_correction_brings_the_part_ten_times_nearer(
        rows in prop::collection::vec((80.0..300.0f64, -180.0..180.0f64, 10.0..120.0f64), 2..9),
        errors in prop::collection::vec(error(), 9)
    ) {
        let first = programmed(&rows);
        let found = compare(&first.as_bent, &measured(&first, &errors)).unwrap();
        let before = worst(&found.vertex_off_mm);
        prop_assume!(before > 0.5);
        let second = corrected(&first, &found);
        let after = worst(&compare(&first.as_bent, &measured(&second, &errors)).unwrap().vertex_off_mm);
        prop_assert!(after * 10.0 <= before, "{before} mm before, {after} mm after");
    }
}

#[test]
fn blank_that_bends_took_up_otherwise_is_mended_in_the_blank() {
    let told = usual();
    let mut real = told.clone();
    for step in &mut real.steps {
        step.forming.stretch = 0.05;
    }
    let found = compare(&told.as_bent, &measured(&real, &[])).unwrap();
    let saved: f64 = told.steps.iter().map(|step| 90.5 * step.set_angle.radians() * 0.02).sum();
    assert!((corrected(&told, &found).blank.mm() - (told.blank.mm() - saved)).abs() < 1e-6);
}

#[test]
fn a_perfect_part_is_left_alone() {
    let program = usual();
    let found = compare(&program.as_bent, &measured(&program, &[])).unwrap();
    assert!(worst(&found.vertex_off_mm) < 1e-6);
    assert!(found.within(&Tolerance::usual(4, Length::from_mm(60.3))));
    let next = corrected(&program, &found);
    for (before, after) in program.steps.iter().zip(&next.steps) {
        assert!((before.set_angle - after.set_angle).degrees().abs() < 1e-9);
        assert!((before.feed - after.feed).mm().abs() < 1e-6);
    }
}

#[test]
fn a_part_out_of_tolerance_is_said_to_be() {
    // ±1.5° on a part of several bends up to 2.5 in, ±2° above: a fabricator's published design procedure.
    let program = usual();
    let mut errors = vec![MachineError::default(); 4];
    errors[1].set_angle = Angle::from_degrees(1.8);
    let found = compare(&program.as_bent, &measured(&program, &errors)).unwrap();
    let loose = Tolerance { length: Length::from_mm(50.0), ..Tolerance::usual(4, Length::from_mm(76.2)) };
    let tight = Tolerance { length: Length::from_mm(50.0), ..Tolerance::usual(4, Length::from_mm(60.3)) };
    assert!(found.within(&loose) && !found.within(&tight));
}

#[test]
fn wrong_measurements_are_told() {
    let program = usual();
    let right = measured(&program, &[MachineError { feed: Length::from_mm(1.0), ..MachineError::default() }]);
    let told = |points: &[Point3<f64>]| compare(&program.as_bent, points).unwrap_err();

    let mut swapped = right.clone();
    swapped.swap(2, 3);
    assert_eq!(told(&swapped), MeasurementDoubt::Swapped(2, 3));

    let mut missing = right.clone();
    missing.remove(2);
    assert_eq!(told(&missing), MeasurementDoubt::Count { design: 6, measured: 5, missing: Some(2) });

    let mirrored: Vec<_> = right.iter().map(|p| Point3::new(p.x, p.y, -p.z)).collect();
    assert_eq!(told(&mirrored), MeasurementDoubt::Mirrored);

    let mut turned = right.clone();
    turned.reverse();
    assert_eq!(told(&turned), MeasurementDoubt::FromTheOtherEnd);

    let mut odd = right.clone();
    odd[3].x += 900.0;
    assert!(matches!(told(&odd), MeasurementDoubt::NotThisPart { .. }));

    let mut hole = right;
    hole[1].y = f64::NAN;
    assert_eq!(told(&hole), MeasurementDoubt::NotANumber(1));
}
