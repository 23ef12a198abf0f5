//! Rays, and where they meet planes, lines and thick lines.

use elbowroom_geometry::{Point3, Vector3};

/// A ray that is flatter than this to a plane, or straighter along a line, does not meet it usefully: a pixel of
/// pointer would move it by more than a thousand pixels.
const GRAZING: f64 = 1e-3;

/// A ray into the scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ray {
    /// Where it starts, mm.
    pub origin: Point3<f64>,
    /// Its unit direction.
    pub direction: Vector3<f64>,
}

impl Ray {
    /// The point at a distance along the ray, mm.
    pub fn at(&self, distance_mm: f64) -> Point3<f64> {
        self.origin + self.direction * distance_mm
    }

    /// Where it meets the plane through `through`, square to the unit vector `normal`; `None` where it grazes
    /// the plane or has it behind.
    pub fn meets_plane(&self, through: &Point3<f64>, normal: &Vector3<f64>) -> Option<Point3<f64>> {
        let slope = self.direction.dot(normal);
        if slope.abs() < GRAZING {
            return None;
        }
        let distance_mm = (through - self.origin).dot(normal) / slope;
        (distance_mm > 0.0).then(|| self.at(distance_mm))
    }

    /// How far along the line through `through` in the unit direction `along` it comes nearest to the ray, mm;
    /// `None` where ray and line are almost parallel.
    pub fn nearest_on_line(&self, through: &Point3<f64>, along: &Vector3<f64>) -> Option<f64> {
        let cos = self.direction.dot(along);
        let square = 1.0 - cos * cos;
        if square < GRAZING * GRAZING {
            return None;
        }
        let between = through - self.origin;
        Some((cos * between.dot(&self.direction) - between.dot(along)) / square)
    }

    /// Distance along the ray at which it enters the round-ended rod of `radius_mm` from `a` to `b`, mm; `None`
    /// where it misses it or has it behind. (The quadratic of a ray and a cylinder, then of its end spheres;
    /// derived here.)
    pub fn enters_rod(&self, a: &Point3<f64>, b: &Point3<f64>, radius_mm: f64) -> Option<f64> {
        let (axis, from_a) = (b - a, self.origin - a);
        let (length2, along_ray, along_from) = (axis.norm_squared(), axis.dot(&self.direction), axis.dot(&from_a));
        if length2 > 0.0 {
            let u = self.direction - axis * (along_ray / length2);
            let w = from_a - axis * (along_from / length2);
            if let Some(distance_mm) = first_root(u.norm_squared(), u.dot(&w), w.norm_squared() - radius_mm * radius_mm)
            {
                let share = (along_from + distance_mm * along_ray) / length2;
                if (0.0..=1.0).contains(&share) {
                    return (distance_mm > 0.0).then_some(distance_mm);
                }
            }
        }
        let sphere = |centre: &Point3<f64>| {
            let from = self.origin - centre;
            first_root(1.0, from.dot(&self.direction), from.norm_squared() - radius_mm * radius_mm)
        };
        let nearer = [sphere(a), sphere(b)].into_iter().flatten().filter(|distance_mm| *distance_mm > 0.0);
        nearer.min_by(f64::total_cmp)
    }
}

/// The smaller root of a x² + 2 b x + c, where there is one.
fn first_root(a: f64, b: f64, c: f64) -> Option<f64> {
    let square = b * b - a * c;
    (a > 1e-12 && square >= 0.0).then(|| (-b - square.sqrt()) / a)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn down(x: f64, y: f64) -> Ray {
        Ray { origin: Point3::new(x, y, 100.0), direction: -Vector3::z() }
    }

    #[test]
    fn a_ray_enters_a_rod_at_its_skin_and_misses_beyond_its_radius() {
        let (a, b) = (Point3::origin(), Point3::new(50.0, 0.0, 0.0));
        assert_eq!(down(20.0, 0.0).enters_rod(&a, &b, 10.0), Some(90.0));
        let off_axis = down(20.0, 6.0).enters_rod(&a, &b, 10.0).unwrap();
        assert!((off_axis - 92.0).abs() < 1e-9, "6-8-10 triangle: {off_axis}");
        assert_eq!(down(20.0, 10.001).enters_rod(&a, &b, 10.0), None);
        assert_eq!(down(-11.0, 0.0).enters_rod(&a, &b, 10.0), None);
        let behind = Ray { origin: Point3::new(20.0, 0.0, -100.0), direction: -Vector3::z() };
        assert_eq!(behind.enters_rod(&a, &b, 10.0), None);
    }

    #[test]
    fn a_ray_meets_planes_and_lines_but_not_when_it_grazes_them() {
        let through = Point3::new(0.0, 0.0, 30.0);
        assert_eq!(down(3.0, 4.0).meets_plane(&through, &Vector3::z()), Some(Point3::new(3.0, 4.0, 30.0)));
        assert_eq!(down(3.0, 4.0).meets_plane(&through, &Vector3::x()), None);
        assert_eq!(down(3.0, 4.0).nearest_on_line(&through, &Vector3::x()), Some(3.0));
        assert_eq!(down(3.0, 4.0).nearest_on_line(&through, &Vector3::z()), None);
    }
}
