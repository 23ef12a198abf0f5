//! Arrow keys move what is selected by a step of the grid that is seen, along the axes of the world that lie most in their
//! direction in the picture.

use elbowroom_geometry::Vector3;

use crate::camera::Eye;
use crate::mirror::seen_step_mm;

/// With a key held a step is this share of one.
const FINE: f64 = 0.1;

/// How far a press of an arrow key moves what is selected, mm: so many steps to the right and up in the picture.
pub fn nudge(eye: &Eye, right: i8, up: i8, fine: bool) -> Vector3<f64> {
    let step_mm = seen_step_mm(eye.distance_mm) * if fine { FINE } else { 1.0 };
    let [across, upward] = axes(eye);
    (across * f64::from(right) + upward * f64::from(up)) * step_mm
}

/// The unit directions along the world's axes that lead most to the right and most up in the picture.
fn axes(eye: &Eye) -> [Vector3<f64>; 2] {
    let all = [Vector3::x(), Vector3::y(), Vector3::z()];
    let most = |direction: Vector3<f64>, but: Option<usize>| {
        let others = (0..3).filter(|axis| Some(*axis) != but);
        let along = |axis: usize| direction.dot(&all[axis]);
        let axis = others.max_by(|a, b| along(*a).abs().total_cmp(&along(*b).abs())).unwrap_or(0);
        (axis, all[axis] * along(axis).signum())
    };
    // Up leads along z unless one looks along it: of a free view that is what a hand expects.
    let (vertical, upward) = most(eye.up(), None);
    let (_, across) = most(eye.right(), Some(vertical));
    [across, upward]
}

#[cfg(test)]
mod tests {
    use elbowroom_workbench::ViewFrom;

    use super::*;

    #[test]
    fn arrows_lead_where_they_point_in_every_view() {
        let rows = [
            (ViewFrom::Front, Vector3::x(), Vector3::z()),
            (ViewFrom::Back, -Vector3::x(), Vector3::z()),
            (ViewFrom::Left, -Vector3::y(), Vector3::z()),
            (ViewFrom::Right, Vector3::y(), Vector3::z()),
            (ViewFrom::Top, Vector3::x(), Vector3::y()),
            (ViewFrom::Bottom, Vector3::x(), -Vector3::y()),
        ];
        for (from, right, up) in rows {
            let eye = Eye { distance_mm: 240.0, ..Eye::default() }.looking_from(from);
            assert_eq!(nudge(&eye, 1, 0, false), right * 10.0, "{from:?}");
            assert_eq!(nudge(&eye, 0, -1, true), up * -1.0, "{from:?}");
        }
    }

    #[test]
    fn freely_seen_they_move_along_two_different_axes() {
        for turn in 0..40 {
            let eye = Eye::default().orbited(f64::from(turn) * 0.16, f64::from(turn % 7) * 0.1);
            let (right, up) = (nudge(&eye, 1, 0, false), nudge(&eye, 0, 1, false));
            assert!(right.dot(&up) == 0.0 && right.dot(&eye.right()) > 0.0 && up.dot(&eye.up()) > 0.0);
        }
    }
}
