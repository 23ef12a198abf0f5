//! From where a view looks.

use elbowroom_geometry::{Point3, Vector3};

/// A place in a view: to the right, upwards, and towards the eye, mm of the tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// To the right.
    pub x: f64,
    /// Upwards.
    pub y: f64,
    /// Towards the eye.
    pub near: f64,
}

/// A view by its directions, unit vectors at right angles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eye {
    /// What points to the right.
    right: Vector3<f64>,
    /// What points upwards.
    up: Vector3<f64>,
    /// What points to the eye.
    back: Vector3<f64>,
    /// What every length in the view is multiplied by.
    stretch: f64,
}

impl Eye {
    /// From the front: x to the right, z up, as the window's view of that name.
    pub fn front() -> Self {
        Self { right: Vector3::x(), up: Vector3::z(), back: -Vector3::y(), stretch: 1.0 }
    }

    /// From the top: x to the right, y up.
    pub fn top() -> Self {
        Self { right: Vector3::x(), up: Vector3::y(), back: Vector3::z(), stretch: 1.0 }
    }

    /// From the left: y to the left, z up.
    pub fn left() -> Self {
        Self { right: -Vector3::y(), up: Vector3::z(), back: -Vector3::x(), stretch: 1.0 }
    }

    /// From the right: y to the right, z up.
    pub fn right() -> Self {
        Self { right: Vector3::y(), up: Vector3::z(), back: Vector3::x(), stretch: 1.0 }
    }

    /// Isometric, from above on the right of the front. It is stretched by √(3/2), so that lengths along the axes are true
    /// (ISO 5456-3, from memory).
    pub fn isometric() -> Self {
        let back = Vector3::new(1.0, -1.0, 1.0).normalize();
        let right = Vector3::new(1.0, 1.0, 0.0).normalize();
        Self { right, up: back.cross(&right), back, stretch: 1.5_f64.sqrt() }
    }

    /// A place as it is seen.
    pub fn seen(&self, point: &Point3<f64>) -> Seen {
        self.turned(&point.coords)
    }

    /// A direction as it is seen.
    pub fn turned(&self, vector: &Vector3<f64>) -> Seen {
        let along = |axis: &Vector3<f64>| axis.dot(vector) * self.stretch;
        Seen { x: along(&self.right), y: along(&self.up), near: along(&self.back) }
    }

    /// A length square to the line of sight as it is seen, mm.
    pub fn length(&self, length_mm: f64) -> f64 {
        length_mm * self.stretch
    }

    /// How far a unit vector points to the eye.
    pub fn towards(&self, vector: &Vector3<f64>) -> f64 {
        self.back.dot(vector)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_isometric_view_shows_the_axes_alike_and_true() {
        let eye = Eye::isometric();
        for axis in [Vector3::x(), Vector3::y(), Vector3::z()] {
            let seen = eye.turned(&(axis * 100.0));
            assert!((seen.x.hypot(seen.y) - 100.0).abs() < 1e-9, "{seen:?}");
        }
        // x runs down to the right, y up to the right, z straight up; 30° to the level.
        let [x, y, z] = [Vector3::x(), Vector3::y(), Vector3::z()].map(|axis| eye.turned(&axis));
        assert!(x.x > 0.0 && (x.y / x.x).atan().to_degrees() + 30.0 < 1e-9, "{x:?}");
        assert!(y.x > 0.0 && ((y.y / y.x).atan().to_degrees() - 30.0).abs() < 1e-9, "{y:?}");
        assert!(z.x.abs() < 1e-12 && z.y > 0.0);
    }

    #[test]
    fn every_view_is_right_handed() {
        for eye in [Eye::front(), Eye::top(), Eye::left(), Eye::right(), Eye::isometric()] {
            assert!((eye.right.cross(&eye.up) - eye.back).norm() < 1e-12, "{eye:?}");
        }
    }
}
