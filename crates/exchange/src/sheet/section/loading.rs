//! How the blank goes into the machine, with the weld seam on a clock.

use elbowroom_geometry::Angle;

use crate::sheet::ink::{Along, Area, At, Draw, Face, Items, Pen, high, lines, wrapped};
use crate::sheet::layout::{Breadth, Piece, Section, TEXT};
use crate::sheet::work::Work;

/// The radius of the clock, mm.
const RADIUS: f64 = 11.0;
/// The size of its figures, mm.
const HOURS: f64 = 2.4;

/// The section; `None` where nothing is bent.
pub fn section(work: &Work, width: f64) -> Option<Section> {
    let planned = work.planned.as_ref().ok()?;
    if planned.sheet.load.is_empty() {
        return None;
    }
    let mut section = Section::new("Loading and seam clock", Breadth::Half);
    let mut items = Items::new();
    let side = 2.0 * (RADIUS + HOURS + 1.6);
    let left = if planned.sheet.seam_from_top.is_some() { side + 3.0 } else { 0.0 };
    if let Some(from_top) = planned.sheet.seam_from_top {
        clock(&mut items, At::new(side / 2.0, side / 2.0), from_top);
    }
    let mut down = 0.0;
    for line in &planned.sheet.load {
        let name = [line.name.clone()];
        down += lines(&mut items, Area::new(left, down, width - left, 0.0), (Face::Bold, TEXT), &name);
        let value = wrapped(Face::Regular, TEXT, &line.value, width - left);
        lines(&mut items, Area::new(left, down, width - left, 0.0), (Face::Regular, TEXT), &value);
        down += high(TEXT, value.len()) + 0.9;
    }
    let height = if left > 0.0 { down.max(side) } else { down };
    section.pieces = vec![Piece { height: height + 0.5, items }];
    Some(section)
}

/// A clock face as the chuck sees the tube, with the seam on it.
fn clock(items: &mut Items, middle: At, from_top: Angle) {
    items.circle(middle, RADIUS, Pen::Wide);
    items.circle(middle, RADIUS - 1.2, Pen::Narrow);
    for hour in 0..12 {
        let (sin, cos) = f64::from(hour * 30).to_radians().sin_cos();
        let long = if hour % 3 == 0 { 2.2 } else { 1.2 };
        let outside = RADIUS - 1.2;
        items.line(
            middle.moved(sin * outside, -cos * outside),
            middle.moved(sin * (outside - long), -cos * (outside - long)),
            Pen::Narrow,
        );
        if hour % 3 == 0 {
            let away = RADIUS + HOURS * 0.75;
            let at = middle.moved(sin * away, -cos * away + HOURS * 0.36);
            items.text(at, Along::Middle, (Face::Regular, HOURS), &(if hour == 0 { 12 } else { hour }).to_string());
        }
    }
    let (sin, cos) = from_top.radians().sin_cos();
    items.line(middle, middle.moved(sin * (RADIUS - 0.6), -cos * (RADIUS - 0.6)), Pen::Wide);
    items.disc(middle.moved(sin * (RADIUS - 0.6), -cos * (RADIUS - 0.6)), 1.3, 1.0);
    items.disc(middle, 0.6, 1.0);
}
