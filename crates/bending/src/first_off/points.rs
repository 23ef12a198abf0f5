//! A tube as the points that are measured on it, and back.

use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3, Vector3};

/// From this bend angle on a bend is measured by two points, where its arc begins and where it ends.
///
/// The point where its straights would meet moves by R/(2 cos²(θ/2)) a radian: at 150° that is 12 mm a
/// degree on a radius of 90 mm, and it lies 3.7 radii away; towards half a turn it is nowhere. Derived here.
pub const BY_ARC_ENDS_FROM: Angle = Angle::from_degrees(150.0);

/// Two points nearer than this have no direction between them, mm.
const COINCIDENT_MM: f64 = 1e-6;
/// A point that turns the tube by less carries no bend, radians.
const COLLINEAR_RAD: f64 = 1e-6;

/// What a measured point is. Bends are counted from 0 in the order of the path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// The lead end.
    LeadEnd,
    /// Where the middles of a bend's straights would meet.
    Vertex(usize),
    /// Where the arc of a bend begins.
    ArcStart(usize),
    /// Where the arc of a bend ends.
    ArcEnd(usize),
    /// The tail end.
    TailEnd,
}

impl Spot {
    /// What it is called; `number` is what the drawing calls a bend.
    pub fn name(self, number: impl Fn(usize) -> usize) -> String {
        match self {
            Self::LeadEnd => "start".to_owned(),
            Self::Vertex(bend) => format!("bend {}", number(bend)),
            Self::ArcStart(bend) => format!("bend {} begins", number(bend)),
            Self::ArcEnd(bend) => format!("bend {} ends", number(bend)),
            Self::TailEnd => "finish".to_owned(),
        }
    }

    /// The bend that begins or turns here.
    pub(super) const fn bend(self) -> Option<usize> {
        match self {
            Self::Vertex(bend) | Self::ArcStart(bend) => Some(bend),
            Self::LeadEnd | Self::ArcEnd(_) | Self::TailEnd => None,
        }
    }
}

/// Which bends of a path are measured by two points.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    by_arc_ends: Vec<bool>,
}

impl Layout {
    /// The usual one: two points from [`BY_ARC_ENDS_FROM`] on.
    pub fn usual(angles: impl IntoIterator<Item = Angle>) -> Self {
        Self { by_arc_ends: angles.into_iter().map(|angle| angle >= BY_ARC_ENDS_FROM).collect() }
    }

    /// The one with so many points: of the bends that may have two, those that turn furthest do. `None` where
    /// it can hold no such number, since bends without a vertex need two.
    pub fn holding(points: usize, angles: &[Angle]) -> Option<Self> {
        let extra = points.checked_sub(angles.len() + 2)?;
        let mut widest: Vec<usize> = (0..angles.len()).filter(|&bend| angles[bend] >= BY_ARC_ENDS_FROM).collect();
        let needed = angles.iter().filter(|angle| **angle > BendPath::LARGEST_VERTEX_ANGLE).count();
        if extra < needed || extra > widest.len() {
            return None;
        }
        widest.sort_by(|a, b| angles[*b].radians().total_cmp(&angles[*a].radians()));
        let mut by_arc_ends = vec![false; angles.len()];
        for bend in &widest[..extra] {
            by_arc_ends[*bend] = true;
        }
        Some(Self { by_arc_ends })
    }

    /// What each point is, in the order of the path.
    pub fn spots(&self) -> Vec<Spot> {
        let of_bend = |(bend, by_arc_ends): (usize, &bool)| match by_arc_ends {
            true => vec![Spot::ArcStart(bend), Spot::ArcEnd(bend)],
            false => vec![Spot::Vertex(bend)],
        };
        let bends = self.by_arc_ends.iter().enumerate().flat_map(of_bend);
        std::iter::once(Spot::LeadEnd).chain(bends).chain([Spot::TailEnd]).collect()
    }

    /// How many points it has.
    pub fn points(&self) -> usize {
        self.by_arc_ends.len() + 2 + self.by_arc_ends.iter().filter(|two| **two).count()
    }
}

