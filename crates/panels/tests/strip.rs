//! The blank strip: what it says, and what pointer and keys do on it.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui::{Key, Modifiers, MouseWheelUnit, TouchPhase, vec2};
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::{Edit, End};
use elbowroom_geometry::{Angle, Length};
use elbowroom_panels::strip::Model;
use elbowroom_workbench::{Command, SelectMode, Target, Theme, Workbench};

/// The first two bends of a part that was never edited.
const BEND_1: elbowroom_bending::NodeId = elbowroom_bending::NodeId::new(1);
const BEND_2: elbowroom_bending::NodeId = elbowroom_bending::NodeId::new(2);

const SIZE: [f32; 2] = [1200.0, 190.0];

fn text(workbench: &Workbench) -> Vec<String> {
    Model::of(workbench).to_string().lines().map(str::to_owned).collect()
}

#[test]
fn a_sound_part_unrolls() {
    let expected = [
        "straight 0.0 to 200.0: 200.0",
        "bend 1 200.0 to 319.7: 90.0° at 76.2",
        "straight 319.7 to 479.7: 160.0",
        "bend 2 479.7 to 539.5: 45.0° at 76.2",
        "straight 539.5 to 679.5: 140.0",
        "bend 3 679.5 to 719.4: 30.0° at 76.2",
        "straight 719.4 to 939.4: 220.0",
        "clamp of bend 1 75.0 to 200.0",
        "clamp of bend 2 354.7 to 479.7",
        "clamp of bend 3 554.5 to 679.5",
        // Each rotation moves the seam by just that angle; 45° off the neutral axis is the best there is for two
        // planes at right angles (V05: the tube does not twist).
        "seam from the outside: 135°, -135°, 135°",
    ];
    assert_eq!(text(&parts::sound()), expected);
}

#[test]
fn trims_overlaps_and_findings_are_told() {
    let text = text(&parts::short_straights());
    let has = |line: &str| assert!(text.iter().any(|other| other == line), "{line}\n{text:#?}");
    // What springback takes of the legs comes on top, by theory.
    has("trim ~35.2 before the start");
    has("trim ~50.1 behind the finish");
    // 125 mm of clamp on 115 mm of straight; R(1 - cos(s/R)) = 0.655 mm (derived: one arc under the clamp).
    has("clamp of bend 2 139.8 to 264.8, over the arc by 10.0, bite 0.66: caution");
    has("caution clamp-across-arc 139.8 to 149.8");
    has("stop clamp-across-arc 279.6 to 344.6");
}

#[test]
fn hovers_speak_of_the_side_that_is_meant() {
    let mut bench = parts::short_straights();
    let told = |bench: &Workbench, bend: usize| {
        let model = Model::of(bench);
        model.footprints.iter().find(|clamp| clamp.bend == bend).unwrap().told(model.unit)
    };
    assert_eq!(told(&bench, 1), "125.0 mm\nReaches 10.0 mm over bend 1, which is bent already; bite 0.7 mm");
    bench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    // The same straight from its other end: the clamp of bend 1 lies on it now.
    assert_eq!(told(&bench, 0), "125.0 mm\nReaches 10.0 mm over bend 2, which is bent already; bite 0.7 mm");
    let model = Model::of(&bench);
    assert_eq!(model.pieces[1].place(model.unit), "From 90.0 mm to 149.8 mm behind the start");
    assert!(told(&parts::sound(), 0).ends_with("Lies on a straight, all of it"));
}

#[test]
fn a_seamless_tube_has_no_seam_line() {
    let mut part = (**parts::sound().part()).clone();
    part.tube = part.tube.closed_by(elbowroom_bending::Seam::Seamless);
    let text = text(&Workbench::new(part, parts::shop()));
    assert!(!text.iter().any(|line| line.starts_with("seam")), "{text:#?}");
}

