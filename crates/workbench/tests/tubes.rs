//! A system of several tubes on the workbench: every step can be taken back, only what changed is solved again, and what
//! belongs to one tube stays with it.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::fs;

use elbowroom_bending::{Edit, End, NodeId, SystemEdit, TubeId};
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{built_in_shop, read_system, write_system};
use elbowroom_workbench::{Command, Home, Question, SelectMode, Target, Workbench};

fn zigzag() -> Workbench {
    Workbench::new(common::zigzag(), built_in_shop())
}

/// The zigzag, a copy of it, and a new tube, which is worked on.
fn three() -> Workbench {
    let mut workbench = zigzag();
    let first = workbench.system().active();
    workbench.perform(Command::EditSystem(SystemEdit::DuplicateTube(first)));
    workbench.perform(Command::AddTube);
    workbench
}

fn ids(workbench: &Workbench) -> Vec<TubeId> {
    workbench.system().tubes().iter().map(|tube| tube.id).collect()
}

fn names(workbench: &Workbench) -> Vec<String> {
    workbench.system().tubes().iter().map(|tube| tube.name().to_owned()).collect()
}

/// Everything that undo must bring back to the bit.
fn bits(workbench: &Workbench) -> String {
    let system = workbench.system();
    let tubes: Vec<_> = system.tubes().iter().map(|tube| (tube.id, tube.hidden, tube.part.clone())).collect();
    format!("{:?}", (system.name(), system.units(), system.active(), tubes))
}

#[test]
fn every_change_to_the_list_of_tubes_is_one_step() {
    let mut workbench = three();
    assert_eq!(names(&workbench), ["test part", "test part 2", "New tube"]);
    let [first, copy, new] = ids(&workbench)[..] else { panic!("{:?}", ids(&workbench)) };
    let steps = [
        SystemEdit::Rename("Hill".into()),
        SystemEdit::HideTube(copy),
        SystemEdit::ShowTube(copy),
        SystemEdit::HideTube(new),
        SystemEdit::ShowEveryTube,
        SystemEdit::Activate(first),
        SystemEdit::ChangeTube(copy, Edit::Rename("Tail".into())),
        SystemEdit::ChangeTube(new, Edit::ShowUnits(LengthUnit::Inch)),
        SystemEdit::DuplicateTube(copy),
        SystemEdit::RemoveTube(first),
    ];
    let mut states = vec![bits(&workbench)];
    for edit in &steps {
        workbench.perform(Command::EditSystem(edit.clone()));
        assert_eq!(workbench.screen().message, None, "{edit:?}");
        assert_ne!(bits(&workbench), states[states.len() - 1], "{edit:?} changes nothing");
        states.push(bits(&workbench));
    }
    assert!(
        workbench.system().tubes().iter().all(|tube| tube.part.units == LengthUnit::Inch),
        "one unit for the whole"
    );
    for state in states.iter().rev().skip(1) {
        workbench.perform(Command::Undo);
        assert_eq!(&bits(&workbench), state);
    }
    for state in &states[1..] {
        workbench.perform(Command::Redo);
        assert_eq!(&bits(&workbench), state);
    }
    assert_eq!(workbench.undo_label(), Some("remove tube \u{201c}test part\u{201d}"));
}

#[test]
fn only_a_tube_that_changed_is_solved_again() {
    let mut workbench = three();
    let [first, copy, new] = ids(&workbench)[..] else { panic!("{:?}", ids(&workbench)) };
    let mut solves = workbench.solves();
    assert_eq!(solves, 3, "each of the three once");
    let mut solved =
        |workbench: &Workbench| std::mem::replace(&mut solves, workbench.solves()).abs_diff(workbench.solves());
    let turn = |tube, degrees| {
        let bend = NodeId::new(1);
        SystemEdit::ChangeTube(
            tube,
            Edit::Together(String::new(), vec![Edit::ChangeForm, Edit::SetAngle(bend, Angle::from_degrees(degrees))]),
        )
    };
    for (edit, wanted) in [
        (SystemEdit::Activate(first), 0),
        (SystemEdit::HideTube(copy), 0),
        (SystemEdit::ShowTube(copy), 0),
        (SystemEdit::Rename("Hill".into()), 0),
        (turn(first, 45.0), 1),
        (turn(copy, 30.0), 1),
        (SystemEdit::DuplicateTube(copy), 1),
        (SystemEdit::RemoveTube(new), 0),
    ] {
        workbench.perform(Command::EditSystem(edit.clone()));
        assert_eq!(workbench.screen().message, None, "{edit:?}");
        assert_eq!(solved(&workbench), wanted, "{edit:?}");
    }
    workbench.perform(Command::Preview(Edit::Rename("seen".into())));
    assert_eq!(solved(&workbench), 1);
    workbench.perform(Command::CommitPreview);
    assert_eq!(solved(&workbench), 0, "what was previewed is solved already");
    workbench.perform(Command::Undo);
    assert_eq!(solved(&workbench), 1, "one tube goes back");
}

