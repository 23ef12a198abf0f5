//! The checks, one file each, and the registry that lists them.

mod angle_beyond_machine;
mod arcs_overlap;
mod blank_too_long;
mod clamp_across_arc;
mod clamp_not_in_shop;
mod cures;
mod end_not_square;
mod ends;
pub(crate) mod finding;
mod grip_too_short;
mod lead_too_short_to_clamp;
mod legs_apart;
mod naming;
mod no_die_for_radius;
mod path_undefined;
mod seam_in_the_stretch;
mod springback_takes_straight;
mod straight_too_short;
mod stretch_beyond_material;
mod tail_too_short_to_hold;
mod tube_meets_itself;
mod wall_too_thin;
mod words;

pub(crate) use words::Marked;

use std::f64::consts::PI;

use elbowroom_geometry::units::Shown;

use crate::layout::clamp::Seat;
use crate::{DieSet, Fault, Finding, Part, Place, Shop, Solved, SolvedBend};

/// Lengths this near to their limit meet it, mm: a nanometre, far above the rounding of a part of ten
/// metres and far below anything a shop can measure.
pub(crate) const SAME_MM: f64 = 1e-6;

/// Angles this near to their limit meet it, radians: a billionth, far below a machine's step.
pub(crate) const SAME_RAD: f64 = 1e-9;

/// Shares this near to their limit meet it: a billionth, far below what any metal shows.
pub(crate) const SAME_SHARE: f64 = 1e-9;

/// What a check looks at: the part, the shop, and the part solved so far (no findings yet).
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// The part.
    pub part: &'a Part,
    /// The shop it is to be made in.
    pub shop: &'a Shop,
    /// The solution, without findings. Bends, straights, places and cures are those of the drawing, whichever end is
    /// bent first.
    pub solved: &'a Solved,
}

impl<'a> Subject<'a> {
    /// A length in the unit that the part shows.
    pub(crate) fn length(&self, length_mm: f64) -> Shown {
        self.part.units.shown(length_mm)
    }

    /// A smallest length, rounded up in the last decimal that is shown, so that what is said suffices.
    pub(crate) fn at_least(&self, length_mm: f64) -> Shown {
        self.length(self.part.units.at_least_mm(length_mm))
    }

    /// The next round length upwards in the unit that the part shows, mm, so that what a label says is
    /// what its edit does and suffices.
    pub(crate) fn round_mm(&self, length_mm: f64) -> f64 {
        self.part.units.round_mm(length_mm)
    }

    /// The die set that bends a bend.
    pub(crate) fn die_of(&self, bend: &SolvedBend) -> Option<&'a DieSet> {
        bend.die.and_then(|die| self.shop.die_sets.get(die))
    }

    /// The bend that is made before bend `index`.
    pub(crate) fn bend_before(&self, index: usize) -> Option<usize> {
        self.solved.bend_before(index)
    }

    /// Whether bend `index` stands for a vertex at which the drawing turns straight back. In vertex form
    /// nothing else is half a turn to the bit without a radius.
    pub(crate) fn is_fold_back(&self, index: usize) -> bool {
        let bend = &self.solved.bends[index];
        bend.vertex.is_some() && bend.clr_mm == 0.0 && bend.angle_rad == PI
    }

    /// The arc of bend `index` as a place.
    pub(crate) fn arc_place(&self, index: usize) -> Place {
        let bend = &self.solved.bends[index];
        Place { from_mm: bend.starts_at_mm, to_mm: bend.ends_at_mm(), bend: Some(index), straight: None }
    }

    /// The straight ahead of bend `index` as a place, or the stretch on which it overlaps the bend made before it.
    pub(crate) fn place_ahead(&self, index: usize) -> Place {
        let (from_mm, to_mm) = self.solved.ahead_mm(index);
        Place { from_mm, to_mm, bend: Some(index), straight: Some(self.solved.clamped_straight(index)) }
    }

    /// Bend `index` as a seat for clamps other than the chosen one.
    pub(crate) fn seat(&self, index: usize) -> Seat<'a> {
        self.solved.seat(index)
    }
}

/// What the findings of a check are about. Nobody outside asks for a check by its name: what others need to tell
/// apart is a question of [`Finding`], answered from here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// The drawing, which makes no tube.
    Drawing,
    /// The straight on which a clamp has to close.
    Straight,
    /// The bite of a clamp that reaches over an arc.
    Bite,
    /// Extra stock at an end, cut off after bending.
    Stock,
    /// Anything else.
    Rest,
}

/// One check: its name, its manual page and what it does.
pub struct Check {
    /// Its name, such as `clamp-across-arc`.
    pub fault: Fault,
    /// One line that says what it looks for.
    pub summary: &'static str,
    /// The manual page, plain text: what it looks for, why it matters, how it is measured, limit and
    /// source, example, cure and its risk.
    pub manual: &'static str,
    /// What its findings are about, for those who have to tell some from others.
    pub about: About,
    /// Adds what it finds.
    pub run: fn(&Subject, &mut Vec<Finding>),
}

/// Every check, in the order of the manual: what makes others meaningless comes before them. Among
/// findings at one bend the verdict goes to the first.
pub static REGISTRY: &[Check] = &[
    path_undefined::CHECK,
    arcs_overlap::CHECK,
    tube_meets_itself::CHECK,
    no_die_for_radius::CHECK,
    angle_beyond_machine::CHECK,
    straight_too_short::CHECK,
    clamp_across_arc::CHECK,
    grip_too_short::CHECK,
    springback_takes_straight::CHECK,
    legs_apart::CHECK,
    stretch_beyond_material::CHECK,
    wall_too_thin::CHECK,
    clamp_not_in_shop::CHECK,
    lead_too_short_to_clamp::CHECK,
    tail_too_short_to_hold::CHECK,
    end_not_square::CHECK,
    blank_too_long::CHECK,
    seam_in_the_stretch::CHECK,
];

/// The check of that name.
pub fn named(fault: &str) -> Option<&'static Check> {
    REGISTRY.iter().find(|check| check.fault == fault)
}
