//! What straight, angle and CLR would have to be, bend by bend, for the tooling that is chosen.

use elbowroom_geometry::{Angle, BendRow, Length};

use crate::checks::Subject;
use crate::layout::clamp::Seat;
use crate::layout::order::InOrder;
use crate::model::nearly::{SAME_MM, SAME_RAD};
use crate::{Basis, DieSet, End, Part, Shop, Solved};

/// How far the bend before may turn for the clamp to manage on the present straight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AngleBefore {
    /// It may turn as it likes.
    Any,
    /// Up to so far.
    UpTo(Angle),
    /// However little it turns, the straight is too short: what lies beyond it is in the way.
    Never,
}

/// A radius that the shop can bend this tube to.
#[derive(Clone, Debug, PartialEq)]
pub struct Radius {
    /// The radius.
    pub clr: Length,
    /// The first die set that has it, by name.
    pub die: String,
}

/// What one bend asks of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Requirement {
    /// The bend, counted from 0 as drawn.
    pub bend: usize,
    /// The die set that bends it, by name.
    pub die: String,
    /// Length of the clamp, mm.
    pub clamp_mm: f64,
    /// The straight its clamp lies on, mm.
    pub straight_mm: f64,
    /// The smallest straight on which the clamp closes, mm.
    pub closes_from_mm: f64,
    /// The smallest straight on which it leaves no mark, mm.
    pub mark_free_from_mm: f64,
    /// The bend made before it, which its clamp may reach over, counted from 0 as drawn; `None` for the first
    /// one, whose clamp lies on the leg that leads.
    pub before: Option<usize>,
    /// How far the bend before may turn for the clamp still to close on the present straight.
    pub before_closes: AngleBefore,
    /// How far it may turn for the clamp to leave no mark.
    pub before_mark_free: AngleBefore,
    /// What these four limits rest on: the bites that the die set allows.
    pub bite_basis: Basis,
    /// The bend's own angle.
    pub angle: Angle,
    /// The largest angle that the present grip has proved to hold.
    pub held: Angle,
    /// What that rests on.
    pub held_basis: Basis,
    /// The largest angle that die and machine bend.
    pub largest: Angle,
    /// What that rests on.
    pub largest_basis: Basis,
}

/// What a part asks for on its chosen tooling.
#[derive(Clone, Debug, PartialEq)]
pub struct Requirements {
    /// The end of the drawing that is bent first.
    pub from: End,
    /// One row for each bend that has a die set, in the order of bending.
    pub bends: Vec<Requirement>,
    /// Bends without a die set, counted from 0 as drawn.
    pub without_die: Vec<usize>,
    /// The radii the shop has dies for at this outside diameter, rising.
    pub radii: Vec<Radius>,
}

impl Requirement {
    /// Whether the straight is too short for the clamp to close.
    pub fn too_short(&self) -> bool {
        self.before.is_some() && self.straight_mm < self.closes_from_mm - SAME_MM
    }

    /// Whether the clamp leaves a mark.
    pub fn marked(&self) -> bool {
        self.before.is_some() && self.straight_mm < self.mark_free_from_mm - SAME_MM
    }

    /// Whether the angle is more than the present grip has proved to hold.
    pub fn slips(&self) -> bool {
        self.angle > self.held + Angle::from_radians(SAME_RAD)
    }
}

/// What a drawing asks for as it is bent. Grows with the number of bends.
pub fn requirements(part: &Part, shop: &Shop, solved: &Solved) -> Requirements {
    let subject = Subject { part, shop, solved, around: &[] };
    let mut rows = solved.form.path.rows().to_vec();
    let mut bends = Vec::new();
    let mut without_die = Vec::new();
    for index in solved.in_order() {
        let bend = &solved.bends[index];
        let before = solved.bend_before(index);
        let (Some(die), Some(clamp)) = (subject.die_of(bend), bend.clamp) else {
            without_die.push(index);
            continue;
        };
        let length = Length::from_mm(clamp.length_mm);
        let mut turns = |limit: Length| match before {
            Some(before) if clamp.overlap_mm > 0.0 => {
                angle_before(&mut rows, &subject.seat(index), before, length, die, limit)
            }
            _ => AngleBefore::Any,
        };
        bends.push(Requirement {
            bend: index,
            die: die.name.clone(),
            clamp_mm: clamp.length_mm,
            straight_mm: bend.straight_ahead_mm,
            closes_from_mm: clamp.needs_straight_mm,
            mark_free_from_mm: clamp.mark_free_straight_mm,
            before,
            before_closes: turns(die.largest_bite),
            before_mark_free: turns(die.mark_free_bite),
            bite_basis: die.basis,
            angle: Angle::from_radians(bend.angle_rad),
            held: die.holds(Length::from_mm(clamp.gripped_mm)),
            held_basis: die.grip_basis(),
            largest: die.largest_angle.min(shop.machine.largest_angle),
            largest_basis: if die.largest_angle < shop.machine.largest_angle { die.basis } else { shop.machine.basis },
        });
    }
    without_die.sort_unstable();
    Requirements { from: solved.from, bends, without_die, radii: radii(part, shop) }
}

