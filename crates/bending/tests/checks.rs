//! Every check on a part that fails it and on one that passes, with its words, and every cure applied.
#![allow(clippy::unwrap_used, clippy::panic)]

use approx::assert_abs_diff_eq;
use elbowroom_bending::checks::{REGISTRY, named};
use elbowroom_bending::specimen::judged as solve;
use elbowroom_bending::specimen::{
    CLR_MM, Judged, change, change_die, clamp_of, own_line, part, part_along, row, row_at, shop,
};
use elbowroom_bending::{Edit, End, Finding, Part, Path, Severity, Shop, Told, Unit};
use elbowroom_geometry::{Angle, BendRow, Length, Point3, VertexPath};

fn sound() -> Vec<BendRow> {
    vec![row(200.0, 0.0, 45.0), row(150.0, 90.0, 90.0), row(130.0, -30.0, 30.0)]
}

fn made(rows: Vec<BendRow>) -> Part {
    part(rows, 300.0).unwrap()
}

fn drawn(points: &[[f64; 3]]) -> Part {
    let clr = vec![Length::from_mm(CLR_MM); points.len().saturating_sub(2)];
    let points = points.iter().map(|p| Point3::new(p[0], p[1], p[2])).collect();
    part_along(Path::Vertices(VertexPath::new(points, clr).unwrap()))
}

fn found<'a>(solved: &'a Judged, fault: &str) -> Vec<&'a Told> {
    solved.findings.iter().filter(|finding| finding.fault == fault).collect()
}

fn only(solved: &Judged, fault: &str) -> Told {
    let findings = found(solved, fault);
    assert_eq!(findings.len(), 1, "{fault}: {:#?}", solved.findings);
    findings[0].clone()
}

/// Applies every cure of every finding and checks that the finding goes or becomes less grave.
fn every_cure_cures(part: &Part, shop: &Shop) -> usize {
    let mut tried = 0;
    for finding in solve(part, shop).findings {
        for cure in &finding.cures {
            let cured = cure.edit.applied_to(part).unwrap_or_else(|refusal| panic!("{}: {refusal}", cure.label));
            let after = solve(&cured, shop);
            let is_same =
                |one: &&Told| (one.place.bend, one.place.straight) == (finding.place.bend, finding.place.straight);
            let left = found(&after, finding.fault).into_iter().filter(is_same);
            for one in left {
                let is_better = one.severity < finding.severity
                    || (one.measured - one.limit).abs() < (finding.measured - finding.limit).abs() - 1e-9;
                assert!(is_better, "\u{201c}{}\u{201d} leaves {} as {}", cure.label, finding.text, one.text);
            }
            tried += 1;
        }
    }
    tried
}

#[test]
fn a_sound_part_bends_as_drawn() {
    let solved = solve(&made(sound()), &shop());
    assert_eq!(solved.findings, []);
    assert_eq!((solved.worst(), solved.verdict.text.as_str()), (None, "Bends as drawn."));
    assert_abs_diff_eq!(
        solved.developed_length_mm,
        200.0 + 150.0 + 130.0 + 300.0 + CLR_MM * 165.0_f64.to_radians(),
        epsilon = 1e-9
    );
}

#[test]
fn straight_too_short_says_what_is_missing() {
    let mut rows = sound();
    rows[2].straight = Length::from_mm(69.5);
    let part = made(rows);
    let solved = solve(&part, &shop());
    let finding = only(&solved, "straight-too-short");
    let needs = 125.0 - CLR_MM * (1.0 - 2.0 / CLR_MM).acos();
    assert_eq!((finding.severity, finding.unit), (Severity::Stop, Unit::Millimetre));
    assert_abs_diff_eq!(finding.limit, needs, epsilon = 1e-9);
    assert_eq!(finding.measured, 69.5);
    assert_eq!((finding.place.bend, finding.place.straight), (Some(2), Some(2)));
    assert_abs_diff_eq!(finding.place.to_mm - finding.place.from_mm, 69.5, epsilon = 1e-9);
    assert_eq!(
        finding.text,
        "Bend 3: the straight before it is 69.5 mm, and the 125.0 mm clamp needs ~107.6 mm here; ~38.1 mm are missing. \
         Lengthen the straight to 107.6 mm, or take the 80.0 mm clamp (proved to ~90.0°)."
    );
    assert_eq!(solved.verdict.text, "Cannot be bent as drawn: ~38.1 mm more straight is needed before bend 3.");
    let across = only(&solved, "clamp-across-arc");
    assert_eq!(across.severity, Severity::Stop);
    // The clamp that cures both is offered once.
    assert_eq!((across.cures.len(), across.cured_with), (1, Some(0)));
    assert_eq!(every_cure_cures(&part, &shop()), 3);
}

