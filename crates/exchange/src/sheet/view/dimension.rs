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

/// A dimension along the paper from `left` to `right`, its line under what is measured, whose bottom is `bottom`.
pub fn level(items: &mut Items, [left, right]: [f64; 2], bottom: f64, text: &str) {
    let y = bottom + AWAY;
    for x in [left, right] {
        items.line(At::new(x, bottom + GAP), At::new(x, y + BEYOND), Pen::Narrow);
    }
    let [long, _] = ARROW;
    let middle = (left + right) / 2.0;
    // Where arrowheads have no room between the extension lines they point at them from outside.
    let inside = right - left > 3.0 * long;
    let out = if inside { 0.0 } else { 2.0 * long };
    items.line(At::new(left - out, y), At::new(right + out, y), Pen::Narrow);
    let way = if inside { 1.0 } else { -1.0 };
    arrowhead(items, At::new(left, y), [-way, 0.0]);
    arrowhead(items, At::new(right, y), [way, 0.0]);
    items.text(At::new(middle, y - OVER_LINE), Along::Middle, (Face::Regular, FIGURE), text);
}

/// A dimension up the paper from `bottom` to `top`, its line to the left of what is measured, whose left side is `left`.
pub fn standing(items: &mut Items, [top, bottom]: [f64; 2], left: f64, text: &str) {
    let x = left - AWAY;
    for y in [top, bottom] {
        items.line(At::new(left - GAP, y), At::new(x - BEYOND, y), Pen::Narrow);
    }
    let [long, _] = ARROW;
    let inside = bottom - top > 3.0 * long;
    let out = if inside { 0.0 } else { 2.0 * long };
    items.line(At::new(x, top - out), At::new(x, bottom + out), Pen::Narrow);
    let way = if inside { 1.0 } else { -1.0 };
    arrowhead(items, At::new(x, top), [0.0, -way]);
    arrowhead(items, At::new(x, bottom), [0.0, way]);
    items.upright(At::new(x - OVER_LINE, (top + bottom) / 2.0), Along::Middle, (Face::Regular, FIGURE), text);
}
