//! The order of bending belongs to the part: from the finish everything still speaks of the drawing.
#![allow(clippy::unwrap_used)]

use elbowroom_bending::compare::compare;
use elbowroom_bending::plan::plan;
use elbowroom_bending::specimen::{self, judged, row};
use elbowroom_bending::{Edit, End, Hand, Part, Severity, Solved, Words, solve};
use elbowroom_geometry::Angle;
use proptest::prelude::*;

fn from_finish(part: &Part) -> Part {
    specimen::bent(part, End::Finish, Hand::Right)
}

fn swapped(part: &Part) -> Part {
    Edit::SwapEnds.applied_to(part).unwrap()
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-6
}

/// What solving the drawing from its finish gives, against the drawing turned round and solved from its start.
fn agree(part: &Part) -> Result<(), TestCaseError> {
    let shop = specimen::shop();
    let (mine, turned): (Solved, Solved) = (solve(&from_finish(part), &shop), solve(&swapped(part), &shop));
    let (length_mm, bends) = (turned.developed_length_mm, turned.bends.len());
    prop_assert!(mine.straights_mm.iter().rev().zip(&turned.straights_mm).all(|(a, b)| near(*a, *b)));
    prop_assert!(near(mine.tail_trim_mm, turned.lead_trim_mm) && near(mine.lead_trim_mm, turned.tail_trim_mm));
    let blank_mm = |solved: &Solved| solved.cut().map_or(0.0, |cut| cut.blank_mm);
    prop_assert!(mine.cut().is_some() == turned.cut().is_some() && near(blank_mm(&mine), blank_mm(&turned)));
    for (index, (drawn, made)) in mine.bends.iter().zip(turned.bends.iter().rev()).enumerate() {
        prop_assert!(near(drawn.ends_at_mm(), length_mm - made.starts_at_mm));
        prop_assert!(near(drawn.angle_rad, made.angle_rad) && near(drawn.straight_ahead_mm, made.straight_ahead_mm));
        let before = turned.bend_before(bends - 1 - index).map(|before| bends - 1 - before);
        prop_assert_eq!(mine.bend_before(index), before);
        prop_assert_eq!(drawn.clamp.is_some(), made.clamp.is_some());
        if let (Some(drawn), Some(made)) = (drawn.clamp, made.clamp) {
            prop_assert!(near(drawn.from_mm, length_mm - made.to_mm) && near(drawn.to_mm, length_mm - made.from_mm));
            prop_assert!(near(drawn.bite_mm, made.bite_mm));
        }
        let seam = |bend: &elbowroom_bending::SolvedBend| bend.formed.and_then(|formed| formed.seam_at_rad);
        if let (Some(drawn), Some(made)) = (seam(drawn), seam(made)) {
            prop_assert!((drawn + made).sin().abs() < 1e-9 && (drawn + made).cos() > 0.0, "{drawn} {made}");
        }
    }
    let faults = |solved: &Solved, turn: bool| {
        let place = |bend: Option<usize>| bend.map(|bend| if turn { bends - 1 - bend } else { bend });
        let mut faults: Vec<_> =
            solved.findings.iter().map(|one| (one.fault, one.severity, place(one.place.bend))).collect();
        for (fault, _, bend) in &mut faults {
            // Where two stretches meet at a tangent point, it is one of two neighbours.
            *bend = bend.filter(|_| *fault != "tube-meets-itself");
        }
        faults.sort();
        faults
    };
    prop_assert_eq!(faults(&mine, false), faults(&turned, true));
    prop_assert_eq!(mine.worst(), turned.worst());
    Ok(())
}

/// A drawing that people draw: bends and straights of everyday figures among odd ones.
fn a_drawing() -> impl Strategy<Value = Part> {
    let straight = prop_oneof![Just(0.0), Just(60.0), Just(125.0), 0.0..400.0f64];
    let rotation = prop_oneof![Just(0.0), Just(30.0), Just(45.0), Just(90.0), Just(180.0), -180.0..180.0f64];
    let angle = prop_oneof![Just(0.0), Just(30.0), Just(45.0), Just(90.0), Just(180.0), 0.5..185.0f64];
    let tail = prop_oneof![Just(0.0), Just(125.0), 0.0..400.0f64];
    let pinned = proptest::option::of(prop_oneof![Just(0.0), Just(90.0), -180.0..180.0f64]);
    (prop::collection::vec((straight, rotation, angle), 0..6), tail, pinned).prop_map(|(rows, tail, pinned)| {
        let rows = rows.into_iter().map(|(straight, rotation, angle)| row(straight, rotation, angle)).collect();
        let mut part = specimen::part(rows, tail).unwrap();
        part.tooling.seam_start = pinned.map(specimen::seam_at);
        part
    })
}

