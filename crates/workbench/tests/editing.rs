//! Edits through the workbench: steps, undo to the bit, previews, and the selection that follows.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use elbowroom_bending::{Edit, End, NodeId, Path};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, HandleId, Length, Point3};
use elbowroom_workbench::file::built_in_shop;
use elbowroom_workbench::{Command, MessageKind, Request, SelectMode, Selection, Target, ViewCommand, Workbench};
use proptest::collection::vec;
use proptest::prelude::*;

fn zigzag() -> Workbench {
    Workbench::new(common::zigzag(), built_in_shop())
}

fn bits(workbench: &Workbench) -> String {
    format!("{:?}", workbench.committed_part())
}

fn points(workbench: &Workbench) -> Vec<Point3<f64>> {
    match &workbench.part().path {
        Path::Vertices(path) => path.points().to_vec(),
        Path::Bends(_) => panic!("the path is not held in vertex form"),
    }
}

fn select(workbench: &mut Workbench, target: Target) {
    workbench.perform(Command::Select(workbench.named(target), SelectMode::Only));
}

fn any_edit() -> impl Strategy<Value = Edit> {
    let at = || (-900.0..900.0, -900.0..900.0, -900.0..900.0).prop_map(|(x, y, z)| Point3::new(x, y, z));
    let mm = || (0.0..400.0).prop_map(Length::from_mm);
    let angle = || (0.0..3.5).prop_map(Angle::from_radians);
    prop_oneof![
        "[a-z]{0,5}".prop_map(Edit::Rename),
        "[a-z]{0,5}".prop_map(Edit::SetNote),
        Just(Edit::ShowUnits(LengthUnit::Inch)),
        ((0..7_u32).prop_map(NodeId::new), at()).prop_map(|(index, at)| Edit::MoveVertex(index, at)),
        ((0..5_u32).prop_map(NodeId::new), at()).prop_map(|(bend, at)| Edit::MoveHandle(HandleId::Vertex(bend), at)),
        ((0..5_u32).prop_map(NodeId::new), at(), mm())
            .prop_map(|(straight, at, clr)| Edit::InsertVertex(straight, at, clr)),
        ((0..5_u32).prop_map(NodeId::new), mm()).prop_map(|(straight, length)| Edit::SetStraight(straight, length)),
        ((0..5_u32).prop_map(NodeId::new), angle()).prop_map(|(bend, angle)| Edit::SetRotation(bend, angle)),
        ((0..5_u32).prop_map(NodeId::new), angle()).prop_map(|(bend, angle)| Edit::SetAngle(bend, angle)),
        ((0..5_u32).prop_map(NodeId::new), mm()).prop_map(|(bend, clr)| Edit::SetClr(bend, clr)),
        ((0..5_u32).prop_map(NodeId::new), vec(common::bend_row(), 0..3))
            .prop_map(|(index, rows)| Edit::InsertRows(index, rows)),
        ((0..5_u32).prop_map(NodeId::new), vec(common::bend_row(), 0..3))
            .prop_map(|(index, rows)| Edit::ReplaceRows(index, rows)),
        vec((0..5_u32).prop_map(NodeId::new), 0..3).prop_map(Edit::RemoveBends),
        mm().prop_map(|stock| Edit::SetStock(End::Finish, stock)),
        common::path().prop_map(Edit::SetPath),
        Just(Edit::SwapEnds),
    ]
}

fn any_command() -> impl Strategy<Value = Command> {
    prop_oneof![
        6 => any_edit().prop_map(Command::Edit),
        2 => any_edit().prop_map(Command::Preview),
        1 => Just(Command::CommitPreview),
        1 => Just(Command::ChangeForm),
        1 => Just(Command::Undo),
        1 => Just(Command::Redo),
        1 => Just(Command::SelectAll),
        1 => Just(Command::SelectNothing),
        1 => (0..6u32).prop_map(|bend| Command::Select(Target::Bend(NodeId::new(bend)), SelectMode::Toggle)),
        1 => Just(Command::DeleteSelection),
    ]
}