/// The points of a path. `None` where a bend that is to have a vertex has none.
pub fn points_of(path: &BendPath, layout: &Layout) -> Option<Vec<Point3<f64>>> {
    let mut points = Vec::with_capacity(layout.points());
    let mut frame = *path.start();
    points.push(frame.origin);
    for (row, by_arc_ends) in path.rows().iter().zip(&layout.by_arc_ends) {
        let arc_start = frame.advanced(row.straight.mm()).rolled(row.rotation.radians());
        frame = arc_start.bent(row.clr.mm(), row.angle.radians());
        if *by_arc_ends {
            points.extend([arc_start.origin, frame.origin]);
        } else if row.angle <= BendPath::LARGEST_VERTEX_ANGLE {
            points.push(arc_start.advanced(row.tangent_mm()).origin);
        } else {
            return None;
        }
    }
    points.push(frame.advanced(path.tail().mm()).origin);
    Some(points)
}

/// The path through points; `radius` gives the radius of a bend with a vertex from its index and angle. The
/// radius of a bend with two points is that of its chord.
///
/// The plane of a bend with two points is that of the chord and its legs: half a turn has parallel legs,
/// which have no plane of their own. `None` where points coincide, a vertex turns nothing or turns back on
/// itself, or there are not as many points as the layout has.
pub fn path_of(points: &[Point3<f64>], layout: &Layout, radius: impl Fn(usize, Angle) -> Length) -> Option<BendPath> {
    if points.len() != layout.points() {
        return None;
    }
    // Each bend as the points at which its legs end; legs run from one bend's second to the next one's first.
    let mut ends: Vec<[&Point3<f64>; 2]> = vec![[&points[0]; 2]];
    let mut rest = points[1..].iter();
    for by_arc_ends in &layout.by_arc_ends {
        let first = rest.next()?;
        ends.push([first, if *by_arc_ends { rest.next()? } else { first }]);
    }
    ends.push([rest.next()?; 2]);
    let mut lengths = Vec::with_capacity(ends.len());
    let mut directions: Vec<Vector3<f64>> = Vec::with_capacity(ends.len());
    for pair in ends.windows(2) {
        let leg = pair[1][0] - pair[0][1];
        lengths.push(leg.norm());
        directions.push(leg.try_normalize(COINCIDENT_MM)?);
    }
    let mut rows: Vec<BendRow> = Vec::with_capacity(layout.by_arc_ends.len());
    let mut last: Option<Vector3<f64>> = None;
    let mut first_axis = None;
    let mut taken = Length::ZERO;
    for (bend, by_arc_ends) in layout.by_arc_ends.iter().enumerate() {
        let (before, after) = (&directions[bend], &directions[bend + 1]);
        let chord = ends[bend + 1][1] - ends[bend + 1][0];
        let (axis, angle, clr, tangent) = if *by_arc_ends {
            let axis = chord.cross(&(after - before)).try_normalize(COINCIDENT_MM * COINCIDENT_MM)?;
            let turned = before.cross(after).dot(&axis).atan2(before.dot(after)).rem_euclid(std::f64::consts::TAU);
            let clr = Length::from_mm(chord.norm() / (2.0 * (turned / 2.0).sin()));
            (axis, Angle::from_radians(turned), clr, Length::ZERO)
        } else {
            let axis = before.cross(after);
            let angle = axis.norm().atan2(before.dot(after));
            if angle < COLLINEAR_RAD || std::f64::consts::PI - angle < COLLINEAR_RAD {
                return None;
            }
            let clr = radius(bend, Angle::from_radians(angle));
            (axis.normalize(), Angle::from_radians(angle), clr, clr * (angle / 2.0).tan())
        };
        rows.push(BendRow {
            straight: Length::from_mm(lengths[bend]) - taken - tangent,
            rotation: last.map_or(Angle::ZERO, |last| rotation(&last, &axis, before)),
            angle,
            clr,
        });
        taken = tangent;
        first_axis = first_axis.or(Some(axis));
        last = Some(axis);
    }
    let tail = Length::from_mm(lengths[lengths.len() - 1]) - taken;
    let tangent = directions[0];
    let normal = first_axis.map_or_else(|| tangent.yzx(), |axis| axis.cross(&tangent));
    BendPath::new(Frame::along(points[0], tangent, normal)?, rows, tail).ok()
}

