//! Where the scene is looked at from, in `f64` and millimetres of the world, so that it holds its precision far from the origin.

use std::f64::consts::{FRAC_PI_2, PI};

use bevy::prelude::Resource;
use elbowroom_geometry::{Point3, Vector3};
use elbowroom_workbench::ViewFrom;

/// Height of the field of view. Narrow enough that tube near the edge of the picture does not look stretched.
pub const FIELD_OF_VIEW_RAD: f64 = 0.6;
/// The nearest and the farthest that one can look from, mm. Nearer than a millimetre there is nothing to see on
/// a tube; the farthest lies beyond the largest coordinate that is accepted.
pub const DISTANCE_MM: (f64, f64) = (1.0, 1e11);

/// How depth is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lens {
    /// What is farther away is smaller.
    #[default]
    Perspective,
    /// Equal lengths are equally long wherever they are.
    Parallel,
}

/// The eye: what it looks at, from where, and through which lens. +z is up.
#[derive(Resource, Clone, Copy, Debug, PartialEq)]
pub struct Eye {
    /// The point that it turns about, in the middle of the picture.
    pub focus: Point3<f64>,
    /// Direction about +z in which the eye stands, seen from the focus; 0 is +x, a quarter turn is +y.
    pub yaw_rad: f64,
    /// How far above the horizon the eye stands, from straight below to straight above.
    pub pitch_rad: f64,
    /// Distance from focus to eye, mm. In parallel projection it sets the scale at the same rate.
    pub distance_mm: f64,
    /// Perspective or parallel.
    pub lens: Lens,
}

impl Default for Eye {
    fn default() -> Self {
        let eye =
            Self { focus: Point3::origin(), yaw_rad: 0.0, pitch_rad: 0.0, distance_mm: 2000.0, lens: Lens::default() };
        // A little lower and more to the side than isometric, so that no two axes lie on one another.
        Self { yaw_rad: (-60.0_f64).to_radians(), pitch_rad: 28.0_f64.to_radians(), ..eye }
    }
}

impl Eye {
    /// The unit direction from focus to eye.
    pub fn back(&self) -> Vector3<f64> {
        let (sin_pitch, cos_pitch) = self.pitch_rad.sin_cos();
        let (sin_yaw, cos_yaw) = self.yaw_rad.sin_cos();
        Vector3::new(cos_pitch * cos_yaw, cos_pitch * sin_yaw, sin_pitch)
    }

    /// The unit direction to the right of the picture.
    pub fn right(&self) -> Vector3<f64> {
        let (sin_yaw, cos_yaw) = self.yaw_rad.sin_cos();
        Vector3::new(-sin_yaw, cos_yaw, 0.0)
    }

    /// The unit direction to the top of the picture.
    pub fn up(&self) -> Vector3<f64> {
        self.back().cross(&self.right())
    }

    /// Where the eye stands.
    pub fn position(&self) -> Point3<f64> {
        self.focus + self.back() * self.distance_mm
    }

    /// Half the height of the picture in the plane through the focus, mm.
    pub fn half_height_mm(&self) -> f64 {
        self.distance_mm * (FIELD_OF_VIEW_RAD / 2.0).tan()
    }

    /// The eye looking from a side, at the same focus and distance.
    pub fn looking_from(self, from: ViewFrom) -> Self {
        let (yaw_rad, pitch_rad) = match from {
            ViewFrom::Front => (-FRAC_PI_2, 0.0),
            ViewFrom::Back => (FRAC_PI_2, 0.0),
            ViewFrom::Left => (PI, 0.0),
            ViewFrom::Right => (0.0, 0.0),
            ViewFrom::Top => (-FRAC_PI_2, FRAC_PI_2),
            ViewFrom::Bottom => (-FRAC_PI_2, -FRAC_PI_2),
            ViewFrom::Isometric => (-FRAC_PI_2 / 2.0, (1.0 / 3.0_f64.sqrt()).asin()),
        };
        Self { yaw_rad, pitch_rad, ..self }
    }

    /// The eye turned about its focus; it never goes over the top.
    pub fn orbited(self, yaw_rad: f64, pitch_rad: f64) -> Self {
        let yaw_rad = (self.yaw_rad + yaw_rad).rem_euclid(2.0 * PI);
        Self { yaw_rad, pitch_rad: (self.pitch_rad + pitch_rad).clamp(-FRAC_PI_2, FRAC_PI_2), ..self }
    }

    /// The eye nearer to (`factor` below 1) or farther from a point that keeps its place in the picture.
    pub fn zoomed(self, about: &Point3<f64>, factor: f64) -> Self {
        let distance_mm = (self.distance_mm * factor).clamp(DISTANCE_MM.0, DISTANCE_MM.1);
        let factor = distance_mm / self.distance_mm;
        Self { focus: about + (self.focus - about) * factor, distance_mm, ..self }
    }

    /// The other lens, with the same scale at the focus.
    pub fn other_lens(self) -> Self {
        let lens = match self.lens {
            Lens::Perspective => Lens::Parallel,
            Lens::Parallel => Lens::Perspective,
        };
        Self { lens, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_view_looks_from_its_side_with_plus_z_or_plus_y_up() {
        let rows = [
            (ViewFrom::Front, -Vector3::y(), Vector3::z(), Vector3::x()),
            (ViewFrom::Back, Vector3::y(), Vector3::z(), -Vector3::x()),
            (ViewFrom::Left, -Vector3::x(), Vector3::z(), -Vector3::y()),
            (ViewFrom::Right, Vector3::x(), Vector3::z(), Vector3::y()),
            (ViewFrom::Top, Vector3::z(), Vector3::y(), Vector3::x()),
            (ViewFrom::Bottom, -Vector3::z(), -Vector3::y(), Vector3::x()),
        ];
        for (from, back, up, right) in rows {
            let eye = Eye::default().looking_from(from);
            assert!((eye.back() - back).norm() < 1e-12, "{from:?} back");
            assert!((eye.up() - up).norm() < 1e-12, "{from:?} up {:?}", eye.up());
            assert!((eye.right() - right).norm() < 1e-12, "{from:?} right");
        }
    }

    #[test]
    fn the_isometric_view_sees_all_axes_at_equal_angles() {
        let back = Eye::default().looking_from(ViewFrom::Isometric).back();
        assert!((back.x - -back.y).abs() < 1e-12 && (back.x - back.z).abs() < 1e-12, "{back:?}");
    }

    #[test]
    fn orbiting_keeps_focus_and_distance_and_stops_at_the_poles() {
        let eye = Eye::default();
        let turned = eye.orbited(1.0, 10.0);
        assert_eq!(turned.focus, eye.focus);
        assert!(((turned.position() - turned.focus).norm() - eye.distance_mm).abs() < 1e-9);
        assert_eq!(turned.pitch_rad, FRAC_PI_2);
    }
}