#[test]
fn dragging_an_arcs_start_changes_the_straight_before_it() {
    let mut window = shown("strip", parts::sound(), SIZE);
    let from = window.place("Start of bend 2").center();
    let to = from + vec2(40.0, 0.0);
    window.drag(from, to);
    let tried = window.asked();
    let Some(Command::Preview(Edit::SetStraight(BEND_2, straight))) = tried.last() else { panic!("{tried:?}") };
    // 40 points at 1156 points for 939.4 mm are 32.5 mm.
    assert!((straight.mm() - 192.5).abs() <= 1.0 && straight.mm().fract() == 0.0, "{straight:?}");
    assert!(tried.iter().all(|command| matches!(command, Command::Preview(_))), "{tried:?}");
    window.release(to);
    assert_eq!(window.asked(), [Command::CommitPreview]);
}

#[test]
fn dragging_an_arcs_end_changes_its_angle() {
    let mut window = shown("strip", parts::sound(), SIZE);
    let from = window.place("End of bend 1").center();
    let to = from - vec2(50.0, 0.0);
    window.drag(from, to);
    let tried = window.asked();
    let Some(Command::Preview(Edit::SetAngle(BEND_1, angle))) = tried.last() else { panic!("{tried:?}") };
    // 50 points are 40.6 mm of arc, which at CLR 76.2 are 30.6°.
    assert!(
        (angle.degrees() - 59.4).abs() <= 1.0 && (angle.degrees() - angle.degrees().round()).abs() < 1e-9,
        "{angle:?}"
    );
    window.release(to);
    assert_eq!(window.asked(), [Command::CommitPreview]);
}

#[test]
fn escape_drops_what_is_dragged_and_the_release_makes_nothing() {
    let mut window = shown("strip", parts::sound(), SIZE);
    let from = window.place("Start of bend 2").center();
    let to = from + vec2(60.0, 0.0);
    window.drag(from, to);
    window.asked();
    window.harness.key_press(Key::Escape);
    window.harness.run_steps(2);
    assert_eq!(window.asked(), [Command::DropPreview]);
    window.release(to);
    assert_eq!(window.asked(), []);
}

#[test]
fn an_edge_that_is_put_back_makes_no_step() {
    let mut window = shown("strip", parts::sound(), SIZE);
    let from = window.place("Finish of the tube").center();
    window.drag(from, from - vec2(80.0, 0.0));
    window.harness.hover_at(from);
    window.harness.step();
    let tried = window.asked();
    assert_eq!(
        tried.last(),
        Some(&Command::Preview(Edit::SetStraight(elbowroom_bending::NodeId::new(4), Length::from_mm(220.0))))
    );
    window.release(from);
    assert_eq!(window.asked(), [Command::DropPreview]);
}

#[test]
fn clicks_select_and_shift_adds() {
    let mut window = shown("strip", parts::sound(), SIZE);
    window.click("Bend 2, 45.0° at CLR 76.2 mm");
    window.harness.get_by_label("Straight 3, 140.0 mm").click_modifiers(Modifiers::SHIFT);
    window.harness.run_steps(3);
    let nodes = window.workbench().solved().nodes.clone();
    let select = |target: Target, mode| Command::Select(target.named(&nodes), mode);
    let expected = [select(Target::Bend(1), SelectMode::Only), select(Target::Straight(2), SelectMode::Toggle)];
    assert_eq!(window.asked(), expected);
    assert_eq!(window.workbench().selection().targets(), [Target::Bend(1), Target::Straight(2)]);
}

#[test]
fn a_mark_goes_to_its_finding_and_a_bracket_to_its_bend() {
    let mut window = shown("strip", parts::short_straights(), SIZE);
    let model = Model::of(window.workbench());
    let mark = model.marks.first().unwrap().clone();
    window.click(&format!("Go to finding {}: {}", mark.finding + 1, mark.text));
    assert_eq!(window.asked(), [Command::GoToFinding(mark.finding)]);
    window.click("Clamp of bend 4");
    assert_eq!(window.asked(), [Command::Select(window.workbench().named(Target::Bend(3)), SelectMode::Only)]);
}

