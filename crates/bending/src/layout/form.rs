//! Works out what bending does to the tube of a part that is laid out, bend by bend.

use elbowroom_geometry::{Angle, Length};

use super::bend::SolvedBend;
use super::formed::{Bent, Formed, Mass, Released};
use super::let_go::{let_go, take_up};
use super::order::InOrder;
use crate::forming::process::Springback;
use crate::forming::wall::{WallRule, outer_stretch};
use crate::model::material::mass_per_metre;
use crate::model::nearly::is_bend;
use crate::seam::{SeamBend, SeamLay};
use crate::{End, Part, Seam, Shop};

impl Formed {
    fn of(part: &Part, bend: &SolvedBend) -> Option<Self> {
        let (od, wall, clr) = (part.tube.od, part.tube.wall, Length::from_mm(bend.clr_mm));
        // Where the inside folds in on itself no rule speaks.
        WallRule::RadiusRatio.figure(od, wall, clr)?;
        Some(Self {
            bent: Bent { od, wall, clr, angle: Angle::from_radians(bend.angle_rad) },
            released: None,
            seam_at_rad: None,
        })
    }
}

/// What is known of the springback on each die set that the part needs, by its index in the shop.
pub(crate) type Known = Vec<(usize, Springback)>;

/// Adds to each bend what bending does to the tube there. Gives what is known of springback, asked of the shop once a die set.
pub(super) fn form(part: &Part, shop: &Shop, bends: &mut [SolvedBend], seam: Option<&SeamLay>) -> Known {
    let mut known = Known::new();
    let mut taken_before_mm = 0.0;
    for index in part.tooling.from.in_order(bends.len()) {
        let bend = &mut bends[index];
        if !bend.is_bent() {
            continue;
        }
        let Some(mut formed) = Formed::of(part, bend) else {
            taken_before_mm = 0.0;
            continue;
        };
        formed.released = bend.die.and_then(|die| {
            let place = known.iter().position(|(one, _)| *one == die);
            let place = match place {
                Some(place) => place,
                None => {
                    known.push((die, shop.springback_of(shop.die_sets.get(die)?, &part.tube)));
                    known.len() - 1
                }
            };
            release(bend, shop.die_sets.get(die)?.clr, &known[place].1, taken_before_mm)
        });
        taken_before_mm = formed.released.map_or(0.0, |released| released.takes_mm);
        formed.seam_at_rad = seam.and_then(|seam| seam.at_bends.get(index)).map(|at| at.radians());
        bend.formed = Some(formed);
    }
    known
}

fn release(bend: &SolvedBend, die: Length, springback: &Springback, taken_before_mm: f64) -> Option<Released> {
    let free = Angle::from_radians(bend.angle_rad);
    let set = springback.line.set(free);
    let growth = let_go(&springback.line, die, Length::from_mm(bend.clr_mm), free);
    if !(set.is_finite() && growth.free.is_finite()) {
        return None;
    }
    let takes_mm = growth.straight_taken().mm();
    Some(Released {
        line: springback.line,
        basis: springback.basis,
        material_unknown: springback.material_unknown,
        set_angle_rad: set.radians(),
        free_angle_rad: bend.angle_rad,
        free_clr_mm: growth.free.mm(),
        takes_mm,
        drawn_clr_mm: bend.clr_mm,
        takes_up_mm: take_up(die, set, springback.stretch).mm(),
        straight_ahead_mm: bend.straight_ahead_mm - taken_before_mm - takes_mm,
    })
}

