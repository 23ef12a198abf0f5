//! From the pointer to a ray into the scene, and from a point in the scene to a place in the window.

use bevy::math::Vec2;
use elbowroom_geometry::Point3;

use super::{Eye, FIELD_OF_VIEW_RAD, Lens};
use crate::SceneArea;
use crate::pick::Ray;

/// The eye together with the part of the window that it looks into.
#[derive(Clone, Copy, Debug)]
pub struct View {
    /// The eye.
    pub eye: Eye,
    /// The scene's part of the window.
    pub area: SceneArea,
}

impl View {
    /// The view, or `None` while the window has no room for a scene.
    pub fn new(eye: &Eye, area: &SceneArea) -> Option<Self> {
        (area.size.x >= 1.0 && area.size.y >= 1.0).then_some(Self { eye: *eye, area: *area })
    }

    /// Whether a place in the window lies in the scene's part of it.
    pub fn has(&self, at: Vec2) -> bool {
        let from = at - self.area.min;
        from.cmpge(Vec2::ZERO).all() && from.cmple(self.area.size).all()
    }

    /// Width over height.
    pub fn aspect(&self) -> f64 {
        f64::from(self.area.size.x) / f64::from(self.area.size.y)
    }

    /// The ray into the scene below a place in the window (logical pixels).
    pub fn ray(&self, at: Vec2) -> Ray {
        let half = self.eye.half_height_mm();
        let share = (at - self.area.min) / self.area.size;
        let x_mm = (2.0 * f64::from(share.x) - 1.0) * half * self.aspect();
        let y_mm = (1.0 - 2.0 * f64::from(share.y)) * half;
        let across = self.eye.right() * x_mm + self.eye.up() * y_mm;
        let back = self.eye.back() * self.eye.distance_mm;
        match self.eye.lens {
            Lens::Perspective => Ray { origin: self.eye.position(), direction: (across - back).normalize() },
            // Starts far behind the eye: in parallel projection nothing lies behind one.
            Lens::Parallel => Ray { origin: self.eye.focus + across + back * 50.0, direction: -self.eye.back() },
        }
    }

    /// Where a point appears in the window (logical pixels), or `None` where it lies behind the eye.
    pub fn project(&self, point: &Point3<f64>) -> Option<Vec2> {
        let mm = self.pixel_mm(point)?;
        let from_axis = point - self.eye.focus;
        let (x, y) = (from_axis.dot(&self.eye.right()) / mm, from_axis.dot(&self.eye.up()) / mm);
        Some(self.area.min + self.area.size / 2.0 + Vec2::new(x as f32, -y as f32))
    }

    /// How many millimetres a logical pixel covers at a point, or `None` where it lies behind the eye.
    pub fn pixel_mm(&self, point: &Point3<f64>) -> Option<f64> {
        let height = f64::from(self.area.size.y);
        let depth_mm = match self.eye.lens {
            Lens::Parallel => self.eye.distance_mm,
            Lens::Perspective => (self.eye.position() - point).dot(&self.eye.back()),
        };
        let mm = 2.0 * depth_mm * (FIELD_OF_VIEW_RAD / 2.0).tan() / height;
        (depth_mm > 1e-3 * self.eye.distance_mm).then_some(mm)
    }

    /// The point below a place in the window, in the plane through `through` that faces the eye.
    pub fn facing(&self, at: Vec2, through: &Point3<f64>) -> Point3<f64> {
        self.ray(at).meets_plane(through, &self.eye.back()).unwrap_or(*through)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_geometry::Vector3;

    use super::*;

    fn view(lens: Lens) -> View {
        let area = SceneArea { min: Vec2::new(100.0, 40.0), size: Vec2::new(900.0, 500.0), ..Default::default() };
        let eye = Eye { focus: Point3::new(1e6, -2e6, 300.0), lens, ..Eye::default() };
        View::new(&eye, &area).unwrap()
    }

    #[test]
    fn a_ray_passes_through_the_point_that_is_drawn_there() {
        for lens in [Lens::Perspective, Lens::Parallel] {
            let view = view(lens);
            for offset in
                [Vector3::new(0.0, 0.0, 0.0), Vector3::new(120.0, -80.0, 200.0), Vector3::new(-300.0, 50.0, 9.0)]
            {
                let point = view.eye.focus + offset;
                let ray = view.ray(view.project(&point).unwrap());
                let missed = (point - ray.origin).cross(&ray.direction).norm();
                // Window places are f32: a ten-thousandth of a pixel is 0.0002 mm here.
                assert!(missed < 1e-2, "{lens:?}: {missed}");
            }
        }
    }

    #[test]
    fn the_middle_of_the_scene_shows_the_focus() {
        let view = view(Lens::Perspective);
        assert!((view.project(&view.eye.focus).unwrap() - Vec2::new(550.0, 290.0)).length() < 1e-3);
    }

    #[test]
    fn zooming_keeps_the_point_below_the_pointer() {
        for lens in [Lens::Perspective, Lens::Parallel] {
            let view = view(lens);
            let point = view.eye.focus + Vector3::new(90.0, 160.0, -40.0);
            let before = view.project(&point).unwrap();
            let after = View { eye: view.eye.zoomed(&point, 0.4), ..view }.project(&point).unwrap();
            assert!((before - after).length() < 1e-2, "{before} {after}");
        }
    }

    #[test]
    fn behind_the_eye_nothing_is_drawn() {
        let view = view(Lens::Perspective);
        assert!(view.project(&(view.eye.position() + view.eye.back())).is_none());
    }
}
