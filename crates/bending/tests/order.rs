//! The order of bending belongs to the part: from the finish everything still speaks of the drawing.
#![allow(clippy::unwrap_used)]

use elbowroom_bending::compare::compare;
use elbowroom_bending::plan::plan;
use elbowroom_bending::specimen::{self, row};
use elbowroom_bending::{Edit, End, Part, Solved, solve};
use elbowroom_geometry::Angle;
use proptest::prelude::*;

fn from_finish(part: &Part) -> Part {
    Edit::BendFrom(End::Finish).applied_to(part).unwrap()
}

fn swapped(part: &Part) -> Part {
    Edit::SwapEnds.applied_to(part).unwrap()
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6
}

/// What solving the drawing from its finish gives, against the drawing turned round and solved from its start.
fn agree(part: &Part) -> Result<(), TestCaseError> {
    let shop = specimen::shop();
    let (mine, turned): (Solved, Solved) = (solve(&from_finish(part), &shop), solve(&swapped(part), &shop));
    let (length_mm, bends) = (turned.developed_length_mm, turned.bends.len());
    prop_assert!(mine.straights_mm.iter().rev().zip(&turned.straights_mm).all(|(a, b)| near(*a, *b)));
    prop_assert_eq!([mine.tail_trim_mm, mine.lead_trim_mm], [turned.lead_trim_mm, turned.tail_trim_mm]);
    prop_assert_eq!(mine.cut.map(|cut| cut.blank_mm), turned.cut.map(|cut| cut.blank_mm));
    for (index, (drawn, made)) in mine.bends.iter().zip(turned.bends.iter().rev()).enumerate() {
        prop_assert!(near(drawn.ends_at_mm(), length_mm - made.starts_at_mm));
        prop_assert!(near(drawn.angle_rad, made.angle_rad) && near(drawn.straight_ahead_mm, made.straight_ahead_mm));
        let before = turned.bend_before(bends - 1 - index).map(|before| bends - 1 - before);
        prop_assert_eq!(mine.bend_before(index), before);
        prop_assert_eq!(drawn.clamp.is_some(), made.clamp.is_some());
        if let (Some(drawn), Some(made)) = (drawn.clamp, made.clamp) {
            prop_assert!(near(drawn.from_mm, length_mm - made.to_mm) && near(drawn.to_mm, length_mm - made.from_mm));
            prop_assert_eq!(drawn.bite_mm, made.bite_mm);
        }
        let seam = |bend: &elbowroom_bending::SolvedBend| bend.formed.and_then(|formed| formed.seam_at_rad);
        if let (Some(drawn), Some(made)) = (seam(drawn), seam(made)) {
            prop_assert!((drawn + made).sin().abs() < 1e-9 && (drawn + made).cos() > 0.0, "{drawn} {made}");
        }
    }
    let faults = |solved: &Solved, turn: bool| {
        let place = |bend: Option<usize>| bend.map(|bend| if turn { bends - 1 - bend } else { bend });
        let mut faults: Vec<_> =
            solved.findings.iter().map(|one| (one.fault, one.severity, place(one.place.bend))).collect();
        faults.sort();
        faults
    };
    prop_assert_eq!(faults(&mine, false), faults(&turned, true));
    prop_assert_eq!(mine.verdict.severity, turned.verdict.severity);
    Ok(())
}

proptest! {
    #[test]
    fn from_the_finish_is_the_drawing_turned_round(
        rows in prop::collection::vec(
            (prop_oneof![Just(0.0), Just(60.0), Just(125.0), 0.0..400.0f64],
             prop_oneof![Just(0.0), Just(30.0), Just(45.0), Just(90.0), Just(180.0), -180.0..180.0f64],
             prop_oneof![Just(0.0), Just(30.0), Just(45.0), Just(90.0), Just(180.0), 0.5..185.0f64]), 0..6),
        tail in prop_oneof![Just(0.0), Just(125.0), 0.0..400.0f64],
        pinned in proptest::option::of(prop_oneof![Just(0.0), Just(90.0), -180.0..180.0f64])
    ) {
        let rows = rows.into_iter().map(|(straight, rotation, angle)| row(straight, rotation, angle)).collect();
        let mut part = specimen::part(rows, tail).unwrap();
        part.tooling.seam_start = pinned.map(Angle::from_degrees);
        agree(&part)?;
    }
}

#[test]
fn a_tooling_row_from_the_finish_keeps_the_drawing_and_gives_the_program_it_promised() {
    let shop = specimen::shop();
    let part = specimen::part(vec![row(300.0, 0.0, 10.0), row(200.0, 40.0, 90.0)], 94.3).unwrap();
    for tooling in compare(&part, &shop).rows.iter().filter(|one| one.changed_clr.is_none()) {
        let taken = tooling.edit.applied_to(&part).unwrap();
        assert_eq!((&taken.path, taken.tooling.from), (&part.path, tooling.from), "only swapping ends swaps");
        let program = plan(&taken, &shop, taken.tooling.from, taken.tooling.hand_in(&shop)).unwrap().program;
        let wanted = if tooling.from == End::Finish { 90.0 } else { 10.0 };
        assert!((program.steps[0].free_angle.degrees() - wanted).abs() < 1e-6);
        assert!(
            program.lead_trim.mm() >= tooling.lead_trim_mm
                && near(solve(&taken, &shop).trims_in_order_mm()[0], tooling.lead_trim_mm)
        );
    }
    let with_125 = |one: &&elbowroom_bending::compare::Tooling| one.from == End::Finish && one.clamp.mm() == 125.0;
    let row = compare(&part, &shop).rows.into_iter().find(|one| with_125(&one) && one.changed_clr.is_none()).unwrap();
    assert!((row.lead_trim_mm - 30.7).abs() < 0.01, "{}", row.lead_trim_mm);
}

#[test]
fn swapping_ends_keeps_a_pinned_seam_where_it_is_on_the_tube() {
    let rows = vec![row(300.0, 25.0, 0.0), row(200.0, 35.0, 90.0), row(200.0, 70.0, 60.0), row(100.0, 20.0, 0.0)];
    let mut part = specimen::part(rows, 400.0).unwrap();
    part.tooling.seam_start = Some(Angle::from_degrees(10.0));
    let pinned = |part: &Part| part.tooling.seam_start.unwrap().degrees();
    // Bend 1 at 10, bend 2 at 80; from the other side that is -80 at what is then the first.
    assert!(near(pinned(&swapped(&part)), -80.0), "{}", pinned(&swapped(&part)));
    assert!(near(pinned(&swapped(&swapped(&part))), 10.0));
}