/// The rotation about the unit vector `along` from one bend axis to the next, positive clockwise looking
/// along it (G02).
fn rotation(first: &Vector3<f64>, second: &Vector3<f64>, along: &Vector3<f64>) -> Angle {
    Angle::from_radians(first.cross(second).dot(along).atan2(first.dot(second)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen::row_at;
    use proptest::prelude::*;

    fn angles(degrees: &[f64]) -> Vec<Angle> {
        degrees.iter().copied().map(Angle::from_degrees).collect()
    }

    proptest! {
        /// U-bends of 170° to 190° among others: the points give every number of the path back.
        #[test]
        fn points_give_the_path_back(
            rows in prop::collection::vec((5.0..400.0f64, -179.0..179.0f64, prop_oneof![5.0..149.0f64, 170.0..190.0f64], 40.0..150.0f64), 1..8),
            tail in 5.0..400.0f64
        ) {
            let rows: Vec<BendRow> = rows.iter().map(|&(s, r, a, clr)| row_at(s, r, a, clr)).collect();
            let path = BendPath::new(Frame::world(), rows, Length::from_mm(tail)).unwrap();
            let layout = Layout::usual(path.rows().iter().map(|row| row.angle));
            let points = points_of(&path, &layout).unwrap();
            prop_assert_eq!(points.len(), layout.points());
            prop_assert_eq!(points.len(), layout.spots().len());
            let back = path_of(&points, &layout, |bend, _| path.rows()[bend].clr).unwrap();
            for (was, is) in path.rows().iter().zip(back.rows()) {
                prop_assert!((was.straight - is.straight).abs().mm() < 1e-6);
                prop_assert!((was.clr - is.clr).abs().mm() < 1e-6);
                prop_assert!((was.angle - is.angle).abs().degrees() < 1e-7);
                prop_assert!((was.rotation - is.rotation).abs().degrees() < 1e-7);
            }
            prop_assert!((path.tail() - back.tail()).abs().mm() < 1e-6);
        }
    }

    #[test]
    fn a_layout_is_found_for_a_number_of_points() {
        let bends = angles(&[90.0, 155.0, 180.0]);
        assert_eq!(Layout::usual(bends.clone()).points(), 7);
        assert_eq!(Layout::holding(7, &bends), Some(Layout::usual(bends.clone())));
        // The bend of 155° may as well be given by its vertex, that of 180° cannot.
        let six = Layout::holding(6, &bends).unwrap();
        assert_eq!(six.spots()[2..5], [Spot::Vertex(1), Spot::ArcStart(2), Spot::ArcEnd(2)]);
        for points in [0, 4, 5, 8] {
            assert_eq!(Layout::holding(points, &bends), None, "{points}");
        }
    }

    #[test]
    fn what_makes_no_tube_is_none() {
        let layout = Layout::usual(angles(&[90.0]));
        let of = |points: &[[f64; 3]]| {
            let points: Vec<_> = points.iter().copied().map(Point3::from).collect();
            path_of(&points, &layout, |_, _| Length::from_mm(50.0))
        };
        assert!(of(&[[0.0; 3], [300.0, 0.0, 0.0], [300.0, 300.0, 0.0]]).is_some());
        assert!(of(&[[0.0; 3], [0.0; 3], [300.0, 300.0, 0.0]]).is_none());
        assert!(of(&[[0.0; 3], [300.0, 0.0, 0.0], [400.0, 0.0, 0.0]]).is_none());
        assert!(of(&[[0.0; 3], [300.0, 0.0, 0.0], [100.0, 0.0, 0.0]]).is_none());
        assert!(of(&[[0.0; 3], [300.0, 0.0, 0.0]]).is_none());
    }
}
