//! Dimensions with their extension lines and arrowheads (ISO 129-1).

use crate::sheet::ink::{Along, At, Draw, Face, Item, Items, Pen, path_through};

/// The size of figures at dimensions, mm.
pub const FIGURE: f64 = 2.8;

/// How far a dimension line lies from what is measured, mm.
pub const AWAY: f64 = 6.5;

/// How long and how wide an arrowhead is, mm.
const ARROW: [f64; 2] = [2.4, 0.8];
/// How far an extension line stays off the outline, and goes on beyond the dimension line, mm.
const GAP: f64 = 0.8;
const BEYOND: f64 = 1.5;
/// Between figures and dimension line, mm.
const OVER_LINE: f64 = 0.9;

fn arrowhead(items: &mut Items, tip: At, [x, y]: [f64; 2]) {
    let [long, wide] = ARROW;
    let back = tip.moved(-x * long, -y * long);
    let side = |sign: f64| back.moved(-y * sign * wide / 2.0, x * sign * wide / 2.0);
    items.push(Item::Fill(path_through(&[tip, side(1.0), side(-1.0)]), 1.0));
}

/// Beyond what is measured a dimension whose arrowheads stand outside reaches so far, mm.
const OUTSIDE: f64 = 2.0 * ARROW[0];

/// How much more room than what is measured a figure needs on each side: none where it fits between the extension lines.
pub fn spills(measured: f64, text: &str) -> f64 {
    let width = Face::Regular.width(text, FIGURE);
    if fits(measured, width) { 0.0 } else { OUTSIDE + 1.0 + width }
}

/// Whether a figure stands between the extension lines.
fn fits(measured: f64, width: f64) -> bool {
    measured > (width + 1.0).max(3.0 * ARROW[0])
}

/// A dimension along the paper from `left` to `right`, its line under what is measured, whose bottom is `bottom`. A figure
/// that is too long to stand between arrowheads stands to the right of them.
pub fn level(items: &mut Items, [left, right]: [f64; 2], bottom: f64, text: &str) {
    let y = bottom + AWAY;
    for x in [left, right] {
        items.line(At::new(x, bottom + GAP), At::new(x, y + BEYOND), Pen::Narrow);
    }
    let width = Face::Regular.width(text, FIGURE);
    let inside = fits(right - left, width);
    let out = if inside { 0.0 } else { OUTSIDE };
    items.line(At::new(left - out, y), At::new(right + out, y), Pen::Narrow);
    let way = if inside { 1.0 } else { -1.0 };
    arrowhead(items, At::new(left, y), [-way, 0.0]);
    arrowhead(items, At::new(right, y), [way, 0.0]);
    let plain = (Face::Regular, FIGURE);
    if inside {
        items.text(At::new((left + right) / 2.0, y - OVER_LINE), Along::Middle, plain, text);
    } else {
        items.text(At::new(right + out + 1.0, y + FIGURE * 0.36), Along::Begins, plain, text);
    }
}

/// A dimension up the paper from `bottom` to `top`, its line to the left of what is measured, whose left side is `left`. A
/// figure that is too long to stand between arrowheads stands above them.
pub fn standing(items: &mut Items, [top, bottom]: [f64; 2], left: f64, text: &str) {
    let x = left - AWAY;
    for y in [top, bottom] {
        items.line(At::new(left - GAP, y), At::new(x - BEYOND, y), Pen::Narrow);
    }
    let width = Face::Regular.width(text, FIGURE);
    let inside = fits(bottom - top, width);
    let out = if inside { 0.0 } else { OUTSIDE };
    items.line(At::new(x, top - out), At::new(x, bottom + out), Pen::Narrow);
    let way = if inside { 1.0 } else { -1.0 };
    arrowhead(items, At::new(x, top), [0.0, -way]);
    arrowhead(items, At::new(x, bottom), [0.0, way]);
    let plain = (Face::Regular, FIGURE);
    if inside {
        items.upright(At::new(x - OVER_LINE, (top + bottom) / 2.0), Along::Middle, plain, text);
    } else {
        items.upright(At::new(x + FIGURE * 0.36, top - out - 1.0), Along::Begins, plain, text);
    }
}
