//! All tubes of a system in one isometric view, each with its number.

use super::cover::Cover;
use super::drawn::numbered;
use super::eye::Eye;
use super::outline::{Line, Outline};
use super::room::Room;
use super::scale::Scale;
use super::subject::Subject;
use crate::sheet::ink::{Area, At, Draw, Item, Items, Pen, path_through};

/// How far curves may run from what they stand for, mm on paper.
const SMOOTH: f64 = 0.01;
/// Room for numbers round the tubes, mm.
const ROUND: f64 = 10.0;

/// Draws the tubes on an area at the largest standard scale at which they fit; numbers count from 1.
pub fn overview(items: &mut Items, area: Area, tubes: &[Subject]) -> Scale {
    let eye = Eye::isometric();
    let mut cover = Cover::default();
    for tube in tubes {
        cover.add(tube.centreline, &eye, tube.od_mm / 2.0);
    }
    let outlines = |smooth_mm: f64| -> Vec<Outline> {
        let of = |tube: &Subject| Outline::among(tube.centreline, &eye, [tube.od_mm, tube.wall_mm], smooth_mm, &cover);
        tubes.iter().map(of).collect()
    };
    let longest = tubes.iter().map(|tube| tube.centreline.length_mm().max(tube.od_mm)).fold(1.0, f64::max);
    let extents = outlines(longest * 2e-4);
    let extents: Vec<[[f64; 2]; 2]> = extents.iter().filter_map(Outline::extent).collect();
    let [least, most] = extents.iter().fold([[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]], |[least, most], [a, b]| {
        [[0, 1].map(|axis| a[axis].min(least[axis])), [0, 1].map(|axis| b[axis].max(most[axis]))]
    });
    if extents.is_empty() {
        return Scale::FULL;
    }
    let size = [0, 1].map(|axis| most[axis] - least[axis]);
    let scale = Scale::largest(|scale| {
        size[0] * scale.factor() + 2.0 * ROUND <= area.width && size[1] * scale.factor() + 2.0 * ROUND <= area.height
    });
    let (factor, middle) = (scale.factor(), area.centre());
    let on_paper = |place: &[f64; 2]| {
        At::new(
            middle.x + (place[0] - (least[0] + most[0]) / 2.0) * factor,
            middle.y - (place[1] - (least[1] + most[1]) / 2.0) * factor,
        )
    };
    let mut room = Room::of(area);
    for outline in outlines(SMOOTH / factor) {
        let drawn = |line: &Line| line.iter().map(on_paper).collect::<Vec<At>>();
        let mut stroke = |lines: &[Line], pen: Pen| {
            let segments: Vec<_> = lines.iter().flat_map(|line| path_through(&drawn(line))).collect();
            if !segments.is_empty() {
                items.push(Item::Stroke(segments, pen));
            }
        };
        stroke(&outline.bend_lines, Pen::Narrow);
        stroke(&outline.visible, Pen::Wide);
        items.through(&drawn(&outline.centre), Pen::Centre);
        for pair in
            outline.lines().flat_map(|line| drawn(line).windows(2).map(|pair| [pair[0], pair[1]]).collect::<Vec<_>>())
        {
            room.take_line(pair[0], pair[1]);
        }
    }
    let places: Vec<(At, String)> = tubes
        .iter()
        .enumerate()
        .map(|(index, tube)| {
            let seen = eye.seen(&tube.centreline.point_at(tube.centreline.length_mm() / 2.0));
            (on_paper(&[seen.x, seen.y]), (index + 1).to_string())
        })
        .collect();
    let beside = tubes.iter().map(|tube| eye.length(tube.od_mm) / 2.0 * factor).fold(0.0, f64::max);
    numbered(items, &mut room, beside, &places);
    scale
}
