//! From pairs of elements that meet to places that a person would call one.

use super::meeting::Meeting;
use super::piece::{Nearest, place};
use crate::Element;

/// One pair of elements that meet, and the group it belongs to.
struct Pair {
    i: usize,
    j: usize,
    meeting: Meeting,
    group: usize,
}

/// Joins pairs on neighbouring elements where the tube stays within the limit across the border, and
/// keeps the nearest place of each group, with the stretches of all. Nearest first.
pub(super) fn meetings(elements: &[Element], found: Vec<(usize, usize, Nearest)>, limit_mm: f64) -> Vec<Meeting> {
    let mut pairs: Vec<Pair> = found
        .into_iter()
        .map(|(i, j, nearest)| Pair { i, j, meeting: meeting(elements, i, j, &nearest, limit_mm), group: 0 })
        .collect();
    pairs.sort_by_key(|pair| (pair.i, pair.j));
    pairs.iter_mut().enumerate().for_each(|(index, pair)| pair.group = index);
    for index in 0..pairs.len() {
        let (i, j) = (pairs[index].i, pairs[index].j);
        for (next_i, next_j) in [(following(elements, i), j), (i, following(elements, j))] {
            let Ok(other) = pairs.binary_search_by_key(&(next_i, next_j), |pair| (pair.i, pair.j)) else { continue };
            // The border they share: the end of the one that moves on, seen from the one that stays.
            let (moves, stays) = if next_i == i { (j, i) } else { (i, j) };
            let border = place(&elements[moves], elements[moves].to_mm());
            if (elements[stays].closest(&border).1 - border).norm() < limit_mm {
                let (kept, given_up) = (root(&pairs, index), root(&pairs, other));
                pairs[kept.max(given_up)].group = kept.min(given_up);
            }
        }
    }
    let mut groups: Vec<Option<Meeting>> = vec![None; pairs.len()];
    for index in 0..pairs.len() {
        let place = root(&pairs, index);
        let next = pairs[index].meeting;
        groups[place] = Some(match groups[place] {
            None => next,
            Some(best) => joined(&best, &next),
        });
    }
    let mut meetings: Vec<Meeting> = groups.into_iter().flatten().collect();
    meetings.sort_by(|a, b| a.distance_mm.total_cmp(&b.distance_mm).then(a.first_mm.total_cmp(&b.first_mm)));
    meetings
}

/// The next element that has a length.
fn following(elements: &[Element], index: usize) -> usize {
    (index + 1..elements.len()).find(|next| elements[*next].length_mm > 0.0).unwrap_or(elements.len())
}

/// The first pair of a group.
fn root(pairs: &[Pair], mut index: usize) -> usize {
    while pairs[index].group != index {
        index = pairs[index].group;
    }
    index
}

/// The nearer of two meetings, with the stretches of both.
fn joined(best: &Meeting, next: &Meeting) -> Meeting {
    let nearer = if next.distance_mm < best.distance_mm { next } else { best };
    let both = |a: (f64, f64), b: (f64, f64)| (a.0.min(b.0), a.1.max(b.1));
    Meeting {
        first_stretch_mm: both(best.first_stretch_mm, next.first_stretch_mm),
        second_stretch_mm: both(best.second_stretch_mm, next.second_stretch_mm),
        ..*nearer
    }
}

fn meeting(elements: &[Element], i: usize, j: usize, nearest: &Nearest, limit_mm: f64) -> Meeting {
    Meeting {
        first_mm: nearest.first_mm,
        second_mm: nearest.second_mm,
        distance_mm: nearest.distance_mm,
        first_stretch_mm: stretch(&elements[i], &elements[j], nearest.first_mm, limit_mm),
        second_stretch_mm: stretch(&elements[j], &elements[i], nearest.second_mm, limit_mm),
        first_element: i,
        second_element: j,
    }
}

/// The stretch of `element` about a station that lies within the limit of `other`, to a thousandth of a
/// millimetre.
fn stretch(element: &Element, other: &Element, station_mm: f64, limit_mm: f64) -> (f64, f64) {
    let is_near = |station: f64| {
        let here = place(element, station);
        (other.closest(&here).1 - here).norm() < limit_mm
    };
    let edge = |end: f64| {
        // An arc meets itself at its ends; there the search for an edge has nothing to go by.
        if std::ptr::eq(element, other) {
            return station_mm;
        }
        if is_near(end) {
            return end;
        }
        let (mut near, mut far) = (station_mm, end);
        while (far - near).abs() > 1e-3 {
            let middle = near.midpoint(far);
            if middle == near || middle == far {
                break;
            }
            *(if is_near(middle) { &mut near } else { &mut far }) = middle;
        }
        near
    };
    (edge(element.from_mm), edge(element.to_mm()))
}
