//! One view drawn at a scale: outline, centreline, bend numbers, overall sizes.

use super::dimension::{self, AWAY, FIGURE};
use super::eye::Eye;
use super::outline::{Line, Outline};
use super::room::Room;
use super::scale::Scale;
use super::subject::Subject;
use crate::sheet::ink::{Along, Area, At, Draw, Face, Item, Items, Pen, path_through};

/// How far from what they stand for curves may run on paper, mm: a fraction of a pen's width.
const SMOOTH: f64 = 0.01;

/// The size of a bend number in its ring and the radius of the ring, mm.
const NUMBER: f64 = 2.5;
const RING: f64 = 2.3;

/// How far a centreline reaches beyond the ends, mm.
const BEYOND_END: f64 = 2.5;

/// Room that a view needs beside the tube: at the left for a dimension, on the other sides for numbers, below for both.
pub const MARGIN: Margin = Margin { left: AWAY + FIGURE + 2.6, right: 7.0, top: 7.0, bottom: AWAY + 3.0 };

/// Room for the name of the view, and how wide a view is counted at least so that its name has room above it, mm.
const CAPTION_ROOM: f64 = 2.0;
const NARROWEST: f64 = 18.0;

/// Room beside a view, mm.
pub struct Margin {
    /// At the left.
    pub left: f64,
    /// At the right.
    pub right: f64,
    /// Above.
    pub top: f64,
    /// Below.
    pub bottom: f64,
}

/// A tube in a view, not yet at any scale.
pub struct Sight<'a> {
    /// What is drawn.
    pub subject: &'a Subject<'a>,
    /// From where.
    pub eye: Eye,
    /// The least and the greatest of it, to the right and upwards, mm of the tube.
    pub extent: [[f64; 2]; 2],
}

impl<'a> Sight<'a> {
    /// A tube in a view along an axis, whose extent is that of its box.
    pub fn along_axis(subject: &'a Subject<'a>, eye: Eye) -> Self {
        let held = subject.centreline.tube_bounding_box(subject.od_mm);
        let corners = [eye.seen(&held.min), eye.seen(&held.max)];
        let pick = |pick: fn(f64, f64) -> f64| [pick(corners[0].x, corners[1].x), pick(corners[0].y, corners[1].y)];
        Self { subject, eye, extent: [pick(f64::min), pick(f64::max)] }
    }

    /// A tube in any view.
    pub fn of(subject: &'a Subject<'a>, eye: Eye) -> Self {
        // Rough, only to know how much room it takes; within a thousandth of the tube.
        let rough = subject.centreline.length_mm().max(subject.od_mm) * 2e-4;
        let outline = Outline::of(subject.centreline, &eye, [subject.od_mm, subject.wall_mm], rough);
        let extent = outline.extent().unwrap_or([[0.0; 2], [subject.od_mm; 2]]);
        Self { subject, eye, extent }
    }

    /// How wide and how high it is at a scale, mm on paper.
    pub fn size(&self, scale: Scale) -> [f64; 2] {
        let [least, most] = self.extent;
        [0, 1].map(|axis| (most[axis] - least[axis]) * scale.factor())
    }

    /// The figures of its overall sizes.
    fn figures(&self) -> [String; 2] {
        let [least, most] = self.extent;
        [0, 1].map(|axis| self.subject.length(most[axis] - least[axis]))
    }

    /// How wide and how high its cell has to be at least with overall sizes, mm on paper.
    pub fn cell(&self, scale: Scale) -> [f64; 2] {
        let (size, figures) = (self.size(scale), self.figures());
        // The tube stands in the middle of its cell, so that what a figure spills over is kept free on both sides.
        let wide = size[0] + 2.0 * (dimension::spills(size[0], &figures[0]) - MARGIN.right).max(0.0);
        let wide = wide.max(NARROWEST);
        let high = size[1] + 2.0 * (dimension::spills(size[1], &figures[1]) - MARGIN.top).max(0.0) + CAPTION_ROOM;
        [wide + MARGIN.left + MARGIN.right, high + MARGIN.top + MARGIN.bottom]
    }

