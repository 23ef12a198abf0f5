//! Plain facts that one wrong sign, name or place would spoil.
#![allow(clippy::unwrap_used, clippy::panic, missing_docs)]

use elbowroom_bending::compare::compare;
use elbowroom_bending::specimen::{self, change, change_die, clamp_of, part, row, row_at, shop};
use elbowroom_bending::{Edit, End, Finding, Part, Path, Severity, Shop, Words, solve};
use elbowroom_geometry::{Length, Point3, VertexPath};

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

/// A bend takes the die whose radius it has to a tenth of a millimetre, on either side. (Common practice, no source.)
#[test]
fn a_bend_takes_the_die_within_a_tenth_of_a_millimetre_of_its_radius() {
    for (off_mm, fits) in [(0.0, true), (0.05, true), (0.1, true), (0.11, false), (0.2, false)] {
        for clr_mm in [76.2 + off_mm, 76.2 - off_mm] {
            let drawn = part(vec![row_at(300.0, 0.0, 90.0, clr_mm)], 300.0).unwrap();
            let solved = solve(&drawn, &shop());
            assert_eq!(solved.bends[0].die.is_some(), fits, "CLR {clr_mm}");
            let told = solved.findings.iter().any(|finding| finding.fault == "no-die-for-radius");
            assert_eq!(told, !fits, "CLR {clr_mm}");
        }
    }
}

/// In whatever order a shop lists its clamps, the same part comes out of it.
#[test]
fn clamps_in_any_order_make_the_same_part() {
    let drawn = part(vec![row(300.0, 0.0, 90.0), row(100.0, 40.0, 60.0), row(70.0, 90.0, 20.0)], 300.0).unwrap();
    let (usual, mut turned) = (shop(), shop());
    for index in 0..turned.die_sets.len() {
        change_die(&mut turned, index, |die| die.clamps.reverse());
    }
    let told = |shop: &Shop| {
        let solved = solve(&drawn, shop);
        let words = Words::new(&drawn, shop, &solved);
        let findings = solved.told(&words);
        let rows: Vec<_> = compare(&drawn, shop).rows.iter().map(|row| (row.clamp, row.from, row.counts)).collect();
        (solved.bends.clone(), findings, rows)
    };
    assert!(!told(&usual).1.is_empty());
    assert_eq!(told(&turned), told(&usual));
}

/// A clamp grips no more tube than there is ahead of the bend.
#[test]
fn beyond_the_end_of_the_tube_a_clamp_grips_nothing() {
    // From the second bend on only what lies ahead counts: a straight, the arc before it, and the lead leg.
    let mut drawn = part(vec![row(20.0, 0.0, 20.0), row(30.0, 0.0, 20.0)], 300.0).unwrap();
    drawn.tooling.clamp = Some(clamp_of(50.0));
    let mut shop_of_one = shop();
    change_die(&mut shop_of_one, 0, |die| die.clamps.retain(|clamp| clamp.length.mm() == 50.0));
    let solved = solve(&drawn, &shop_of_one);
    for bend in &solved.bends {
        let clamp = bend.clamp.unwrap();
        let ahead_mm = bend.starts_at_mm + solved.lead_trim_mm;
        assert!(clamp.gripped_mm <= ahead_mm.min(50.0) + 1e-9, "{} of {ahead_mm}", clamp.gripped_mm);
    }
    // A leg that is less than a millimetre short is held as well, and gets no trim; a longer one is gripped by all of it.
    for (leg_mm, grips_mm) in [(124.5, 125.0), (300.0, 125.0)] {
        let solved = solve(&part(vec![row(leg_mm, 0.0, 20.0)], 300.0).unwrap(), &shop());
        let clamp = solved.bends[0].clamp.unwrap();
        assert_eq!((solved.lead_trim_mm, clamp.length_mm), (0.0, 125.0));
        assert!((clamp.gripped_mm - grips_mm).abs() < 1e-9, "{}", clamp.gripped_mm);
    }
}