proptest! {
    #[test]
    fn from_the_finish_is_the_drawing_turned_round(part in a_drawing()) {
        agree(&part)?;
    }

    #[test]
    fn a_drawing_turned_round_and_bent_from_its_other_end_is_the_same_work(part in a_drawing()) {
        let shop = specimen::shop();
        let (one, other) = (plan(&part, &shop), plan(&from_finish(&swapped(&part)), &shop));
        prop_assert_eq!(one.is_ok(), other.is_ok());
        let (Ok(one), Ok(other)) = (one, other) else { return Ok(()) };
        let bends = one.solved.bends.len();
        let (mine, its) = (&one.program, &other.program);
        prop_assert!(near(mine.blank.mm(), its.blank.mm()) && near(mine.tail.mm(), its.tail.mm()));
        prop_assert!(near(mine.lead_trim.mm(), its.lead_trim.mm()) && near(mine.tail_trim.mm(), its.tail_trim.mm()));
        prop_assert_eq!(mine.steps.len(), its.steps.len());
        let same_turn = |a: Angle, b: Angle| ((a - b).radians() / 2.0).sin().abs() < 1e-9;
        for (step, (mine, its)) in mine.steps.iter().zip(&its.steps).enumerate() {
            prop_assert!(near(mine.feed.mm(), its.feed.mm()) && near(mine.mark.mm(), its.mark.mm()), "step {step}");
            prop_assert!(same_turn(mine.rotation, its.rotation) && same_turn(mine.set_angle, its.set_angle));
            prop_assert!(near(mine.free_clr.mm(), its.free_clr.mm()) && near(mine.take_up.mm(), its.take_up.mm()));
            prop_assert_eq!(one.drawn_bend(step), other.drawn_bend(step).map(|bend| bends - 1 - bend));
        }
        if let (Some(mine), Some(its)) = (&one.seam, &other.seam) {
            prop_assert!(mine.at_bends.iter().zip(&its.at_bends).all(|(a, b)| same_turn(*a, *b)), "{mine:?} {its:?}");
            prop_assert!(near(mine.worst, its.worst) && same_turn(mine.start, its.start));
        }
        prop_assert_eq!(one.solved.worst(), other.solved.worst());
    }
}

#[test]
fn a_tooling_row_from_the_finish_keeps_the_drawing_and_gives_the_program_it_promised() {
    let shop = specimen::shop();
    let part = specimen::part(vec![row(300.0, 0.0, 10.0), row(200.0, 40.0, 90.0)], 94.3).unwrap();
    for tooling in compare(&part, &shop).rows.iter().filter(|one| one.changed_clr.is_none()) {
        let taken = tooling.edit.applied_to(&part).unwrap();
        assert_eq!((&taken.path, taken.tooling.from), (&part.path, tooling.from), "only swapping ends swaps");
        let program = plan(&taken, &shop).unwrap().program;
        let wanted = if tooling.from == End::Finish { 90.0 } else { 10.0 };
        assert!((program.steps[0].free_angle.degrees() - wanted).abs() < 1e-6);
        // One trim, one figure: on the row, on the part that takes it, and in its program.
        let trims_mm = [tooling.lead_trim_mm, tooling.tail_trim_mm];
        assert_eq!([program.lead_trim.mm(), program.tail_trim.mm()], trims_mm);
        assert_eq!(solve(&taken, &shop).trims_in_order_mm(), trims_mm);
    }
    let with_125 = |one: &&elbowroom_bending::compare::Tooling| {
        one.from == End::Finish && one.clamp == Some(elbowroom_geometry::Length::from_mm(125.0))
    };
    let row = compare(&part, &shop).rows.into_iter().find(|one| with_125(&one) && one.changed_clr.is_none()).unwrap();
    // 125 mm of clamp on 94.3 mm, less what the released bend takes of them: its radius grows by half a millimetre or less.
    assert!((30.7..31.2).contains(&row.lead_trim_mm), "{}", row.lead_trim_mm);
}