fn radii(part: &Part, shop: &Shop) -> Vec<Radius> {
    let mut radii: Vec<Radius> = Vec::new();
    for die in shop.die_sets.iter().filter(|die| die.takes(part.tube.od)) {
        if radii.iter().all(|known| (known.clr - die.clr).abs() > DieSet::SAME_SIZE) {
            radii.push(Radius { clr: die.clr, die: die.name.clone() });
        }
    }
    radii.sort_by(|a, b| a.clr.mm().total_cmp(&b.clr.mm()));
    radii
}

/// Angles are tried in steps of at most so much. An arc turned further changes the bite smoothly, and a clamp is
/// a few diameters long, so no window of angles that fails is narrower.
const STEP: Angle = Angle::from_degrees(2.0);
/// The least turn that is tried: less is a straight.
const LEAST: Angle = Angle::from_degrees(0.01);
/// Halvings after which an angle is known to a hundred-thousandth of a degree.
const HALVINGS: usize = 20;

/// The largest angle of bend `before` up to which the bite of the clamp on `seat` stays within a limit, on
/// the true path in space: the first step that fails is found, and halved down to. Angles at which the arc
/// reaches past the clamp, or beyond half a turn, change nothing under it. `rows` come back as they were.
fn angle_before(
    rows: &mut [BendRow],
    seat: &Seat,
    before: usize,
    clamp: Length,
    die: &DieSet,
    limit: Length,
) -> AngleBefore {
    let (kept, radius_mm) = (rows[before].angle, rows[before].clr.mm());
    if radius_mm <= 0.0 {
        // A corner of no radius has no arc to turn.
        return AngleBefore::Never;
    }
    let mut passes = |angle: Angle| {
        rows[before].angle = angle;
        let tried = Seat { order: InOrder { rows: &*rows, ..seat.order }, ..*seat };
        tried.lay(clamp, die).bite_mm <= limit.mm() + SAME_MM
    };
    let overlap_mm = clamp.mm() - seat.straight_mm;
    let whole = Angle::from_radians(overlap_mm / radius_mm).min(Angle::HALF_TURN).max(LEAST);
    let steps = (whole / STEP).ceil().max(1.0) as u32;
    let step = |index: u32| whole * (f64::from(index) / f64::from(steps));
    let found = if !passes(LEAST) {
        AngleBefore::Never
    } else if let Some(first) = (1..=steps).find(|index| !passes(step(*index))) {
        let (mut low, mut high) = (step(first - 1).max(LEAST), step(first));
        for _ in 0..HALVINGS {
            let middle = (low + high) / 2.0;
            if passes(middle) { low = middle } else { high = middle }
        }
        AngleBefore::UpTo(low)
    } else {
        AngleBefore::Any
    };
    rows[before].angle = kept;
    found
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;
    use crate::specimen::{self, row};
    use crate::{Edit, Hand, solve};
    use proptest::prelude::*;

    fn of(part: &Part, shop: &Shop) -> Requirements {
        requirements(part, shop, &solve(part, shop))
    }

    fn two(straight: f64, rotation: f64, before: f64) -> Part {
        specimen::part(vec![row(400.0, 0.0, before), row(straight, rotation, 60.0)], 400.0).unwrap()
    }

    fn up_to(before: AngleBefore) -> f64 {
        match before {
            AngleBefore::UpTo(angle) => angle.radians(),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_angle_before_by_hand() {
        // 125 mm clamp on 60 mm straight: 65 mm over the arc before. Past an arc of angle φ the tube runs
        // on straight, so the bite is R(1 - cos φ) + (65 - R φ) sin φ (derived here, from the sagitta).
        let requirement = of(&two(60.0, 40.0, 90.0), &specimen::shop()).bends.remove(1);
        let bite = |angle: f64| {
            let radius = specimen::CLR_MM;
            radius * (1.0 - angle.cos()) + (65.0 - radius * angle) * angle.sin()
        };
        assert!((bite(up_to(requirement.before_closes)) - 2.0).abs() < 1e-4);
        assert!((bite(up_to(requirement.before_mark_free)) - 0.3).abs() < 1e-4);
        assert!(requirement.too_short() && requirement.marked());
    }

    #[test]
    fn a_little_overlap_bears_any_angle() {
        // 5 mm over any arc of 76.2 mm bite 76.2 (1 - cos(5/76.2)) = 0.16 mm.
        let requirement = of(&two(120.0, 0.0, 90.0), &specimen::shop()).bends.remove(1);
        assert_eq!(requirement.before_mark_free, AngleBefore::Any);
        assert!(!requirement.marked());
    }

    #[test]
    fn what_lies_beyond_can_forbid_every_angle() {
        let rows = vec![row(400.0, 0.0, 120.0), row(10.0, 90.0, 20.0), row(10.0, 90.0, 60.0)];
        let part = specimen::part(rows, 400.0).unwrap();
        assert_eq!(of(&part, &specimen::shop()).bends[2].before_closes, AngleBefore::Never);
    }

    #[test]
    fn radii_and_grip_are_the_shops() {
        let requirements = of(&two(300.0, 0.0, 90.0), &specimen::shop());
        let radii: Vec<f64> = requirements.radii.iter().map(|radius| radius.clr.mm()).collect();
        assert_eq!(radii, [76.2, 101.6]);
        // A full 125 mm grip has proved 180°.
        assert!((requirements.bends[1].held.degrees() - 180.0).abs() < 1e-9);
        let mut part = two(300.0, 0.0, 90.0);
        part.tooling.clamp = Some(specimen::clamp_of(50.0));
        let short = of(&part, &specimen::shop());
        assert!((short.bends[1].held.degrees() - 45.0).abs() < 1e-9 && short.bends[1].slips());
        let odd = specimen::part(vec![specimen::row_at(300.0, 0.0, 45.0, 333.0)], 400.0).unwrap();
        assert_eq!(of(&odd, &specimen::shop()).without_die, [0]);
    }

    proptest! {
        #[test]
        fn the_checks_agree_on_both_sides_of_the_limit(
            straight in 5.0..110.0f64, rotation in -180.0..180.0f64, first in 10.0..120.0f64
        ) {
            let shop = specimen::shop();
            let rows = vec![row(300.0, 0.0, first), row(40.0, 70.0, 90.0), row(straight, rotation, 60.0)];
            let part = specimen::part(rows, 400.0).unwrap();
            let limit = of(&part, &shop).bends[2].before_closes;
            let stopped = |degrees: f64| {
                let tried = Edit::SetAngle(part.bend_id(1), Angle::from_degrees(degrees)).applied_to(&part).unwrap();
                let solved = solve(&tried, &shop);
                let stop = |finding: &crate::Finding| {
                    finding.fault == "straight-too-short" && finding.place.bend == Some(2)
                };
                solved.findings.iter().any(stop)
            };
            match limit {
                AngleBefore::Any => prop_assert!(!stopped(90.0) && !stopped(170.0)),
                AngleBefore::Never => prop_assert!(stopped(0.01)),
                AngleBefore::UpTo(angle) => {
                    prop_assert!(!stopped(angle.degrees() - 1e-3), "{}", angle.degrees());
                    prop_assert!(stopped(angle.degrees() + 1e-3), "{}", angle.degrees());
                }
            }
        }

        #[test]
        fn from_the_finish_the_checks_of_the_turned_part_agree(
            straights in proptest::collection::vec(5.0..140.0f64, 3),
            rotations in proptest::collection::vec(-180.0..180.0f64, 3),
            angles in proptest::collection::vec(10.0..120.0f64, 3),
        ) {
            let shop = specimen::shop();
            let rows = (0..3).map(|index| row(straights[index], rotations[index], angles[index])).collect();
            let part = specimen::part(rows, 300.0).unwrap();
            // Whoever holds the drawing turned round checks just that; bend 1 is its bend 3.
            let found = |part: &Part, bend: usize| {
                let solved = solve(&Edit::SwapEnds.applied_to(part).unwrap(), &shop);
                let at = |finding: &&crate::Finding| finding.place.bend == Some(2 - bend);
                solved.findings.iter().filter(at).map(|finding| finding.fault).collect::<Vec<_>>()
            };
            let required = of(&specimen::bent(&part, End::Finish, Hand::Right), &shop);
            let order: Vec<_> = required.bends.iter().map(|one| (one.bend, one.before)).collect();
            prop_assert_eq!(order, [(2, None), (1, Some(2)), (0, Some(1))]);
            for one in &required.bends {
                let faults = found(&part, one.bend);
                prop_assert_eq!(one.too_short(), faults.contains(&"straight-too-short"));
                prop_assert_eq!(one.slips(), faults.contains(&"grip-too-short"));
            }
            // Bend 1 is made last: bend 2 lies under its clamp, and the checks turn over at its limit.
            let stopped = |degrees: f64| {
                let tried = Edit::SetAngle(part.bend_id(1), Angle::from_degrees(degrees)).applied_to(&part).unwrap();
                found(&tried, 0).contains(&"straight-too-short")
            };
            match required.bends[2].before_closes {
                AngleBefore::Any => prop_assert!(!stopped(angles[1])),
                AngleBefore::Never => prop_assert!(stopped(0.01)),
                AngleBefore::UpTo(angle) => {
                    prop_assert!(!stopped(angle.degrees() - 1e-3), "{}", angle.degrees());
                    prop_assert!(stopped(angle.degrees() + 1e-3), "{}", angle.degrees());
                }
            }
        }
    }
}
