//! Changes to a path: what they keep.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{frames, path, vertices};
use elbowroom_geometry::{BendPath, Centreline, Length, Point3};
use proptest::prelude::*;

fn zigzag() -> elbowroom_geometry::VertexPath {
    // The third vertex lies on the line and carries no bend.
    vertices(
        &[[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0, 150.0, 0.0], [300.0, 300.0, 0.0], [600.0, 300.0, 100.0]],
        50.0,
    )
}

#[test]
fn vertices_are_moved_added_and_removed() {
    let part = zigzag();
    let moved = part.with_vertex_moved(1, Point3::new(310.0, 5.0, 0.0)).unwrap();
    assert_eq!(moved.points()[1], Point3::new(310.0, 5.0, 0.0));
    assert_eq!(moved.points()[2..], part.points()[2..]);
    let added = part.with_vertex_inserted(0, Point3::new(100.0, 20.0, 0.0), Length::from_mm(70.0)).unwrap();
    assert_eq!((added.points().len(), added.clr()[0].mm(), added.clr()[1].mm()), (6, 70.0, 50.0));
    assert_eq!(added.without_vertices(&[1]).unwrap(), part);
    let fewer = part.without_vertices(&[0, 4, 4]).unwrap();
    assert_eq!((fewer.points(), fewer.clr().len()), (&part.points()[1..4], 1));
    assert_eq!(part.with_clr(2, Length::from_mm(33.0)).unwrap().clr()[1].mm(), 33.0);
}

#[test]
fn what_is_not_there_is_refused() {
    let part = zigzag();
    assert!(part.with_vertex_moved(5, Point3::origin()).is_err());
    assert!(part.with_vertex_moved(0, Point3::new(f64::NAN, 0.0, 0.0)).is_err());
    assert!(part.with_vertex_inserted(4, Point3::origin(), Length::ZERO).is_err());
    assert!(part.without_vertices(&[7]).is_err());
    assert!(part.without_vertices(&[0, 1, 2, 3]).is_err());
    assert!(part.with_clr(0, Length::ZERO).is_err());
    assert!(part.with_clr(4, Length::ZERO).is_err());
    assert!(part.with_straight(3, Length::ZERO).is_err());
    assert!(part.with_straight(1, Length::from_mm(-1000.0)).unwrap_err().to_string().contains("more than"));
    assert!(part.with_straight(1, Length::from_mm(f64::NAN)).is_err());
    assert!(vertices(&[], 0.0).with_straight(0, Length::ZERO).is_err());
    assert!(path(&[], 1.0).with_straight(1, Length::ZERO).is_err());
}

#[test]
fn a_straight_in_vertex_form_takes_its_length() {
    let part = zigzag();
    for straight in 0..3 {
        let changed = part.with_straight(straight, Length::from_mm(123.0)).unwrap();
        let form = changed.to_bend_form();
        let now = form.path.rows().get(straight).map_or(form.path.tail(), |r| r.straight).mm();
        assert!((now - 123.0).abs() < 1e-9, "straight {straight} is {now}");
        let old = part.to_bend_form().path;
        for (a, b) in form.path.rows().iter().zip(old.rows()) {
            assert!((a.angle - b.angle).radians().abs() < 1e-12);
        }
    }
    // The vertex on the line keeps its share.
    let changed = part.with_straight(1, Length::from_mm(500.0)).unwrap();
    let form = changed.to_bend_form();
    assert_eq!(form.vertex_of_bend, part.to_bend_form().vertex_of_bend);
}

proptest! {
    #[test]
    fn everything_beyond_a_straight_moves_parallel(
        start in frames(), rows in common::rows(1..9, 50.0..300.0, 1.0..=200.0), which in 0usize..9, length in 1.0..500.0f64,
    ) {
        let part = BendPath::new(start, rows, Length::from_mm(50.0)).unwrap();
        let straight = which % (part.rows().len() + 1);
        let changed = part.with_straight(straight, Length::from_mm(length)).unwrap();
        let (old, new) = (Centreline::of(&part), Centreline::of(&changed));
        let element = old.straight(straight).unwrap();
        let shift = element.start.tangent * (length - element.length_mm);
        for (index, (a, b)) in old.elements().iter().zip(new.elements()).enumerate() {
            let expected = if index > 2 * straight { shift } else { shift * 0.0 };
            prop_assert!((b.start.origin - a.start.origin - expected).norm() < 1e-8);
            prop_assert!((b.start.tangent - a.start.tangent).norm() < 1e-12);
        }
    }

    /// The reversed path is the same curve, backwards, and reversing it again gives the path.
    #[test]
    fn reversal_keeps_the_curve(start in frames(), rows in common::rows(0..9, -20.0..300.0, 0.0..=200.0)) {
        let part = BendPath::new(start, rows, Length::from_mm(50.0)).unwrap();
        let back = part.reversed();
        let (old, new) = (Centreline::of(&part), Centreline::of(&back));
        prop_assert!((old.length_mm() - new.length_mm()).abs() < 1e-9);
        let count = old.elements().len();
        for (index, element) in new.elements().iter().enumerate() {
            let other = old.elements()[count - 1 - index];
            prop_assert!((element.start.origin - other.end().origin).norm() < 1e-8);
            prop_assert!((element.turned(0.5).origin - other.turned(0.5).origin).norm() < 1e-8);
        }
        let again = back.reversed();
        prop_assert!((again.start().origin - part.start().origin).norm() < 1e-8);
        for (a, b) in again.rows().iter().zip(part.rows()) {
            prop_assert_eq!(a, b);
        }
    }
}
