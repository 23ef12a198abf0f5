//! The best rigid fit of measured points to a design: least squares, no reflection.

use elbowroom_geometry::{Point3, Vector3};
use nalgebra::{Isometry3, Matrix3, Rotation3, Translation3, UnitQuaternion};

/// A rigid fit.
#[derive(Clone, Debug, PartialEq)]
pub struct RigidFit {
    /// Carries measured points onto the design.
    pub motion: Isometry3<f64>,
    /// Root of the mean squared distance that is left, mm.
    pub rms_mm: f64,
    /// The largest distance that is left, mm.
    pub worst_mm: f64,
}

/// Fits `measured` onto `design`, point by point, by the singular value decomposition of their covariance
/// (Kabsch 1976, from memory), the smallest axis turned where the plain solution would mirror.
///
/// `None` unless both lists are equally long and not empty.
pub fn rigid_fit(design: &[Point3<f64>], measured: &[Point3<f64>]) -> Option<RigidFit> {
    fit(design, measured, false)
}

/// The same, but of the mirror image of `measured`: fits better than [`rigid_fit`] only where a part was
/// measured with an axis the wrong way round. Its motion applies to the mirrored points (x turned over).
pub fn mirrored_fit(design: &[Point3<f64>], measured: &[Point3<f64>]) -> Option<RigidFit> {
    fit(design, measured, true)
}

fn fit(design: &[Point3<f64>], measured: &[Point3<f64>], mirrored: bool) -> Option<RigidFit> {
    if design.len() != measured.len() || design.is_empty() {
        return None;
    }
    let measured: Vec<Point3<f64>> =
        measured.iter().map(|p| if mirrored { Point3::new(-p.x, p.y, p.z) } else { *p }).collect();
    let (to, from) = (centre(design), centre(&measured));
    let mut covariance = Matrix3::zeros();
    for (design, measured) in design.iter().zip(&measured) {
        covariance += (design - to) * (measured - from).transpose();
    }
    let decomposed = covariance.svd(true, true);
    let (mut u, v_t) = (decomposed.u?, decomposed.v_t?);
    if (u * v_t).determinant() < 0.0 {
        // Singular values fall, so the last axis costs least to turn.
        let last = -u.column(2);
        u.set_column(2, &last);
    }
    let rotation = UnitQuaternion::from_rotation_matrix(&Rotation3::from_matrix_unchecked(u * v_t));
    let motion = Isometry3::from_parts(Translation3::from(to.coords - rotation * from.coords), rotation);
    let squares: Vec<f64> = design.iter().zip(&measured).map(|(d, m)| (d - motion * m).norm_squared()).collect();
    let rms_mm = (squares.iter().sum::<f64>() / squares.len() as f64).sqrt();
    let worst_mm = squares.iter().copied().fold(0.0, f64::max).sqrt();
    Some(RigidFit { motion, rms_mm, worst_mm })
}

fn centre(points: &[Point3<f64>]) -> Point3<f64> {
    let sum: Vector3<f64> = points.iter().map(|point| point.coords).sum();
    Point3::from(sum / points.len() as f64)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    fn points() -> impl Strategy<Value = Vec<Point3<f64>>> {
        prop::collection::vec(prop::array::uniform3(-2000.0..2000.0f64), 2..20)
            .prop_map(|points| points.into_iter().map(Point3::from).collect())
    }

    proptest! {
        #[test]
        fn a_moved_copy_fits_exactly(points in points(), turn in prop::array::uniform3(-3.0..3.0f64)) {
            let motion = Isometry3::new(Vector3::new(500.0, -70.0, 9.0), Vector3::from(turn));
            let moved: Vec<_> = points.iter().map(|point| motion * point).collect();
            let fit = rigid_fit(&points, &moved).unwrap();
            prop_assert!(fit.worst_mm < 1e-9 * 1e4, "{}", fit.worst_mm);
            prop_assert!(fit.motion.rotation.to_rotation_matrix().matrix().determinant() > 0.0);
        }

        #[test]
        fn no_small_turn_or_shift_fits_better(
            points in points(), noise in prop::collection::vec(prop::array::uniform3(-3.0..3.0f64), 20),
            nudge in prop::array::uniform6(-1e-3..1e-3f64)
        ) {
            let measured: Vec<_> = points.iter().zip(&noise).map(|(p, n)| p + Vector3::from(*n)).collect();
            let fit = rigid_fit(&points, &measured).unwrap();
            let nudge = Isometry3::new(Vector3::new(nudge[0], nudge[1], nudge[2]) * 1e3, Vector3::new(nudge[3], nudge[4], nudge[5]));
            let other = points.iter().zip(&measured).map(|(d, m)| (d - nudge * fit.motion * m).norm_squared()).sum::<f64>();
            let best = fit.rms_mm.powi(2) * points.len() as f64;
            prop_assert!(best <= other + 1e-6);
        }
    }

    #[test]
    fn a_mirror_image_is_not_fitted_by_mirroring() {
        let design = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [600.0, 300.0, 0.0], [600.0, 500.0, 350.0]].map(Point3::from);
        let mirrored = design.map(|p| Point3::new(p.x, -p.y, p.z));
        assert!(rigid_fit(&design, &mirrored).unwrap().worst_mm > 10.0);
        assert_abs_diff_eq!(mirrored_fit(&design, &mirrored).unwrap().worst_mm, 0.0, epsilon = 1e-9);
    }

    #[test]
    fn lists_of_unequal_length_have_no_fit() {
        assert_eq!(rigid_fit(&[Point3::origin()], &[]), None);
        assert_eq!(rigid_fit(&[], &[]), None);
    }
}
