//! How near two tubes come to one another.

use crate::clearance::{Search, Tree, place};
use crate::{Centreline, Point3};

/// The nearest places of two centrelines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubesApart {
    /// The distance of the two centrelines, mm: never more than it is, and at most a nanometre less.
    pub distance_mm: f64,
    /// The places, mm along each tube.
    pub stations_mm: [f64; 2],
    /// Their elements: even for straights, odd for arcs.
    pub elements: [usize; 2],
    /// The places themselves, mm.
    pub points: [Point3<f64>; 2],
}

/// How near to the smallest distance the search comes, mm.
const SETTLED_MM: f64 = 1e-6;

/// The nearest places of two centrelines between stations (mm) of each, where they are nearer than `within_mm`.
pub fn tubes_apart(
    [first, second]: [&Centreline; 2],
    [first_mm, second_mm]: [(f64, f64); 2],
    within_mm: f64,
) -> Option<TubesApart> {
    let (one, two) = (Tree::of(first.elements()), Tree::of(second.elements()));
    let mut best: Option<TubesApart> = None;
    one.pairs_between(&two, within_mm, &mut |a, b| {
        let elements = [&first.elements()[a.element], &second.elements()[b.element]];
        let pieces = (a.piece.within(elements[0], first_mm), b.piece.within(elements[1], second_mm));
        if let (Some(piece), Some(other)) = pieces {
            let limit_mm = best.map_or(within_mm, |best| best.distance_mm);
            // They lie on different tubes, so that no stretch between them counts.
            let gap_mm = f64::NEG_INFINITY;
            let [on_first, on_second] = elements;
            let mut search =
                Search { first: on_first, second: on_second, gap_mm, shortest_mm: 0.0, limit_mm, found: None };
            search.run(&piece, &other);
            if let Some(found) = search.found {
                best = Some(TubesApart {
                    distance_mm: (found.distance_mm - SETTLED_MM).max(0.0),
                    stations_mm: [found.first_mm, found.second_mm],
                    elements: [a.element, b.element],
                    points: [place(on_first, found.first_mm), place(on_second, found.second_mm)],
                });
            }
        }
        best.is_none_or(|best| best.distance_mm > 0.0)
    });
    best
}