/// The rows as the seam sees them: one for each, those that turn nothing without stretch. Clock 0° is the
/// outside of the first row that turns the tube, so what is rotated before it counts for nothing. In the order in which
/// the rows come to the machine.
fn seam_bends(part: &Part, order: &InOrder) -> Vec<SeamBend> {
    let mut is_bent_before = false;
    let of_row = |index: usize| {
        let row = &order.rows[index];
        let rotation = if is_bent_before { order.rotation_ahead_rad(index) } else { 0.0 };
        let is_bent = is_bend(row) && row.clr.mm() > 0.0;
        is_bent_before |= is_bent;
        // The inside of a tighter bend folds into itself, and nothing can be said of its strain.
        let stretch = if is_bent && row.clr > part.tube.od / 2.0 { outer_stretch(part.tube.od, row.clr) } else { 0.0 };
        SeamBend { rotation: Angle::from_radians(rotation), stretch }
    };
    order.from.in_order(order.rows.len()).map(of_row).collect()
}

/// The seam where it is strained least. It is looked for in the order of bending, so that of several equally good places
/// on the tube it is one and the same, whichever way the drawing runs.
pub(crate) fn best_seam(part: &Part, order: &InOrder) -> SeamLay {
    let best = SeamLay::best(&seam_bends(part, order));
    match order.from {
        End::Start => best,
        End::Finish => {
            // The tube does not twist, and the drawing looks along it from the other side.
            let last = order.rows.iter().position(is_bend).unwrap_or(0);
            let start = best.at_bends.get(order.rows.len() - 1 - last).map_or(Angle::ZERO, |at| -*at);
            pinned_seam(part, order, start)
        }
    }
}

fn pinned_seam(part: &Part, order: &InOrder, start: Angle) -> SeamLay {
    SeamLay::from_start(start, &seam_bends(part, &InOrder { from: End::Start, ..*order }))
}

/// The seam along the drawing; `None` for tube without one, and where nothing is bent.
pub(super) fn seam(part: &Part, order: &InOrder) -> Option<SeamLay> {
    if part.tube.seam == Seam::Seamless || !order.rows.iter().any(is_bend) {
        return None;
    }
    Some(match part.tooling.seam_start {
        Some(start) => pinned_seam(part, order, start.clock()),
        None => best_seam(part, order),
    })
}

