//! The run at the machine: ticked off, kept over a restart, told where the program changes beneath it.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;

use elbowroom_bending::{Edit, End};
use elbowroom_workbench::{Changed, Command, Home, Standing, Workbench};

fn start(folder: &Path) -> Workbench {
    Workbench::at_home(Home::at(folder))
}

fn standing(workbench: &Workbench) -> Standing {
    workbench.at_machine(&workbench.planned().unwrap())
}

fn on(workbench: &mut Workbench, times: usize) {
    for _ in 0..times {
        workbench.perform(Command::StepOn);
    }
}

#[test]
fn steps_are_ticked_off_back_and_on_to_the_next_tube() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = start(folder.path());
    let steps = standing(&workbench).steps;
    assert!(steps > 2 && standing(&workbench).step().is_none() && !standing(&workbench).is_finished());
    workbench.perform(Command::StepBack);
    assert_eq!(standing(&workbench).done, 0, "there is nothing before the loading");
    on(&mut workbench, 2);
    assert_eq!(standing(&workbench).step(), Some(1));
    workbench.perform(Command::StepBack);
    assert_eq!(standing(&workbench).step(), Some(0));
    on(&mut workbench, steps);
    assert!(standing(&workbench).is_finished() && standing(&workbench).step().is_none());
    on(&mut workbench, 1);
    assert_eq!((standing(&workbench).done, standing(&workbench).tubes), (0, 1), "the next tube is to be loaded");
    assert!(!workbench.unsaved() && workbench.undo_label().is_none(), "it is no change of the drawing");
}

#[test]
fn what_is_done_is_kept_over_a_restart_and_belongs_to_its_tube() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = start(folder.path());
    on(&mut workbench, 3);
    let file = folder.path().join("tube.ron");
    workbench.perform(Command::SaveAs(file.clone()));
    assert_eq!(standing(&workbench).done, 3, "a file for it takes nothing away");
    on(&mut workbench, 1);
    workbench.perform(Command::OpenDemo("cross-link".into()));
    assert_eq!(standing(&workbench).done, 0, "another tube has its own run");
    on(&mut workbench, 1);
    workbench.flush();
    drop(workbench);
    let mut again = start(folder.path());
    again.perform(Command::Open(file));
    assert_eq!((standing(&again).done, standing(&again).changed), (4, None));
    again.perform(Command::OpenDemo("cross-link".into()));
    assert_eq!(standing(&again).done, 1);
}

#[test]
fn a_program_that_changed_is_told_and_not_followed_without_a_word() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = start(folder.path());
    workbench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    assert_eq!(standing(&workbench).changed, None, "nothing was done by the old figures");
    workbench.perform(Command::Edit(Edit::BendFrom(End::Start)));
    on(&mut workbench, 3);
    workbench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    assert_eq!(standing(&workbench).changed, Some(Changed::From(0)));
    assert!(standing(&workbench).spoils_done());
    on(&mut workbench, 1);
    assert_eq!(standing(&workbench).done, 3, "nothing is ticked off before it is answered");
    workbench.perform(Command::Undo);
    assert_eq!(standing(&workbench).changed, None, "back to the figures, on with the run");
    workbench.perform(Command::Redo);
    workbench.perform(Command::FollowChange);
    assert_eq!((standing(&workbench).done, standing(&workbench).changed), (3, None));
    workbench.perform(Command::Undo);
    workbench.perform(Command::BeginTube);
    assert_eq!((standing(&workbench).done, standing(&workbench).changed), (0, None));
}

#[test]
fn a_change_ahead_leaves_what_is_bent() {
    let mut workbench = Workbench::new(crate::common::zigzag(), elbowroom_workbench::file::built_in_shop());
    on(&mut workbench, 2);
    let last = standing(&workbench).steps - 1;
    workbench.perform(Command::ChangeForm);
    assert_eq!(standing(&workbench).changed, None, "the same figures in another form");
    let id = workbench.part().bend_id(workbench.planned().unwrap().drawn_bend(last).unwrap());
    let more = elbowroom_geometry::Angle::from_degrees(7.0);
    let angle = workbench.solved().form.path.rows()[workbench.part().numbering().bend_at(id).unwrap()].angle + more;
    workbench.perform(Command::Edit(Edit::SetAngle(id, angle)));
    // The blank is another length too, and it is in the machine.
    assert_eq!(standing(&workbench).changed, Some(Changed::Whole));
}

#[test]
fn a_settings_file_with_nonsense_for_a_run_is_read_without_it() {
    let text = "(runs: [(of: (file: \"a\", tube: 1, name: \"b\"), done: 2, blank_mm: inf), (done: 3)])";
    let settings = elbowroom_workbench::file::read_settings(text, "settings").unwrap();
    assert_eq!(settings.runs.iter().map(|run| run.done).collect::<Vec<_>>(), [3]);
}