#[test]
fn clamp_across_arc_grows_from_note_to_stop() {
    let across = |straight| {
        let mut rows = sound();
        rows[2].straight = Length::from_mm(straight);
        let part = made(rows);
        every_cure_cures(&part, &shop());
        let solved = solve(&part, &shop());
        (only(&solved, "clamp-across-arc"), solved.verdict.text)
    };
    let (note, verdict) = across(120.0);
    assert_eq!(note.severity, Severity::Note);
    assert_eq!(verdict, "Bends as drawn; the clamp of bend 3 reaches 5.0 mm over bend 2 and leaves no mark.");
    let (caution, verdict) = across(115.0);
    assert_eq!((caution.severity, caution.limit), (Severity::Caution, 0.3));
    assert_eq!(verdict, "Bends, but the clamp of bend 3 will mark bend 2.");
    assert_eq!(
        caution.text,
        "Bend 3: clamp reaches 10.0 mm over the last 7.5° of bend 2; bite 0.7 mm towards the die, and more than ~0.3 mm \
         leaves a mark. Lengthen the straight to 118.3 mm, or take the 80.0 mm clamp (proved to ~90.0°)."
    );
    // The stretch marked is what the clamp covers of bend 2.
    let solved = solve(&made(sound()), &shop());
    let bend_2 = &solved.bends[1];
    assert_abs_diff_eq!(caution.place.to_mm, bend_2.ends_at_mm(), epsilon = 1e-9);
    assert_abs_diff_eq!(caution.place.from_mm, bend_2.ends_at_mm() - 10.0, epsilon = 1e-9);
    let (stop, _) = across(100.0);
    assert_eq!((stop.severity, stop.limit), (Severity::Stop, 2.0));
}

#[test]
fn a_mark_beyond_a_shallow_arc_is_named_for_what_it_marks() {
    let part = made(vec![row(200.0, 0.0, 2.0), row(100.0, 180.0, 90.0)]);
    let finding = only(&solve(&part, &shop()), "clamp-across-arc");
    assert_eq!(finding.severity, Severity::Caution);
    assert_eq!(finding.verdict, "Bends, but the clamp of bend 2 will mark the leg at the start.");
    assert!(finding.text.contains("the whole of bend 1; bite 0.8 mm into the clamp"), "{}", finding.text);
    every_cure_cures(&part, &shop());
}

