//! What is selected stays the very bend that it was, or is let go: through edits, undo and redo, previews, and from tube
//! to tube and back.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeSet;

use crate::common;
use elbowroom_bending::{Edit, NodeId, Numbering, SystemEdit, TubeId};
use elbowroom_geometry::{Angle, HandleId, Length, Point3};
use elbowroom_workbench::file::built_in_shop;
use elbowroom_workbench::{Command, SelectMode, Selection, Target, Workbench};
use proptest::collection::vec;
use proptest::prelude::*;

/// What a person does next. Places are taken from what there is.
#[derive(Clone, Debug)]
enum Step {
    Edit(Edit),
    PreviewAndDrop(Edit),
    PreviewAndCommit(Edit),
    Undo,
    Redo,
    Select(usize, SelectMode),
    SelectAll,
    Delete,
    Turn(usize),
    Copy,
    Remove,
}

fn any_edit() -> impl Strategy<Value = Edit> {
    let id = || (0..9_u32).prop_map(NodeId::new);
    let mm = || prop_oneof![Just(0.0), Just(100.0), 0.0..400.0].prop_map(Length::from_mm);
    let at = || (-900.0..900.0, -900.0..900.0, -900.0..900.0).prop_map(|(x, y, z)| Point3::new(x, y, z));
    let angle =
        || prop_oneof![Just(0.0), Just(45.0), Just(90.0), Just(180.0), 0.0..180.0].prop_map(Angle::from_degrees);
    prop_oneof![
        (id(), at()).prop_map(|(vertex, at)| Edit::MoveVertex(vertex, at)),
        vec((id(), at()), 0..4).prop_map(Edit::MoveVertices),
        (id(), at(), mm()).prop_map(|(straight, at, clr)| Edit::InsertVertex(straight, at, clr)),
        (id(), angle()).prop_map(|(bend, angle)| Edit::SetAngle(bend, angle)),
        (id(), mm()).prop_map(|(straight, length)| Edit::SetStraight(straight, length)),
        (id(), vec(common::bend_row(), 1..3)).prop_map(|(at, rows)| Edit::InsertRows(at, rows)),
        (id(), vec(common::bend_row(), 0..3)).prop_map(|(at, rows)| Edit::ReplaceRows(at, rows)),
        vec(id(), 1..3).prop_map(Edit::RemoveBends),
        vec(id(), 1..3).prop_map(Edit::RemoveVertices),
        common::path().prop_map(Edit::SetPath),
        Just(Edit::SwapEnds),
        Just(Edit::ChangeForm),
    ]
}

fn any_step() -> impl Strategy<Value = Step> {
    let mode = || prop_oneof![Just(SelectMode::Only), Just(SelectMode::Toggle)];
    prop_oneof![
        4 => any_edit().prop_map(Step::Edit),
        2 => any_edit().prop_map(Step::PreviewAndDrop),
        2 => any_edit().prop_map(Step::PreviewAndCommit),
        3 => Just(Step::Undo),
        2 => Just(Step::Redo),
        4 => (0..6_usize, mode()).prop_map(|(bend, mode)| Step::Select(bend, mode)),
        1 => Just(Step::SelectAll),
        1 => Just(Step::Delete),
        2 => (0..3_usize).prop_map(Step::Turn),
        1 => Just(Step::Copy),
        1 => Just(Step::Remove),
    ]
}

fn perform(workbench: &mut Workbench, step: &Step) {
    let active = workbench.system().active();
    match step.clone() {
        Step::Edit(edit) => workbench.perform(Command::Edit(edit)),
        Step::PreviewAndDrop(edit) => {
            workbench.perform(Command::Preview(edit));
            workbench.perform(Command::DropPreview);
        }
        Step::PreviewAndCommit(edit) => {
            workbench.perform(Command::Preview(edit));
            workbench.perform(Command::CommitPreview);
        }
        Step::Undo => workbench.perform(Command::Undo),
        Step::Redo => workbench.perform(Command::Redo),
        Step::Select(bend, mode) => workbench.perform(Command::Select(workbench.named(Target::Bend(bend)), mode)),
        Step::SelectAll => workbench.perform(Command::SelectAll),
        Step::Delete => workbench.perform(Command::DeleteSelection),
        Step::Turn(place) => {
            let tubes = workbench.system().tubes();
            let tube = tubes[place % tubes.len()].id;
            workbench.perform(Command::EditSystem(SystemEdit::Activate(tube)));
        }
        Step::Copy => workbench.perform(Command::EditSystem(SystemEdit::DuplicateTube(active))),
        Step::Remove => workbench.perform(Command::EditSystem(SystemEdit::RemoveTube(active))),
    }
}

/// The bends and inner vertices among what is selected.
fn places(selection: &Selection<NodeId>) -> BTreeSet<NodeId> {
    let place = |target: &Target<NodeId>| match *target {
        Target::Vertex(vertex) => Some(vertex),
        target => target.bend(),
    };
    selection.targets().iter().filter_map(place).collect()
}

