//! The program, replayed through the independent forward model, rebuilds the part: from either end, on a
//! machine of either hand, with springback and stretch.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use elbowroom_bending::Hand;
use elbowroom_bending::forming::springback::SpringbackBasis;
use elbowroom_bending::forward::{MachineError, replay};
use elbowroom_bending::program::{Forming, program};
use elbowroom_bending::rigid_fit::{mirrored_fit, rigid_fit};
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3};
use proptest::prelude::*;

fn rows() -> impl Strategy<Value = Vec<BendRow>> {
    prop::collection::vec((60.0..400.0f64, -180.0..180.0f64, 2.0..150.0f64), 1..14).prop_map(|rows| {
        rows.into_iter()
            .map(|(straight, rotation, angle)| BendRow {
                straight: Length::from_mm(straight),
                rotation: Angle::from_degrees(rotation),
                angle: Angle::from_degrees(angle),
                clr: Length::from_mm(90.5),
            })
            .collect()
    })
}

fn forming(a_deg: f64, b: f64, stretch: f64) -> Forming {
    Forming {
        die_clr: Length::from_mm(90.5),
        line: elbowroom_bending::specimen::line(a_deg, b),
        basis: SpringbackBasis::Trials,
        stretch,
        clamp: Length::from_mm(120.0),
    }
}

/// The vertices of the replayed part, in the order of the drawing.
fn replayed(path: &BendPath, forming: &[Forming], hand: Hand, errors: &[MachineError]) -> Vec<Point3<f64>> {
    let program = program(path, forming, Length::from_mm(35.0), Length::from_mm(80.0)).unwrap();
    replay(&program, hand, errors).vertices().unwrap()
}

proptest! {
    #[test]
    fn replay_rebuilds_the_drawn_vertices(
        rows in rows(), a in 0.0..2.0f64, b in 0.0..0.05f64, stretch in 0.0..0.08f64
    ) {
        let path = BendPath::new(Frame::world(), rows, Length::from_mm(210.0)).unwrap();
        let forming = vec![forming(a, b, stretch); path.rows().len()];
        let drawn = path.to_vertex_form().unwrap();
        for hand in [Hand::Right, Hand::Left] {
            let bent = replayed(&path, &forming, hand, &[]);
            let fit = rigid_fit(drawn.points(), &bent).unwrap();
            prop_assert!(fit.worst_mm < 1e-6, "{hand:?} from the start: {} mm", fit.worst_mm);
            let turned = drawn.reversed();
            let bent = replayed(&turned.to_bend_form().path, &forming, hand, &[]);
            let fit = rigid_fit(turned.points(), &bent).unwrap();
            prop_assert!(fit.worst_mm < 1e-6, "{hand:?} from the finish: {} mm", fit.worst_mm);
        }
    }
}

#[test]
fn a_wrong_rotation_sense_would_be_seen() {
    let row = |straight, rotation, angle| BendRow {
        straight: Length::from_mm(straight),
        rotation: Angle::from_degrees(rotation),
        angle: Angle::from_degrees(angle),
        clr: Length::from_mm(90.5),
    };
    let rows = vec![row(150.0, 0.0, 60.0), row(160.0, 50.0, 40.0), row(170.0, -75.0, 70.0)];
    let path = BendPath::new(Frame::world(), rows, Length::from_mm(200.0)).unwrap();
    let forming = vec![forming(0.5, 0.01, 0.0); 3];
    let mut wrong = program(&path, &forming, Length::ZERO, Length::ZERO).unwrap();
    for step in &mut wrong.steps {
        step.rotation = -step.rotation;
    }
    let bent = replay(&wrong, Hand::Right, &[]).vertices().unwrap();
    let drawn = path.to_vertex_form().unwrap();
    assert!(rigid_fit(drawn.points(), &bent).unwrap().worst_mm > 10.0);
    // It is exactly the mirror image that the wrong sense makes.
    assert!(mirrored_fit(drawn.points(), &bent).unwrap().worst_mm < 1e-6);
}

#[test]
fn the_blank_is_the_marks_and_what_is_left() {
    let path = BendPath::new(
        Frame::world(),
        vec![BendRow {
            straight: Length::from_mm(200.0),
            rotation: Angle::ZERO,
            angle: Angle::from_degrees(90.0),
            clr: Length::from_mm(90.5),
        }],
        Length::from_mm(300.0),
    )
    .unwrap();
    // No springback, no stretch: blank = trims + straights + R θ, by hand.
    let plain = program(&path, &[forming(0.0, 0.0, 0.0)], Length::from_mm(10.0), Length::from_mm(20.0)).unwrap();
    let arc = 90.5 * std::f64::consts::FRAC_PI_2;
    assert!((plain.blank.mm() - (10.0 + 200.0 + arc + 300.0 + 20.0)).abs() < 1e-9);
    assert!((plain.steps[0].mark.mm() - 210.0).abs() < 1e-12);
    // With springback the free radius grows, the straights give way, and the vertex stays.
    let sprung = program(&path, &[forming(2.0, 0.0, 0.0)], Length::ZERO, Length::ZERO).unwrap();
    let free = 90.5 * 92.0 / 90.0;
    assert!((sprung.steps[0].free_clr.mm() - free).abs() < 1e-9);
    assert!((sprung.steps[0].feed.mm() - (200.0 + 90.5 - free)).abs() < 1e-9);
}
