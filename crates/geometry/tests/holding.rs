//! Keeping places where they are.

use approx::assert_abs_diff_eq;
use elbowroom_geometry::{
    Angle, BendPath, BendRow, Centreline, Figure, Frame, Freedom, Length, PathPlace, Pinned, Point3,
};
use proptest::prelude::*;

fn row(straight_mm: f64, rotation_deg: f64, angle_deg: f64) -> BendRow {
    let (rotation, angle) = (Angle::from_degrees(rotation_deg), Angle::from_degrees(angle_deg));
    BendRow { straight: Length::from_mm(straight_mm), rotation, angle, clr: Length::from_mm(90.0) }
}

fn path(rows: Vec<BendRow>, tail_mm: f64) -> BendPath {
    BendPath::new(Frame::world(), rows, Length::from_mm(tail_mm)).unwrap()
}

fn with_straight(path: &BendPath, index: usize, by_mm: f64) -> BendPath {
    let mut rows = path.rows().to_vec();
    rows[index].straight += Length::from_mm(by_mm);
    BendPath::new(*path.start(), rows, path.tail()).unwrap()
}

fn straights(path: &BendPath) -> Vec<f64> {
    path.rows().iter().map(|row| row.straight.mm()).chain([path.tail().mm()]).collect()
}

fn fixed(figures: &[Figure]) -> Freedom<'_> {
    Freedom { figures, moves: false, turns: false }
}

/// The finish as it lies in a path.
fn finish(path: &BendPath) -> Pinned {
    path.pinned_as_it_is(PathPlace::Finish).unwrap()
}

// By hand: legs along x, y, x. What the first gains the last gives up, and the one across stays.
#[test]
fn a_parallel_leg_takes_up_what_another_gains() {
    let before = path(vec![row(200.0, 0.0, 90.0), row(300.0, 180.0, 90.0)], 250.0);
    let longer = with_straight(&before, 0, 20.0);
    let kept = longer.keeping(&[finish(&before)], &fixed(&[Figure::Straight(1), Figure::Straight(2)])).unwrap();
    let after = straights(&kept);
    assert_eq!(after[0], 220.0);
    assert_abs_diff_eq!(after[1], 300.0, epsilon = 1e-9);
    assert_abs_diff_eq!(after[2], 230.0, epsilon = 1e-9);
    assert_eq!(kept.rows()[0].angle, before.rows()[0].angle);
}

// By hand: of two parallel legs each takes half, since that is the least.
#[test]
fn of_two_parallel_legs_each_takes_half() {
    let rows = vec![row(200.0, 0.0, 90.0), row(300.0, 180.0, 90.0), row(200.0, 180.0, 90.0), row(300.0, 0.0, 90.0)];
    let before = path(rows, 250.0);
    let longer = with_straight(&before, 0, 20.0);
    let figures = [1, 2, 3, 4].map(Figure::Straight);
    let after = straights(&longer.keeping(&[finish(&before)], &fixed(&figures)).unwrap());
    // Legs 1 and 3 run along +x, leg 5 along -x.
    let expected = [220.0, 300.0, 190.0, 300.0, 260.0];
    for (after, expected) in after.iter().zip(expected) {
        assert_abs_diff_eq!(*after, expected, epsilon = 1e-8);
    }
}

#[test]
fn nothing_is_found_where_nothing_can_give() {
    let before = path(vec![row(200.0, 0.0, 90.0), row(300.0, 180.0, 90.0)], 250.0);
    let longer = with_straight(&before, 0, 20.0);
    assert_eq!(longer.keeping(&[finish(&before)], &fixed(&[])), None);
    // Only a leg across is free.
    assert_eq!(longer.keeping(&[finish(&before)], &fixed(&[Figure::Straight(1)])), None);
    // The last leg would have to be 10 mm less than nothing.
    let far = with_straight(&before, 0, 260.0);
    assert_eq!(far.keeping(&[finish(&before)], &fixed(&[Figure::Straight(1), Figure::Straight(2)])), None);
    // Nothing has to be found where all lies where it should.
    assert_eq!(before.keeping(&[finish(&before)], &fixed(&[])), Some(before.clone()));
}

#[test]
fn the_whole_moves_back_where_only_the_finish_is_pinned() {
    let before = path(vec![row(200.0, 0.0, 90.0), row(300.0, 90.0, 45.0)], 250.0);
    let mut rows = before.rows().to_vec();
    rows[1].angle = Angle::from_degrees(60.0);
    let turned = BendPath::new(*before.start(), rows, before.tail()).unwrap();
    let freedom = Freedom { figures: &[], moves: true, turns: true };
    let kept = turned.keeping(&[finish(&before)], &freedom).unwrap();
    assert_eq!(kept.rows(), turned.rows());
    let (end, was) = (Centreline::of(&kept).end(), Centreline::of(&before).end());
    assert_abs_diff_eq!(end.origin, was.origin, epsilon = 1e-6);
    assert_abs_diff_eq!(end.tangent, was.tangent, epsilon = 1e-9);
    assert!((kept.start().origin - before.start().origin).norm() > 50.0);
}