/// Whether a part has a bend or inner vertex of this id.
fn has(nodes: &Numbering, id: NodeId) -> bool {
    matches!(Target::Bend(id).counted(nodes), Some(Target::Bend(_) | Target::Vertex(_)))
}

/// The tube that is worked on, its places and what of them is selected.
fn state(workbench: &Workbench) -> (TubeId, Numbering, BTreeSet<NodeId>) {
    (workbench.system().active(), workbench.solved().nodes.clone(), places(workbench.selection_by_id()))
}

proptest! {
    #[test]
    fn the_selected_bend_stays_the_same_or_is_let_go(start in common::part(), steps in vec(any_step(), 1..40)) {
        let mut workbench = Workbench::new(start, built_in_shop());
        for step in &steps {
            let (tube, nodes, selected) = state(&workbench);
            perform(&mut workbench, step);
            let (tube_now, nodes_now, selected_now) = state(&workbench);
            // What is held is there, and is what is shown.
            let counted: Vec<_> =
                workbench.selection_by_id().targets().iter().map(|target| target.counted(&nodes_now)).collect();
            let shown: Vec<_> = workbench.selection().targets().iter().copied().map(Some).collect();
            prop_assert_eq!(counted, shown, "{:?}", step);
            if matches!(step, Step::Select(..) | Step::SelectAll) {
                continue;
            }
            if tube_now != tube {
                prop_assert!(workbench.selection_by_id().targets().is_empty(), "{:?} took it to another tube", step);
                continue;
            }
            let is_new = |id: &NodeId| nodes.place(*id).is_none();
            let put_in = matches!(step, Step::Edit(_) | Step::PreviewAndCommit(_));
            if put_in && !selected_now.is_empty() && selected_now.iter().all(is_new) {
                // What was put in is selected in place of what was.
                continue;
            }
            let kept: BTreeSet<_> = selected.iter().copied().filter(|id| has(&nodes_now, *id)).collect();
            prop_assert_eq!(selected_now, kept, "{:?}: of {:?}", step, selected);
        }
    }
}

fn zigzag() -> Workbench {
    Workbench::new(common::zigzag(), built_in_shop())
}

#[test]
fn a_bend_that_is_dragged_straight_stays_selected_as_its_vertex_and_bends_again() {
    let mut workbench = zigzag();
    workbench.perform(Command::Select(workbench.named(Target::Handle(HandleId::Vertex(0))), SelectMode::Only));
    let vertex = workbench.named(Target::Vertex(1));
    let Target::Vertex(id) = vertex else { panic!("{vertex:?}") };
    workbench.perform(Command::Edit(Edit::MoveVertex(id, Point3::new(400.0, -200.0, 0.0))));
    workbench.perform(Command::Edit(Edit::MoveVertex(workbench.part().vertex_id(0), Point3::new(400.0, -900.0, 0.0))));
    assert_eq!(workbench.selection().targets(), [Target::Vertex(1)], "it carries no bend now");
    workbench.perform(Command::Undo);
    assert_eq!(workbench.selection().targets(), [Target::Bend(0)], "it bends again");
    assert_eq!(places(workbench.selection_by_id()).into_iter().collect::<Vec<_>>(), [id]);
}

#[test]
fn to_go_back_over_a_turn_to_another_tube_selects_no_bend_of_the_wrong_one() {
    let mut workbench = zigzag();
    let first = workbench.system().active();
    workbench.perform(Command::EditSystem(SystemEdit::DuplicateTube(first)));
    workbench.perform(Command::Select(workbench.named(Target::Bend(1)), SelectMode::Only));
    workbench.perform(Command::Hover(Some(workbench.named(Target::Bend(2)))));
    workbench.perform(Command::Undo);
    assert_eq!((workbench.system().active(), workbench.selection().targets()), (first, [].as_slice()));
    assert_eq!(workbench.hover(), None);
    workbench.perform(Command::Select(workbench.named(Target::Bend(2)), SelectMode::Only));
    workbench.perform(Command::Redo);
    assert_eq!(workbench.selection().targets(), []);
}

/// A command names what it is about by id: those asked for before it in the same frame may have counted on.
#[test]
fn a_command_finds_its_bend_whatever_was_done_before_it() {
    let mut workbench = zigzag();
    let (gone, meant) = (workbench.named(Target::Bend(0)), workbench.named(Target::Bend(1)));
    workbench.perform(Command::Edit(Edit::RemoveBends(vec![workbench.part().bend_id(0)])));
    workbench.perform(Command::Select(meant, SelectMode::Only));
    assert_eq!(workbench.selection_by_id().targets(), [meant]);
    workbench.perform(Command::Select(gone, SelectMode::Only));
    assert_eq!(workbench.selection_by_id().targets(), [meant], "what is gone cannot be selected");
    workbench.perform(Command::Hover(Some(gone)));
    assert_eq!(workbench.hover(), None);
}
