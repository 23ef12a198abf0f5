//! What went wrong at the start or while writing: it stays until it is dealt with, and nothing of the
//! person's own is written over without a word.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::sync::mpsc::channel;
use std::time::Duration;

use elbowroom_bending::Edit;
use elbowroom_workbench::file::{BUILT_IN_SHOP_TEXT, demo_parts, write_part};
use elbowroom_workbench::{About, Command, Deal, Home, Question, Theme, Workbench};

fn about(workbench: &Workbench) -> Vec<About> {
    workbench.troubles().iter().map(|trouble| trouble.about.clone()).collect()
}

/// A broken shop of one's own, and a sound one.
fn shops() -> (String, String) {
    let sound = BUILT_IN_SHOP_TEXT.replace("\"Common practice\"", "\"Mine\"");
    (sound.replace("hand: right", "hand: third"), sound)
}

fn a_part_in(folder: &Path) -> std::path::PathBuf {
    let file = folder.join("tube.ron");
    fs::write(&file, write_part(&demo_parts().next().unwrap().read().unwrap())).unwrap();
    file
}

#[test]
fn a_broken_own_shop_stays_told_while_parts_are_opened() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path().join("home"));
    fs::create_dir_all(home.own_shop().parent().unwrap()).unwrap();
    let (broken, sound) = shops();
    fs::write(home.own_shop(), &broken).unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    let trouble = About::Shop(home.own_shop());
    // As the command line does it with a part named on it, and then the person.
    workbench.perform(Command::Open(a_part_in(folder.path())));
    for command in [Command::DismissMessage, Command::Escape, Command::New, Command::Edit(Edit::Rename("a".into()))] {
        workbench.perform(command);
        assert_eq!(about(&workbench), std::slice::from_ref(&trouble));
    }
    let text = &workbench.troubles()[0].text;
    assert!(
        text.contains("third is not known") && text.contains("judged on the shop \u{201c}Common practice\u{201d}"),
        "{text}"
    );
    assert_eq!(workbench.shop_missed(), Some(home.own_shop().as_path()));
    workbench.perform(Command::Deal(trouble.clone(), Deal::Again));
    assert_eq!(about(&workbench), std::slice::from_ref(&trouble), "it is as broken as before");
    fs::write(home.own_shop(), &sound).unwrap();
    workbench.perform(Command::Deal(trouble, Deal::Again));
    assert_eq!((about(&workbench), workbench.shop().name.as_str()), (vec![], "Mine"));
    assert_eq!(fs::read_to_string(home.own_shop()).unwrap(), sound);
}

#[test]
fn the_built_in_shop_can_be_taken_knowingly_and_a_choice_of_another_ends_the_trouble() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let (broken, sound) = shops();
    fs::write(home.own_shop(), &broken).unwrap();
    let other = folder.path().join("other.ron");
    fs::write(&other, sound).unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::Deal(About::Shop(home.own_shop()), Deal::Accept));
    assert_eq!((about(&workbench), workbench.shop_missed()), (vec![], None));
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::UseShop(other));
    assert_eq!((about(&workbench), workbench.shop().name.as_str()), (vec![], "Mine"));
    workbench.perform(Command::UseOwnShop);
    assert_eq!((about(&workbench), workbench.shop().name.as_str()), (vec![About::Shop(home.own_shop())], "Mine"));
    assert_eq!(fs::read_to_string(home.own_shop()).unwrap(), broken);
}

#[cfg(unix)]
#[test]
fn a_shop_file_whose_link_leads_to_nothing_is_no_missing_shop_file() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    std::os::unix::fs::symlink(folder.path().join("on-the-server.ron"), home.own_shop()).unwrap();
    assert_eq!(about(&Workbench::at_home(home.clone())), [About::Shop(home.own_shop())]);
}

