//! In which directions a drag may go, and where the pointer then leads.

use elbowroom_geometry::{Point3, Vector3};

use crate::pick::Ray;

/// How a drag is held. Axes are counted x, y, z from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Constraint {
    /// In the plane that faces the eye.
    #[default]
    Facing,
    /// Along an axis.
    Along(usize),
    /// In the plane square to an axis.
    Across(usize),
    /// Along a line of the tube's own: the handle cannot go anywhere else.
    Sliding(Vector3<f64>),
}

/// The letters of the axes.
const AXES: [&str; 3] = ["x", "y", "z"];

impl Constraint {
    /// What the label calls it, with a space behind.
    pub fn word(self) -> String {
        match self {
            Self::Facing => String::new(),
            Self::Along(axis) => format!("{} ", AXES[axis]),
            Self::Sliding(_) => "along the straight ".to_owned(),
            Self::Across(axis) => format!("{}{} ", AXES[(axis + 1) % 3], AXES[(axis + 2) % 3]),
        }
    }

    /// The coordinates that it leaves free, counted from 0: those that can be typed.
    pub fn free(self) -> &'static [usize] {
        match self {
            Self::Facing => &[0, 1, 2],
            Self::Along(axis) => [&[0], &[1], &[2]][axis.min(2)],
            Self::Across(axis) => [&[1, 2], &[0, 2], &[0, 1]][axis.min(2)],
            Self::Sliding(_) => &[],
        }
    }

    /// The axis it goes along, if it is one.
    pub fn axis(self) -> Option<Vector3<f64>> {
        match self {
            Self::Along(axis) => Some(unit(axis)),
            Self::Sliding(along) => Some(along),
            Self::Facing | Self::Across(_) => None,
        }
    }

    /// The normal of the plane it stays in, if it is one. `back` is the direction to the eye.
    fn normal(self, back: &Vector3<f64>) -> Option<Vector3<f64>> {
        match self {
            Self::Facing => Some(*back),
            Self::Across(axis) => Some(unit(axis)),
            Self::Along(_) | Self::Sliding(_) => None,
        }
    }

    /// How a point moves from `start` when the pointer goes from `press` to `now`. The point keeps its distance
    /// from the pointer, so nothing jumps at the first move. `None` where the pointer says nothing useful, as
    /// when one looks along the axis.
    pub fn moved(self, start: &Point3<f64>, back: &Vector3<f64>, press: &Ray, now: &Ray) -> Option<Point3<f64>> {
        if let Some(axis) = self.axis() {
            let by = now.nearest_on_line(start, &axis)? - press.nearest_on_line(start, &axis)?;
            return Some(start + axis * by);
        }
        let normal = self.normal(back)?;
        Some(start + (now.meets_plane(start, &normal)? - press.meets_plane(start, &normal)?))
    }

    /// Takes out of `by` what the constraint forbids.
    pub fn allowed(self, by: &Vector3<f64>, back: &Vector3<f64>) -> Vector3<f64> {
        match (self.axis(), self.normal(back)) {
            (Some(axis), _) => axis * axis.dot(by),
            (None, Some(normal)) => by - normal * normal.dot(by),
            (None, None) => *by,
        }
    }
}

/// The unit vector of an axis.
pub fn unit(axis: usize) -> Vector3<f64> {
    [Vector3::x(), Vector3::y(), Vector3::z()][axis % 3]
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn ray(x: f64, y: f64) -> Ray {
        Ray { origin: Point3::new(x, y, 1000.0), direction: Vector3::new(0.1, -0.2, -1.0).normalize() }
    }

    #[test]
    fn a_facing_drag_stays_in_the_plane_that_faces_the_eye() {
        let (start, back) = (Point3::new(5.0, 6.0, 7.0), Vector3::new(0.0, 0.6, 0.8));
        let to = Constraint::Facing.moved(&start, &back, &ray(0.0, 0.0), &ray(30.0, 10.0)).unwrap();
        assert!((to - start).dot(&back).abs() < 1e-9);
        assert!((to - start).norm() > 10.0);
    }

    #[test]
    fn held_axes_and_planes_change_only_their_coordinates() {
        let (start, back) = (Point3::new(5.0, 6.0, 7.0), Vector3::new(0.3, 0.4, 0.8).normalize());
        for axis in 0..3 {
            let along = Constraint::Along(axis).moved(&start, &back, &ray(0.0, 100.0), &ray(3.0, 101.0)).unwrap();
            let across = Constraint::Across(axis).moved(&start, &back, &ray(0.0, 100.0), &ray(3.0, 101.0)).unwrap();
            for other in 0..3 {
                assert_eq!((along - start)[other].abs() < 1e-9, other != axis, "along {axis}: {along:?}");
            }
            assert!((across - start)[axis].abs() < 1e-9 && (across - start).norm() > 1.0, "across {axis}");
        }
    }

    #[test]
    fn the_pointer_at_rest_moves_nothing() {
        let (start, back) = (Point3::new(5.0, 6.0, 7.0), Vector3::z());
        for constraint in [Constraint::Facing, Constraint::Along(0), Constraint::Across(2)] {
            assert_eq!(constraint.moved(&start, &back, &ray(1.0, 2.0), &ray(1.0, 2.0)), Some(start));
        }
    }

    #[test]
    fn an_axis_seen_end_on_cannot_be_dragged_along() {
        let down = Ray { origin: Point3::new(0.0, 0.0, 9.0), direction: -Vector3::z() };
        assert_eq!(Constraint::Along(2).moved(&Point3::origin(), &Vector3::z(), &down, &down), None);
    }
}
