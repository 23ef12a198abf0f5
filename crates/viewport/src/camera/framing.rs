//! Brings points into view: as near as the shape of the scene's area allows.

use elbowroom_geometry::{Centreline, ElementKind, Point3};

use super::{Eye, FIELD_OF_VIEW_RAD, Lens};

/// How much of the picture is left free around what is framed.
const MARGIN: f64 = 0.12;
/// The smallest thing that is framed, mm: a lone point is seen with as much around it.
const SMALLEST_MM: f64 = 20.0;
/// How often the picture is centred anew: each round removes nearly all of what perspective had put aside.
const ROUNDS: usize = 4;

/// The eye at the same angle, moved so that spheres of `radius_mm` about the points fill an area of `aspect`
/// (width over height). Without points the eye stays.
pub fn framed(eye: &Eye, points: &[Point3<f64>], radius_mm: f64, aspect: f64) -> Eye {
    let (right, up, back) = (eye.right(), eye.up(), eye.back());
    let radius_mm = radius_mm.max(SMALLEST_MM);
    let Some(middle) = middle(points) else { return *eye };
    let tan_up = (FIELD_OF_VIEW_RAD / 2.0).tan() * (1.0 - MARGIN);
    let tan_right = tan_up * aspect;
    let mut eye = Eye { focus: middle, ..*eye };
    for _ in 0..ROUNDS {
        eye.distance_mm = 0.0;
        for point in points {
            let from_focus = point - eye.focus;
            let (x, y) = (from_focus.dot(&right).abs() + radius_mm, from_focus.dot(&up).abs() + radius_mm);
            let toward = if eye.lens == Lens::Parallel { 0.0 } else { from_focus.dot(&back) + radius_mm };
            eye.distance_mm = eye.distance_mm.max((x / tan_right).max(y / tan_up) + toward);
        }
        // Where the picture of the points lies to one side, the focus moves to its middle.
        let (mut low, mut high) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
        for point in points {
            let from_focus = point - eye.focus;
            let depth_mm = match eye.lens {
                Lens::Parallel => eye.distance_mm,
                Lens::Perspective => eye.distance_mm - from_focus.dot(&back),
            };
            let (x, y) = (from_focus.dot(&right) / depth_mm, from_focus.dot(&up) / depth_mm);
            low = (low.0.min(x), low.1.min(y));
            high = (high.0.max(x), high.1.max(y));
        }
        let shift = (right * (low.0 + high.0) + up * (low.1 + high.1)) * (eye.distance_mm / 2.0);
        eye.focus += shift;
    }
    eye.distance_mm = points.iter().fold(0.0_f64, |distance_mm, point| {
        let from_focus = point - eye.focus;
        let (x, y) = (from_focus.dot(&right).abs() + radius_mm, from_focus.dot(&up).abs() + radius_mm);
        let toward = if eye.lens == Lens::Parallel { 0.0 } else { from_focus.dot(&back) + radius_mm };
        distance_mm.max((x / tan_right).max(y / tan_up) + toward)
    });
    eye
}

/// The middle of the box around points.
pub fn middle(points: &[Point3<f64>]) -> Option<Point3<f64>> {
    let first = points.first()?;
    let (low, high) = points.iter().fold((*first, *first), |(low, high), point| (low.inf(point), high.sup(point)));
    Some(low + (high - low) / 2.0)
}

/// How far points lie from a middle at most, mm.
pub fn reach_mm(points: &[Point3<f64>], middle: &Point3<f64>) -> f64 {
    points.iter().map(|point| (point - middle).norm()).fold(0.0, f64::max)
}

/// Points along the elements of a centreline for which `wanted` holds, close enough to frame them by.
pub fn outline(centreline: &Centreline, wanted: impl Fn(usize) -> bool) -> Vec<Point3<f64>> {
    let mut points = Vec::new();
    for (index, element) in centreline.elements().iter().enumerate().filter(|(index, _)| wanted(*index)) {
        let steps = match element.kind {
            ElementKind::Straight => 1,
            ElementKind::Arc { angle_rad, .. } => (angle_rad / 0.3).ceil().max(1.0) as usize,
        };
        let first = usize::from(index > 0 && wanted(index - 1));
        points.extend((first..=steps).map(|step| element.turned(step as f64 / steps as f64).origin));
    }
    points.retain(|point| point.iter().all(|coordinate| coordinate.is_finite()));
    points
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use bevy::math::Vec2;

    use super::super::View;
    use super::*;
    use crate::SceneArea;

    #[test]
    fn what_is_framed_lies_within_the_area_and_touches_its_margin() {
        let points: Vec<_> = (0..40)
            .map(|k| {
                let turn = f64::from(k) * 0.7;
                Point3::new(5e5 + 900.0 * turn.cos(), -300.0 * (1.3 * turn).sin(), 40.0 * turn)
            })
            .collect();
        for lens in [Lens::Perspective, Lens::Parallel] {
            for size in [Vec2::new(1600.0, 300.0), Vec2::new(300.0, 900.0), Vec2::new(700.0, 700.0)] {
                let area = SceneArea { min: Vec2::ZERO, size, ..Default::default() };
                let aspect = f64::from(size.x / size.y);
                let eye = framed(&Eye { lens, ..Eye::default() }, &points, 25.0, aspect);
                let view = View::new(&eye, &area).unwrap();
                let mut widest = 0.0_f32;
                for point in &points {
                    let at = (view.project(point).unwrap() / size * 2.0 - 1.0).abs();
                    assert!(at.x <= 1.0 && at.y <= 1.0, "{lens:?} {size}: {at}");
                    widest = widest.max(at.x.max(at.y));
                }
                assert!(widest > 0.7, "{lens:?} {size} leaves too much free: {widest}");
            }
        }
    }

    #[test]
    fn nothing_to_frame_leaves_the_eye_alone_and_a_point_gets_room() {
        let eye = Eye::default();
        assert_eq!(framed(&eye, &[], 10.0, 1.0), eye);
        let close = framed(&eye, &[Point3::new(1.0, 2.0, 3.0)], 0.0, 1.0);
        assert_eq!(close.focus, Point3::new(1.0, 2.0, 3.0));
        assert!(close.half_height_mm() > SMALLEST_MM);
    }
}