/// Of what is as grave the verdict tells what comes first along the tube, whatever the checks are called.
#[test]
fn the_verdict_goes_by_the_place_and_not_by_the_name_of_the_check() {
    // Bend 2 has no straight for its clamp, bend 4 turns further than the machine.
    let rows = vec![row(300.0, 0.0, 90.0), row(10.0, 40.0, 90.0), row(300.0, 0.0, 30.0), row(300.0, 90.0, 195.0)];
    let (drawn, shop) = (part(rows, 300.0).unwrap(), shop());
    let solved = solve(&drawn, &shop);
    let stops: Vec<_> = solved
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .map(|finding| (finding.fault, finding.place.bend))
        .collect();
    assert!(stops.contains(&("angle-beyond-machine", Some(3))), "{stops:?}");
    let (first, bend) = stops[0];
    assert!(first > "angle-beyond-machine" && bend == Some(1), "{stops:?}");
    let words = Words::new(&drawn, &shop, &solved);
    let verdict = solved.verdict(&words).text;
    assert!(verdict.contains("bend 2") && !verdict.contains("bend 4"), "{verdict}");
}

/// What a cure is said to cost is what it costs.
#[test]
fn the_risk_that_is_told_is_what_the_cure_does() {
    let vertices = |clr_mm: f64| {
        let points = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 400.0, 0.0], [400.0, 400.0, 400.0]].map(Point3::from);
        let path = VertexPath::new(points.to_vec(), vec![mm(clr_mm); 2]).unwrap();
        specimen::part_along(Path::Vertices(path))
    };
    let of_clamp = |rows: Vec<_>, length_mm: f64| {
        let mut drawn = part(rows, 300.0).unwrap();
        drawn.tooling.clamp = Some(clamp_of(length_mm));
        drawn
    };
    let parts = [
        vertices(90.0),
        part(vec![row_at(300.0, 0.0, 90.0, 90.0), row(300.0, 0.0, 45.0)], 300.0).unwrap(),
        of_clamp(vec![row(300.0, 0.0, 120.0), row(200.0, 0.0, 60.0)], 50.0),
        part(vec![row(300.0, 0.0, 45.0), row(115.0, 60.0, 60.0), row(60.0, 180.0, 40.0)], 300.0).unwrap(),
        part(vec![row(60.0, 0.0, 45.0)], 60.0).unwrap(),
    ];
    let mut seen = [0; 5];
    for drawn in parts {
        let shop = shop();
        let before = solve(&drawn, &shop);
        let words = Words::new(&drawn, &shop, &before);
        for cure in before.told(&words).into_iter().flat_map(|told| told.cures) {
            let part = cure.edit.applied_to(&drawn).unwrap();
            let after = solve(&part, &shop);
            let clamps =
                |solved: &elbowroom_bending::Solved| solved.bends.iter().find_map(|bend| bend.clamp).unwrap().length_mm;
            let risk = cure.risk.as_ref();
            if risk.contains("The vertices stay") {
                let points = |part: &Part| match &part.path {
                    Path::Vertices(path) => path.points().to_vec(),
                    Path::Bends(_) => panic!("{risk}"),
                };
                assert_eq!(points(&part), points(&drawn), "{}: {risk}", cure.label);
                seen[0] += 1;
            }
            if risk.contains("The straights stay") {
                assert_eq!(after.straights_mm, before.straights_mm, "{}: {risk}", cure.label);
                seen[1] += 1;
            }
            if risk.contains("a shorter one leaves less") {
                assert!(clamps(&after) < clamps(&before), "{}: {risk}", cure.label);
                seen[2] += 1;
            }
            if risk.contains("needs longer straights") {
                assert!(clamps(&after) > clamps(&before), "{}: {risk}", cure.label);
                seen[3] += 1;
            }
            if let Some((_, by)) = risk.split_once("moves along by ") {
                let by: f64 = by.trim_end_matches(" mm.").parse().unwrap();
                let longer = after.developed_length_mm - before.developed_length_mm;
                assert!((by - longer).abs() < 0.06, "{}: {risk} {longer}", cure.label);
                seen[4] += 1;
            }
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "not every kind of cure was offered: {seen:?}");
}

/// A vertex that is put on a straight of several legs goes into the leg that it lies on.
#[test]
fn a_vertex_goes_into_the_nearest_leg() {
    // The vertex at x = 400 turns nothing: one straight of two legs.
    let points = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [800.0, 0.0, 0.0], [800.0, 400.0, 0.0]].map(Point3::from);
    let path = VertexPath::new(points.to_vec(), vec![mm(76.2); 2]).unwrap();
    let drawn = specimen::part_along(Path::Vertices(path));
    for (x_mm, place) in [(100.0, 1), (390.0, 1), (410.0, 2), (600.0, 2)] {
        let at = Point3::new(x_mm, 3.0, 0.0);
        let after = Edit::InsertVertex(drawn.straight_id(0), at, mm(50.0)).applied_to(&drawn).unwrap();
        let Path::Vertices(path) = &after.path else { panic!("it stays in vertices") };
        assert_eq!(path.points()[place], at, "{x_mm}");
    }
}

