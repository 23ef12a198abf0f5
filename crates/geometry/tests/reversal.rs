//! A path from its other end is the same tube.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use crate::common::frames;
use elbowroom_geometry::{BendPath, Centreline, Length};
use proptest::prelude::*;

proptest! {
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
