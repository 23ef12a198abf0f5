//! Which straight or arc lies under the pointer: the ray against the centreline, thick as the tube. Thousands of
//! triangles need not be searched for that.

use elbowroom_geometry::{Centreline, Element, ElementKind, Point3};

use super::Ray;

/// Step along an arc, rad. The chord leaves the arc by 0.4 ‰ of the radius at most: less than a pixel.
const STEP_RAD: f64 = 0.055;

/// A place on the tube under the pointer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeHit {
    /// The element: even numbers are straights, odd ones arcs.
    pub element: usize,
    /// The station of the nearest point of the centreline, mm along the tube.
    pub station_mm: f64,
    /// That point.
    pub on_centreline: Point3<f64>,
    /// How far along the ray its skin is met, mm.
    pub distance_mm: f64,
}

/// The first straight or arc that the ray meets.
pub fn pick_tube(ray: &Ray, centreline: &Centreline, radius_mm: f64) -> Option<TubeHit> {
    let mut best: Option<TubeHit> = None;
    for (index, element) in centreline.elements().iter().enumerate() {
        if !may_meet(ray, element, radius_mm) {
            continue;
        }
        let steps = match element.kind {
            ElementKind::Straight => 1,
            ElementKind::Arc { angle_rad, .. } => (angle_rad / STEP_RAD).ceil().max(1.0) as usize,
        };
        let mut before = element.start.origin;
        for step in 1..=steps {
            let after = element.turned(step as f64 / steps as f64).origin;
            let Some(distance_mm) = ray.enters_rod(&before, &after, radius_mm) else {
                before = after;
                continue;
            };
            if best.is_none_or(|best| distance_mm < best.distance_mm) {
                let chord = after - before;
                let share = (ray.at(distance_mm) - before).dot(&chord) / chord.norm_squared().max(f64::MIN_POSITIVE);
                let share = ((step - 1) as f64 + share.clamp(0.0, 1.0)) / steps as f64;
                best = Some(TubeHit {
                    element: index,
                    station_mm: element.from_mm + element.length_mm * share,
                    on_centreline: element.turned(share).origin,
                    distance_mm,
                });
            }
            before = after;
        }
    }
    best
}

/// Whether the ray passes near enough to look closer. Negative straights have no skin.
fn may_meet(ray: &Ray, element: &Element, radius_mm: f64) -> bool {
    if element.length_mm < 0.0 {
        return false;
    }
    let (middle, reach_mm) = match element.kind {
        ElementKind::Straight => (element.turned(0.5).origin, element.length_mm / 2.0),
        ElementKind::Arc { radius_mm: clr_mm, .. } => {
            let to_centre = element.start.origin + element.start.normal * clr_mm;
            (to_centre, clr_mm)
        }
    };
    let from = middle - ray.origin;
    let near = from.cross(&ray.direction).norm() <= (reach_mm + radius_mm) * (1.0 + 1e-9);
    near && from.dot(&ray.direction) >= -(reach_mm + radius_mm)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Vector3};

    use super::*;

    /// 200 mm along +x, a quarter turn of CLR 100 towards +y, 100 mm along +y.
    fn elbow() -> Centreline {
        let row = BendRow {
            straight: Length::from_mm(200.0),
            rotation: Angle::ZERO,
            angle: Angle::from_degrees(90.0),
            clr: Length::from_mm(100.0),
        };
        Centreline::of(&BendPath::new(Frame::world(), vec![row], Length::from_mm(100.0)).unwrap())
    }

    fn down(x: f64, y: f64) -> Ray {
        Ray { origin: Point3::new(x, y, 500.0), direction: -Vector3::z() }
    }

    #[test]
    fn a_ray_finds_straight_arc_and_tail_within_half_the_diameter() {
        let tube = elbow();
        let hit = pick_tube(&down(50.0, 20.0), &tube, 25.0).unwrap();
        assert_eq!((hit.element, hit.station_mm), (0, 50.0));
        assert!((hit.distance_mm - (500.0 - 15.0)).abs() < 1e-9);
        let diagonal = 100.0 * std::f64::consts::FRAC_1_SQRT_2;
        let hit = pick_tube(&down(200.0 + diagonal, 100.0 - diagonal), &tube, 25.0).unwrap();
        assert_eq!(hit.element, 1);
        assert!((hit.station_mm - (200.0 + 50.0 * std::f64::consts::FRAC_PI_2)).abs() < 0.1, "{}", hit.station_mm);
        assert_eq!(pick_tube(&down(320.0, 150.0), &tube, 25.0).unwrap().element, 2);
    }

    #[test]
    fn a_ray_just_beyond_the_skin_finds_nothing() {
        let tube = elbow();
        assert_eq!(pick_tube(&down(50.0, 25.01), &tube, 25.0), None);
        assert_eq!(pick_tube(&down(200.0, 100.0), &tube, 25.0), None, "the centre of the arc is no tube");
    }

    #[test]
    fn the_nearer_tube_wins() {
        let row = |straight: f64, angle: f64| BendRow {
            straight: Length::from_mm(straight),
            rotation: Angle::ZERO,
            angle: Angle::from_degrees(angle),
            clr: Length::from_mm(60.0),
        };
        let start = Frame { normal: Vector3::z(), ..Frame::world() };
        let tube = Centreline::of(&BendPath::new(start, vec![row(300.0, 180.0)], Length::from_mm(300.0)).unwrap());
        assert_eq!(pick_tube(&down(100.0, 0.0), &tube, 25.0).unwrap().element, 2, "the upper leg of the U");
        let up = Ray { origin: Point3::new(100.0, 0.0, -500.0), direction: Vector3::z() };
        assert_eq!(pick_tube(&up, &tube, 25.0).unwrap().element, 0);
    }
}
