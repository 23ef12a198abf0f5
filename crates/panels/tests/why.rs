//! Why: which bend is explained, and what is said and drawn of its clamp.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui_kittest::kittest::Queryable as _;
use elbowroom_panels::why::{Chosen, Model};
use elbowroom_workbench::{Command, SelectMode, Target, Theme, Workbench};

fn selected(mut workbench: Workbench, target: Target) -> Workbench {
    workbench.perform(Command::Select(workbench.named(target), SelectMode::Only));
    workbench
}

#[test]
fn a_bite_is_measured_and_explained() {
    let text = Model::of(&selected(parts::short_straights(), Target::Bend(1))).to_string();
    // Derived by hand: 10 mm over one arc of 76.2 mm bite 76.2 (1 - cos(10 / 76.2)) = 0.655 mm; the bite
    // is 2 mm from 17.5 mm over the arc on, and 0.3 mm from 6.8 mm on.
    let expected = "\
bend 2 (Selected): caution
clamp 125.0 on straight 115.0, over the arc by 10.0, bite 0.66 at -125.0
  Seen from the clamp towards the die: the jaws part above and below.
  bend 2 from (47.1, 8.2) to (0.0, 0.0)
  straight from (0.0, 0.0) to (-115.0, 0.0)
  bend 1 from (-115.0, 0.0) to (-157.9, 13.2)
Straight ahead: 115.0 mm, the clamp marks the bend made before (to ~107.6 too short, to ~118.3 the clamp marks the bend made before)
Bite: 0.7 mm, leaves a mark (to ~0.3 no mark, to ~2.0 leaves a mark)
Gripped: 121.8 mm, proved to hold (to ~80.0 not proved to hold this angle)
The 125.0 mm clamp closes on the stretch ahead of bend 2. The straight there is only 115.0 mm, so 10.0 mm of the clamp \
lie over bend 1, which is bent already.
The clamp's cavity is straight and the bend is not: the tube leaves its axis by 0.7 mm, along the line where the jaws \
part. This is the bite. Up to ~0.3 mm leaves no mark, beyond ~2.0 mm the clamp does not close (common practice).
After this very bend a straight of ~118.3 mm or more leaves no mark.
It grips 121.8 mm, which is counted on to hold up to ~171.4° (common practice); this bend is 60.0°.
";
    assert_eq!(text, expected);
}

#[test]
fn what_is_missing_is_missing_at_the_end_that_is_bent_first() {
    let mut bench = selected(parts::short_straights(), Target::Bend(0));
    let says = |bench: &Workbench, what: &str| {
        let text = Model::of(bench).to_string();
        assert!(text.contains(what), "{text}");
    };
    bench.perform(Command::Edit(elbowroom_bending::Edit::BendFrom(elbowroom_bending::End::Finish)));
    says(&bench, "lie over bend 2, which is bent already");
    let mut bench = selected(parts::short_straights(), Target::Bend(3));
    bench.perform(Command::Edit(elbowroom_bending::Edit::BendFrom(elbowroom_bending::End::Finish)));
    says(&bench, "beyond the finish, so that it has something to hold");
}

#[test]
fn the_first_finding_or_the_least_room_is_shown_where_nothing_is_selected() {
    let case = Model::of(&parts::short_straights()).case.unwrap();
    assert_eq!((case.bend, case.chosen), (2, Chosen::FirstFinding));
    let case = Model::of(&parts::sound()).case.unwrap();
    assert_eq!((case.bend, case.chosen), (2, Chosen::LeastRoom));
    assert_eq!(case.severity, None);
    let text = Model::of(&parts::sound()).to_string();
    assert!(text.contains("the 125.0 mm clamp fits on it, with 15.0 mm to spare."), "{text}");
}

#[test]
fn a_straight_stands_for_the_bend_whose_clamp_sits_on_it() {
    let case = Model::of(&selected(parts::sound(), Target::Straight(1))).case.unwrap();
    assert_eq!((case.bend, case.chosen), (1, Chosen::Selected));
}

#[test]
fn a_tube_without_bends_and_a_bend_without_a_die_are_told() {
    let straight = Workbench::new(parts::part(&[], 500.0), parts::shop());
    assert_eq!(Model::of(&straight).to_string(), "no bend\n");
    let mut part = parts::part(&[(200.0, 0.0, 90.0)], 200.0);
    part.tube = parts::tube(60.3, 2.0, elbowroom_bending::Seam::Seamless);
    let text = Model::of(&Workbench::new(part, parts::shop())).to_string();
    assert!(text.contains("the shop has no die set for 60.3 mm tube at CLR 76.2 mm"), "{text}");
}

#[test]
fn the_panel_shows_drawing_gauges_and_sentences() {
    let window = shown("why", selected(parts::short_straights(), Target::Bend(1)), [400.0, 640.0]);
    window.harness.get_by_label("Why: the clamp of bend 2");
    window.harness.get_by_label("Clamp of bend 2 on the tube");
    assert!(window.harness.query_all_by_label_contains("Bite 0.7 mm").next().is_some());
}