proptest! {
    #[test]
    fn undo_of_any_sequence_restores_the_part_to_the_bit(start in common::part(), commands in vec(any_command(), 1..25)) {
        let mut workbench = Workbench::new(start, built_in_shop());
        let first = bits(&workbench);
        for command in commands {
            workbench.perform(command);
            // Whatever was done, what is selected exists.
            let bends = workbench.solved().centreline.bends();
            for target in workbench.selection().targets() {
                if let Target::Bend(bend) = target {
                    prop_assert!(*bend < bends);
                }
            }
        }
        workbench.perform(Command::DropPreview);
        let mut states = vec![bits(&workbench)];
        while workbench.undo_label().is_some() {
            workbench.perform(Command::Undo);
            prop_assert_ne!(&bits(&workbench), states.last().unwrap(), "a step changed nothing");
            states.push(bits(&workbench));
        }
        prop_assert_eq!(states.last().unwrap(), &first);
        prop_assert!(!workbench.unsaved());
        for state in states.iter().rev().skip(1) {
            workbench.perform(Command::Redo);
            prop_assert_eq!(&bits(&workbench), state);
        }
    }
}

/// What was taken back is gone once something else is done: it would be made of another part.
#[test]
fn a_new_step_leaves_nothing_to_redo() {
    let mut workbench = zigzag();
    for name in ["first", "second"] {
        workbench.perform(Command::Edit(Edit::Rename(name.into())));
    }
    workbench.perform(Command::Undo);
    assert!(workbench.redo_label().is_some());
    workbench.perform(Command::Edit(Edit::SetNote("another way".into())));
    assert_eq!(workbench.redo_label(), None);
    workbench.perform(Command::Redo);
    assert_eq!((workbench.part().name.as_str(), workbench.part().note.as_str()), ("first", "another way"));
    // What was not even committed leaves it alone.
    workbench.perform(Command::Undo);
    workbench.perform(Command::Preview(Edit::Rename("third".into())));
    workbench.perform(Command::DropPreview);
    workbench.perform(Command::Redo);
    assert_eq!(workbench.part().note, "another way");
}

#[test]
fn an_edit_is_one_labelled_step() {
    let mut workbench = zigzag();
    let start = bits(&workbench);
    workbench.perform(Command::Edit(Edit::Rename("other".into())));
    assert_eq!((workbench.part().name.as_str(), workbench.unsaved()), ("other", true));
    let label = Edit::Rename("other".into()).label(&common::zigzag());
    assert_eq!((workbench.undo_label(), workbench.redo_label()), (Some(label.as_str()), None));
    workbench.perform(Command::Undo);
    assert_eq!((bits(&workbench), workbench.unsaved()), (start, false));
    assert_eq!((workbench.undo_label(), workbench.redo_label()), (None, Some(label.as_str())));
    workbench.perform(Command::Redo);
    assert_eq!(workbench.part().name, "other");
}

#[test]
fn an_edit_that_changes_nothing_makes_no_step() {
    let mut workbench = zigzag();
    let revision = workbench.revision();
    let name = workbench.part().name.clone();
    workbench.perform(Command::Edit(Edit::Rename(name.clone())));
    workbench.perform(Command::Preview(Edit::Rename(name)));
    workbench.perform(Command::CommitPreview);
    assert_eq!((workbench.undo_label(), workbench.unsaved()), (None, false));
    assert!(workbench.revision() >= revision);
}

#[test]
fn a_drag_is_one_step_and_escape_drops_it() {
    let mut workbench = zigzag();
    let start = bits(&workbench);
    let at = |x: f64| Edit::MoveVertex(common::zigzag().vertex_id(1), Point3::new(x, -50.0, 0.0));
    for x in 0..500 {
        workbench.perform(Command::Preview(at(f64::from(x))));
        assert!(workbench.previewing() && workbench.undo_label().is_none());
        assert_eq!((points(&workbench)[1].x, bits(&workbench)), (f64::from(x), start.clone()));
    }
    let shown = workbench.solved().centreline.length_mm();
    workbench.perform(Command::CommitPreview);
    assert_eq!((workbench.previewing(), workbench.solved().centreline.length_mm()), (false, shown));
    assert_eq!(workbench.undo_label(), Some(at(0.0).label(&common::zigzag()).as_str()));
    workbench.perform(Command::Undo);
    assert_eq!((bits(&workbench), workbench.undo_label()), (start.clone(), None));

    workbench.perform(Command::Preview(at(7.0)));
    workbench.perform(Command::Escape);
    assert_eq!((workbench.previewing(), bits(&workbench)), (false, start));
    assert_eq!(workbench.redo_label(), Some(at(0.0).label(&common::zigzag()).as_str()), "a dropped preview is no undo");
}