/// A measure that springback goes into rests on it, and a limit on what the shop has proved: one is not the other.
#[test]
fn a_measure_and_its_limit_rest_each_on_its_own() {
    let of = |shop: &Shop| -> Finding {
        let long = part(vec![row(4000.0, 0.0, 90.0)], 4000.0).unwrap();
        solve(&long, shop).findings.iter().find(|finding| finding.fault == "blank-too-long").unwrap().clone()
    };
    let word = |ground: Option<elbowroom_bending::forming::ground::Ground>| ground.map(|ground| ground.word());
    let found = of(&shop());
    assert_eq!((word(found.measured_basis), word(found.limit_basis)), (Some("theory"), Some("common_practice")));
    let mut own = shop();
    change(&mut own.machine, |machine| machine.basis = elbowroom_bending::Basis::Shop);
    let found = of(&own);
    assert_eq!((word(found.measured_basis), word(found.limit_basis)), (Some("theory"), Some("shop")));
}

/// A finding has one name everywhere: the bend that its line names is the one that its verdict and its sentence speak of.
#[test]
fn the_bend_of_a_finding_is_named_in_all_that_is_said_of_it() {
    let rows = vec![row(300.0, 0.0, 45.0), row(115.0, 60.0, 60.0), row(60.0, 180.0, 90.0), row(108.5, 30.0, 20.0)];
    let (mut seen, shop) = (0, shop());
    for from in [End::Start, End::Finish] {
        let drawn = specimen::bent(&part(rows.clone(), 300.0).unwrap(), from, elbowroom_bending::Hand::Right);
        let solved = solve(&drawn, &shop);
        let words = Words::new(&drawn, &shop, &solved);
        for (finding, told) in solved.findings.iter().zip(solved.told(&words)) {
            let Some(bend) = finding.place.bend else { continue };
            assert_eq!(
                finding.called(),
                format!("{}, bend {}", elbowroom_bending::checks::named(finding.fault).unwrap().title, bend + 1)
            );
            if finding.severity >= Severity::Caution {
                for said in [&told.text, &told.verdict] {
                    let said = said.to_lowercase();
                    let number = (bend + 1).to_string();
                    let names = said.split(|sign: char| !sign.is_alphanumeric()).any(|word| word == number);
                    assert!(said.contains("bend") && names, "{}: {said}", finding.called());
                }
                seen += usize::from(finding.fault == "clamp-across-arc");
            }
        }
    }
    assert!(seen > 0);
}

/// The blank has one length: the one to cut, as the program has it; where a bend has no die set, as drawn.
#[test]
fn the_blank_is_one_figure() {
    let (drawn, shop) = (part(vec![row(300.0, 0.0, 90.0), row(200.0, 40.0, 60.0)], 60.0).unwrap(), shop());
    let solved = solve(&drawn, &shop);
    let program = elbowroom_bending::plan::plan(&drawn, &shop).unwrap().program;
    assert!(
        (solved.blank_length_mm - program.blank.mm()).abs() < 1e-9,
        "{} {:?}",
        solved.blank_length_mm,
        program.blank
    );
    assert_eq!(Some(solved.blank_length_mm), solved.cut().map(|cut| cut.blank_mm));
    let as_drawn = solved.developed_length_mm + solved.lead_trim_mm + solved.tail_trim_mm;
    assert!((solved.blank_length_mm - as_drawn).abs() > 0.01, "springback counts: {as_drawn}");
    let odd = part(vec![row_at(300.0, 0.0, 90.0, 333.0)], 300.0).unwrap();
    let solved = solve(&odd, &shop);
    assert_eq!((solved.cut(), solved.blank_basis()), (None, None));
    assert!(
        (solved.blank_length_mm - solved.developed_length_mm - solved.lead_trim_mm - solved.tail_trim_mm).abs() < 1e-9
    );
}
