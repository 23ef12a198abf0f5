//! The plane that a flat entity of a drawing lies in, by its normal: the "arbitrary axis" of the published DXF reference (from
//! memory).

use elbowroom_geometry::{Point3, Vector3};

/// A plane's own axes; its third is the normal.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plane {
    axes: [Vector3<f64>; 3],
}

impl Plane {
    /// The plane of a normal; `None` where that has no direction.
    pub fn of(normal: Vector3<f64>) -> Option<Self> {
        const NEAR_Z: f64 = 1.0 / 64.0;
        let normal = normal.try_normalize(0.0).filter(|unit| unit.iter().all(|value| value.is_finite()))?;
        let near = normal.x.abs() < NEAR_Z && normal.y.abs() < NEAR_Z;
        let x = if near { Vector3::y() } else { Vector3::z() }.cross(&normal).try_normalize(0.0)?;
        Some(Self { axes: [x, normal.cross(&x), normal] })
    }

    /// Its normal.
    pub fn normal(&self) -> Vector3<f64> {
        self.axes[2]
    }

    /// A direction in the plane by its angle, radians.
    pub fn direction(&self, angle_rad: f64) -> Vector3<f64> {
        let (sin, cos) = angle_rad.sin_cos();
        self.axes[0] * cos + self.axes[1] * sin
    }

    /// A point that is said in the plane's axes, in space.
    pub fn in_space(&self, x: f64, y: f64, z: f64) -> Point3<f64> {
        Point3::from(self.axes[0] * x + self.axes[1] * y + self.axes[2] * z)
    }

    /// A point or direction of space in the plane's axes.
    pub fn within(&self, of: &Vector3<f64>) -> [f64; 3] {
        self.axes.map(|axis| axis.dot(of))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn there_and_back_is_the_same() {
        for normal in [[0.0, 0.0, 1.0], [0.0, 0.0, -1.0], [1.0, 0.0, 0.0], [0.01, -0.01, 1.0], [0.3, -2.0, 0.7]] {
            let plane = Plane::of(Vector3::from(normal)).unwrap();
            let point = Vector3::new(12.0, -34.0, 56.0);
            let [x, y, z] = plane.within(&point);
            assert!((plane.in_space(x, y, z).coords - point).norm() < 1e-12, "{normal:?}");
            assert!((plane.axes[0].cross(&plane.axes[1]) - plane.normal()).norm() < 1e-12, "{normal:?}");
        }
        // By the reference the x axis of a plane that looks down points to -x.
        assert_eq!(Plane::of(-Vector3::z()).unwrap().axes[0], -Vector3::x());
        assert!(Plane::of(Vector3::zeros()).is_none());
    }
}