#[test]
fn what_cannot_be_made_is_told_and_not_shown() {
    let mut workbench = zigzag();
    workbench.perform(Command::Preview(Edit::Rename("shown".into())));
    workbench.perform(Command::Preview(Edit::SetAngle(common::zigzag().bend_id(9), Angle::ZERO)));
    let message = workbench.screen().message.clone().unwrap();
    assert_eq!(
        (message.kind, message.text.as_str()),
        (MessageKind::Refused, "There is no such bend; the part has 3 bends.")
    );
    workbench.perform(Command::CommitPreview);
    assert_eq!((workbench.part().name.as_str(), workbench.undo_label()), ("test part", None));
    workbench.perform(Command::Edit(Edit::Rename("made".into())));
    assert_eq!(workbench.screen().message, None, "the next edit that succeeds overtakes the refusal");
}

#[test]
fn the_selection_keeps_to_its_vertex_while_bends_come_and_go() {
    let mut workbench = zigzag();
    select(&mut workbench, Target::Bend(1));
    // The first vertex is dragged to where it no longer bends the tube, so all bends count one less.
    workbench
        .perform(Command::Preview(Edit::MoveVertex(common::zigzag().vertex_id(0), Point3::new(400.0, -90.0, 0.0))));
    assert_eq!(workbench.solved().centreline.bends(), 2);
    assert_eq!(workbench.selection().targets(), [Target::Bend(0)]);
    workbench.perform(Command::DropPreview);
    assert_eq!(workbench.selection().targets(), [Target::Bend(1)]);

    workbench.perform(Command::Edit(Edit::RemoveBends(vec![common::zigzag().bend_id(0)])));
    let vertex = workbench.solved().form.vertex_of_bend[workbench.selection().bend().unwrap()];
    assert_eq!(points(&workbench)[vertex], Point3::new(400.0, 300.0, 0.0));
    workbench.perform(Command::Undo);
    assert_eq!(workbench.selection().targets(), [Target::Bend(1)]);
    workbench.perform(Command::Edit(Edit::SwapEnds));
    assert_eq!(workbench.selection().targets(), [Target::Bend(1)]);
    select(&mut workbench, Target::Bend(0));
    workbench.perform(Command::Edit(Edit::SwapEnds));
    assert_eq!(workbench.selection().targets(), [Target::Bend(2)]);
}

#[test]
fn a_new_vertex_is_selected() {
    let mut workbench = zigzag();
    workbench.perform(Command::Edit(Edit::InsertVertex(
        common::zigzag().straight_id(0),
        Point3::new(200.0, 0.0, 80.0),
        Length::from_mm(50.0),
    )));
    assert_eq!(workbench.selection().targets(), [Target::Bend(0)]);
    workbench.perform(Command::Undo);
    assert_eq!(workbench.selection().targets(), []);
    workbench.perform(Command::Edit(Edit::InsertVertex(
        common::zigzag().straight_id(0),
        Point3::new(200.0, 0.0, 0.0),
        Length::from_mm(50.0),
    )));
    assert_eq!(workbench.selection().targets(), [Target::Vertex(1)], "a vertex on the line carries no bend");
}

#[test]
fn delete_removes_bends_and_vertices_in_one_step() {
    let mut workbench = zigzag();
    workbench.perform(Command::DeleteSelection);
    assert_eq!(workbench.screen().message.as_ref().unwrap().text, "Nothing is selected.");
    select(&mut workbench, Target::Straight(1));
    workbench.perform(Command::DeleteSelection);
    assert!(workbench.screen().message.as_ref().unwrap().text.contains("select a bend or a vertex"));
    select(&mut workbench, Target::Handle(HandleId::Vertex(0)));
    workbench.perform(Command::Select(workbench.named(Target::Vertex(2)), SelectMode::Toggle));
    workbench.perform(Command::DeleteSelection);
    assert_eq!(points(&workbench).len(), 4);
    assert_eq!(workbench.selection().targets(), []);
    workbench.perform(Command::Undo);
    assert_eq!((points(&workbench).len(), workbench.undo_label()), (6, None));
}

#[test]
fn a_path_changes_its_form_and_back() {
    let mut workbench = zigzag();
    select(&mut workbench, Target::Bend(2));
    workbench.perform(Command::ChangeForm);
    assert!(matches!(workbench.part().path, Path::Bends(_)));
    assert_eq!(workbench.undo_label(), Some("hold the path as bend rows"));
    assert_eq!(workbench.selection().targets(), [Target::Bend(2)]);
    workbench.perform(Command::ChangeForm);
    assert!(matches!(workbench.part().path, Path::Vertices(_)));
    assert_eq!(workbench.selection().targets(), [Target::Bend(2)]);
}