#[test]
fn grip_follows_the_proved_lengths() {
    let on_80 = |angle| {
        let mut part = made(vec![row(200.0, 0.0, 45.0), row(150.0, 90.0, angle)]);
        part.tooling.clamp = Some(clamp_of(80.0));
        every_cure_cures(&part, &shop());
        solve(&part, &shop())
    };
    assert_eq!(on_80(90.0).findings, []);
    let finding = only(&on_80(120.0), "grip-too-short");
    assert_eq!(finding.severity, Severity::Caution);
    assert_abs_diff_eq!(finding.limit, 95.0, epsilon = 1e-6);
    assert_eq!(
        finding.text,
        "Bend 2: 80.0 mm is gripped, and a bend of 120.0° has held on ~95.0 mm; it may slip. Take the 125.0 mm clamp (proved \
         to ~180.0°)."
    );
    // Less than half of the 125 mm that 180° takes.
    let mut part = made(vec![row(200.0, 0.0, 45.0), row(150.0, 90.0, 180.0)]);
    part.tooling.clamp = Some(clamp_of(50.0));
    assert_eq!(only(&solve(&part, &shop()), "grip-too-short").severity, Severity::Stop);
    every_cure_cures(&part, &shop());
    // Beyond what anything has proved.
    let mut wide = shop();
    change_die(&mut wide, 0, |die| die.largest_angle = Angle::from_degrees(190.0));
    let finding = only(&solve(&made(vec![row(200.0, 0.0, 185.0)]), &wide), "grip-too-short");
    assert_eq!((finding.severity, finding.unit, finding.limit), (Severity::Caution, Unit::Degree, 180.0));
    // Where no clamp holds the angle, a longer one or more straight is no cure.
    for clamp_mm in [50.0, 80.0] {
        let mut part = made(vec![row(200.0, 0.0, 45.0), row(60.0, 90.0, 185.0)]);
        part.tooling.clamp = Some(clamp_of(clamp_mm));
        assert_eq!(only(&solve(&part, &wide), "grip-too-short").cures, [], "{clamp_mm}");
    }
}

#[test]
fn a_clamp_that_the_shop_does_not_have_is_never_green() {
    let mut part = made(vec![row(200.0, 0.0, 45.0), row(150.0, 90.0, 100.0)]);
    part.tooling.clamp = Some(clamp_of(100.0));
    let solved = solve(&part, &shop());
    let finding = only(&solved, "clamp-not-in-shop");
    assert_eq!((finding.severity, finding.measured, finding.limit), (Severity::Caution, 100.0, 80.0));
    assert!(finding.text.contains("is taken to hold ~130.0°"), "{}", finding.text);
    assert_eq!(solved.verdict.text, "Bends, but on a 100.0 mm clamp that the shop does not have.");
    part.tooling.clamp = Some(clamp_of(80.0));
    assert!(found(&solve(&part, &shop()), "clamp-not-in-shop").is_empty());
}

#[test]
fn short_ends_are_stock_and_labour() {
    let mut rows = sound();
    rows[0].straight = Length::from_mm(85.0);
    let mut part = part(rows, 30.0).unwrap();
    let solved = solve(&part, &shop());
    assert_eq!(solved.worst(), Some(Severity::Note));
    let lead = only(&solved, "lead-too-short-to-clamp");
    assert_eq!((lead.measured, lead.limit), (85.0, 125.0));
    assert!(
        lead.text.contains("~40.2 mm of extra stock, cut off after bending ~84.9 mm before bend 1"),
        "{}",
        lead.text
    );
    let tail = only(&solved, "tail-too-short-to-hold");
    assert_abs_diff_eq!(tail.measured, 30.0, epsilon = 1e-9);
    assert_abs_diff_eq!(only(&solved, "end-not-square").limit, 50.8, epsilon = 1e-12);
    // What springback takes of the legs comes on top.
    let taken = [0, solved.bends.len() - 1].map(|bend| solved.bends[bend].formed.unwrap().released.unwrap().takes_mm);
    // In whole tenths, upwards.
    let sawn = [40.0 + taken[0], 120.0 + taken[1]].map(|mm| (mm * 10.0).ceil() / 10.0);
    assert_abs_diff_eq!(solved.lead_trim_mm, sawn[0], epsilon = 1e-9);
    assert_abs_diff_eq!(solved.tail_trim_mm, sawn[1], epsilon = 1e-9);
    assert_eq!(
        solved.verdict.text,
        format!(
            "Bends as drawn, with ~{:.1} mm of extra stock to trim at the start and ~{:.1} mm at the finish.",
            sawn[0], sawn[1]
        )
    );
    assert!(every_cure_cures(&part, &shop()) >= 4);
    for (end, stock) in [(End::Start, solved.lead_trim_mm), (End::Finish, solved.tail_trim_mm)] {
        part = Edit::SetStock(end, Length::from_mm(stock)).applied_to(&part).unwrap();
    }
    let covered = solve(&part, &shop());
    assert_eq!(covered.findings, []);
    assert_eq!(covered.blank_length_mm, solved.blank_length_mm);
    // More than is asked for stays on the blank.
    part = Edit::SetStock(End::Start, Length::from_mm(70.0)).applied_to(&part).unwrap();
    assert_eq!(solve(&part, &shop()).lead_trim_mm, 70.0);
}

