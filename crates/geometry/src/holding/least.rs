//! The least change that meets the conditions.

use nalgebra::{DVector, Vector3};

use super::chain::{Chain, Freely};
use super::terms::{Figure, Freedom, Pinned};
use crate::{Angle, BendPath, Length};

/// Conditions are met to this, mm, and to a part in a million million of the length of the path: what is left is rounding.
const MET_MM: f64 = 1e-9;
const MET_SHARE: f64 = 1e-12;
/// No angle changes by more in one step, radians: what is seen from one place of a circle is a line, and holds near by.
const STEP_RAD: f64 = 0.3;
/// Paths near by are found in a handful of steps; one that is not found in so many is far, or nowhere.
const STEPS: usize = 60;
/// A change this small is the last one, mm.
const SETTLED_MM: f64 = 1e-6;
/// Directions in which nothing moves by more than this share of what moves most count as held fast.
const FAST_SHARE: f64 = 1e-8;
/// No bend is straightened out to less than this.
const LEAST_BEND: Angle = Angle::from_degrees(0.1);
/// An overlap of arcs below this is rounding, mm.
const ROUNDING_MM: f64 = 1e-9;

/// See [`BendPath::keeping`].
pub(super) fn changed(path: &BendPath, pinned: &[Pinned], freedom: &Freedom) -> Option<BendPath> {
    let mut chain = Chain::of(path);
    let straights_mm = || path.rows().iter().map(|row| row.straight.mm().abs() + row.arc_mm());
    let length_mm = straights_mm().sum::<f64>() + path.tail().mm().abs();
    // An angle counts as what it moves at the end of a leg of the usual length, a turn of the whole as what it moves there.
    let arm_mm = (length_mm / (path.rows().len() + 1) as f64).max(1.0);
    let free = free(path, freedom, arm_mm, length_mm.max(1.0));
    let met_mm = MET_MM + MET_SHARE * length_mm;
    // What was changed so far, weighed.
    let mut so_far = DVector::<f64>::zeros(free.len());
    for _ in 0..STEPS {
        let (off, slopes) = chain.conditions(pinned, &free, arm_mm)?;
        let is_met = off.amax() <= met_mm;
        if free.is_empty() {
            return is_met.then(|| path.clone());
        }
        let fast = slopes.amax() * FAST_SHARE;
        let wanted = slopes.clone().svd(true, true).solve(&(&slopes * &so_far - off), fast).ok()?;
        let mut step = wanted - &so_far;
        if !step.iter().all(|by| by.is_finite()) {
            return None;
        }
        if is_met && step.amax() <= SETTLED_MM {
            break;
        }
        let turn_rad = free.iter().zip(step.iter()).filter(|((one, _), _)| turns(*one));
        let turn_rad = turn_rad.map(|((_, weight), by)| (by / weight).abs()).fold(0.0, f64::max);
        if turn_rad > STEP_RAD {
            step *= STEP_RAD / turn_rad;
        }
        let by: Vec<f64> = free.iter().zip(step.iter()).map(|((_, weight), by)| by / weight).collect();
        chain.change(&free, &by);
        so_far += step;
    }
    let (off, _) = chain.conditions(pinned, &free, arm_mm)?;
    (off.amax() <= met_mm && is_tube(&chain, path, freedom.figures)).then(|| chain.path()).flatten()
}

/// What may change, each with the weight by which it is measured, mm.
fn free(path: &BendPath, freedom: &Freedom, arm_mm: f64, length_mm: f64) -> Vec<(Freely, f64)> {
    let has = |figure: &Figure| match *figure {
        Figure::Straight(index) => index <= path.rows().len(),
        Figure::Rotation(bend) | Figure::Angle(bend) => bend < path.rows().len(),
    };
    let weight = |figure: &Figure| if matches!(figure, Figure::Straight(_)) { 1.0 } else { arm_mm };
    let figures = freedom.figures.iter().filter(|figure| has(figure));
    let figures = figures.map(|figure| (Freely::Figure(*figure), weight(figure)));
    let axes = [Vector3::x(), Vector3::y(), Vector3::z()];
    let moves = axes.iter().filter(|_| freedom.moves).map(|axis| (Freely::Move(*axis), 1.0));
    let turns = axes.iter().filter(|_| freedom.turns).map(|axis| (Freely::Turn(*axis), length_mm));
    figures.chain(moves).chain(turns).collect()
}

fn turns(one: Freely) -> bool {
    !matches!(one, Freely::Move(_) | Freely::Figure(Figure::Straight(_)))
}

/// Whether what has changed can be bent as the path before could: no angle beyond what a bend can have, no arcs that
/// overlap more than before.
fn is_tube(chain: &Chain, before: &BendPath, figures: &[Figure]) -> bool {
    let straight =
        |rows: &[crate::BendRow], tail: Length, index: usize| rows.get(index).map_or(tail, |row| row.straight);
    figures.iter().all(|figure| match *figure {
        Figure::Straight(index) => {
            let was_mm = straight(before.rows(), before.tail(), index).mm();
            straight(&chain.rows, chain.tail, index).mm() >= was_mm.min(0.0) - ROUNDING_MM
        }
        Figure::Rotation(_) => true,
        Figure::Angle(bend) => {
            // A bend that would be straightened out is another drawing, and no bend any more.
            let least = before.rows().get(bend).map_or(Angle::ZERO, |row| row.angle.min(LEAST_BEND));
            chain.rows.get(bend).is_none_or(|row| row.angle >= least && row.angle <= BendPath::LARGEST_ANGLE)
        }
    })
}
