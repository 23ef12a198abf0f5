//! Short ways to draw.

use super::face::Face;
use super::page::{Item, Label, Pen, Segment};
use super::paper::{Area, At};

/// Where the given place of a text lies along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// At its beginning.
    Begins,
    /// At its middle.
    Middle,
    /// At its end.
    Ends,
}

/// Things drawn, in order.
pub type Items = Vec<Item>;

/// Short ways to draw, on whatever takes items.
pub trait Draw {
    /// Takes an item.
    fn take(&mut self, item: Item);

    /// A straight line.
    fn line(&mut self, from: At, to: At, pen: Pen) {
        self.take(Item::Stroke(vec![Segment::Move(from), Segment::Line(to)], pen));
    }

    /// A line through places; nothing where there are fewer than two.
    fn through(&mut self, places: &[At], pen: Pen) {
        if places.len() > 1 {
            self.take(Item::Stroke(path_through(places), pen));
        }
    }

    /// The outline of an area.
    fn frame(&mut self, area: Area, pen: Pen) {
        self.take(Item::Stroke(rectangle(area), pen));
    }

    /// An area filled with a share of black.
    fn shade(&mut self, area: Area, shade: f64) {
        self.take(Item::Fill(rectangle(area), shade));
    }

    /// A circle.
    fn circle(&mut self, centre: At, radius: f64, pen: Pen) {
        self.take(Item::Stroke(circle(centre, radius), pen));
    }

    /// A circle filled with a share of black.
    fn disc(&mut self, centre: At, radius: f64, shade: f64) {
        self.take(Item::Fill(circle(centre, radius), shade));
    }

    /// A text on one line; nothing where it is empty. The area that it takes.
    fn text(&mut self, at: At, along: Along, (face, size): (Face, f64), text: &str) -> Area {
        let label = label(at, along, (face, size), text);
        let area = label.area();
        if !label.text.trim().is_empty() {
            self.take(Item::Text(label));
        }
        area
    }

    /// A text that runs upwards.
    fn upright(&mut self, at: At, along: Along, (face, size): (Face, f64), text: &str) -> Area {
        let text = face.printable(text);
        let width = face.width(&text, size);
        let at = at.moved(0.0, width * share(along));
        let label = Label { at, upright: true, size, face, text, width };
        let area = label.area();
        self.take(Item::Text(label));
        area
    }
}

impl Draw for Items {
    fn take(&mut self, item: Item) {
        self.push(item);
    }
}

const fn share(along: Along) -> f64 {
    match along {
        Along::Begins => 0.0,
        Along::Middle => 0.5,
        Along::Ends => 1.0,
    }
}

/// A text on one line, of letters that its face has.
pub fn label(at: At, along: Along, (face, size): (Face, f64), text: &str) -> Label {
    let text = face.printable(text);
    let width = face.width(&text, size);
    Label { at: at.moved(-width * share(along), 0.0), upright: false, size, face, text, width }
}

/// A path through places.
pub fn path_through(places: &[At]) -> Vec<Segment> {
    let each = |(index, at): (usize, &At)| if index == 0 { Segment::Move(*at) } else { Segment::Line(*at) };
    places.iter().enumerate().map(each).collect()
}

fn rectangle(area: Area) -> Vec<Segment> {
    vec![
        Segment::Move(At::new(area.x, area.y)),
        Segment::Line(At::new(area.right(), area.y)),
        Segment::Line(At::new(area.right(), area.bottom())),
        Segment::Line(At::new(area.x, area.bottom())),
        Segment::Close,
    ]
}

/// A circle as four Bézier curves.
fn circle(centre: At, radius: f64) -> Vec<Segment> {
    let quarter = std::f64::consts::FRAC_PI_2;
    let mut path = vec![Segment::Move(centre.moved(radius, 0.0))];
    for turn in 0..4 {
        path.push(arc_piece(centre, radius, f64::from(turn) * quarter, quarter));
    }
    path.push(Segment::Close);
    path
}

/// An arc of a circle as Bézier curves, each up to a quarter turn, from an angle on; angles in radians, clockwise on
/// paper from the right. One curve strays from a quarter circle by 0.03 % of its radius (derived here).
pub fn arc(centre: At, radius: f64, from: f64, turn: f64) -> Vec<Segment> {
    let pieces = (turn.abs() / std::f64::consts::FRAC_PI_2).ceil().max(1.0);
    let piece = turn / pieces;
    let mut path = vec![Segment::Move(on_circle(centre, radius, from))];
    for index in 0..pieces as usize {
        path.push(arc_piece(centre, radius, from + piece * index as f64, piece));
    }
    path
}

fn on_circle(centre: At, radius: f64, angle: f64) -> At {
    centre.moved(radius * angle.cos(), radius * angle.sin())
}

/// The handles of a Bézier curve along an arc lie 4/3 tan(θ/4) radii along its end tangents (text-book, from memory).
fn arc_piece(centre: At, radius: f64, from: f64, turn: f64) -> Segment {
    let reach = radius * 4.0 / 3.0 * (turn / 4.0).tan();
    let handle = |angle: f64, sign: f64| {
        on_circle(centre, radius, angle).moved(-angle.sin() * reach * sign, angle.cos() * reach * sign)
    };
    Segment::Cubic(handle(from, 1.0), handle(from + turn, -1.0), on_circle(centre, radius, from + turn))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic)]
    use super::*;

    #[test]
    fn curves_stay_on_their_circle() {
        for turn in [0.3, 1.5, 3.0, -2.0, 6.2] {
            let centre = At::new(3.0, -4.0);
            let path = arc(centre, 10.0, 0.7, turn);
            let Segment::Move(mut at) = path[0] else { panic!("it begins nowhere") };
            for segment in &path[1..] {
                let Segment::Cubic(a, b, end) = *segment else { panic!("a straight line in an arc") };
                for share in [0.25_f64, 0.5, 0.75, 1.0] {
                    let rest = 1.0 - share;
                    let mix = |p: f64, q: f64, r: f64, s: f64| {
                        rest.powi(3) * p
                            + 3.0 * rest.powi(2) * share * q
                            + 3.0 * rest * share.powi(2) * r
                            + share.powi(3) * s
                    };
                    let x = mix(at.x, a.x, b.x, end.x) - centre.x;
                    let y = mix(at.y, a.y, b.y, end.y) - centre.y;
                    assert!((x.hypot(y) - 10.0).abs() < 0.003, "{turn} {share}");
                }
                at = end;
            }
            assert!((at.x - on_circle(centre, 10.0, 0.7 + turn).x).abs() < 1e-9);
        }
    }

    #[test]
    fn texts_lie_where_they_are_put() {
        let mut items = Items::new();
        let plain = (Face::Regular, 3.0);
        let area = items.text(At::new(50.0, 20.0), Along::Ends, plain, "12.5");
        assert!((area.right() - 50.0).abs() < 1e-9 && area.y < 20.0 && area.bottom() > 20.0);
        let area = items.upright(At::new(50.0, 20.0), Along::Middle, plain, "12.5");
        assert!((area.centre().y - 20.0).abs() < 1e-9 && area.height > area.width);
        items.text(At::new(0.0, 0.0), Along::Begins, plain, "  ");
        assert_eq!(items.len(), 2);
    }
}