#[test]
fn arcs_that_overlap_stop() {
    // Vertices 100 mm apart, two 90° bends: 100 - 2 × 76.2 mm (G06: T = R tan(θ/2), pertneer.net).
    let part = drawn(&[[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0, 100.0, 0.0], [600.0, 100.0, 0.0]]);
    let solved = solve(&part, &shop());
    let finding = only(&solved, "arcs-overlap");
    assert_abs_diff_eq!(finding.measured, -52.4, epsilon = 1e-9);
    assert_eq!(solved.verdict.text, "Cannot be bent as drawn: bend 1 and bend 2 overlap by 52.4 mm.");
    every_cure_cures(&part, &shop());
    let part = drawn(&[[0.0, 0.0, 0.0], [50.0, 0.0, 0.0], [50.0, 60.0, 0.0]]);
    let solved = solve(&part, &shop());
    let texts: Vec<&str> = found(&solved, "arcs-overlap").iter().map(|finding| finding.text.as_str()).collect();
    assert_eq!(texts.len(), 2);
    assert!(texts[0].starts_with("Bend 1 begins before the start by 26.2 mm."), "{texts:?}");
    assert!(texts[1].starts_with("Bend 1 runs past the finish by 16.2 mm."), "{texts:?}");
    every_cure_cures(&part, &shop());
}

#[test]
fn springback_counts_against_the_machine() {
    // 189° and a springback of 1° and a hundredth of the set angle: (189 + 1) / (1 - 0.01) = 191.919°.
    let part = made(vec![row(200.0, 0.0, 189.0)]);
    let mut shop = shop();
    change_die(&mut shop, 0, |die| die.largest_angle = Angle::from_degrees(200.0));
    assert!(found(&solve(&part, &shop), "angle-beyond-machine").is_empty(), "theory says 189.8°");
    change(&mut shop.machine, |machine| machine.largest_angle = Angle::from_degrees(189.5));
    let finding = only(&solve(&part, &shop), "angle-beyond-machine");
    assert_eq!(finding.severity, Severity::Caution);
    assert!(finding.text.contains("~") && finding.text.contains("theory, only a start"), "{}", finding.text);
    change(&mut shop.machine, |machine| machine.largest_angle = Angle::from_degrees(190.0));
    shop.springback.push(own_line(&shop.die_sets[0], 1.0, 0.01));
    let solved = solve(&part, &shop);
    let finding = only(&solved, "angle-beyond-machine");
    assert_eq!((finding.severity, finding.limit), (Severity::Stop, 190.0));
    assert_abs_diff_eq!(finding.measured, 190.0 / 0.99, epsilon = 1e-9);
    assert_eq!(
        finding.text,
        "Bend 1: with its springback it has to be set to 191.9°, more than the ~190.0° that the machine (specimen bender) \
         bends (springback: the shop's own). Set the angle to 187.1°."
    );
    assert_eq!(
        solved.verdict.text,
        "Cannot be bent as drawn: bend 1 has to be set to 191.9°, and the machine bends no more than ~190.0°."
    );
    assert!(every_cure_cures(&part, &shop) >= 1);
}

#[test]
fn angles_beyond_machine_or_die_stop() {
    let part = made(vec![row(200.0, 0.0, 185.0)]);
    let finding = only(&solve(&part, &shop()), "angle-beyond-machine");
    assert_abs_diff_eq!(finding.measured, 185.0, epsilon = 1e-9);
    assert_abs_diff_eq!(finding.limit, 180.0, epsilon = 1e-9);
    assert!(finding.text.contains("die set 50.8 at 1.5D"), "{}", finding.text);
    every_cure_cures(&part, &shop());
    let mut weak = shop();
    change(&mut weak.machine, |machine| machine.largest_angle = Angle::from_degrees(120.0));
    let finding = only(&solve(&made(vec![row(200.0, 0.0, 185.0)]), &weak), "angle-beyond-machine");
    assert!(finding.text.contains("the machine (specimen bender)"), "{}", finding.text);
    assert!(found(&solve(&made(vec![row(200.0, 0.0, 180.0)]), &shop()), "angle-beyond-machine").is_empty());
}

