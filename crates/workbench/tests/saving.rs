//! Saving: what somebody else has saved meanwhile is asked about, and with a window no frame waits for it.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use elbowroom_bending::Edit;
use elbowroom_workbench::file::{built_in_shop, read_part};
use elbowroom_workbench::{Command, Home, MessageKind, Question, Request, Workbench};

fn renamed(workbench: &mut Workbench, name: &str) {
    workbench.perform(Command::Edit(Edit::Rename(name.into())));
}

fn name_in(file: &Path) -> String {
    read_part(&fs::read_to_string(file).unwrap(), "test").unwrap().name
}

fn changed(workbench: &Workbench) -> bool {
    matches!(workbench.screen().question, Some(Question::Changed { .. }))
}

/// Two windows on one file, in both of which something was changed.
fn two_windows(folder: &Path) -> (Workbench, Workbench, PathBuf) {
    let file = folder.join("tube.ron");
    let mut first = Workbench::new(common::zigzag(), built_in_shop());
    first.perform(Command::SaveAs(file.clone()));
    let mut second = Workbench::new(common::zigzag(), built_in_shop());
    second.perform(Command::Open(file.clone()));
    renamed(&mut first, "first");
    renamed(&mut second, "second");
    (first, second, file)
}

#[test]
fn the_second_of_two_windows_is_asked_and_nothing_is_written_until_it_is_answered() {
    let folder = tempfile::tempdir().unwrap();
    let (mut first, mut second, file) = two_windows(folder.path());
    first.perform(Command::Save);
    assert_eq!((changed(&first), name_in(&file).as_str()), (false, "first"));
    second.perform(Command::Save);
    assert_eq!((changed(&second), name_in(&file).as_str(), second.unsaved()), (true, "first", true));
    // Left with Escape, it is asked again at the next save.
    second.perform(Command::Escape);
    assert_eq!((changed(&second), name_in(&file).as_str(), second.unsaved()), (false, "first", true));
    second.perform(Command::SaveAs(file.clone()));
    assert!(changed(&second), "by its name just as well");
    second.perform(Command::AnswerSave);
    assert_eq!((changed(&second), name_in(&file).as_str(), second.unsaved()), (false, "second", false));
    renamed(&mut second, "second again");
    second.perform(Command::Save);
    assert_eq!((changed(&second), name_in(&file).as_str()), (false, "second again"));
    renamed(&mut first, "first again");
    first.perform(Command::Save);
    assert!(changed(&first));
    // What was to come after the save comes once it is answered.
    first.perform(Command::Quit);
    first.perform(Command::AnswerSave);
    assert!(changed(&first));
    assert_eq!(first.take_requests(), []);
    first.perform(Command::AnswerSave);
    assert_eq!((first.take_requests(), name_in(&file).as_str()), (vec![Request::Quit], "first again"));
}

#[test]
fn theirs_is_opened_or_mine_saved_under_another_name_and_what_was_asked_goes_on() {
    let folder = tempfile::tempdir().unwrap();
    let (mut first, mut second, file) = two_windows(folder.path());
    first.perform(Command::Save);
    second.perform(Command::Save);
    second.perform(Command::AnswerDiscard);
    assert_eq!((second.part().name.as_str(), second.unsaved()), ("first", false));
    renamed(&mut second, "both");
    second.perform(Command::Save);
    assert_eq!((changed(&second), name_in(&file).as_str()), (false, "both"));

    renamed(&mut first, "mine");
    first.take_requests();
    first.perform(Command::Quit);
    first.perform(Command::AnswerSave);
    assert!(changed(&first));
    first.perform(Command::AnswerOtherName);
    assert_eq!(first.take_requests(), [Request::AskSaveAs]);
    let other = folder.path().join("other.ron");
    first.perform(Command::SaveAs(other.clone()));
    assert_eq!((name_in(&other).as_str(), name_in(&file).as_str()), ("mine", "both"));
    assert_eq!(first.take_requests(), [Request::Quit]);
}

#[test]
fn a_file_that_only_says_the_same_or_is_gone_is_no_conflict() {
    let folder = tempfile::tempdir().unwrap();
    let (mut first, mut second, file) = two_windows(folder.path());
    renamed(&mut second, "first");
    first.perform(Command::Save);
    second.perform(Command::Save);
    assert!(!changed(&second) && !second.unsaved());
    fs::remove_file(&file).unwrap();
    renamed(&mut first, "anew");
    first.perform(Command::Save);
    assert_eq!((changed(&first), name_in(&file).as_str()), (false, "anew"));
}

#[test]
fn work_taken_back_after_a_crash_does_not_go_over_what_was_saved_since() {
    for somebody_saves in [false, true] {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("tube.ron");
        let mut first = Workbench::new(common::zigzag(), built_in_shop());
        first.perform(Command::SaveAs(file.clone()));
        std::thread::sleep(Duration::from_millis(30));
        let home = Home::at(folder.path().join("home"));
        let mut crashes = Workbench::at_home(home.clone());
        crashes.perform(Command::Open(file.clone()));
        renamed(&mut crashes, "lost");
        drop(crashes);
        if somebody_saves {
            renamed(&mut first, "theirs");
            first.perform(Command::Save);
        }
        let mut next = Workbench::at_home(home);
        next.perform(Command::TakeBackRecovery);
        next.perform(Command::Save);
        assert_eq!(changed(&next), somebody_saves);
        assert_eq!(name_in(&file), if somebody_saves { "theirs" } else { "lost" });
    }
}

/// A workbench with a window that is woken, and what wakes it.
fn with_window() -> (Workbench, Receiver<()>) {
    let (wake, woken) = channel();
    let waker = Arc::new(move || wake.send(()).unwrap_or_default());
    (Workbench::new(common::zigzag(), built_in_shop()).waking(waker), woken)
}

