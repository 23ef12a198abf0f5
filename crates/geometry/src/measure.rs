//! How far two points, lines or planes are from each other, and at which angle they lie.

use crate::{Angle, Point3, Vector3};

/// Two directions of length 1 whose sine is no more than this are parallel, and square where their cosine is: what is
/// typed to a millionth of a degree is told apart from it.
const SAME_WAY: f64 = 1e-9;

/// Something that is measured from or to. Directions have length 1; lines and planes have no end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Datum {
    /// A point, mm.
    Point(Point3<f64>),
    /// A line through a point, mm, along a direction.
    Line(Point3<f64>, Vector3<f64>),
    /// A plane through a point, mm, square to a direction.
    Plane(Point3<f64>, Vector3<f64>),
}

/// What lies between two of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Between {
    /// The point of the first that is nearest to the second, mm; of many that are, the one nearest to where the first is
    /// given.
    pub from: Point3<f64>,
    /// The point of the second that is nearest to the first, mm.
    pub to: Point3<f64>,
    /// The angle from 0 to 90° between two that have a direction: between lines, between planes, or between a line and a
    /// plane.
    pub angle: Option<Angle>,
}

impl Between {
    /// The least distance, mm; 0 where they meet.
    pub fn distance_mm(&self) -> f64 {
        (self.to - self.from).norm()
    }

    /// From the first to the second along x, y and z, mm.
    pub fn along(&self) -> Vector3<f64> {
        self.to - self.from
    }

    fn turned(self) -> Self {
        Self { from: self.to, to: self.from, angle: self.angle }
    }
}

/// What lies between two data. Schoolbook vector geometry: feet of perpendiculars, and for two lines their common
/// perpendicular (derived here: the points where `(p + s·a) − (q + t·b)` is square to both directions).
pub fn between(first: &Datum, second: &Datum) -> Between {
    use Datum::{Line, Plane, Point};
    match (first, second) {
        (Point(from), Point(to)) => Between { from: *from, to: *to, angle: None },
        (Point(point), Line(through, along)) => Between { from: *point, to: foot(point, through, along), angle: None },
        (Point(point), Plane(through, normal)) => {
            Between { from: *point, to: sunk(point, through, normal), angle: None }
        }
        (Line(p, a), Line(q, b)) => lines(p, a, q, b),
        (Line(p, a), Plane(q, normal)) => {
            let rise = a.dot(normal);
            let angle = Some(acute(rise.abs().asin()));
            if rise.abs() <= SAME_WAY {
                return Between { from: *p, to: sunk(p, q, normal), angle };
            }
            let meet = p + a * ((q - p).dot(normal) / rise);
            Between { from: meet, to: meet, angle }
        }
        (Plane(p, m), Plane(q, n)) => {
            let across = m.cross(n);
            let angle = Some(acute(across.norm().min(1.0).asin()));
            if across.norm() <= SAME_WAY {
                return Between { from: *p, to: sunk(p, q, n), angle };
            }
            // Down the first plane until the second is met.
            let down = across.cross(m).normalize();
            let meet = p + down * ((q - p).dot(n) / down.dot(n));
            Between { from: meet, to: meet, angle }
        }
        (Line(..), Point(_)) | (Plane(..), Point(_) | Line(..)) => between(second, first).turned(),
    }
}

/// The foot of the perpendicular from a point to a line.
fn foot(point: &Point3<f64>, through: &Point3<f64>, along: &Vector3<f64>) -> Point3<f64> {
    through + along * (point - through).dot(along)
}

/// The foot of the perpendicular from a point to a plane.
fn sunk(point: &Point3<f64>, through: &Point3<f64>, normal: &Vector3<f64>) -> Point3<f64> {
    point - normal * (point - through).dot(normal)
}

fn lines(p: &Point3<f64>, a: &Vector3<f64>, q: &Point3<f64>, b: &Vector3<f64>) -> Between {
    let across = a.cross(b);
    let sine = across.norm().min(1.0);
    let angle = Some(acute(sine.atan2(a.dot(b).abs())));
    if sine <= SAME_WAY {
        return Between { from: *p, to: foot(p, q, b), angle };
    }
    let apart = q - p;
    let square = across.norm_squared();
    let from = p + a * (apart.cross(b).dot(&across) / square);
    let to = q + b * (apart.cross(a).dot(&across) / square);
    Between { from, to, angle }
}

