//! From the part's millimetres in `f64` to the scene's in `f32`: the only place where digits are dropped.
//!
//! The scene's origin lies near the tube, so that what is drawn keeps a thousandth of a millimetre however far from the
//! world's origin the tube lies.

use bevy::math::{Mat3, Quat, Vec3};
use bevy::prelude::Resource;
use elbowroom_geometry::{Frame, Point3, Vector3};

/// Where in the world the scene's origin lies, mm.
#[derive(Resource, Clone, Copy, Debug, PartialEq)]
pub struct SceneOrigin(pub Point3<f64>);

impl Default for SceneOrigin {
    fn default() -> Self {
        Self(Point3::origin())
    }
}

impl SceneOrigin {
    /// The origin for a tube that reaches `reach_mm` about `middle`: the old one while it is near enough to keep the
    /// digits, else the middle.
    pub fn for_tube(self, middle: &Point3<f64>, reach_mm: f64) -> Self {
        let far = (middle - self.0).norm();
        if far <= 2.0 * reach_mm + 1e4 { self } else { Self(*middle) }
    }

    /// A point in the scene.
    pub fn point(&self, point: &Point3<f64>) -> Vec3 {
        direction(&(point - self.0))
    }

    /// A point in the scene as an array.
    pub fn point_array(&self, point: &Point3<f64>) -> [f32; 3] {
        self.point(point).to_array()
    }
}

/// A direction or difference in the scene.
pub fn direction(vector: &Vector3<f64>) -> Vec3 {
    Vec3::new(vector.x as f32, vector.y as f32, vector.z as f32)
}

/// The turn that carries x along the frame's tangent, y along its normal and z along its binormal.
pub fn turn(frame: &Frame) -> Quat {
    let axes = [frame.tangent, frame.normal, frame.binormal()].map(|axis| direction(&axis));
    Quat::from_mat3(&Mat3::from_cols(axes[0], axes[1], axes[2])).normalize()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn far_from_the_world_s_origin_the_scene_keeps_its_digits() {
        let middle = Point3::new(8e8, -7e8, 3e8);
        let origin = SceneOrigin::default().for_tube(&middle, 1500.0);
        let placed = origin.point(&(middle + Vector3::new(1234.567, 0.0, -0.001)));
        assert!((placed - Vec3::new(1234.567, 0.0, -0.001)).length() < 1e-3, "{placed}");
    }

    #[test]
    fn the_origin_stays_while_the_tube_is_near() {
        let origin = SceneOrigin::default();
        assert_eq!(origin.for_tube(&Point3::new(900.0, 0.0, 0.0), 500.0), origin);
    }

    #[test]
    fn a_frame_turns_the_axes_onto_itself() {
        let frame = Frame { origin: Point3::origin(), tangent: Vector3::z(), normal: -Vector3::x() };
        assert!((turn(&frame) * Vec3::X - Vec3::Z).length() < 1e-6);
        assert!((turn(&frame) * Vec3::Y + Vec3::X).length() < 1e-6);
    }
}
