//! Parts and helpers that several tests share.
#![allow(dead_code, clippy::unwrap_used, clippy::panic)]

use elbowroom_geometry::{Angle, BendPath, BendRow, Centreline, Frame, Length, Point3, Vector3, VertexPath};
use proptest::prelude::*;

/// A bend row from millimetres and degrees.
pub fn row(straight_mm: f64, rotation_deg: f64, angle_deg: f64, clr_mm: f64) -> BendRow {
    BendRow {
        straight: Length::from_mm(straight_mm),
        rotation: Angle::from_degrees(rotation_deg),
        angle: Angle::from_degrees(angle_deg),
        clr: Length::from_mm(clr_mm),
    }
}

/// A bend path from the world's origin.
pub fn path(rows: &[BendRow], tail_mm: f64) -> BendPath {
    BendPath::new(Frame::world(), rows.to_vec(), Length::from_mm(tail_mm)).unwrap()
}

/// The centreline of [`path`].
pub fn line(rows: &[BendRow], tail_mm: f64) -> Centreline {
    Centreline::of(&path(rows, tail_mm))
}

/// A vertex path with one radius throughout.
pub fn vertices(points: &[[f64; 3]], clr_mm: f64) -> VertexPath {
    let points: Vec<Point3<f64>> = points.iter().map(|p| Point3::from(*p)).collect();
    let clr = vec![Length::from_mm(clr_mm); points.len().saturating_sub(2)];
    VertexPath::new(points, clr).unwrap()
}

/// Twelve bends of an exhaust in many planes: 60.3 mm tube, CLR 90.5 mm.
pub fn twelve_bends() -> BendPath {
    let angles = [45.0, 30.0, 90.0, 22.5, 60.0, 15.0, 90.0, 35.0, 50.0, 75.0, 20.0, 40.0];
    let rotations = [0.0, 90.0, -45.0, 180.0, 30.0, -120.0, 75.0, 10.0, -90.0, 45.0, 150.0, -30.0];
    let rows: Vec<BendRow> = (0..12).map(|i| row(150.0 + 20.0 * i as f64, rotations[i], angles[i], 90.5)).collect();
    path(&rows, 200.0)
}

/// Random frames with coordinates up to some 10 m.
pub fn frames() -> impl Strategy<Value = Frame> {
    let side = || -1.0..1.0f64;
    let place = || -1e4..1e4f64;
    ((place(), place(), place()), (side(), side(), side()), (side(), side(), side())).prop_filter_map(
        "a tangent with a direction",
        |(o, t, n)| {
            let tangent = Vector3::new(t.0, t.1, t.2);
            (tangent.norm() > 0.1)
                .then(|| Frame::along(Point3::new(o.0, o.1, o.2), tangent, Vector3::new(n.0, n.1, n.2)).unwrap())
        },
    )
}

/// Random bend rows with angles and straights in the given ranges.
pub fn rows(
    count: std::ops::Range<usize>,
    straight_mm: std::ops::Range<f64>,
    angle_deg: std::ops::RangeInclusive<f64>,
) -> impl Strategy<Value = Vec<BendRow>> {
    let one = (straight_mm, -180.0..=180.0f64, angle_deg, 20.0..200.0f64);
    proptest::collection::vec(one.prop_map(|(s, r, a, c)| row(s, r, a, c)), count)
}