#[test]
fn pictures() {
    for (name, make, bend) in [
        ("mark", parts::short_straights as fn() -> Workbench, 1),
        ("stop", parts::short_straights, 2),
        ("lead", parts::short_straights, 0),
        ("fine", parts::sound, 1),
        ("overlap", parts::overlapping, 1),
    ] {
        for (theme, scale, suffix) in [(Theme::Light, 1.0, "light"), (Theme::Dark, 2.0, "dark-2x")] {
            let window = Window::new("why", selected(make(), Target::Bend(bend)), [400.0, 620.0].into(), theme, scale);
            window.keep_picture(&format!("why-{name}-{suffix}"));
            assert!(window.colours() > 20);
        }
    }
}

/// Whatever is clicked in the list of findings is what is explained: the clamp of its bend, or a drawing of its own.
#[test]
fn every_finding_that_is_gone_to_is_the_one_that_is_explained() {
    use elbowroom_bending::checks::Drawing;
    use elbowroom_workbench::file::demo_parts;

    let mut drawn = std::collections::BTreeSet::new();
    for demo in demo_parts() {
        let mut bench = Workbench::new(demo.read().unwrap(), parts::sound().shop().as_ref().clone());
        let findings = bench.solved().findings.clone();
        for (index, finding) in findings.iter().enumerate() {
            bench.perform(Command::GoToFinding(index));
            let model = Model::of(&bench);
            let clamped = finding.place.bend.is_some_and(|bend| bench.solved().bends[bend].clamp.is_some());
            let of_clamp = finding.drawing() == Drawing::Clamp && clamped;
            drawn.insert(format!("{:?}", finding.drawing()).chars().take(7).collect::<String>());
            match (&model.explained, &model.case) {
                (Some(explained), _) => {
                    assert!(!of_clamp, "{}: {}", demo.name, finding.called());
                    assert_eq!((explained.title, explained.severity), (finding.title(), finding.severity));
                    let is_drawn = explained.picture.is_some() || finding.drawing() == Drawing::Clamp;
                    assert!(is_drawn, "{}: {}", demo.name, finding.called());
                    assert!(explained.matters.len() > 40, "{}", explained.matters);
                }
                (None, Some(case)) => {
                    assert!(of_clamp, "{}: {}", demo.name, finding.called());
                    assert_eq!((Some(case.bend), case.severity >= Some(finding.severity)), (finding.place.bend, true));
                }
                (None, None) => panic!("{}: {} has nothing to show", demo.name, finding.called()),
            }
        }
    }
    assert!(drawn.len() >= 7, "{drawn:?}");
}

/// The figures of each drawing, worked out by hand.
#[test]
fn each_kind_has_a_drawing_with_its_own_figures() {
    use elbowroom_bending::specimen::{part, row, row_at, shop};
    use elbowroom_bending::{Edit, End};
    use elbowroom_geometry::Length;

    let told = |rows, tail, edits: &[Edit], fault: &str| {
        let mut bench = Workbench::new(part(rows, tail).unwrap(), shop());
        for edit in edits {
            bench.perform(Command::Edit(edit.clone()));
        }
        let index = bench.solved().findings.iter().position(|finding| finding.fault == fault);
        bench.perform(Command::GoToFinding(index.unwrap_or_else(|| panic!("{fault} is not found"))));
        Model::of(&bench).to_string()
    };
    // Two right angles at 76.2 whose vertices are 60 apart: each takes 76.2, so that 92.4 are missing.
    let text = told(vec![row(300.0, 0.0, 90.0), row(-92.4, 90.0, 90.0)], 300.0, &[], "arcs-overlap");
    assert!(text.contains("leg 60.0, bend 1 takes 76.2, bend 2 takes 76.2, missing 92.4 mm"), "{text}");
    let text = told(vec![row_at(300.0, 0.0, 90.0, 90.0)], 300.0, &[], "no-die-for-radius");
    assert!(text.contains("radii drawn: 90.0 mm; 50.8 at 2D: 101.6 mm; 50.8 at 1.5D: 76.2 mm"), "{text}");
    let text = told(vec![row(300.0, 0.0, 190.0)], 300.0, &[], "angle-beyond-machine");
    assert!(text.contains("angle: this bend 190.0°; largest "), "{text}");
    let stock = [Edit::SetStock(End::Finish, Length::from_mm(9000.0))];
    let text = told(vec![row(300.0, 0.0, 90.0)], 300.0, &stock, "blank-too-long");
    assert!(text.starts_with("stop at the whole tube") && text.contains("Longest the machine takes: "), "{text}");
    let loop_ = vec![row(300.0, 0.0, 90.0), row(200.0, 0.0, 90.0), row(200.0, 0.0, 90.0), row(200.0, 0.0, 90.0)];
    let text = told(loop_, 400.0, &[], "tube-meets-itself");
    assert!(text.contains("meeting: apart 0.0 mm; needed 50.8 mm"), "{text}");
    // Without a selection the first finding is explained, never a clamp that is sound.
    let bench = Workbench::new(part(vec![row_at(300.0, 0.0, 90.0, 90.0)], 300.0).unwrap(), shop());
    assert_eq!(Model::of(&bench).explained.unwrap().title, "No die for the radius");
}

#[test]
fn another_selection_ends_it() {
    let mut bench = selected(parts::short_straights(), Target::Bend(1));
    let other = bench.solved().findings.iter().position(|finding| finding.place.bend != Some(1)).unwrap();
    bench.perform(Command::GoToFinding(other));
    assert_eq!(bench.explained(), Some(other));
    let bench = selected(bench, Target::Bend(1));
    assert_eq!(bench.explained(), None);
}
