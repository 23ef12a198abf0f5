//! The findings: what they say, and that cures, places and manual pages are one click away.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::{Edit, Facts, Numbering, Place, Severity, Told, ToldCure, Unit};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_panels::findings::{Item, Model, State, ui};
use elbowroom_workbench::{Command, Target};

/// The ids of a part of so many bends.
fn nodes(bends: usize) -> Numbering {
    elbowroom_bending::specimen::part(vec![elbowroom_bending::specimen::row(200.0, 30.0, 45.0); bends], 200.0)
        .unwrap()
        .numbering()
}

fn finding(severity: Severity, bend: usize) -> Told {
    Told {
        title: "Clamp over an arc",
        facts: Facts {
            fault: "clamp-across-arc",
            severity,
            place: Place { from_mm: 100.0, to_mm: 138.0, bend: Some(bend), straight: None },
            also: Vec::new(),
            measured: 4.06,
            limit: 1.0,
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: None,
        },
        text: format!("Bend {}: the clamp reaches 38.0 mm over bend {bend}; bite 4.1 mm.", bend + 1),
        verdict: String::new(),
        cures: vec![ToldCure {
            label: "Lengthen the straight to 120.0 mm".into(),
            edit: Edit::SetStraight(elbowroom_bending::NodeId::new(bend as u32 + 1), Length::from_mm(120.0)),
            risk: "Everything beyond moves along by 38.0 mm.".into(),
            outcome: "Cures this; leaves a note at bend 6 (Blank too long).".into(),
        }],
        cured_with: None,
    }
}

fn model() -> Model {
    let items = [finding(Severity::Stop, 2), finding(Severity::Note, 0)];
    let item = |(index, one)| Item::new(index, one, &nodes(4), LengthUnit::Millimetre);
    Model::of_items(items.into_iter().enumerate().map(item).collect())
}

/// The panel alone, with all it asked for.
fn panel(model: Model) -> Harness<'static, Vec<Command>> {
    let mut state = State::default();
    let draw = move |root: &mut egui::Ui, asked: &mut Vec<Command>| {
        if support::dressed(root) {
            asked.extend(ui(root, &model, &mut state));
        }
    };
    let mut harness = Harness::builder().with_size([380.0, 600.0]).build_ui_state(draw, Vec::new());
    harness.run_steps(3);
    harness
}

#[test]
fn the_findings_as_text() {
    let expected = "\
1 stop, 0 caution, 1 note
[stop] Bend 3: Clamp over an arc
  Bend 3: the clamp reaches 38.0 mm over bend 2; bite 4.1 mm.
  Measured 4.1 mm, limit 1.0 mm
  (Lengthen the straight to 120.0 mm) Everything beyond moves along by 38.0 mm.
    Cures this; leaves a note at bend 6 (Blank too long).
[note] Bend 1: Clamp over an arc
  Bend 1: the clamp reaches 38.0 mm over bend 0; bite 4.1 mm.
  Measured 4.1 mm, limit 1.0 mm
  (Lengthen the straight to 120.0 mm) Everything beyond moves along by 38.0 mm.
    Cures this; leaves a note at bend 6 (Blank too long).
";
    assert_eq!(model().to_string(), expected);
}

#[test]
fn two_places_are_both_named() {
    let mut one = finding(Severity::Stop, 2);
    one.facts.also = vec![Place { from_mm: 500.0, to_mm: 530.0, bend: None, straight: Some(4) }];
    assert_eq!(Item::new(0, one.clone(), &nodes(6), LengthUnit::Millimetre).place, "Bend 3 and straight before bend 5");
    assert_eq!(Item::new(0, one, &nodes(4), LengthUnit::Millimetre).place, "Bend 3 and finish");
}

#[test]
fn places_are_said_in_words() {
    let place = |bend, straight| {
        let mut one = finding(Severity::Note, 0);
        one.facts.place.bend = bend;
        one.facts.place.straight = straight;
        Item::new(0, one, &nodes(4), LengthUnit::Millimetre).place
    };
    assert_eq!(place(Some(1), Some(1)), "Bend 2");
    assert_eq!(place(None, Some(3)), "Straight before bend 4");
    assert_eq!(place(None, Some(4)), "Finish");
    assert_eq!(place(None, None), "Whole tube");
}

