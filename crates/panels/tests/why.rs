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
    assert!(text.contains("The shop has no die set for 60.3 mm tube at a CLR of 76.2 mm"), "{text}");
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