#[test]
fn radii_without_a_die_stop_and_mixed_ones_caution() {
    let part = made(vec![row(200.0, 0.0, 45.0), row_at(150.0, 90.0, 60.0, 80.0)]);
    let solved = solve(&part, &shop());
    let findings = found(&solved, "no-die-for-radius");
    assert_eq!(findings.iter().map(|one| one.severity).collect::<Vec<_>>(), [Severity::Stop, Severity::Caution]);
    assert_eq!(
        findings[0].text,
        "Bend 2: the shop has no die set for 50.8 mm tube at CLR 80.0 mm. Set CLR to 76.2 mm (50.8 at 1.5D), or set CLR \
         to 101.6 mm (50.8 at 2D)."
    );
    assert_eq!((solved.bends[1].die, solved.bends[1].clamp), (None, None));
    assert_eq!((findings[1].measured, findings[1].unit), (2.0, Unit::Count));
    every_cure_cures(&part, &shop());
    let part = made(vec![row(200.0, 0.0, 45.0), row_at(150.0, 90.0, 60.0, 101.6)]);
    let solved = solve(&part, &shop());
    assert_eq!(solved.worst(), Some(Severity::Caution));
    assert_eq!(solved.verdict.text, "Bends, but with a change of tooling: the part has 2 radii.");
    every_cure_cures(&part, &shop());
}

#[test]
fn a_chosen_die_that_does_not_fit_stops() {
    for (name, words) in [
        ("50.8 at 2D", "die set 50.8 at 2D bends CLR 101.6 mm, not 76.2 mm"),
        ("60.3 at 1.5D", "die set 60.3 at 1.5D is for 60.3 mm tube, not 50.8 mm"),
        ("lost", "The shop has no die set called \u{201c}lost\u{201d}; it has 50.8 at 1.5D, 50.8 at 2D, 60.3 at 1.5D"),
    ] {
        let mut part = made(sound());
        part.tooling.die = Some(name.into());
        let solved = solve(&part, &shop());
        let findings = found(&solved, "no-die-for-radius");
        assert!(findings[0].text.contains(words), "{}", findings[0].text);
        assert!(every_cure_cures(&part, &shop()) >= 1);
    }
}

#[test]
fn extra_stock_does_not_hide_a_clamp_that_is_not_there() {
    let mut part = part(vec![row(80.0, 0.0, 45.0)], 300.0).unwrap();
    part.tooling.clamp = Some(clamp_of(100.0));
    let solved = solve(&part, &shop());
    assert!(solved.solved.findings.iter().any(Finding::is_stock));
    assert_eq!(solved.verdict.text, "Bends, but on a 100.0 mm clamp that the shop does not have.");
}

#[test]
fn the_verdict_names_the_first_bend_and_there_the_first_check() {
    // Bend 1 is beyond the machine; bend 2 has no die, which the manual lists before it.
    let rows = vec![row(200.0, 0.0, 195.0), row_at(300.0, 90.0, 45.0, 333.0)];
    let verdict = solve(&made(rows), &shop()).verdict.text;
    assert!(verdict.starts_with("Cannot be bent as drawn: bend 1 turns 195.0°"), "{verdict}");
    // Both at one bend, though the other is listed first by its name.
    let verdict = solve(&made(vec![row_at(200.0, 0.0, 195.0, 333.0)]), &shop()).verdict.text;
    assert!(verdict.starts_with("Cannot be bent as drawn: the shop has no die for bend 1"), "{verdict}");
}

