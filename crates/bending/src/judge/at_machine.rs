//! What the person at the machine reads off beside feed and angle: the dial of the chuck, where the clamp lies along the
//! blank, where the weld seam goes when the tube is loaded, and what to watch at a step.

use elbowroom_geometry::{Angle, Length};

use crate::plan::Plan;
use crate::program::Step;
use crate::{End, Hand, Severity, Words};

/// From where a clock of the seam is seen, and how it hangs.
pub const CLOCK_SENSE: &str = "seen from the chuck looking to the die, 12 straight up, the bend lying level";

/// A whole turn, degrees.
const TURN: f64 = 360.0;

/// What is watched at a step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watch {
    /// How grave a finding is; `None` for something to do.
    pub severity: Option<Severity>,
    /// One plain sentence.
    pub text: String,
}

/// What the dial of the chuck reads at each step where it reads 0° at the first: the sum of the turns since, from 0° to
/// 360°, in their positive sense.
pub fn dials(steps: &[Step]) -> Vec<Angle> {
    let mut turned = 0.0;
    let dial = |(index, step): (usize, &Step)| {
        if index > 0 {
            turned = on_dial(turned + step.rotation.degrees());
        }
        Angle::from_degrees(turned)
    };
    steps.iter().enumerate().map(dial).collect()
}

/// Degrees brought onto a dial, from 0 to 360; what rounds to a whole turn is 0.
pub(super) fn on_dial(degrees: f64) -> f64 {
    /// What is left of rounding where rotations come back to where they were, degrees.
    const ROUNDING: f64 = 1e-9;
    let on = degrees.rem_euclid(TURN);
    if on > TURN - ROUNDING { 0.0 } else { on }
}

/// The stretch of the blank that the clamp grips at a step, measured from the end that is bent first: it ends where the bend
/// starts. Over an arc it is measured along the tube. It never begins before the blank does.
pub fn clamped(step: &Step) -> [Length; 2] {
    let from = step.mark - step.forming.clamp;
    [if from < Length::ZERO { Length::ZERO } else { from }, step.mark]
}

/// Where the weld seam goes when the tube is loaded: degrees clockwise from straight up, [as it is seen](CLOCK_SENSE), from 0
/// to 360. `None` for seamless tube and where nothing is bent.
///
/// The seam's clock counts from the outside of the first bend, clockwise for whoever looks from the chuck to the die. A
/// machine that bends to the right has the outside of the bend at 9 o'clock, one that bends to the left at 3. Derived here.
pub fn seam_from_top(plan: &Plan) -> Option<Angle> {
    if plan.program.steps.is_empty() {
        return None;
    }
    let outside = match plan.hand {
        Hand::Right => 270.0,
        Hand::Left => 90.0,
    };
    plan.seam.as_ref().map(|lay| Angle::from_degrees(on_dial(outside + lay.start.degrees())))
}

/// A direction as a person reads a clock, to the nearest half hour, such as `half past 2` or `12 o'clock`.
pub fn o_clock(from_top: Angle) -> String {
    // Half an hour is 15°. A half is rounded on.
    let halves = (from_top.degrees().rem_euclid(TURN) / 15.0).round() as u32 % 24;
    let hour = if halves / 2 == 0 { 12 } else { halves / 2 };
    if halves.is_multiple_of(2) { format!("{hour} o'clock") } else { format!("half past {hour}") }
}

/// What is to be watched at a step, counted from 0: what changes on the machine, then what the checks find at its bend.
pub(super) fn watched(plan: &Plan, index: usize, words: &Words) -> Vec<Watch> {
    let mut watched = Vec::new();
    let steps = &plan.program.steps;
    if let Some(before) = index.checked_sub(1) {
        let (die, last) = (&plan.die_of_step[index], &plan.die_of_step[before]);
        let (clamp, last_clamp) = (steps[index].forming.clamp, steps[before].forming.clamp);
        let clamp_text = plan.part.units.shown(clamp.mm());
        let text = match (die == last, clamp == last_clamp) {
            (true, true) => None,
            (true, false) => Some(format!("Change the clamp to {clamp_text}.")),
            (false, _) => Some(format!("Change the die to {die}, and the clamp to {clamp_text}.")),
        };
        watched.extend(text.map(|text| Watch { severity: None, text }));
    }
    let bend = plan.drawn_bend(index);
    let here = plan.findings().iter().filter(|finding| bend.is_some() && finding.place.bend == bend);
    watched.extend(here.map(|finding| Watch { severity: Some(finding.severity), text: finding.found(words) }));
    watched
}