/// An angle between 0 and 90°, rounding aside.
fn acute(radians: f64) -> Angle {
    Angle::from_radians(radians.clamp(0.0, std::f64::consts::FRAC_PI_2))
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    use super::*;

    fn point(x: f64, y: f64, z: f64) -> Point3<f64> {
        Point3::new(x, y, z)
    }

    /// Distances worked out by hand: 3-4-5 and 5-12-13 triangles, and lines on the faces of a box.
    #[test]
    fn what_can_be_worked_out_by_hand() {
        let (x, y, z) = (Vector3::x(), Vector3::y(), Vector3::z());
        let o = Point3::origin();
        let cases = [
            (Datum::Point(o), Datum::Point(point(3.0, 4.0, 12.0)), 13.0, None),
            (Datum::Point(point(7.0, 3.0, 4.0)), Datum::Line(o, x), 5.0, None),
            (Datum::Point(point(7.0, 3.0, -4.0)), Datum::Plane(o, z), 4.0, None),
            (Datum::Plane(point(0.0, 0.0, 10.0), z), Datum::Point(point(7.0, 3.0, 4.0)), 6.0, None),
            // Skew edges of a box, 40 apart; then two that cross.
            (Datum::Line(o, x), Datum::Line(point(9.0, 9.0, 40.0), y), 40.0, Some(90.0)),
            (Datum::Line(o, x), Datum::Line(point(9.0, 0.0, 0.0), (x + y).normalize()), 0.0, Some(45.0)),
            (Datum::Line(o, x), Datum::Line(point(0.0, 5.0, 12.0), -x), 13.0, Some(0.0)),
            (Datum::Line(point(0.0, 0.0, 8.0), x), Datum::Plane(o, z), 8.0, Some(0.0)),
            (Datum::Line(point(0.0, 0.0, 8.0), z), Datum::Plane(o, z), 0.0, Some(90.0)),
            (Datum::Plane(o, z), Datum::Line(point(0.0, 0.0, 8.0), (x + z).normalize()), 0.0, Some(45.0)),
            (Datum::Plane(o, z), Datum::Plane(point(1.0, 2.0, -30.0), -z), 30.0, Some(0.0)),
            (Datum::Plane(o, z), Datum::Plane(point(1.0, 2.0, -30.0), (y + z).normalize()), 0.0, Some(45.0)),
        ];
        for (first, second, distance_mm, angle_deg) in cases {
            for found in [between(&first, &second), between(&second, &first)] {
                assert_abs_diff_eq!(found.distance_mm(), distance_mm, epsilon = 1e-9);
                assert_eq!(found.angle.is_some(), angle_deg.is_some());
                let (found_deg, wanted_deg) =
                    (found.angle.map_or(0.0, |angle| angle.degrees()), angle_deg.unwrap_or(0.0));
                assert_abs_diff_eq!(found_deg, wanted_deg, epsilon = 1e-9);
            }
        }
        let found = between(&Datum::Point(point(1.0, 2.0, 3.0)), &Datum::Point(point(2.0, 4.0, 6.0)));
        assert_eq!(found.along(), Vector3::new(1.0, 2.0, 3.0));
    }

    fn a_point() -> impl Strategy<Value = Point3<f64>> {
        (-900.0..900.0f64, -900.0..900.0f64, -900.0..900.0f64).prop_map(|(x, y, z)| Point3::new(x, y, z))
    }

    fn a_direction() -> impl Strategy<Value = Vector3<f64>> {
        let any = (-1.0..1.0f64, -1.0..1.0f64, -1.0..1.0f64).prop_map(|(x, y, z)| Vector3::new(x, y, z));
        any.prop_filter_map("a direction has a length", |towards| towards.try_normalize(0.1))
    }

    fn a_datum() -> impl Strategy<Value = Datum> {
        prop_oneof![
            a_point().prop_map(Datum::Point),
            (a_point(), a_direction()).prop_map(|(through, along)| Datum::Line(through, along)),
            (a_point(), a_direction()).prop_map(|(through, normal)| Datum::Plane(through, normal)),
        ]
    }

    /// How far a point is off a datum, mm.
    fn off_mm(datum: &Datum, point: &Point3<f64>) -> f64 {
        match datum {
            Datum::Point(there) => (point - there).norm(),
            Datum::Line(through, along) => (point - through).cross(along).norm(),
            Datum::Plane(through, normal) => (point - through).dot(normal).abs(),
        }
    }

    /// Another point of a datum.
    fn slid(datum: &Datum, point: &Point3<f64>, by: Vector3<f64>) -> Point3<f64> {
        match datum {
            Datum::Point(there) => *there,
            Datum::Line(_, along) => point + along * along.dot(&by),
            Datum::Plane(_, normal) => point + (by - normal * normal.dot(&by)),
        }
    }

    proptest! {
        #[test]
        fn both_points_lie_on_what_they_are_of_and_no_others_are_nearer(
            first in a_datum(), second in a_datum(), one in a_point(), other in a_point()
        ) {
            let found = between(&first, &second);
            // Nearly parallel ones meet far away, where rounding is more.
            let far = 1.0 + found.from.coords.norm() * 1e-3;
            prop_assert!(off_mm(&first, &found.from) < 1e-6 * far && off_mm(&second, &found.to) < 1e-6 * far, "{found:?}");
            let (from, to) = (slid(&first, &found.from, one.coords), slid(&second, &found.to, other.coords));
            prop_assert!((to - from).norm() >= found.distance_mm() - 1e-6 * far, "{found:?}");
            let back = between(&second, &first);
            prop_assert!((back.distance_mm() - found.distance_mm()).abs() < 1e-6 * far);
        }
    }
}