#[test]
fn what_is_selected_and_found_is_that_of_the_tube_that_is_worked_on() {
    let mut workbench = three();
    let [first, copy, _] = ids(&workbench)[..] else { panic!("{:?}", ids(&workbench)) };
    workbench.perform(Command::EditSystem(SystemEdit::Activate(first)));
    workbench.perform(Command::Select(workbench.named(Target::Bend(1)), SelectMode::Only));
    workbench.perform(Command::EditSystem(SystemEdit::ChangeTube(copy, Edit::BendFrom(End::Finish))));
    assert_eq!(workbench.selection().targets(), [Target::Bend(1)], "another tube's change leaves it");
    workbench.perform(Command::DeleteSelection);
    assert_eq!(workbench.system().tube(copy).unwrap().part.path.bend_form().path.rows().len(), 3);
    assert_eq!((workbench.solved().nodes.vertices(), workbench.solved_tube(copy).unwrap().nodes.vertices()), (5, 6));
    workbench.perform(Command::Select(workbench.named(Target::Bend(0)), SelectMode::Only));
    workbench.perform(Command::EditSystem(SystemEdit::Activate(copy)));
    assert!(workbench.selection().targets().is_empty());
    assert_eq!(workbench.part().tooling.from, End::Finish);
    assert_eq!(
        workbench.solved_tube(copy).map(std::sync::Arc::as_ptr),
        Some(std::sync::Arc::as_ptr(workbench.solved()))
    );
}

#[test]
fn ids_are_never_given_twice_not_even_after_undo() {
    let mut workbench = three();
    let given = ids(&workbench);
    workbench.perform(Command::Undo);
    workbench.perform(Command::AddTube);
    let again = *ids(&workbench).last().unwrap();
    assert!(!given.contains(&again), "{again:?} among {given:?}");
}

#[test]
fn what_no_system_can_be_is_refused() {
    let mut workbench = zigzag();
    let only = workbench.system().active();
    let mut refused = |edit: SystemEdit| {
        let before = bits(&workbench);
        workbench.perform(Command::EditSystem(edit));
        assert_eq!(bits(&workbench), before);
        workbench.screen().message.clone().unwrap().text
    };
    assert!(refused(SystemEdit::RemoveTube(only)).contains("is the only tube there is"));
    assert!(refused(SystemEdit::HideTube(only)).contains("is the only tube that is shown"));
    let nowhere = TubeId::new(99);
    assert!(
        refused(SystemEdit::Activate(nowhere))
            .contains("There is no tube of the id 99; the system has \u{201c}test part\u{201d}")
    );
    workbench.perform(Command::AddTube);
    workbench.perform(Command::Edit(Edit::Rename("test part".into())));
    let said = workbench.screen().message.clone().unwrap().text;
    assert_eq!(said, "Another tube is called \u{201c}test part\u{201d} already; give this one a name of its own.");
    assert_eq!(names(&workbench), ["test part", "New tube"]);
}

#[test]
fn a_system_is_saved_opened_and_recovered_whole() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("hill.ron");
    let mut workbench = Workbench::at_home(Home::at(folder.path()));
    workbench.perform(Command::AddTube);
    workbench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    workbench.perform(Command::SaveAs(file.clone()));
    assert!(!workbench.unsaved());
    let saved = read_system(&fs::read_to_string(&file).unwrap(), "hill.ron").unwrap();
    assert_eq!(saved, **workbench.system());
    let first = ids(&workbench)[0];
    workbench.perform(Command::EditSystem(SystemEdit::Activate(first)));
    assert!(!workbench.unsaved(), "to turn to another tube is no change that could be lost");
    workbench.perform(Command::EditSystem(SystemEdit::Rename("Hill".into())));
    assert!(workbench.unsaved());
    workbench.flush();
    let left = write_system(workbench.system());
    drop(workbench);
    let mut next = Workbench::at_home(Home::at(folder.path()));
    assert!(matches!(&next.screen().question, Some(Question::Recovery { name, .. }) if name == "Hill"));
    next.perform(Command::TakeBackRecovery);
    assert_eq!(write_system(next.system()), left);
    next.perform(Command::Open(file));
    next.perform(Command::AnswerDiscard);
    assert_eq!((names(&next).len(), next.part().tooling.from, next.screen().tubes_open), (2, End::Finish, true));
}