/// Mass by the first density that the shop knows of the material; `None` where it knows none.
pub(super) fn mass(part: &Part, shop: &Shop, developed_mm: f64, blank_mm: f64) -> Option<Mass> {
    let density = shop.material(&part.tube.material)?.density.first()?;
    let per_metre_kg = mass_per_metre(&part.tube, density.value);
    Some(Mass {
        per_metre_kg,
        part_kg: per_metre_kg * developed_mm / 1000.0,
        blank_kg: per_metre_kg * blank_mm / 1000.0,
        certainty: density.certainty,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::forming::springback::SpringbackBasis;
    use crate::specimen::{self, row};
    use crate::{plan, solve};
    use approx::assert_abs_diff_eq;

    fn part() -> Part {
        let rows = vec![row(300.0, 25.0, 0.0), row(40.0, 35.0, 90.0), row(150.0, 30.0, 0.0), row(100.0, 40.0, 60.0)];
        specimen::part(rows, 400.0).unwrap()
    }

    #[test]
    fn what_is_solved_is_what_is_planned() {
        let (part, shop) = (part(), specimen::shop());
        let solved = solve(&part, &shop);
        let plan = plan::plan(&part, &shop).unwrap();
        for (step, &bend) in plan.program.steps.iter().zip(&plan.bend_of_step) {
            let released = solved.bends[bend].formed.unwrap().released.unwrap();
            assert_abs_diff_eq!(released.set_angle_rad, step.set_angle.radians(), epsilon = 1e-12);
            assert_abs_diff_eq!(released.free_clr_mm, step.free_clr.mm(), epsilon = 1e-9);
            assert_abs_diff_eq!(released.straight_ahead_mm, step.feed.mm(), epsilon = 1e-9);
        }
        let cut = solved.cut().unwrap();
        assert_abs_diff_eq!(cut.blank_mm, plan.program.blank.mm(), epsilon = 1e-9);
        assert_abs_diff_eq!(cut.lead_trim_mm, plan.program.lead_trim.mm(), epsilon = 1e-9);
        assert_abs_diff_eq!(cut.tail_trim_mm, plan.program.tail_trim.mm(), epsilon = 1e-9);
        let (seam, planned) = (solved.seam.clone().unwrap(), plan.seam.unwrap());
        assert_abs_diff_eq!(seam.start.radians(), planned.start.radians(), epsilon = 1e-12);
        assert_abs_diff_eq!(seam.worst, planned.worst, epsilon = 1e-12);
        assert_eq!(seam.at_bends.len(), 4);
        for (step, &bend) in plan.bend_of_step.iter().enumerate() {
            assert_abs_diff_eq!(
                solved.bends[bend].formed.unwrap().seam_at_rad.unwrap(),
                planned.at_bends[step].radians(),
                epsilon = 1e-12
            );
        }
    }

    #[test]
    fn the_cut_is_the_programs_whatever_the_springback() {
        // Short legs, so that both trims grow; a half turn, which takes more than is drawn; own line and stretch.
        let rows = vec![row(120.0, 0.0, 90.0), row(150.0, 30.0, 180.0), row(100.0, 40.0, 60.0)];
        let part = specimen::part(rows, 140.0).unwrap();
        let mut shop = specimen::shop();
        let theory = solve(&part, &shop).cut().unwrap();
        assert_eq!(theory.basis, SpringbackBasis::Theory);
        let known = specimen::known(&shop.die_sets[0], "304", |known| {
            (known.line, known.stretch) = (Some(specimen::line(1.0, 0.02)), Some(0.03));
        });
        shop.springback.push(known);
        let solved = solve(&part, &shop);
        let (cut, plan) = (solved.cut().unwrap(), plan::plan(&part, &shop).unwrap());
        assert_eq!(cut.basis, SpringbackBasis::Shop);
        assert_abs_diff_eq!(cut.blank_mm, plan.program.blank.mm(), epsilon = 1e-9);
        assert_abs_diff_eq!(cut.lead_trim_mm, plan.program.lead_trim.mm(), epsilon = 1e-9);
        assert_abs_diff_eq!(cut.tail_trim_mm, plan.program.tail_trim.mm(), epsilon = 1e-9);
        // One trim, one figure: 125 mm of clamp on 120 mm, 150 mm held on 140 mm, and what springback takes of both.
        assert_eq!([cut.lead_trim_mm, cut.tail_trim_mm], [solved.lead_trim_mm, solved.tail_trim_mm]);
        assert!(cut.lead_trim_mm > 5.5 && cut.tail_trim_mm > 10.5, "{cut:?}");
    }

    #[test]
    fn rows_that_turn_nothing_and_folded_bends_are_not_formed() {
        let solved = solve(&part(), &specimen::shop());
        assert_eq!(solved.bends[0].formed, None);
        let folded = specimen::part(vec![specimen::row_at(300.0, 0.0, 45.0, 20.0)], 300.0).unwrap();
        assert_eq!(solve(&folded, &specimen::shop()).bends[0].formed, None);
    }

    #[test]
    fn without_a_die_there_is_no_springback_but_stretch() {
        let odd = specimen::part(vec![specimen::row_at(300.0, 0.0, 45.0, 127.0)], 300.0).unwrap();
        let formed = solve(&odd, &specimen::shop()).bends[0].formed.unwrap();
        assert_eq!((formed.released, solve(&odd, &specimen::shop()).cut()), (None, None));
        assert_abs_diff_eq!(formed.outer_stretch(), 0.2, epsilon = 1e-12);
    }

    #[test]
    fn seamless_tube_has_no_seam_and_unknown_material_no_mass() {
        let mut part = part();
        part.tube = part.tube.closed_by(Seam::Seamless).of_material("unobtainium");
        let solved = solve(&part, &specimen::shop());
        assert_eq!((&solved.seam, solved.mass), (&None, None));
        assert!(solved.bends[1].formed.unwrap().released.unwrap().material_unknown);
    }
}