#[test]
fn settings_that_cannot_be_read_are_never_written_over_and_kept_aside_when_one_starts_afresh() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let broken = "(dark: perhaps)";
    fs::write(home.settings(), broken).unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::SetTheme(Theme::Dark));
    workbench.perform(Command::SaveAs(folder.path().join("tube.ron")));
    assert_eq!(about(&workbench), [About::Settings]);
    workbench.flush();
    assert_eq!(fs::read_to_string(home.settings()).unwrap(), broken);
    workbench.perform(Command::Deal(About::Settings, Deal::Again));
    assert_eq!(about(&workbench), [About::Settings]);
    drop(workbench);
    assert_eq!(fs::read_to_string(home.settings()).unwrap(), broken, "nor at the end");

    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::SetTheme(Theme::Dark));
    workbench.perform(Command::Deal(About::Settings, Deal::Accept));
    workbench.flush();
    assert_eq!(about(&workbench), []);
    let copy = folder.path().join("settings-not-read-1.ron");
    assert!(workbench.screen().message.as_ref().unwrap().text.contains("settings-not-read-1.ron"));
    assert_eq!(fs::read_to_string(copy).unwrap(), broken);
    drop(workbench);
    let next = Workbench::at_home(home.clone());
    assert_eq!((about(&next), next.screen().theme), (vec![], Theme::Dark));
    drop(next);

    // A second time takes another name, and mended settings are read again.
    fs::write(home.settings(), "broken again").unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::Deal(About::Settings, Deal::Accept));
    assert_eq!(fs::read_to_string(folder.path().join("settings-not-read-2.ron")).unwrap(), "broken again");
    drop(workbench);
    fs::write(home.settings(), broken).unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    fs::write(home.settings(), "(dark: true)").unwrap();
    workbench.perform(Command::Deal(About::Settings, Deal::Again));
    assert_eq!((about(&workbench), workbench.screen().theme), (vec![], Theme::Dark));
}

#[test]
fn a_recovery_folder_that_is_none_is_told_and_work_is_kept_once_it_is_one() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    fs::write(home.recovery(), "a file where the folder should be").unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::Edit(Edit::Rename("precious".into())));
    assert_eq!(about(&workbench), [About::RecoveryFolder]);
    assert!(workbench.troubles()[0].text.starts_with("No recovery copy of your work can be kept: "));
    workbench.perform(Command::Deal(About::RecoveryFolder, Deal::Again));
    assert_eq!(about(&workbench), [About::RecoveryFolder]);
    fs::remove_file(home.recovery()).unwrap();
    workbench.perform(Command::Deal(About::RecoveryFolder, Deal::Again));
    assert_eq!(about(&workbench), []);
    workbench.flush();
    let kept = fs::read_dir(home.recovery())
        .unwrap()
        .filter(|file| file.as_ref().unwrap().path().extension().is_some_and(|extension| extension == "ron"));
    assert_eq!(kept.count(), 1);
}

#[test]
fn recovery_that_stops_working_wakes_the_window_within_two_seconds_and_is_told_until_it_works() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let (wake, woken) = channel();
    let mut workbench = Workbench::at_home(home.clone()).waking(Arc::new(move || wake.send(()).unwrap_or_default()));
    // A folder that has gone can be written to by nobody, not even by the superuser.
    let elsewhere = folder.path().join("elsewhere");
    fs::rename(home.recovery(), &elsewhere).unwrap();
    workbench.perform(Command::Edit(Edit::Rename("precious".into())));
    assert_eq!(about(&workbench), []);
    woken.recv_timeout(Duration::from_secs(2)).expect("nobody was woken within two seconds");
    assert!(workbench.hear() && !workbench.hear());
    assert_eq!(about(&workbench), [About::KeepingWork]);
    // It can be put away, and does not come back for the same reason.
    workbench.perform(Command::Deal(About::KeepingWork, Deal::Accept));
    workbench.flush();
    workbench.perform(Command::DismissMessage);
    assert_eq!(about(&workbench), []);
    fs::rename(elsewhere, home.recovery()).unwrap();
    workbench.perform(Command::Deal(About::KeepingWork, Deal::Again));
    workbench.flush();
    assert!(workbench.hear());
    drop(workbench);
    let next = Workbench::at_home(home);
    assert!(matches!(&next.screen().question, Some(Question::Recovery { name, .. }) if name == "precious"));
}

#[test]
fn work_that_is_left_for_later_goes_on_waiting_on_the_screen() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    for name in ["first", "second"] {
        let mut workbench = Workbench::at_home(home.clone());
        workbench.perform(Command::AnswerCancel);
        workbench.perform(Command::Edit(Edit::Rename(name.into())));
    }
    let mut next = Workbench::at_home(home);
    next.perform(Command::Escape);
    assert_eq!((about(&next), &next.screen().question), (vec![About::WorkWaits], &None));
    assert!(next.troubles()[0].text.contains("\u{201c}second\u{201d}"), "{}", next.troubles()[0].text);
    next.perform(Command::Deal(About::WorkWaits, Deal::Again));
    assert!(matches!(&next.screen().question, Some(Question::Recovery { name, .. }) if name == "second"));
    next.perform(Command::TakeBackRecovery);
    assert!(next.troubles()[0].text.contains("\u{201c}first\u{201d}"), "the other piece waits");
    next.perform(Command::Deal(About::WorkWaits, Deal::Again));
    next.perform(Command::DiscardRecovery);
    assert_eq!((about(&next), next.part().name.as_str()), (vec![], "second"));
}