#[test]
fn hovering_is_shared_and_taken_back() {
    let mut window = shown("strip", parts::sound(), SIZE);
    window.harness.hover_at(window.place("Straight 2, 160.0 mm").center() + vec2(20.0, 12.0));
    window.harness.run_steps(2);
    assert_eq!(window.workbench().hover(), Some(Target::Straight(1)));
    window.harness.remove_cursor();
    window.harness.run_steps(2);
    assert_eq!(window.workbench().hover(), None);
}

#[test]
fn keys_walk_along_the_tube_and_change_what_is_selected() {
    let mut window = shown("strip", parts::sound(), SIZE);
    window.click("Bend 1, 90.0° at CLR 76.2 mm");
    window.asked();
    for key in [Key::ArrowRight, Key::Plus, Key::ArrowLeft, Key::Minus] {
        window.harness.key_press(key);
        window.harness.run_steps(2);
    }
    let asked = window.asked();
    let select = |target| Command::Select(window.workbench().named(target), SelectMode::Only);
    assert_eq!(asked[0], select(Target::Straight(1)));
    assert_eq!(asked[1], Command::Edit(Edit::SetStraight(elbowroom_bending::NodeId::new(2), Length::from_mm(161.0))));
    assert_eq!(asked[2], select(Target::Bend(0)));
    let Command::Edit(Edit::SetAngle(BEND_1, angle)) = asked[3] else { panic!("{asked:?}") };
    assert!((angle - Angle::from_degrees(89.0)).abs() < Angle::from_degrees(1e-9), "{angle:?}");
}

#[test]
fn ctrl_and_wheel_zoom_about_the_pointer_and_a_double_click_shows_all() {
    let mut window = shown("strip", parts::two_hundred(), SIZE);
    let at = window.place("Blank strip").center();
    window.harness.hover_at(at);
    window.harness.step();
    assert!(window.harness.query_by_label("Show all").is_none());
    for _ in 0..8 {
        let (unit, delta, modifiers, phase) = (MouseWheelUnit::Line, vec2(0.0, 5.0), Modifiers::CTRL, TouchPhase::Move);
        window.harness.event(egui::Event::MouseWheel { unit, delta, phase, modifiers });
        window.harness.run_steps(20);
    }
    assert!(window.harness.query_by_label("Show all").is_some(), "zoomed");
    window.keep_picture("strip-zoomed");
    window.click("Show all");
    assert!(window.harness.query_by_label("Show all").is_none(), "whole again");
}

#[test]
fn labels_and_edges_of_two_hundred_bends_are_drawn_within_the_strip() {
    let window = shown("strip", parts::two_hundred(), SIZE);
    let strip = window.place("Blank strip");
    for node in window.harness.query_all_by_label_contains("Bend ") {
        assert!(strip.expand(0.5).contains_rect(node.rect()), "{:?}", node.rect());
    }
}

#[test]
fn pictures() {
    type Make = fn() -> Workbench;
    let parts: [(&str, Make); 4] = [
        ("sound", parts::sound),
        ("short", parts::short_straights),
        ("overlap", parts::overlapping),
        ("two-hundred", parts::two_hundred),
    ];
    for (theme, scale, suffix) in
        [(Theme::Light, 1.0, "light"), (Theme::Dark, 1.0, "dark"), (Theme::Dark, 2.0, "dark-2x")]
    {
        for (name, make) in parts {
            let mut workbench = make();
            workbench.perform(Command::Select(workbench.named(Target::Bend(1)), SelectMode::Only));
            let window = Window::new("strip", workbench, SIZE.into(), theme, scale);
            window.keep_picture(&format!("strip-{name}-{suffix}"));
            assert!(window.colours() > 20, "something is drawn");
        }
    }
}

#[test]
fn ten_thousand_bends_are_drawn_without_one_widget_each() {
    let rows: Vec<_> = (0..10_000_u32).map(|k| (130.0, f64::from(k * 37 % 360) - 180.0, 20.0)).collect();
    let window = shown("strip", Workbench::new(parts::part(&rows, 200.0), parts::shop()), SIZE);
    assert!(window.harness.query_all_by_label_contains("Bend ").count() < 1200, "fewer than points on the screen");
    assert!(window.colours() > 10);
}
