//! Work that a crash left behind: kept, offered only when its program is gone, taken back or thrown away.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};

use elbowroom_bending::Edit;
use elbowroom_workbench::{Command, Home, MessageKind, Question, Request, Workbench};

/// The recovery files in a home, locks left out.
fn kept(folder: &Path) -> Vec<PathBuf> {
    let files = fs::read_dir(Home::at(folder).recovery()).unwrap().map(|entry| entry.unwrap().path());
    files.filter(|path| path.extension().is_some_and(|extension| extension == "ron")).collect()
}

fn start(folder: &Path) -> Workbench {
    Workbench::at_home(Home::at(folder))
}

/// A program that edits a part and goes without being asked about it, as in a crash.
fn crash(folder: &Path, name: &str) -> String {
    let mut workbench = start(folder);
    workbench.perform(Command::Edit(Edit::Rename(name.into())));
    format!("{:?}", workbench.committed_part())
}

#[test]
fn work_is_offered_when_its_program_is_gone_and_taken_back_to_the_bit() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tube.ron");
    let mut running = start(folder.path());
    running.perform(Command::SaveAs(file.clone()));
    assert_eq!(running.screen().question, None);
    running.flush();
    assert_eq!(kept(folder.path()).len(), 0, "saved work needs no recovery");
    running.perform(Command::Edit(Edit::Rename("unsaved".into())));
    running.flush();
    assert_eq!(kept(folder.path()).len(), 1);
    assert_eq!(start(folder.path()).screen().question, None, "a running program keeps its work");
    let part = format!("{:?}", running.committed_part());
    drop(running);

    let mut next = start(folder.path());
    let Some(Question::Recovery { name, age }) = next.screen().question.clone() else { panic!("nothing is offered") };
    assert_eq!((name.as_str(), age.as_str()), ("unsaved", "less than a minute ago"));
    assert_eq!(start(folder.path()).screen().question, None, "it is offered to one program only");
    next.perform(Command::TakeBackRecovery);
    assert_eq!(format!("{:?}", next.part()), part);
    assert_eq!((next.file(), next.unsaved(), &next.screen().question), (Some(&file), true, &None));
    assert_eq!(next.screen().message.as_ref().unwrap().kind, MessageKind::Done);
    assert_eq!(kept(folder.path()).len(), 1, "it stands in the file of this program now, and there alone");
    next.perform(Command::Save);
    assert_eq!(next.screen().question, None, "nobody else has written to the file");
    next.flush();
    assert_eq!(kept(folder.path()).len(), 0);
}

#[test]
fn what_the_file_held_is_known_after_one_crash_and_after_two() {
    for somebody_saves in [false, true] {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("tube.ron");
        let mut running = start(folder.path());
        running.perform(Command::SaveAs(file.clone()));
        running.perform(Command::Edit(Edit::Rename("unsaved".into())));
        drop(running);
        let mut next = start(folder.path());
        next.perform(Command::TakeBackRecovery);
        drop(next);
        if somebody_saves {
            let text = fs::read_to_string(&file).unwrap();
            fs::write(&file, text + "// somebody else's\n").unwrap();
        }
        let mut last = start(folder.path());
        last.perform(Command::TakeBackRecovery);
        assert_eq!(last.part().name, "unsaved");
        last.perform(Command::Save);
        let asked = matches!(last.screen().question, Some(Question::Changed { .. }));
        assert_eq!((asked, last.unsaved()), (somebody_saves, somebody_saves));
    }
}