#[test]
fn a_bend_of_half_a_turn_is_held_by_the_middle_of_its_arc() {
    let before = path(vec![row(200.0, 0.0, 180.0), row(300.0, 90.0, 45.0)], 250.0);
    let middle = before.pinned_as_it_is(PathPlace::Bend(0)).unwrap();
    assert_abs_diff_eq!(middle.point.unwrap(), Point3::new(290.0, 90.0, 0.0), epsilon = 1e-9);
    assert_eq!(before.pinned_as_it_is(PathPlace::Bend(2)), None);
    let moved = with_straight(&before, 0, 30.0);
    let freedom = Freedom { figures: &[], moves: true, turns: false };
    let kept = moved.keeping(&[middle], &freedom).unwrap();
    assert_abs_diff_eq!(kept.start().origin, Point3::new(-30.0, 0.0, 0.0), epsilon = 1e-9);
}

#[test]
fn a_vertex_and_both_directions_can_be_pinned() {
    let before = path(vec![row(200.0, 0.0, 60.0), row(300.0, 90.0, 45.0), row(200.0, -60.0, 80.0)], 250.0);
    let wanted = before.pinned_as_it_is(PathPlace::Bend(1)).unwrap();
    let mut rows = before.rows().to_vec();
    rows[0].angle = Angle::from_degrees(65.0);
    let bent = BendPath::new(*before.start(), rows, before.tail()).unwrap();
    let all = [0, 1, 2].map(Figure::Straight).into_iter();
    let all = all.chain([1, 2].map(Figure::Angle)).chain([0, 1, 2].map(Figure::Rotation)).collect::<Vec<_>>();
    let freedom = Freedom { figures: &all, moves: true, turns: true };
    let kept = bent.keeping(&[wanted], &freedom).unwrap();
    let there = kept.pinned_as_it_is(PathPlace::Bend(1)).unwrap();
    assert_abs_diff_eq!(there.point.unwrap(), wanted.point.unwrap(), epsilon = 1e-7);
    assert_abs_diff_eq!(there.into.unwrap(), wanted.into.unwrap(), epsilon = 1e-9);
    assert_abs_diff_eq!(there.out_of.unwrap(), wanted.out_of.unwrap(), epsilon = 1e-9);
    assert_eq!(kept.rows()[0].angle, bent.rows()[0].angle);
}

fn any_path() -> impl Strategy<Value = BendPath> {
    let row = (60.0..400.0, prop_oneof![Just(0.0), Just(90.0), Just(180.0), -180.0..180.0], {
        prop_oneof![Just(30.0), Just(45.0), Just(90.0), 10.0..140.0]
    });
    let rows = proptest::collection::vec(row, 5..9);
    (rows, 100.0..400.0).prop_map(|(rows, tail_mm)| {
        path(rows.into_iter().map(|(straight, rotation, angle)| row_of(straight, rotation, angle)).collect(), tail_mm)
    })
}

fn row_of(straight_mm: f64, rotation_deg: f64, angle_deg: f64) -> BendRow {
    row(straight_mm, rotation_deg, angle_deg)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Whatever was changed by a little, the rest keeps the finish, and what was changed stays changed.
    #[test]
    fn the_finish_is_kept(before in any_path(), at in 0usize..5, by_mm in -15.0..15.0f64, by_deg in -3.0..3.0f64) {
        let mut rows = before.rows().to_vec();
        rows[at].straight += Length::from_mm(by_mm);
        rows[at].angle += Angle::from_degrees(by_deg);
        let changed = BendPath::new(*before.start(), rows, before.tail()).unwrap();
        let free: Vec<Figure> = (0..before.rows().len())
            .flat_map(|bend| [Figure::Straight(bend), Figure::Rotation(bend), Figure::Angle(bend)])
            .filter(|figure| *figure != Figure::Straight(at) && *figure != Figure::Angle(at))
            .chain([Figure::Straight(before.rows().len())])
            .collect();
        // A path all in one line of joints may have no way; those drawn here have one all but always.
        let kept = changed.keeping(&[finish(&before)], &fixed(&free));
        if let Some(kept) = kept {
            let (end, was) = (Centreline::of(&kept).end(), Centreline::of(&before).end());
            prop_assert!((end.origin - was.origin).norm() < 1e-7);
            prop_assert!((end.tangent - was.tangent).norm() < 1e-9);
            prop_assert_eq!(kept.rows()[at].straight, changed.rows()[at].straight);
            prop_assert_eq!(kept.rows()[at].angle, changed.rows()[at].angle);
            prop_assert_eq!(kept.start().origin, before.start().origin);
            prop_assert!((kept.start().tangent - before.start().tangent).norm() < 1e-12);
            prop_assert!(straights(&kept).iter().all(|straight_mm| *straight_mm >= -1e-9));
        }
    }
}

/// How often a way is found among paths that people draw.
#[test]
fn a_way_is_found_for_nearly_every_small_change() {
    use proptest::strategy::ValueTree;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut found, all) = (0, 200);
    for _ in 0..all {
        let before = any_path().new_tree(&mut runner).unwrap().current();
        let changed = with_straight(&before, 2, 10.0);
        let free: Vec<Figure> = (0..before.rows().len())
            .flat_map(|bend| [Figure::Straight(bend), Figure::Rotation(bend), Figure::Angle(bend)])
            .filter(|figure| *figure != Figure::Straight(2))
            .chain([Figure::Straight(before.rows().len())])
            .collect();
        found += usize::from(changed.keeping(&[finish(&before)], &fixed(&free)).is_some());
    }
    assert!(found * 100 >= all * 97, "{found} of {all}");
}