/// Which end of the drawing goes where, in words.
pub(super) fn loaded(from: End) -> String {
    let (ahead, behind) = match from {
        End::Start => ("start", "finish"),
        End::Finish => ("finish", "start"),
    };
    format!("the {ahead} of the drawing towards the die, its {behind} in the chuck")
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use approx::assert_abs_diff_eq;
    use elbowroom_geometry::Vector3;

    use super::*;
    use crate::plan::plan;
    use crate::specimen::{self, row};

    fn planned(rows: Vec<elbowroom_geometry::BendRow>, from: End, hand: Hand, seam: Option<f64>) -> Plan {
        let mut part = specimen::bent(&specimen::part(rows, 400.0).unwrap(), from, hand);
        part.tooling.seam_start = seam.map(specimen::seam_at);
        plan(&part, &specimen::shop()).unwrap()
    }

    #[test]
    fn the_dial_adds_up_the_turns_and_never_reads_a_whole_one() {
        let rows =
            vec![row(300.0, 0.0, 45.0), row(300.0, -30.0, 45.0), row(300.0, 170.0, 45.0), row(300.0, -140.0, 45.0)];
        let plan = planned(rows, End::Start, Hand::Right, None);
        let dials: Vec<f64> = dials(&plan.program.steps).iter().map(|dial| dial.degrees()).collect();
        for (dial, by_hand) in dials.iter().zip([0.0, 330.0, 140.0, 0.0]) {
            assert_abs_diff_eq!(*dial, by_hand, epsilon = 1e-9);
        }
        assert!(dials.iter().all(|dial| (0.0..360.0).contains(dial)), "{dials:?}");
    }

    #[test]
    fn a_clock_is_read_to_half_an_hour() {
        for (degrees, read) in [
            (0.0, "12 o'clock"),
            (7.0, "12 o'clock"),
            (8.0, "half past 12"),
            (30.0, "1 o'clock"),
            (75.0, "half past 2"),
            (270.0, "9 o'clock"),
            (352.0, "half past 11"),
            (353.0, "12 o'clock"),
            (-90.0, "9 o'clock"),
        ] {
            assert_eq!(o_clock(Angle::from_degrees(degrees)), read, "{degrees}");
        }
    }

    #[test]
    fn the_seam_is_loaded_where_it_lies_in_space() {
        // In the frame of the drawing: looking from the chuck to the die is looking from the end that is bent last to the
        // one that is bent first. Level with the bend, up is the axis about which a machine that bends to the left turns the
        // tube ahead; a machine of the other hand has it upside down.
        for (from, hand, pinned) in [
            (End::Start, Hand::Right, 0.0),
            (End::Start, Hand::Right, 75.0),
            (End::Start, Hand::Left, 75.0),
            (End::Finish, Hand::Right, 30.0),
            (End::Finish, Hand::Left, -110.0),
        ] {
            let rows = vec![row(300.0, 0.0, 50.0), row(300.0, 40.0, 60.0)];
            let plan = planned(rows, from, hand, Some(pinned));
            let bend = plan.drawn_bend(0).unwrap();
            let arc = plan.solved.centreline.arc(bend).unwrap().start;
            // The seam as the scene draws it: left-handed about the direction of travel, from the outside.
            let clock = plan.solved.seam.as_ref().unwrap().at_bends[bend].radians();
            let seam = arc.binormal() * clock.sin() - arc.normal * clock.cos();
            let looking = match from {
                End::Start => -arc.tangent,
                End::Finish => arc.tangent,
            };
            let right: Vector3<f64> = match hand {
                Hand::Right => arc.normal,
                Hand::Left => -arc.normal,
            };
            let up = right.cross(&looking);
            // Carried along the tube, which does not twist, it lies at the next bend where its clock there says.
            let end = plan.solved.centreline.arc(0).unwrap().turned(1.0);
            let first = plan.solved.centreline.arc(0).unwrap().start;
            let clocks = &plan.solved.seam.as_ref().unwrap().at_bends;
            let at_first = first.binormal() * clocks[0].radians().sin() - first.normal * clocks[0].radians().cos();
            let carried = end.normal * at_first.dot(&first.normal) + end.binormal() * at_first.dot(&first.binormal());
            let next = plan.solved.centreline.arc(1).unwrap().start;
            let at_next = carried.dot(&next.binormal()).atan2(-carried.dot(&next.normal));
            assert_abs_diff_eq!(at_next, clocks[1].radians(), epsilon = 1e-9);
            let by_space = seam.dot(&right).atan2(seam.dot(&up)).to_degrees().rem_euclid(360.0);
            assert_abs_diff_eq!(seam_from_top(&plan).unwrap().degrees(), by_space, epsilon = 1e-9);
        }
    }

    #[test]
    fn the_clamp_ends_where_the_bend_starts_and_begins_on_the_blank() {
        let plan = planned(vec![row(300.0, 0.0, 45.0), row(300.0, 90.0, 45.0)], End::Start, Hand::Right, None);
        for step in &plan.program.steps {
            let [from, to] = clamped(step);
            assert_eq!(to, step.mark);
            assert_abs_diff_eq!((to - from).mm(), step.forming.clamp.mm(), epsilon = 1e-9);
        }
        let mut short = plan.program.steps[0];
        short.mark = Length::from_mm(100.0);
        assert_eq!(clamped(&short)[0], Length::ZERO);
    }

    #[test]
    fn a_change_of_die_is_told_before_what_the_checks_find() {
        let rows = vec![row(300.0, 0.0, 90.0), specimen::row_at(60.0, 0.0, 45.0, 101.6)];
        let plan = planned(rows, End::Start, Hand::Right, None);
        let shop = specimen::shop();
        let words = Words::new(&plan.part, &shop, &plan.solved);
        let watched = watched(&plan, 1, &words);
        assert!(
            watched[0].text.starts_with("Change the die to 50.8 at 2D") && watched[0].severity.is_none(),
            "{watched:?}"
        );
        assert!(watched.len() > 1 && watched[1..].iter().all(|watch| watch.severity.is_some()), "{watched:?}");
        assert!(super::watched(&plan, 0, &words).iter().all(|watch| !watch.text.contains("Change")));
        // What helps belongs to the desk, not to the machine.
        assert!(watched.iter().all(|watch| !watch.text.contains("Lengthen")), "{watched:?}");
    }
}