#[test]
fn a_finding_of_two_places_selects_both() {
    // Down, across and back over the first leg.
    let row = elbowroom_bending::specimen::row;
    let rows = vec![row(300.0, 0.0, 90.0), row(200.0, 0.0, 90.0), row(100.0, 0.0, 90.0)];
    let part = elbowroom_bending::specimen::part(rows, 600.0).unwrap();
    let mut workbench = Workbench::new(part, elbowroom_bending::specimen::shop());
    let is_meeting = |finding: &elbowroom_bending::Finding| finding.fault == "tube-meets-itself";
    let index = workbench.solved().findings.iter().position(is_meeting).unwrap();
    workbench.perform(Command::GoToFinding(index));
    assert_eq!(workbench.selection().targets(), [Target::Straight(3), Target::Straight(0)]);
}

#[test]
fn refusals_speak_in_the_unit_of_the_part() {
    let mut workbench = zigzag();
    let refused = |workbench: &mut Workbench, edit: Edit| {
        workbench.perform(Command::Edit(edit));
        workbench.screen().message.as_ref().unwrap().text.clone()
    };
    let edit = Edit::SetClr(common::zigzag().bend_id(0), Length::from_mm(-25.4));
    assert!(refused(&mut workbench, edit.clone()).contains("is -25.4 mm"), "{:?}", workbench.screen().message);
    workbench.perform(Command::Edit(Edit::ShowUnits(LengthUnit::Inch)));
    let text = refused(&mut workbench, edit);
    assert!(text.contains("is -1.000 in; it must be a number from 0.000 in to ") && !text.contains("mm"), "{text}");
    let text = refused(&mut workbench, Edit::SetStraight(common::zigzag().straight_id(1), Length::from_mm(-5000.0)));
    assert!(text.contains("cannot become -196.850 in") && !text.contains("mm"), "{text}");
}

#[test]
fn a_finding_is_gone_to() {
    let mut workbench = zigzag();
    workbench.perform(Command::Edit(Edit::SetStraight(common::zigzag().straight_id(1), Length::from_mm(10.0))));
    let index = workbench.solved().findings.iter().position(|finding| finding.place.bend.is_some()).unwrap();
    let bend = workbench.solved().findings[index].place.bend.unwrap();
    workbench.perform(Command::GoToFinding(index));
    assert_eq!(workbench.selection().targets(), [Target::Bend(bend)]);
    assert_eq!(workbench.take_requests(), [Request::View(ViewCommand::FrameSelection)]);
    workbench.perform(Command::GoToFinding(999));
    assert_eq!(workbench.take_requests(), []);
}

#[test]
fn escape_puts_away_what_lies_on_top() {
    let mut workbench = zigzag();
    select(&mut workbench, Target::Bend(0));
    workbench.perform(Command::ToggleHelp);
    workbench.perform(Command::ToggleCommandList);
    workbench.perform(Command::Escape);
    assert!(!workbench.screen().command_list_open && workbench.screen().help_open);
    workbench.perform(Command::Escape);
    assert!(!workbench.screen().help_open && workbench.selection().bend() == Some(0));
    workbench.perform(Command::Escape);
    assert_eq!(workbench.selection().targets(), []);
}

#[test]
fn a_new_step_forgets_what_was_taken_back() {
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    let rename = |name: &str| Command::Edit(Edit::Rename(name.into()));
    workbench.perform(rename("one"));
    workbench.perform(rename("two"));
    workbench.perform(Command::Undo);
    assert!(workbench.redo_label().is_some());
    workbench.perform(rename("three"));
    assert_eq!(workbench.redo_label(), None);
    workbench.perform(Command::Redo);
    assert_eq!(workbench.part().name, "three");
    workbench.perform(Command::Undo);
    assert_eq!(workbench.part().name, "one");
}