/// Waits until a save that is under way is heard of. One call to hear may tell of several that are done by then, and
/// every command hears before it does anything: the wakes of those bring nothing new.
fn wait(workbench: &mut Workbench, woken: &Receiver<()>) {
    assert!(workbench.saving(), "there is nothing to wait for");
    while !workbench.hear() {
        woken.recv_timeout(Duration::from_secs(60)).expect("whoever saves wakes the window after each save");
    }
}

/// A pipe that is full until it is read: whoever writes to it waits.
#[cfg(target_os = "linux")]
fn slow_file(folder: &Path) -> (PathBuf, fs::File) {
    let pipe = folder.join("slow.ron");
    assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let mut both = fs::File::options().read(true).write(true).open(&pipe).unwrap();
    std::io::Write::write_all(&mut both, &[b' '; 1 << 16]).unwrap();
    (pipe, both)
}

#[cfg(target_os = "linux")]
#[test]
fn no_frame_waits_for_a_disk_and_quitting_waits_for_the_save() {
    use std::io::Read;
    let folder = tempfile::tempdir().unwrap();
    let (slow, mut reader) = slow_file(folder.path());
    let (mut workbench, woken) = with_window();
    renamed(&mut workbench, "slowly");
    workbench.perform(Command::SaveAs(slow));
    assert!(workbench.saving() && workbench.unsaved(), "it is not safe yet");
    workbench.perform(Command::Quit);
    assert_eq!((workbench.take_requests(), &workbench.screen().question), (vec![], &None));
    assert_eq!(workbench.screen().message.as_ref().unwrap().kind, MessageKind::Busy);
    assert!(!workbench.hear());
    // What filled it goes, and there is room for all of the file.
    reader.read_exact(&mut vec![0; 1 << 16]).unwrap();
    wait(&mut workbench, &woken);
    assert_eq!(
        (workbench.take_requests(), workbench.unsaved(), workbench.saving()),
        (vec![Request::Quit], false, false)
    );
}

#[cfg(target_os = "linux")]
#[test]
fn a_question_about_a_changed_file_keeps_the_program_open() {
    use std::io::Read;
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tube.ron");
    let (slow, mut reader) = slow_file(folder.path());
    let (mut workbench, woken) = with_window();
    workbench.perform(Command::SaveAs(file.clone()));
    wait(&mut workbench, &woken);
    fs::write(&file, "somebody else's").unwrap();
    renamed(&mut workbench, "mine");
    // The first save holds up the second, so that both are under way when the program is to close.
    workbench.perform(Command::SaveAs(slow));
    workbench.perform(Command::SaveAs(file.clone()));
    renamed(&mut workbench, "more");
    workbench.perform(Command::Quit);
    workbench.perform(Command::AnswerDiscard);
    assert!(workbench.saving());
    reader.read_exact(&mut vec![0; 1 << 16]).unwrap();
    while workbench.saving() {
        wait(&mut workbench, &woken);
    }
    assert!(changed(&workbench));
    assert_eq!((workbench.take_requests(), fs::read_to_string(&file).unwrap()), (vec![], "somebody else's".to_owned()));
}

#[test]
fn saves_are_made_in_their_order_and_heard_of() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tube.ron");
    let (mut workbench, woken) = with_window();
    workbench.perform(Command::SaveAs(file.clone()));
    wait(&mut workbench, &woken);
    assert_eq!((workbench.file(), workbench.unsaved()), (Some(&file), false));
    for count in 0..20 {
        renamed(&mut workbench, &format!("number {count}"));
        workbench.perform(Command::Save);
    }
    renamed(&mut workbench, "edited since");
    assert!(!changed(&workbench), "what was written here is nobody else's");
    while workbench.saving() {
        wait(&mut workbench, &woken);
        assert!(!changed(&workbench), "what was written here is nobody else's");
    }
    assert_eq!((name_in(&file).as_str(), workbench.unsaved()), ("number 19", true));
    drop(workbench);
}

#[cfg(target_os = "linux")]
#[test]
fn a_save_that_fails_is_told_and_stops_what_waited_for_it() {
    let folder = tempfile::tempdir().unwrap();
    let (slow, reader) = slow_file(folder.path());
    let (mut workbench, woken) = with_window();
    workbench.perform(Command::SaveAs(slow));
    workbench.perform(Command::Edit(Edit::Rename("more".into())));
    workbench.perform(Command::Quit);
    workbench.perform(Command::AnswerDiscard);
    assert!(workbench.saving() && workbench.take_requests().is_empty(), "quitting waits for the save");
    // Nobody reads the pipe any more.
    drop(reader);
    wait(&mut workbench, &woken);
    let message = workbench.screen().message.clone().unwrap();
    assert_eq!(message.kind, MessageKind::Refused);
    assert!(message.text.starts_with("Not saved. "), "{}", message.text);
    assert_eq!(workbench.take_requests(), []);
}

#[test]
fn a_save_of_an_earlier_part_says_nothing_of_the_one_on_the_bench() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tube.ron");
    let (mut workbench, woken) = with_window();
    renamed(&mut workbench, "saved");
    workbench.perform(Command::SaveAs(file.clone()));
    renamed(&mut workbench, "given up");
    workbench.perform(Command::New);
    workbench.perform(Command::AnswerDiscard);
    renamed(&mut workbench, "new");
    while workbench.saving() {
        wait(&mut workbench, &woken);
    }
    assert_eq!((workbench.file(), workbench.unsaved(), name_in(&file).as_str()), (None, true, "saved"));
    workbench.perform(Command::SaveAs(folder.path().join("other.ron")));
    drop(workbench);
    assert_eq!(name_in(&folder.path().join("other.ron")), "new", "what waits is saved at the end");
}