#[test]
fn swapping_ends_keeps_a_pinned_seam_where_it_is_on_the_tube() {
    let rows = vec![row(300.0, 25.0, 0.0), row(200.0, 35.0, 90.0), row(200.0, 70.0, 60.0), row(100.0, 20.0, 0.0)];
    let mut part = specimen::part(rows, 400.0).unwrap();
    part.tooling.seam_start = Some(specimen::seam_at(10.0));
    let pinned = |part: &Part| part.tooling.seam_start.unwrap().clock().degrees();
    // Bend 1 at 10, bend 2 at 80; from the other side that is -80 at what is then the first.
    assert!(near(pinned(&swapped(&part)), -80.0), "{}", pinned(&swapped(&part)));
    assert!(near(pinned(&swapped(&swapped(&part))), 10.0));
}

#[test]
fn what_is_said_from_the_finish_names_the_drawing() {
    // Bends 1 to 4. From the finish the clamp of bend 2 lies on the 60 mm before bend 3.
    let rows = vec![row(300.0, 0.0, 45.0), row(300.0, 40.0, 60.0), row(60.0, 20.0, 90.0), row(300.0, 0.0, 30.0)];
    let (part, shop) = (from_finish(&specimen::part(rows, 400.0).unwrap()), specimen::shop());
    let solved = judged(&part, &shop);
    let found = solved.findings.iter().find(|finding| finding.fault == "straight-too-short").unwrap();
    assert_eq!((found.severity, found.place.bend, found.place.straight), (Severity::Stop, Some(1), Some(2)));
    assert!(found.text.starts_with("Bend 2: the straight between bends 2 and 3 is 60.0 mm"), "{}", found.text);
    assert!(found.verdict.ends_with("is needed between bends 2 and 3."), "{}", found.verdict);
    assert!(found.cures[0].risk.starts_with("Everything beyond bend 3 moves"), "{}", found.cures[0].risk);
    // The place is the straight of the drawing, and the cure lengthens just that.
    assert!(near(found.place.to_mm, solved.bends[2].starts_at_mm));
    assert!(near(found.place.from_mm, solved.bends[1].ends_at_mm()));
    let cured = solve(&found.cures[0].edit.applied_to(&part).unwrap(), &shop);
    for (index, (now, was)) in cured.straights_mm.iter().zip(&solved.straights_mm).enumerate() {
        assert_eq!((now - was).abs() > 1e-6, index == 2, "straight {}", index + 1);
    }
    assert!(found.cures[0].label.contains(&format!("{:.1}", cured.straights_mm[2])), "{}", found.cures[0].label);
}

#[test]
fn ends_are_named_by_the_drawing_too() {
    let part = specimen::part(vec![row(300.0, 0.0, 45.0), row(300.0, 0.0, 60.0)], 85.0).unwrap();
    let solved = judged(&from_finish(&part), &specimen::shop());
    let lead = solved.findings.iter().find(|finding| finding.fault == "lead-too-short-to-clamp").unwrap();
    assert!(lead.text.starts_with("Bend 2: the leg at the finish is 85.0 mm"), "{}", lead.text);
    assert!(lead.text.contains("cut off after bending ~84.8 mm after bend 2"), "{}", lead.text);
    assert!(solved.verdict.text.contains("at the finish"), "{}", solved.verdict.text);
}

proptest! {
    #[test]
    fn the_bend_a_text_begins_with_is_the_one_it_marks(
        straights in prop::collection::vec(-10.0..140.0f64, 5),
        rotations in prop::collection::vec(-180.0..180.0f64, 5),
        angles in prop::collection::vec(5.0..185.0f64, 5),
        tail in 0.0..400.0f64
    ) {
        let rows = (0..5).map(|index| row(straights[index], rotations[index], angles[index])).collect();
        let part = specimen::part(rows, tail).unwrap();
        for from in [End::Start, End::Finish] {
            for finding in judged(&specimen::bent(&part, from, Hand::Right), &specimen::shop()).findings {
                let number = finding.text.strip_prefix("Bend ").and_then(|rest| rest.split([':', ' ']).next());
                let Some(number) = number.and_then(|digits| digits.parse::<usize>().ok()) else { continue };
                if finding.text.contains(" overlap ") {
                    continue;
                }
                prop_assert_eq!(Some(number - 1), finding.place.bend, "{}", finding.text);
            }
        }
    }
}