/// Two bends drawn alike are told apart by their ids, where numbers alone could not.
#[test]
fn the_selection_stays_on_its_bend_among_bends_that_are_alike() {
    let row = elbowroom_bending::specimen::row(200.0, 0.0, 30.0);
    let part = elbowroom_bending::specimen::part(vec![row; 3], 200.0).unwrap();
    let mut workbench = Workbench::new(part, built_in_shop());
    workbench.perform(Command::Select(workbench.named(Target::Bend(1)), SelectMode::Only));
    let id = workbench.part().bend_id(1);
    let selected = |workbench: &Workbench| {
        let bend = workbench.selection().bend().unwrap();
        workbench.part().bend_id(bend)
    };
    // As many rows go as come, and all are alike: nothing but the id tells which one is selected.
    let first = workbench.part().bend_id(0);
    let swap = vec![Edit::RemoveBends(vec![first]), Edit::InsertRows(workbench.part().bend_id(2), vec![row])];
    workbench.perform(Command::Edit(Edit::Together("exchange".into(), swap)));
    assert_eq!((workbench.selection().targets(), selected(&workbench)), ([Target::Bend(0)].as_slice(), id));
    workbench.perform(Command::Undo);
    assert_eq!((workbench.selection().targets(), selected(&workbench)), ([Target::Bend(1)].as_slice(), id));
    workbench.perform(Command::Edit(Edit::SwapEnds));
    assert_eq!(selected(&workbench), id);
}

#[test]
fn an_id_that_was_taken_back_is_given_to_no_other_bend() {
    let row = elbowroom_bending::specimen::row(200.0, 0.0, 30.0);
    let part = elbowroom_bending::specimen::part(vec![row; 2], 200.0).unwrap();
    let mut workbench = Workbench::new(part, built_in_shop());
    let before = workbench.part().bend_id(0);
    let insert = Command::Edit(Edit::InsertRows(before, vec![row]));
    workbench.perform(insert.clone());
    let first = workbench.part().bend_id(0);
    workbench.perform(Command::Undo);
    workbench.perform(insert);
    let second = workbench.part().bend_id(0);
    assert_ne!(first, second);
    // An edit made for the bend that was taken back finds it gone, and changes no other.
    let part = workbench.part().clone();
    workbench.perform(Command::Edit(Edit::SetAngle(first, Angle::from_degrees(80.0))));
    assert_eq!(*workbench.part(), part);
}

/// The straight between two bends stays the straight between them when the drawing is turned round.
#[test]
fn a_selected_straight_stays_between_its_bends_when_the_ends_are_swapped() {
    for straight in 0..=3 {
        let mut workbench = zigzag();
        let length_mm = workbench.solved().straights_mm[straight];
        workbench.perform(Command::Select(workbench.named(Target::Straight(straight)), SelectMode::Only));
        workbench.perform(Command::Edit(Edit::SwapEnds));
        assert_eq!(workbench.selection().targets(), [Target::Straight(3 - straight)]);
        assert!((workbench.solved().straights_mm[3 - straight] - length_mm).abs() < 1e-9);
        workbench.perform(Command::Undo);
        assert_eq!(workbench.selection().targets(), [Target::Straight(straight)]);
    }
}

/// A name that counts how often it is compared.
#[allow(clippy::derived_hash_with_manual_eq, reason = "equal names have equal hashes: the count is no part of them")]
#[derive(Clone, Copy, Debug, Hash)]
struct Counting(usize);

thread_local! {
    static COMPARED: std::cell::Cell<usize> = const { std::cell::Cell::new(0) };
}

impl PartialEq for Counting {
    fn eq(&self, other: &Self) -> bool {
        COMPARED.set(COMPARED.get() + 1);
        self.0 == other.0
    }
}

impl Eq for Counting {}

#[test]
fn a_large_selection_is_named_otherwise_without_comparing_each_with_each() {
    const SELECTED: usize = 5000;
    let all = Selection::of((0..SELECTED).map(Target::Bend).collect());
    // Two bends become one, and the first of the two keeps its place.
    let mapped = all.mapped(|target| target.bend().map(|bend| Target::Bend(Counting(bend / 2))));
    let compared = COMPARED.get();
    assert!(compared < 20 * SELECTED, "{compared} times two names were compared");
    assert_eq!(mapped.targets(), (0..SELECTED / 2).map(|bend| Target::Bend(Counting(bend))).collect::<Vec<_>>());
}

#[test]
fn undo_during_a_preview_drops_it_and_takes_no_step_back() {
    let mut workbench = Workbench::new(common::zigzag(), built_in_shop());
    workbench.perform(Command::Edit(Edit::Rename("made".into())));
    workbench.perform(Command::Preview(Edit::Rename("shown".into())));
    workbench.perform(Command::Undo);
    assert_eq!((workbench.part().name.as_str(), workbench.previewing()), ("made", false));
    assert!(workbench.undo_label().is_some() && workbench.redo_label().is_none());
}
