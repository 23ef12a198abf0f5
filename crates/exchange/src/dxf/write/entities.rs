//! The entities of a drawing as R12 has them: a line for what follows, a line for its value.

use std::fmt::{Display, Write};

use elbowroom_geometry::{Element, ElementKind, Point3};

use crate::dxf::plane::Plane;

/// A drawing so far.
#[derive(Default)]
pub(super) struct Drawing {
    text: String,
}

impl Drawing {
    /// Puts a value under its code.
    pub fn put(&mut self, code: i32, value: impl Display) {
        // Writing to a text cannot fail.
        let _ = write!(self.text, "{code:>3}\n{value}\n");
    }

    /// The text of all of it.
    pub fn into_text(self) -> String {
        self.text
    }

    fn begin(&mut self, kind: &str, layer: &str) {
        self.put(0, kind);
        self.put(8, layer);
    }

    fn point(&mut self, code: i32, [x, y, z]: [f64; 3]) {
        self.put(code, figure(x));
        self.put(code + 10, figure(y));
        self.put(code + 20, figure(z));
    }

    /// A line in space.
    pub fn line(&mut self, layer: &str, from: [f64; 3], to: [f64; 3]) {
        self.begin("LINE", layer);
        self.point(10, from);
        self.point(11, to);
    }

    /// A chain of lines on the sheet.
    pub fn polyline(&mut self, layer: &str, points: &[[f64; 2]]) {
        self.begin("POLYLINE", layer);
        self.put(66, 1);
        self.point(10, [0.0; 3]);
        self.put(70, 0);
        for [x, y] in points {
            self.begin("VERTEX", layer);
            self.point(10, [*x, *y, 0.0]);
        }
        self.begin("SEQEND", layer);
    }

    /// A text on the sheet, its height in mm.
    pub fn text(&mut self, layer: &str, [x, y]: [f64; 2], height_mm: f64, text: &str) {
        self.begin("TEXT", layer);
        self.point(10, [x, y, 0.0]);
        self.put(40, figure(height_mm));
        self.put(1, plain(text));
    }

    /// A straight or arc where it lies in space.
    pub fn element(&mut self, layer: &str, element: &Element) {
        let place = |at: Point3<f64>| [at.x, at.y, at.z];
        match element.kind {
            ElementKind::Straight => self.line(layer, place(element.start.origin), place(element.end().origin)),
            ElementKind::Arc { radius_mm, angle_rad } => {
                let Some(plane) = Plane::of(element.start.binormal()) else { return };
                let centre = element.start.origin + element.start.normal * radius_mm;
                let [x, y, _] = plane.within(&(-element.start.normal));
                let from_deg = y.atan2(x).to_degrees();
                self.begin("ARC", layer);
                self.point(10, plane.within(&centre.coords));
                self.put(40, figure(radius_mm));
                self.put(50, figure(within_turn(from_deg)));
                self.put(51, figure(within_turn(from_deg + angle_rad.to_degrees())));
                let normal = plane.normal();
                self.point(210, [normal.x, normal.y, normal.z]);
            }
        }
    }
}

fn within_turn(degrees: f64) -> f64 {
    let within = degrees.rem_euclid(360.0);
    if within >= 360.0 { 0.0 } else { within }
}

/// The shortest number that reads back as the same double, with a point.
fn figure(value: f64) -> String {
    format!("{:?}", value + 0.0)
}

/// A text of R12: ASCII on one line, with the format's own signs for degrees and diameters; other signs by their number.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '°' => out.push_str("%%d"),
            'Ø' => out.push_str("%%c"),
            '±' => out.push_str("%%p"),
            '×' => out.push('x'),
            ' '..='~' => out.push(sign),
            // Writing to a text cannot fail.
            other => drop(write!(out, "\\U+{:04X}", u32::from(other))),
        }
    }
    out
}
