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
    /// The lens for looking freely, to which the eye goes back when it leaves one of the six sides.
    pub free_lens: Lens,
}

/// The six sides, of which each is seen as a drawing shows it.
const SIDES: [ViewFrom; 6] =
    [ViewFrom::Front, ViewFrom::Back, ViewFrom::Left, ViewFrom::Right, ViewFrom::Top, ViewFrom::Bottom];

/// Yaw and pitch of the eye that looks from a side, rad.
fn direction_of(from: ViewFrom) -> (f64, f64) {
    match from {
        ViewFrom::Front => (-FRAC_PI_2, 0.0),
        ViewFrom::Back => (FRAC_PI_2, 0.0),
        ViewFrom::Left => (PI, 0.0),
        ViewFrom::Right => (0.0, 0.0),
        ViewFrom::Top => (-FRAC_PI_2, FRAC_PI_2),
        ViewFrom::Bottom => (-FRAC_PI_2, -FRAC_PI_2),
        ViewFrom::Isometric => (-FRAC_PI_2 / 2.0, (1.0 / 3.0_f64.sqrt()).asin()),
    }
}

impl Default for Eye {
    fn default() -> Self {
        let eye = Self {
            focus: Point3::origin(),
            yaw_rad: 0.0,
            pitch_rad: 0.0,
            distance_mm: 2000.0,
            lens: Lens::default(),
            free_lens: Lens::default(),
        };
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

    /// The eye looking from a side, at the same focus and distance. The six sides are seen in parallel.
    pub fn looking_from(self, from: ViewFrom) -> Self {
        let (yaw_rad, pitch_rad) = direction_of(from);
        let lens = if SIDES.contains(&from) { Lens::Parallel } else { self.free_lens };
        Self { yaw_rad, pitch_rad, lens, ..self }
    }

    /// The side that it looks from, where it looks just so.
    pub fn from(&self) -> Option<ViewFrom> {
        let mut all = SIDES.into_iter().chain([ViewFrom::Isometric]);
        all.find(|from| direction_of(*from) == (self.yaw_rad, self.pitch_rad))
    }

    /// The side whose plane is the picture: one of the six, seen in parallel.
    pub fn side(&self) -> Option<ViewFrom> {
        self.from().filter(|from| self.lens == Lens::Parallel && SIDES.contains(from))
    }

    /// The eye turned about its focus; it never goes over the top. Turned away from a side it looks freely again.
    pub fn orbited(self, yaw_rad: f64, pitch_rad: f64) -> Self {
        let yaw_rad = (self.yaw_rad + yaw_rad).rem_euclid(2.0 * PI);
        let pitch_rad = (self.pitch_rad + pitch_rad).clamp(-FRAC_PI_2, FRAC_PI_2);
        Self { yaw_rad, pitch_rad, lens: self.free_lens, ..self }
    }

    /// The eye nearer to (`factor` below 1) or farther from a point that keeps its place in the picture.
    pub fn zoomed(self, about: &Point3<f64>, factor: f64) -> Self {
        let distance_mm = (self.distance_mm * factor).clamp(DISTANCE_MM.0, DISTANCE_MM.1);
        let factor = distance_mm / self.distance_mm;
        Self { focus: about + (self.focus - about) * factor, distance_mm, ..self }
    }

    /// The other lens, with the same scale at the focus; it is that for looking freely from then on.
    pub fn other_lens(self) -> Self {
        let lens = match self.lens {
            Lens::Perspective => Lens::Parallel,
            Lens::Parallel => Lens::Perspective,
        };
        Self { lens, free_lens: lens, ..self }
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
    fn the_six_sides_are_parallel_and_turning_away_from_one_is_looking_freely_again() {
        let free = Eye::default();
        for from in SIDES {
            let side = free.looking_from(from);
            assert_eq!((side.lens, side.side(), side.from()), (Lens::Parallel, Some(from), Some(from)));
            let away = side.orbited(0.01, 0.0);
            assert_eq!((away.lens, away.side()), (Lens::Perspective, None), "{from:?}");
        }
        let corner = free.looking_from(ViewFrom::Top).looking_from(ViewFrom::Isometric);
        assert_eq!((corner.lens, corner.from(), corner.side()), (Lens::Perspective, Some(ViewFrom::Isometric), None));
        // Who looks freely in parallel goes on doing so.
        let parallel = free.other_lens().looking_from(ViewFrom::Left).orbited(0.2, 0.1);
        assert_eq!(parallel.lens, Lens::Parallel);
        assert_eq!(free.from(), None);
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