/// Whoever kept the work before marks were kept: the time of the file must do.
#[test]
fn work_of_version_2_is_taken_back_and_a_file_written_since_is_asked_about() {
    for written_since in [false, true] {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("tube.ron");
        let museum = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/museum/recovery-v2.ron");
        let text = fs::read_to_string(museum).unwrap().replace("/parts/tube.ron", file.to_str().unwrap());
        let mut saved = start(folder.path());
        saved.perform(Command::SaveAs(file.clone()));
        drop(saved);
        let hour = std::time::Duration::from_secs(3600);
        let old = fs::File::options().write(true).open(&file).unwrap();
        let began = std::time::SystemTime::now() - 2 * hour;
        old.set_modified(if written_since { began + hour } else { began - hour }).unwrap();
        let nanoseconds = began.duration_since(std::time::UNIX_EPOCH).unwrap().as_nanos();
        let work = Home::at(folder.path()).recovery().join(format!("work-4194999-{nanoseconds}.ron"));
        fs::create_dir_all(Home::at(folder.path()).recovery()).unwrap();
        fs::write(work, text).unwrap();
        let mut next = start(folder.path());
        next.perform(Command::TakeBackRecovery);
        assert_eq!((next.part().name.as_str(), next.file()), ("Museum piece, by rows", Some(&file)));
        next.perform(Command::Save);
        assert_eq!(matches!(next.screen().question, Some(Question::Changed { .. })), written_since);
    }
}

#[test]
fn work_can_be_thrown_away_or_left_for_later() {
    let folder = tempfile::tempdir().unwrap();
    crash(folder.path(), "first");
    let mut next = start(folder.path());
    next.perform(Command::Escape);
    assert_eq!((&next.screen().question, next.recovery_waits()), (&None, true));
    drop(next);
    let mut next = start(folder.path());
    assert!(matches!(next.screen().question, Some(Question::Recovery { .. })), "it is offered again");
    next.perform(Command::DiscardRecovery);
    assert_eq!((&next.screen().question, kept(folder.path()).len()), (&None, 0));
    next.perform(Command::TakeBackRecovery);
    assert_eq!(next.screen().message.as_ref().unwrap().text, "There is no work to take back.");
}

#[test]
fn every_crash_is_offered_the_latest_first() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbenches: Vec<_> = (0..2).map(|_| start(folder.path())).collect();
    for (workbench, name) in workbenches.iter_mut().zip(["older", "newer"]) {
        workbench.perform(Command::Edit(Edit::Rename(name.into())));
        workbench.flush();
    }
    drop(workbenches);
    let mut next = start(folder.path());
    let mut offered = Vec::new();
    while let Some(Question::Recovery { name, .. }) = next.screen().question.clone() {
        offered.push(name);
        next.perform(Command::DiscardRecovery);
    }
    assert_eq!(offered, ["newer", "older"]);
}

#[test]
fn a_clean_end_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = start(folder.path());
    workbench.perform(Command::Edit(Edit::Rename("given up".into())));
    workbench.flush();
    assert_eq!(kept(folder.path()).len(), 1);
    workbench.perform(Command::Undo);
    workbench.flush();
    assert_eq!(kept(folder.path()).len(), 0, "back where it began there is nothing to keep");
    workbench.perform(Command::Redo);
    workbench.perform(Command::Quit);
    workbench.perform(Command::AnswerDiscard);
    assert_eq!(workbench.take_requests().last(), Some(&Request::Quit));
    drop(workbench);
    assert_eq!(fs::read_dir(Home::at(folder.path()).recovery()).unwrap().count(), 0);
    assert_eq!(start(folder.path()).screen().question, None);
}

#[test]
fn a_damaged_recovery_file_is_told_and_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    crash(folder.path(), "damaged");
    let file = kept(folder.path()).remove(0);
    let text = fs::read_to_string(&file).unwrap();
    fs::write(&file, &text[..text.len() / 2]).unwrap();
    let workbench = start(folder.path());
    let said = workbench.troubles()[0].text.clone();
    assert!(said.contains("Work that a crash left behind cannot be read: "), "{said}");
    assert!(said.contains("the file ends too early"), "{said}");
    drop(workbench);
    assert_eq!(fs::read_to_string(&file).unwrap(), text[..text.len() / 2]);
}