#[test]
fn a_cure_is_one_click() {
    let mut harness = panel(model());
    harness.get_all_by_label("Lengthen the straight to 120.0 mm").next().unwrap().click();
    harness.run_steps(2);
    let edit = Command::Edit(Edit::SetStraight(elbowroom_bending::NodeId::new(3), Length::from_mm(120.0)));
    assert!(harness.state().contains(&edit), "{:?}", harness.state());
    assert!(!harness.state().iter().any(|command| matches!(command, Command::GoToFinding(_))));
}

/// What comes of a cure stands below its button, and pointing at the button asks to see it, until the pointer leaves.
#[test]
fn a_cure_that_is_pointed_at_is_shown() {
    let mut harness = panel(model());
    assert!(harness.query_all_by_label_contains("leaves a note at bend 6").count() == 2);
    harness.get_all_by_label("Lengthen the straight to 120.0 mm").next().unwrap().hover();
    harness.run_steps(3);
    let edit = Edit::SetStraight(elbowroom_bending::NodeId::new(3), Length::from_mm(120.0));
    let pointed = |harness: &Harness<'_, Vec<Command>>| -> Vec<Command> {
        harness.state().iter().filter(|command| matches!(command, Command::PointAtChange(_))).cloned().collect()
    };
    assert_eq!(pointed(&harness), [Command::PointAtChange(Some(edit.clone()))]);
    harness.get_by_label("note at Bend 1: Clamp over an arc").hover();
    harness.run_steps(3);
    assert_eq!(pointed(&harness), [Command::PointAtChange(Some(edit)), Command::PointAtChange(None)]);
}

/// A finding whose cure is offered with another one says with which.
#[test]
fn a_cure_in_common_is_offered_once() {
    use elbowroom_bending::specimen::{part, row, shop};
    let rows = vec![row(300.0, 0.0, 90.0), row(300.0, 90.0, 45.0), row(300.0, 0.0, 30.0)];
    let mut part = part(rows, 300.0).unwrap();
    part.tooling.die = Some("50.8 at 2D".to_owned());
    let said = Model::of(&elbowroom_workbench::Workbench::new(part, shop())).to_string();
    assert_eq!(said.matches("(Bend everything at CLR 101.6 mm)").count(), 1, "{said}");
    assert_eq!(said.matches("Goes with a cure of Bend 1: No die for the radius").count(), 2, "{said}");
}

#[test]
fn a_click_on_a_finding_goes_there() {
    let mut harness = panel(model());
    harness.get_by_label("note at Bend 1: Clamp over an arc").click();
    harness.run_steps(2);
    assert!(harness.state().contains(&Command::GoToFinding(1)), "{:?}", harness.state());
}

#[test]
fn pointing_at_a_finding_points_at_its_place() {
    let mut harness = panel(model());
    harness.get_by_label("stop at Bend 3: Clamp over an arc").hover();
    harness.run_steps(2);
    assert!(harness.state().contains(&Command::Hover(Some(Target::Bend(nodes(4).bend(2))))), "{:?}", harness.state());
}

#[test]
fn the_manual_page_is_one_click() {
    let mut harness = panel(model());
    harness.get_by_label("manual page: Clamp over an arc, Bend 3").click();
    harness.run_steps(2);
    assert!(harness.state().contains(&Command::ShowManual("clamp-across-arc")), "{:?}", harness.state());
}

#[test]
fn nothing_found_is_said_calmly() {
    let empty = Model::of_items(Vec::new());
    assert_eq!(empty.to_string(), "nothing found\n");
    let harness = panel(empty);
    assert!(harness.query_by_label_contains("Nothing found").is_some());
}

#[test]
fn a_flood_of_findings_is_shown_on_demand() {
    let items = (0..80)
        .map(|index| Item::new(index, finding(Severity::Caution, index), &nodes(100), LengthUnit::Millimetre))
        .collect();
    let mut harness = panel(Model::of_items(items));
    assert!(harness.query_by_label("caution at Bend 80: Clamp over an arc").is_none());
    harness.get_by_label("show all findings").click_accesskit();
    harness.run_steps(3);
    assert!(harness.query_by_label("caution at Bend 80: Clamp over an arc").is_some());
}
