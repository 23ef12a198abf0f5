//! Which piece follows which.

use std::collections::HashMap;

use elbowroom_geometry::Point3;

use super::piece::Piece;

/// What pieces make.
#[derive(Clone, Debug, Default)]
pub(crate) struct Linked {
    /// Chains of pieces, each piece turned so that it runs with its chain, by their numbers among all; in the order of
    /// the first of them, and from the end that it lies nearer to.
    pub chains: Vec<Vec<(usize, Piece)>>,
    /// Places where more than two ends meet.
    pub forks: Vec<Point3<f64>>,
    /// How many chains run round without an end.
    pub rounds: usize,
}

/// Joins pieces whose ends lie within so many mm of each other. What meets at a fork is in no chain, nor is what is
/// joined to it.
pub(crate) fn linked(pieces: &[Piece], within_mm: f64) -> Linked {
    let (ends, places) = meeting(pieces, within_mm);
    let mut at: Vec<Vec<usize>> = vec![Vec::new(); places.len()];
    for (end, place) in ends.iter().enumerate() {
        at[*place].push(end);
    }
    let mut linked = Linked::default();
    linked.forks.extend(at.iter().zip(&places).filter(|(ends, _)| ends.len() > 2).map(|(_, place)| *place));
    // The end of another piece that an end is joined to.
    let joined = |end: usize| match at[ends[end]].as_slice() {
        [one, other] => Some(if *one == end { *other } else { *one }),
        _ => None,
    };
    let mut used = vec![false; pieces.len()];
    for first in 0..pieces.len() {
        if used[first] {
            continue;
        }
        // Back from the piece's start to where the chain begins, then forward from there.
        let (mut begin, mut is_round) = (2 * first, false);
        while let Some(end) = joined(begin) {
            begin = end ^ 1;
            if begin / 2 == first {
                is_round = true;
                break;
            }
        }
        let (mut chain, mut end, mut has_fork) = (Vec::new(), begin, at[ends[begin]].len() > 2);
        loop {
            let index = end / 2;
            if std::mem::replace(&mut used[index], true) {
                break;
            }
            let piece = pieces[index];
            chain.push((index, if end.is_multiple_of(2) { piece } else { piece.reversed() }));
            has_fork |= at[ends[end ^ 1]].len() > 2;
            match joined(end ^ 1) {
                Some(next) => end = next,
                None => break,
            }
        }
        if is_round {
            linked.rounds += 1;
        } else if !has_fork {
            linked.chains.push(turned_as_drawn(chain));
        }
    }
    linked
}

/// A chain from the end that its first piece, in the order of the file, lies nearer to.
fn turned_as_drawn(mut chain: Vec<(usize, Piece)>) -> Vec<(usize, Piece)> {
    let (first, last) = (chain.first().map(|piece| piece.0), chain.last().map(|piece| piece.0));
    if last < first {
        chain.reverse();
        chain.iter_mut().for_each(|(_, piece)| *piece = piece.reversed());
    }
    chain
}

/// For each end (start and end of each piece in turn) the place that it lies at, and the places.
fn meeting(pieces: &[Piece], within_mm: f64) -> (Vec<usize>, Vec<Point3<f64>>) {
    let mut cells: HashMap<[i64; 3], Vec<usize>> = HashMap::new();
    let (mut ends, mut places) = (Vec::with_capacity(2 * pieces.len()), Vec::<Point3<f64>>::new());
    for point in pieces.iter().flat_map(|piece| [piece.from(), piece.to()]) {
        let cell = [point.x, point.y, point.z].map(|value| (value / within_mm / 2.0).floor() as i64);
        let near = |shift: i64, axis: usize| cell[axis].saturating_add(shift);
        let around = (-1..=1).flat_map(|x| (-1..=1).flat_map(move |y| (-1..=1).map(move |z| [x, y, z])));
        let found = around
            .map(|[x, y, z]| [near(x, 0), near(y, 1), near(z, 2)])
            .filter_map(|cell| cells.get(&cell))
            .flatten()
            .copied()
            .find(|place| (places[*place] - point).norm() <= within_mm);
        let place = found.unwrap_or_else(|| {
            places.push(point);
            cells.entry(cell).or_default().push(places.len() - 1);
            places.len() - 1
        });
        ends.push(place);
    }
    (ends, places)
}