#[test]
fn a_shorter_clamp_that_has_not_proved_the_largest_bend_says_so() {
    let risk = |last: f64| {
        let mut part = made(vec![row(200.0, 0.0, 45.0), row(85.0, 90.0, 60.0), row(400.0, 0.0, last)]);
        part.tooling.clamp = Some(clamp_of(125.0));
        let finding = only(&solve(&part, &shop()), "straight-too-short");
        let shorter = finding.cures.iter().find(|cure| matches!(cure.edit, Edit::ChooseClamp(_))).unwrap();
        shorter.risk.to_string()
    };
    assert!(risk(90.0).contains("leaves less in hand"), "{}", risk(90.0));
    assert!(risk(120.0).contains("has not yet proved to hold the bend of 120.0°"), "{}", risk(120.0));
}

#[test]
fn measure_and_limit_rest_each_on_its_own() {
    use elbowroom_bending::forming::ground::Ground;
    let solved = solve(&made(vec![row(200.0, 0.0, 90.0), row(60.0, 0.0, 90.0)]), &shop());
    let finding = only(&solved, "straight-too-short");
    assert_eq!((finding.measured_basis, finding.limit_basis), (None, Some(Ground::CommonPractice)));
}

#[test]
fn a_long_blank_says_into_how_many_pieces() {
    let text = |tail_mm: f64, limit_mm: f64| {
        let mut shop = shop();
        change(&mut shop.machine, |machine| machine.longest_blank = Length::from_mm(limit_mm));
        only(&solve(&part(vec![row(200.0, 0.0, 45.0)], tail_mm).unwrap(), &shop), "blank-too-long").text
    };
    assert!(text(7000.0, 6000.0).contains("Cut the part in two at a straight"), "{}", text(7000.0, 6000.0));
    assert!(text(11_700.0, 4000.0).contains("into at least 3 pieces"), "{}", text(11_700.0, 4000.0));
    assert!(text(12_000.0, 4000.0).contains("into at least 4 pieces"), "{}", text(12_000.0, 4000.0));
}

#[test]
fn long_blanks_stop() {
    let mut rows = sound();
    rows[1].straight = Length::from_mm(5400.0);
    let mut part = made(rows);
    change(&mut part.stock, |stock| stock.tail = Length::from_mm(500.0));
    let solved = solve(&part, &shop());
    let finding = only(&solved, "blank-too-long");
    assert_eq!((finding.limit, finding.measured), (6000.0, solved.cut().unwrap().blank_mm));
    every_cure_cures(&part, &shop());
    assert!(
        found(
            &solve(
                &part_along(Path::Bends(
                    elbowroom_geometry::BendPath::new(
                        elbowroom_geometry::Frame::world(),
                        Vec::new(),
                        Length::from_mm(9000.0)
                    )
                    .unwrap()
                )),
                &shop()
            ),
            "blank-too-long"
        )
        .is_empty()
    );
}

#[test]
fn a_tube_that_meets_itself_stops() {
    // Four bends of 90° with short sides: the tail runs through the lead leg.
    let part = made(vec![row(400.0, 0.0, 90.0), row(150.0, 0.0, 90.0), row(150.0, 0.0, 90.0), row(150.0, 0.0, 5.0)]);
    let mut long = part;
    long = Edit::SetStraight(long.straight_id(4), Length::from_mm(600.0)).applied_to(&long).unwrap();
    let solved = solve(&long, &shop());
    assert!(!found(&solved, "tube-meets-itself").is_empty(), "{:#?}", solved.findings);
    assert!(
        solved.verdict.text.starts_with("Cannot be bent as drawn: the tube meets itself"),
        "{}",
        solved.verdict.text
    );
    // Both places are marked: the tail, and the lead leg that it crosses.
    let meeting = found(&solved, "tube-meets-itself")[0];
    let [first, second] = [&meeting.place, &meeting.also[0]];
    assert_eq!((first.straight, second.straight), (Some(0), Some(4)), "{meeting:?}");
    assert!(first.to_mm > first.from_mm && second.to_mm > second.from_mm, "{meeting:?}");
    assert!(second.from_mm > first.to_mm && meeting.places().count() == 2);
    // A radius of less than half the outside diameter.
    let part = made(vec![row_at(200.0, 0.0, 45.0, 20.0)]);
    let findings = solve(&part, &shop());
    assert!(found(&findings, "tube-meets-itself")[0].text.contains("folds into itself"));
    every_cure_cures(&part, &shop());
}

