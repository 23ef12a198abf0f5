//! From a part and a shop to the program, the seam and the setup: everything the person at the bender needs.

use elbowroom_geometry::{Angle, Length, Refusal};
use thiserror::Error;

use super::solved::{Solved, solve};
use crate::forming::ground::Ground;
use crate::forming::process::Springback;
use crate::program::{NoProgram, Program};
use crate::seam::SeamLay;
use crate::{End, Finding, Hand, Part, Shop, Words};

/// A part planned for bending, from the end and to the side that it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The end of the drawing that is bent first.
    pub from: End,
    /// The side to which the machine bends.
    pub hand: Hand,
    /// The part.
    pub part: Part,
    /// That part, solved.
    pub solved: Solved,
    /// The program: that of the solved part, or what measured pieces made of it.
    pub program: Program,
    /// For each step, the bend of the drawing that it makes, counted from 0.
    pub bend_of_step: Vec<usize>,
    /// For each step, the die set by name.
    pub die_of_step: Vec<String>,
    /// For each step, what is known of its springback.
    pub springback_of_step: Vec<Springback>,
    /// What the lead trim and the tail trim rest on, springback included.
    pub trim_bases: [Option<Ground>; 2],
    /// The seam as it lies on the machine, a clock position a step; `None` for tube without one.
    pub seam: Option<SeamLay>,
}

impl Plan {
    /// The bend of the drawing that a step makes, counted from 0 from the drawing's lead end whichever end
    /// is bent first. `None` beyond the last step.
    pub fn drawn_bend(&self, step: usize) -> Option<usize> {
        self.bend_of_step.get(step).copied()
    }

    /// What the checks find.
    pub fn findings(&self) -> &[Finding] {
        &self.solved.findings
    }

    /// What the length of the blank rests on: springback by theory where there is any, else an unsure trim.
    pub fn blank_basis(&self) -> Option<Ground> {
        let trims = || self.trim_bases.iter().flatten();
        if let Some(springback) = self.unsure_springback() {
            return Some(springback);
        }
        trims().find(|ground| ground.unsure()).or(trims().next()).copied()
    }

    /// The weakest that the springback of a step rests on, where that must look unsure: theory before trials in doubt.
    pub fn unsure_springback(&self) -> Option<Ground> {
        weakest_springback(&self.springback_of_step)
    }

    /// The first straight that the free radius uses up, as a step counted from 0 (the number of steps for
    /// the tail), with what is missing. A program with one cannot be run.
    pub fn used_up(&self) -> Option<(usize, Length)> {
        /// Rounding of a part of ten metres, mm.
        const ROUNDING: Length = Length::from_mm(1e-6);
        let straights = self.program.steps.iter().map(|step| step.feed);
        let tail = self.program.tail + self.program.tail_trim;
        straights.chain([tail]).enumerate().find(|(_, left)| *left < -ROUNDING).map(|(step, left)| (step, -left))
    }
}

/// Why there is no program.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PlanRefusal {
    /// A bend has no die set or no clamp. Counted from 0 as drawn.
    #[error("bend {} has no die set in the shop, so there is nothing to set the machine by; choose tooling that fits its radius", .0 + 1)]
    NoDie(usize),
    /// The drawing makes no sense as a tube.
    #[error("the drawing makes no tube: {0}")]
    NoTube(String),
    /// A number was turned away.
    #[error(transparent)]
    Number(Refusal),
}

impl From<NoProgram> for PlanRefusal {
    fn from(none: NoProgram) -> Self {
        match none {
            NoProgram::NoDie(bend) => Self::NoDie(bend),
            NoProgram::Number(refusal) => Self::Number(refusal),
        }
    }
}

/// Plans a part as it says it is bent: program, seam and setup.
///
/// Trims and seam are those of the solved part.
///
/// # Errors
/// Says which bend has no tooling, or why the drawing makes no tube.
pub fn plan(part: &Part, shop: &Shop) -> Result<Plan, PlanRefusal> {
    Plan::of(part, shop, &solve(part, shop))
}

impl Plan {
    /// The plan of a part that is solved already.
    ///
    /// # Errors
    /// Says which bend has no tooling, or why the drawing makes no tube.
    pub fn of(part: &Part, shop: &Shop, solved: &Solved) -> Result<Self, PlanRefusal> {
        if let Some(finding) = solved.findings.iter().find(|finding| finding.makes_no_tube()) {
            return Err(PlanRefusal::NoTube(finding.found(&Words::new(part, shop, solved))));
        }
        let program = solved.program.clone()?;
        let bend_of_step: Vec<usize> = solved.in_order().collect();
        let mut die_of_step = Vec::with_capacity(bend_of_step.len());
        let mut springback_of_step = Vec::with_capacity(bend_of_step.len());
        for &bend in &bend_of_step {
            let index = solved.bends[bend].die.ok_or(PlanRefusal::NoDie(bend))?;
            let known = solved.known.iter().find(|(die, _)| *die == index);
            let (die, (_, springback)) = shop.die_sets.get(index).zip(known).ok_or(PlanRefusal::NoDie(bend))?;
            die_of_step.push(die.name.clone());
            springback_of_step.push(springback.clone());
        }
        let trim_bases = solved.trim_bases_in_order();
        let seam = solved.seam.as_ref().map(|seam| on_machine(seam, solved.from, &bend_of_step));
        Ok(Self {
            from: solved.from,
            hand: solved.hand,
            part: part.clone(),
            solved: solved.clone(),
            program,
            bend_of_step,
            die_of_step,
            springback_of_step,
            trim_bases,
            seam,
        })
    }
}

/// A clock position seen from the other side; half a turn stays where it is.
fn opposed(clock: Angle) -> Angle {
    if clock == Angle::HALF_TURN { clock } else { -clock }
}

