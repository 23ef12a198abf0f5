//! Where the tube comes too near to itself.
//!
//! Two places of the centreline that are less than OD apart are a meeting unless the tube itself joins
//! them. It joins places up to π/2 · OD apart along it, half a turn of the tightest bend that a tube can
//! have: by Schur's comparison theorem (from memory) a curve with no radius below OD/2 keeps places just
//! so far apart along it at least OD apart in space. So what is nearer than OD and farther along is a
//! meeting, whichever elements it lies on, and a bend is no meeting for being a bend. The legs of a
//! U-bend lie 2 CLR apart and meet where that is less than OD.

mod groups;
mod meeting;
mod piece;
mod segment;
mod tree;

use std::f64::consts::{FRAC_PI_2, PI};

pub use meeting::Meeting;
pub(crate) use piece::{Piece, Search, place};
pub(crate) use segment::nearest;
pub(crate) use tree::Tree;

use crate::{Centreline, Element, ElementKind};

/// What is less than this nearer than OD touches and does not meet, mm: a nanometre.
const TOUCH_MM: f64 = 1e-6;

/// The most pairs of elements that are looked at in a tube that lies over itself again and again; a
/// bound on time, far above what any real part has.
const MOST_PAIRS: usize = 500;

/// All places where a tube of outside diameter `od_mm` meets itself, nearest first.
///
/// Stays under n log n for parts that are spread out in space. Straights of negative length count for
/// nothing. A diameter that is not a positive finite number meets nothing.
pub fn self_clearances(centreline: &Centreline, od_mm: f64) -> Vec<Meeting> {
    if !(od_mm.is_finite() && od_mm > TOUCH_MM) {
        return Vec::new();
    }
    let elements = centreline.elements();
    let limit_mm = od_mm - TOUCH_MM;
    let gap_mm = FRAC_PI_2 * od_mm;
    let mut found = Vec::new();
    let mut looked_at = 0;
    Tree::of(elements).pairs_within(limit_mm, &mut |a, b| {
        let (i, j) = (a.element, b.element);
        let (first, second) = (&elements[i], &elements[j]);
        if second.to_mm() - first.from_mm < gap_mm || is_plain_turn(&elements[i..=j], od_mm / 2.0) {
            return true;
        }
        let mut search = Search { first, second, gap_mm, shortest_mm: od_mm / 32.0, limit_mm, found: None };
        search.run(&a.piece, &b.piece);
        if let Some(nearest) = search.found {
            found.push((i, j, nearest));
            looked_at += 1;
        }
        looked_at < MOST_PAIRS
    });
    groups::meetings(elements, found, limit_mm)
}

/// Whether neighbouring elements turn so little that no two places on them meet.
///
/// One bend of up to half a turn with its straights is plain where its radius is OD/2 or more: its legs
/// do not approach beyond it. So are several elements that turn by Θ in all, with 2 / cos(Θ/2) ≤ π: every
/// direction of travel lies within Θ/2 of a middle one, so places L apart along the tube are at least
/// L cos(Θ/2) apart in space, which for L of π/2 · OD or more is OD or more. Both derived here.
fn is_plain_turn(run: &[Element], tube_mm: f64) -> bool {
    const MOST: usize = 9;
    // 2 acos(2/π), about 100.9°.
    const PLAIN_RAD: f64 = 1.760_4;
    if run.len() > MOST {
        return false;
    }
    let (mut bends, mut turn_rad, mut tightest_mm) = (0, 0.0, f64::INFINITY);
    for element in run {
        if element.length_mm < 0.0 {
            return false;
        }
        if let ElementKind::Arc { radius_mm, angle_rad } = element.kind
            && angle_rad > 0.0
        {
            bends += 1;
            turn_rad += angle_rad;
            tightest_mm = tightest_mm.min(radius_mm);
        }
    }
    turn_rad <= PLAIN_RAD || (bends == 1 && turn_rad <= PI && tightest_mm >= tube_mm)
}