/// Lead leg, tail and springback line of a bend of 90°, and the trims in order that they ask for: springback takes the
/// growth of the radius, 76.2 mm × (set ÷ free - 1), of either leg (R tan 45°, S01).
#[test]
fn a_trim_counts_springback_and_less_than_a_millimetre_is_none() {
    // Whole tenths, upwards; less than a millimetre is none.
    let sawn = |mm: f64| if mm < 1.0 { 0.0 } else { ((mm - 1e-6) * 10.0).ceil() / 10.0 };
    let taken = |a: f64, b: f64| 76.2 * ((90.0 + a) / (1.0 - b) / 90.0 - 1.0);
    for (lead, tail, (a, b)) in [
        (125.0, 150.0, (0.0, 0.0)),
        (124.1, 149.1, (0.0, 0.0)),
        (123.9, 148.9, (0.0, 0.0)),
        (125.0, 150.0, (0.5, 0.004)),
        (125.0, 150.0, (1.0, 0.025)),
        (85.0, 60.0, (1.0, 0.025)),
        (30.0, 30.0, (1.0, 0.025)),
    ] {
        let mut shop = specimen::shop();
        shop.springback.push(specimen::own_line(&shop.die_sets[0], a, b));
        let wanted = [125.0 - lead + taken(a, b), 150.0 - tail + taken(a, b)].map(sawn);
        for from in [End::Start, End::Finish] {
            let [straight, behind] = if from == End::Start { [lead, tail] } else { [tail, lead] };
            let part =
                specimen::bent(&specimen::part(vec![row(straight, 0.0, 90.0)], behind).unwrap(), from, Hand::Left);
            let plan = plan(&part, &shop).unwrap();
            let solved = &plan.solved;
            let words = Words::new(&part, &shop, solved);
            let verdict = solved.verdict(&words);
            let is_wanted = |trims: [f64; 2]| near(trims[0], wanted[0]) && near(trims[1], wanted[1]);
            assert!(is_wanted(solved.trims_in_order_mm()), "{:?} for {wanted:?}", solved.trims_in_order_mm());
            assert!(is_wanted([plan.program.lead_trim.mm(), plan.program.tail_trim.mm()]));
            let cut = solved.cut().unwrap();
            assert!(is_wanted(from.first_before([cut.lead_trim_mm, cut.tail_trim_mm])));
            assert!(near(cut.blank_mm, plan.program.blank.mm()));
            // What has no trim says nothing of one, and the clamp holds.
            if wanted == [0.0, 0.0] {
                assert_eq!(verdict.text, "Bends as drawn.", "{:?}", solved.findings);
            }
            for (mm, fault) in wanted.iter().zip(["lead-too-short-to-clamp", "tail-too-short-to-hold"]) {
                let found = solved.findings.iter().find(|finding| finding.fault == fault);
                assert_eq!(found.is_some(), *mm > 0.0, "{fault} for {mm}: {:?}", solved.findings);
                let told = part.units.shown(*mm).to_string();
                assert!(found.is_none_or(|found| found.found(&words).contains(&told)), "{told}: {found:?}");
                assert!(*mm == 0.0 || verdict.severity != Some(Severity::Note) || verdict.text.contains(&told));
            }
        }
    }
}

/// Where the machine holds on less than a square face wants, the face asks for the trim.
#[test]
fn a_square_end_asks_for_a_trim_of_its_own() {
    let mut shop = specimen::shop();
    specimen::change(&mut shop.machine, |machine| machine.tail_hold = elbowroom_geometry::Length::from_mm(10.0));
    let solved = solve(&specimen::part(vec![row(400.0, 0.0, 90.0)], 30.0).unwrap(), &shop);
    let square_mm = shop.machine.square_end_diameters * specimen::OD_MM;
    let [lead_mm, tail_mm] = solved.trims_in_order_mm();
    // The leg that is left, 30 less what springback takes, lacks the rest; springback takes less than a millimetre there.
    assert!(lead_mm == 0.0 && tail_mm >= square_mm - 30.0 && tail_mm < square_mm - 29.0, "{lead_mm} {tail_mm}");
}