/// The seam of a drawing as it lies on the machine, at the bends that are made, the first of them first.
fn on_machine(seam: &SeamLay, from: End, bends: &[usize]) -> SeamLay {
    let clock = |bend: usize| match from {
        End::Start => seam.at_bends[bend],
        // Seen from the other side.
        End::Finish => opposed(seam.at_bends[bend]),
    };
    let at_bends: Vec<Angle> = bends.iter().map(|&bend| clock(bend)).collect();
    SeamLay {
        start: at_bends.first().copied().unwrap_or(Angle::ZERO),
        worst: seam.worst,
        worst_bend: seam.worst_bend.and_then(|worst| bends.iter().position(|&bend| bend == worst)),
        at_bends,
    }
}

fn weakest_springback(springback: &[Springback]) -> Option<Ground> {
    let mut unsure =
        springback.iter().filter(|springback| springback.unsure()).map(|springback| springback.basis.into());
    let first = unsure.next()?;
    if unsure.any(|ground| ground == Ground::Theory) { Some(Ground::Theory) } else { Some(first) }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen;

    fn part() -> Part {
        let rows = vec![
            specimen::row(300.0, 0.0, 90.0),
            specimen::row(150.0, 0.0, 0.0),
            specimen::row(100.0, 40.0, 60.0),
            specimen::row(200.0, -70.0, 45.0),
        ];
        specimen::part(rows, 400.0).unwrap()
    }

    #[test]
    fn rows_that_turn_nothing_are_no_steps() {
        let plan = plan(&part(), &specimen::shop()).unwrap();
        assert_eq!(plan.bend_of_step, [0, 2, 3]);
        assert_eq!(plan.program.steps.len(), 3);
        assert!((plan.program.steps[1].rotation.degrees() - 40.0).abs() < 1e-9);
    }

    #[test]
    fn both_ends_take_the_same_blank_but_for_the_trims() {
        let of = |from| plan(&specimen::bent(&part(), from, Hand::Right), &specimen::shop()).unwrap().program;
        let (lead, tail) = (of(End::Start), of(End::Finish));
        let net = |program: &Program| (program.blank - program.lead_trim - program.tail_trim).mm();
        assert!((net(&lead) - net(&tail)).abs() < 1e-9);
        let angles =
            |program: &Program| -> Vec<f64> { program.steps.iter().map(|step| step.set_angle.radians()).collect() };
        let mut turned = angles(&tail);
        turned.reverse();
        for (a, b) in angles(&lead).iter().zip(turned) {
            assert!((a - b).abs() < 1e-12);
        }
    }

    #[test]
    fn the_blank_grows_where_the_free_radius_takes_lead() {
        // A lead leg of exactly the clamp: springback takes some of it. By theory that is less than a millimetre, which
        // nobody saws off; by the shop's own line it is more, and the blank gets it back.
        let part = specimen::part(vec![specimen::row(125.0, 0.0, 90.0)], 400.0).unwrap();
        let mut shop = specimen::shop();
        let by_theory = plan(&part, &shop).unwrap();
        assert_eq!((by_theory.program.lead_trim, by_theory.findings().len()), (Length::ZERO, 0));
        shop.springback.push(specimen::own_line(&shop.die_sets[0], 1.0, 0.025));
        let plan = plan(&part, &shop).unwrap();
        let step = &plan.program.steps[0];
        assert!(plan.program.lead_trim.mm() > 1.0 && plan.program.lead_trim.mm() < 5.0);
        let over = (step.feed - step.forming.clamp).mm();
        assert!((-1e-9..0.1).contains(&over), "{over}");
        assert_eq!(plan.program.lead_trim.mm(), plan.solved.lead_trim_mm);
    }

    #[test]
    fn a_bend_without_tooling_has_no_program() {
        let part = specimen::part(vec![specimen::row_at(300.0, 0.0, 45.0, 333.0)], 400.0).unwrap();
        assert_eq!(plan(&part, &specimen::shop()), Err(PlanRefusal::NoDie(0)));
    }

    #[test]
    fn bends_are_named_as_drawn_from_either_end() {
        let drawn = |from| -> Vec<usize> {
            let plan = plan(&specimen::bent(&part(), from, Hand::Right), &specimen::shop()).unwrap();
            (0..plan.program.steps.len()).filter_map(|step| plan.drawn_bend(step)).collect()
        };
        assert_eq!(drawn(End::Start), [0, 2, 3]);
        assert_eq!(drawn(End::Finish), [3, 2, 0]);
        let rows = vec![specimen::row(300.0, 0.0, 45.0), specimen::row_at(300.0, 0.0, 45.0, 333.0)];
        let odd = specimen::part(rows, 400.0).unwrap();
        assert_eq!(
            plan(&specimen::bent(&odd, End::Finish, Hand::Right), &specimen::shop()),
            Err(PlanRefusal::NoDie(1))
        );
    }

    #[test]
    fn a_straight_that_the_free_radius_uses_up_is_told() {
        let part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0), specimen::row(0.0, 0.0, 90.0)], 400.0).unwrap();
        let plan = plan(&part, &specimen::shop()).unwrap();
        let (step, missing) = plan.used_up().unwrap();
        assert_eq!(step, 1);
        assert!(missing.mm() > 0.1);
    }

    #[test]
    fn a_pinned_seam_stays_where_it_is() {
        let mut part = part();
        part.tooling.seam_start = Some(specimen::seam_at(10.0));
        let plan = plan(&part, &specimen::shop()).unwrap();
        assert!((plan.seam.unwrap().start.degrees() - 10.0).abs() < 1e-12);
    }
}