#[test]
fn drawings_that_make_no_sense_stop() {
    let part = drawn(&[[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0, 400.0, 0.0]]);
    let solved = solve(&part, &shop());
    assert!(only(&solved, "path-undefined").text.starts_with("Vertices 2 and 3 lie in one place"));
    every_cure_cures(&part, &shop());
    let part = drawn(&[[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [100.0, 0.0, 0.0]]);
    let solved = solve(&part, &shop());
    assert_eq!(
        solved.verdict.text,
        "Cannot be bent as drawn: at vertex 2 the path turns straight back on itself, and no bend does that."
    );
    assert!(found(&solved, "tube-meets-itself").is_empty(), "the fold-back says it");
    every_cure_cures(&part, &shop());
    // What meets the tube further on is no work of the fold-back.
    let loops = [
        [0.0, 0.0, 0.0],
        [900.0, 0.0, 0.0],
        [600.0, 0.0, 0.0],
        [600.0, 400.0, 0.0],
        [200.0, 400.0, 0.0],
        [200.0, -400.0, 0.0],
    ];
    let solved = solve(&drawn(&loops), &shop());
    assert!(!found(&solved, "path-undefined").is_empty());
    let meeting = only(&solved, "tube-meets-itself");
    assert_eq!((meeting.place.straight, meeting.also[0].straight), (Some(0), Some(4)), "{meeting:?}");
    for points in [&[][..], &[[1.0, 2.0, 3.0]], &[[1.0, 2.0, 3.0], [1.0, 2.0, 3.0]]] {
        let solved = solve(&drawn(points), &shop());
        assert!(!found(&solved, "path-undefined").is_empty());
        assert_eq!(solved.worst(), Some(Severity::Stop));
    }
}

#[test]
fn rows_of_no_angle_belong_to_the_straight() {
    let split = made(vec![row(100.0, 0.0, 0.0), row(100.0, 0.0, 45.0), row(60.0, 20.0, 0.0), row(65.0, 70.0, 90.0)]);
    let solved = solve(&split, &shop());
    assert_eq!(solved.findings, []);
    assert_eq!(solved.bends[3].straight_ahead_mm, 125.0);
    assert_eq!((solved.bends[0].clamp, solved.bends[2].die), (None, None));
    let short = Edit::SetStraight(split.straight_id(3), Length::from_mm(20.0)).applied_to(&split).unwrap();
    let finding = only(&solve(&short, &shop()), "straight-too-short");
    assert_eq!(finding.measured, 80.0);
    every_cure_cures(&short, &shop());
}

#[test]
fn a_straight_tube_has_nothing_to_bend() {
    let solved = solve(&drawn(&[[0.0, 0.0, 0.0], [60.0, 0.0, 0.0]]), &shop());
    assert_eq!(solved.verdict.text, "A straight tube: there is nothing to bend.");
    assert_eq!((solved.lead_trim_mm, solved.tail_trim_mm, solved.blank_length_mm), (0.0, 0.0, 60.0));
}

#[test]
fn the_registry_is_a_manual() {
    let mut names: Vec<&str> = REGISTRY.iter().map(|check| check.fault).collect();
    for check in REGISTRY {
        assert!(check.fault.bytes().all(|byte| byte == b'-' || byte.is_ascii_lowercase()), "{}", check.fault);
        for heading in
            ["What it looks for", "Why it matters", "How it is measured", "Limit and its source", "Example", "Cure"]
        {
            assert!(check.manual.contains(heading), "{} says nothing on {heading}", check.fault);
        }
        assert!(check.manual.lines().all(|line| line.len() <= 112), "{} has a long line", check.fault);
        assert!(std::ptr::eq(named(check.fault).unwrap(), check));
    }
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), REGISTRY.len());
    assert!(named("no-such-check").is_none());
}