    /// Draws it with its tube in the middle of an area, which its numbers may spread over. What is taken is marked.
    pub fn draw(&self, items: &mut Items, scale: Scale, middle: At, room: &mut Room, how: How) {
        let outline = Outline::of(
            self.subject.centreline,
            &self.eye,
            [self.subject.od_mm, self.subject.wall_mm],
            SMOOTH / scale.factor(),
        );
        let [least, most] = self.extent;
        let factor = scale.factor();
        let on_paper = |place: &[f64; 2]| {
            At::new(
                middle.x + (place[0] - (least[0] + most[0]) / 2.0) * factor,
                middle.y - (place[1] - (least[1] + most[1]) / 2.0) * factor,
            )
        };
        let drawn = |line: &Line| line.iter().map(on_paper).collect::<Vec<At>>();
        let mut stroke = |lines: &[Line], pen: Pen| {
            let segments: Vec<_> = lines.iter().flat_map(|line| path_through(&drawn(line))).collect();
            if !segments.is_empty() {
                items.push(Item::Stroke(segments, pen));
            }
        };
        stroke(&outline.bend_lines, Pen::Narrow);
        stroke(&outline.hidden, Pen::Hidden);
        stroke(&outline.visible, Pen::Wide);
        let centre = beyond_ends(&drawn(&outline.centre));
        items.through(&centre, Pen::Centre);
        for line in outline.lines() {
            for pair in drawn(line).windows(2) {
                room.take_line(pair[0], pair[1]);
            }
        }
        for pair in centre.windows(2) {
            room.take_line(pair[0], pair[1]);
        }
        let [wide, high] = self.size(scale);
        let tube = Area::new(middle.x - wide / 2.0, middle.y - high / 2.0, wide, high);
        if how.overall {
            let [width, height] = self.figures();
            let before = items.len();
            dimension::level(items, [tube.x, tube.right()], tube.bottom(), &width);
            dimension::standing(items, [tube.y, tube.bottom()], tube.x, &height);
            for item in &items[before..] {
                if let Some(area) = item.area() {
                    room.take(&area);
                }
            }
        }
        let beside = self.eye.length(self.subject.od_mm) / 2.0 * factor;
        self.numbers(items, room, beside, &on_paper);
        if how.legs {
            self.legs(items, room, beside, &on_paper);
        }
    }

    /// The numbers of the bends in rings, each with a leader to the middle of its arc.
    fn numbers(&self, items: &mut Items, room: &mut Room, beside: f64, on_paper: &dyn Fn(&[f64; 2]) -> At) {
        let places = self.subject.bend_middles().map(|(bend, at)| {
            let seen = self.eye.seen(&at);
            (on_paper(&[seen.x, seen.y]), (bend + 1).to_string())
        });
        numbered(items, room, beside, &places.collect::<Vec<_>>());
    }

    /// The lengths of the legs, from vertex to vertex, beside them, as far as there is room.
    fn legs(&self, items: &mut Items, room: &mut Room, beside: f64, on_paper: &dyn Fn(&[f64; 2]) -> At) {
        for (at, length_mm) in self.subject.legs() {
            let seen = self.eye.seen(&at);
            let anchor = on_paper(&[seen.x, seen.y]);
            let text = self.subject.length(length_mm);
            let size = [Face::Regular.width(&text, FIGURE), FIGURE];
            let Some(area) = room.near(anchor, size, [beside + 0.8, beside + 14.0]) else { continue };
            let label = At::new(area.x, area.bottom() - FIGURE * 0.24);
            items.text(label, Along::Begins, (Face::Regular, FIGURE), &text);
            room.take(&area);
        }
    }
}

/// What is drawn beside the tube.
#[derive(Clone, Copy)]
pub struct How {
    /// Overall sizes.
    pub overall: bool,
    /// The lengths of legs.
    pub legs: bool,
}

/// Numbers in rings near what they number, as far as there is room, each with a leader to it. Leaders come first and rings
/// lie on white, so that no leader runs through a number.
pub fn numbered(items: &mut Items, room: &mut Room, beside: f64, places: &[(At, String)]) {
    let side = 2.0 * RING + 0.4;
    let mut rings = Vec::new();
    for (anchor, number) in places {
        let Some(area) = room.near(*anchor, [side, side], [beside.min(6.0) * 0.6, 60.0]) else { continue };
        let middle = area.centre();
        let away = (middle.x - anchor.x).hypot(middle.y - anchor.y);
        if away > RING {
            let share = (away - RING) / away;
            let end = anchor.moved((middle.x - anchor.x) * share, (middle.y - anchor.y) * share);
            items.line(*anchor, end, Pen::Narrow);
            items.disc(*anchor, 0.35, 1.0);
            room.take_line(*anchor, end);
        }
        room.take(&area);
        rings.push((middle, number));
    }
    for (middle, number) in rings {
        ringed(items, middle, number);
    }
}

/// A number in a ring, on white.
fn ringed(items: &mut Items, middle: At, number: &str) {
    let size = if number.len() > 2 { NUMBER * 0.8 } else { NUMBER };
    items.disc(middle, RING, 0.0);
    items.circle(middle, RING, Pen::Narrow);
    items.text(middle.moved(0.0, size * 0.36), Along::Middle, (Face::Bold, size), number);
}

/// A centreline with its ends drawn out.
fn beyond_ends(places: &[At]) -> Vec<At> {
    let out = |end: At, before: At| {
        let length = (end.x - before.x).hypot(end.y - before.y);
        let share = if length > 1e-9 { BEYOND_END / length } else { 0.0 };
        end.moved((end.x - before.x) * share, (end.y - before.y) * share)
    };
    let mut places = places.to_vec();
    if let [first, second, ..] = *places {
        places.insert(0, out(first, second));
    }
    if let [.., before, last] = *places {
        places.push(out(last, before));
    }
    places
}
