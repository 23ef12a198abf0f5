//! Views of tubes on a sheet: how space lies on it, where the outline of a tube runs, what is written beside it.

use std::f64::consts::TAU;

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Element, ElementKind, Frame, Point3, Vector3};

use super::entities::Drawing;

/// The layer of centrelines.
pub(super) const CENTRELINE: &str = "CENTRELINE";
/// The layer of outlines.
pub(super) const OUTLINE: &str = "OUTLINE";
/// The layer of dimensions.
pub(super) const DIMENSIONS: &str = "DIMENSIONS";
/// The layer of names.
pub(super) const NAMES: &str = "NAMES";

/// The step in which arcs are drawn on the sheet, radians: three degrees, 0.03 mm on a radius of 100 mm.
const STEP_RAD: f64 = TAU / 120.0;
/// The step in which arcs are measured for the room that they take, radians: a quarter of a degree, 0.0002 mm likewise.
const MEASURED_STEP_RAD: f64 = TAU / 1440.0;

/// In how many steps the rim of an end is drawn.
const RIM_STEPS: u32 = 36;

/// A direction from which tubes are seen.
pub(super) struct View {
    /// What it is called.
    pub name: &'static str,
    /// The direction that points to the right of the sheet.
    pub right: Vector3<f64>,
    /// The direction that points up the sheet.
    pub up: Vector3<f64>,
}

/// Front, top and side, and the view from a corner, in which x, y and z are equally long.
pub(super) fn views() -> [View; 4] {
    let corner = Vector3::new(-1.0, -1.0, 1.0).normalize();
    let right = Vector3::new(1.0, -1.0, 0.0).normalize();
    [
        View { name: "FRONT, FROM -Y", right: Vector3::x(), up: Vector3::z() },
        View { name: "TOP, FROM +Z", right: Vector3::x(), up: Vector3::y() },
        View { name: "SIDE, FROM +X", right: Vector3::y(), up: Vector3::z() },
        View { name: "ISOMETRIC", right, up: corner.cross(&right) },
    ]
}

/// A tube that is drawn.
pub(super) struct Drawn {
    /// Its straights and arcs.
    pub run: Vec<Element>,
    /// Its radius, mm; `None` where there is only a centreline.
    pub radius_mm: Option<f64>,
    /// What it is called.
    pub name: String,
}

/// A rectangle of the sheet: left, bottom, right, top.
pub(super) type Extent = [f64; 4];

impl View {
    fn place(&self, at: &Point3<f64>) -> [f64; 2] {
        [self.right.dot(&at.coords), self.up.dot(&at.coords)]
    }

    /// The room that tubes take in this view, outside over outside. A disc of radius r across the tangent t reaches r √(1 − (t·d)²)
    /// in the direction d (derived here), so a tube ends where it is cut.
    pub fn extent(&self, tubes: &[Drawn]) -> Extent {
        let mut extent = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        for tube in tubes {
            let around = tube.radius_mm.unwrap_or_default();
            for frame in tube.run.iter().flat_map(|element| frames(element, MEASURED_STEP_RAD)) {
                let reach = |to: &Vector3<f64>| around * (1.0 - frame.tangent.dot(to).powi(2)).max(0.0).sqrt();
                let ([x, y], right, up) = (self.place(&frame.origin), reach(&self.right), reach(&self.up));
                extent[0] = extent[0].min(x - right);
                extent[1] = extent[1].min(y - up);
                extent[2] = extent[2].max(x + right);
                extent[3] = extent[3].max(y + up);
            }
        }
        extent
    }

    /// Draws tubes, the sheet moved by `shift`.
    pub fn draw(&self, drawing: &mut Drawing, tubes: &[Drawn], shift: [f64; 2]) {
        let moved = |[x, y]: [f64; 2]| [x + shift[0], y + shift[1]];
        let looking = self.right.cross(&self.up);
        for tube in tubes {
            for element in &tube.run {
                let frames: Vec<Frame> = frames(element, STEP_RAD).collect();
                let line: Vec<[f64; 2]> = frames.iter().map(|frame| moved(self.place(&frame.origin))).collect();
                drawing.polyline(CENTRELINE, &line);
                let Some(radius_mm) = tube.radius_mm else { continue };
                for side in [radius_mm, -radius_mm] {
                    // The outline of a tube lies where its skin is seen edge on: square to the centreline and to the eye. It is
                    // told by nothing where the tube runs straight towards the eye.
                    let edge = |frame: &Frame| {
                        let across = frame.tangent.cross(&looking);
                        let across = if across.norm() > 1e-6 { across.normalize() } else { return None };
                        Some(moved(self.place(&(frame.origin + across * side))))
                    };
                    let edge: Vec<[f64; 2]> = frames.iter().filter_map(edge).collect();
                    if edge.len() > 1 {
                        drawing.polyline(OUTLINE, &edge);
                    }
                }
            }
            let ends = [tube.run.first().map(|first| first.start), tube.run.last().map(Element::end)];
            for end in ends.iter().flatten() {
                let Some(radius_mm) = tube.radius_mm else { continue };
                let rim = |step: u32| {
                    let (sin, cos) = (f64::from(step) / f64::from(RIM_STEPS) * TAU).sin_cos();
                    moved(self.place(&(end.origin + (end.normal * cos + end.binormal() * sin) * radius_mm)))
                };
                drawing.polyline(OUTLINE, &(0..=RIM_STEPS).map(rim).collect::<Vec<_>>());
            }
        }
    }

    /// Writes what the straights, arcs and ends of tubes measure beside them.
    pub fn dimension(&self, drawing: &mut Drawing, tubes: &[Drawn], shift: [f64; 2], height_mm: f64) {
        let told = |value: f64| LengthUnit::Millimetre.bare(value).to_string();
        for tube in tubes {
            for element in &tube.run {
                let middle = element.turned(0.5).origin;
                let [x, y] = self.place(&middle);
                let beside = tube.radius_mm.unwrap_or_default() + height_mm;
                let at = [x + shift[0] + beside, y + shift[1]];
                let text = match element.kind {
                    ElementKind::Straight => told(element.length_mm),
                    ElementKind::Arc { radius_mm, angle_rad } => {
                        format!("R{} {:.2}°", told(radius_mm), angle_rad.to_degrees())
                    }
                };
                drawing.text(DIMENSIONS, at, height_mm, &text);
            }
            let ends = [tube.run.first().map(|first| first.start), tube.run.last().map(Element::end)];
            for (end, what) in ends.iter().flatten().zip(["START", "FINISH"]) {
                let [x, y] = self.place(&end.origin);
                let [a, b, c] = [end.origin.x, end.origin.y, end.origin.z].map(told);
                let at = [x + shift[0], y + shift[1] - 2.5 * height_mm - tube.radius_mm.unwrap_or_default()];
                drawing.text(DIMENSIONS, at, height_mm, &format!("{what} {a}, {b}, {c}"));
            }
            if let Some(first) = tube.run.first() {
                let [x, y] = self.place(&first.start.origin);
                let up = 1.5 * height_mm + tube.radius_mm.unwrap_or_default();
                drawing.text(NAMES, [x + shift[0], y + shift[1] + up], height_mm, &tube.name);
            }
        }
    }
}

/// Places along an element, on an arc so far apart at most.
fn frames(element: &Element, step_rad: f64) -> impl Iterator<Item = Frame> + '_ {
    let steps = match element.kind {
        ElementKind::Straight => 1,
        ElementKind::Arc { angle_rad, .. } => ((angle_rad / step_rad).ceil() as usize).max(1),
    };
    (0..=steps).map(move |step| element.turned(step as f64 / steps as f64))
}
