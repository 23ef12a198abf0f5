//! Opening, saving, questions about unsaved work, settings and shops, on a real disk.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use elbowroom_bending::{Edit, End, Part, Shop, System};
use elbowroom_workbench::file::{
    BUILT_IN_SHOP_TEXT, FileProblem, built_in_shop, demo_parts, read_part, save_atomically, write_part,
};
use elbowroom_workbench::{
    Command, Exporter, Home, Imported, Importer, MessageKind, Question, Request, Theme, ViewCommand, Workbench,
};

fn zigzag() -> Workbench {
    Workbench::new(common::zigzag(), built_in_shop())
}

fn renamed(workbench: &mut Workbench, name: &str) {
    workbench.perform(Command::Edit(Edit::Rename(name.into())));
}

fn refusal(workbench: &Workbench) -> String {
    let message = workbench.screen().message.clone().unwrap();
    assert_eq!(message.kind, MessageKind::Refused, "{}", message.text);
    message.text
}

fn saved_in(folder: &Path) -> (Workbench, PathBuf) {
    let mut workbench = zigzag();
    let file = folder.join("tube.ron");
    workbench.perform(Command::SaveAs(file.clone()));
    assert_eq!(workbench.file(), Some(&file));
    (workbench, file)
}

#[test]
fn what_is_saved_opens_again() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = zigzag();
    renamed(&mut workbench, "saved");
    workbench.perform(Command::Save);
    assert_eq!(workbench.take_requests(), [Request::AskSaveAs], "without a file, save asks for a name");
    workbench.perform(Command::SaveAs(folder.path().join("tube")));
    let file = folder.path().join("tube.ron");
    assert_eq!((workbench.file(), workbench.unsaved()), (Some(&file), false), "the extension is put on");
    assert_eq!(workbench.screen().message.as_ref().unwrap().kind, MessageKind::Done);
    renamed(&mut workbench, "again");
    assert!(workbench.unsaved());
    workbench.perform(Command::Save);

    let mut other = zigzag();
    other.perform(Command::Open(file.clone()));
    assert_eq!(format!("{:?}", other.part()), format!("{:?}", workbench.part()));
    assert_eq!((other.file(), other.unsaved(), other.undo_label()), (Some(&file), false, None));
    assert_eq!(other.take_requests(), [Request::View(ViewCommand::FrameAll)]);
    assert_eq!(other.recent_files(), [file]);
    workbench.perform(Command::Undo);
    assert!(workbench.unsaved(), "undo goes back beyond what was saved");
    workbench.perform(Command::Redo);
    assert!(!workbench.unsaved());
}

#[test]
fn unsaved_work_is_asked_about_before_it_would_be_lost() {
    let folder = tempfile::tempdir().unwrap();
    let (_, file) = saved_in(folder.path());
    let losing = [Command::New, Command::Open(file.clone()), Command::OpenDemo("knot".into()), Command::Quit];
    for command in losing {
        let mut workbench = zigzag();
        renamed(&mut workbench, "precious");
        workbench.perform(command.clone());
        let question = Question::Unsaved { then: Box::new(command.clone()) };
        assert_eq!(workbench.screen().question, Some(question));
        assert_eq!(workbench.take_requests(), []);
        assert_eq!(workbench.part().name, "precious");
        workbench.perform(Command::AnswerCancel);
        assert_eq!((workbench.part().name.as_str(), &workbench.screen().question), ("precious", &None));
        workbench.perform(command.clone());
        workbench.perform(Command::AnswerDiscard);
        if command == Command::Quit {
            assert_eq!(workbench.take_requests(), [Request::Quit]);
        } else {
            assert_ne!(workbench.part().name, "precious");
        }
    }
}

#[test]
fn saving_first_goes_on_with_what_was_asked() {
    let folder = tempfile::tempdir().unwrap();
    let (mut workbench, file) = saved_in(folder.path());
    renamed(&mut workbench, "kept");
    workbench.perform(Command::New);
    workbench.perform(Command::AnswerSave);
    assert_eq!(read_part(&fs::read_to_string(&file).unwrap(), "test").unwrap().name, "kept");
    assert_eq!((workbench.part().name.as_str(), workbench.file()), ("New part", None));

    renamed(&mut workbench, "nameless");
    workbench.take_requests();
    workbench.perform(Command::Quit);
    workbench.perform(Command::AnswerSave);
    assert_eq!(workbench.take_requests(), [Request::AskSaveAs]);
    // The person thinks better of it and goes back to work: a later save closes nothing.
    renamed(&mut workbench, "still here");
    workbench.perform(Command::SaveAs(folder.path().join("second.ron")));
    assert_eq!(workbench.take_requests(), []);

    renamed(&mut workbench, "done");
    workbench.perform(Command::Quit);
    workbench.perform(Command::AnswerSave);
    assert_eq!(workbench.take_requests(), [Request::Quit]);
}

#[test]
fn a_save_that_fails_says_why_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (mut workbench, file) = saved_in(folder.path());
    let before = fs::read_to_string(&file).unwrap();
    renamed(&mut workbench, "changed");
    let mut permissions = fs::metadata(&file).unwrap().permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&file, permissions).unwrap();
    workbench.perform(Command::Quit);
    workbench.perform(Command::AnswerSave);
    let text = refusal(&workbench);
    assert!(text.starts_with("Not saved. ") && text.contains("the file is marked as read-only"), "{text}");
    assert_eq!(workbench.take_requests(), [], "a save that fails closes nothing");
    assert_eq!((fs::read_to_string(&file).unwrap(), workbench.unsaved()), (before, true));

    for (place, why) in
        [("gone/tube.ron", "the file or its folder is not there"), (".", "there is a folder of that name")]
    {
        let mut path = folder.path().join(place);
        if place == "." {
            path = folder.path().join("folder.ron");
            fs::create_dir(&path).unwrap();
        }
        workbench.perform(Command::SaveAs(path));
        let text = refusal(&workbench);
        assert!(text.contains(why), "{text}");
    }
    let names: Vec<_> = fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(names.len(), 2, "temporary files stay behind: {names:?}");
}

/// The folder of the kernel's own settings takes no files, not even from the superuser.
#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_takes_no_files_is_told_in_plain_words() {
    let problem = save_atomically(Path::new("/sys/tube.ron"), "text").unwrap_err().to_string();
    let known = ["you have no permission there", "the disk can only be read"];
    assert!(known.iter().any(|words| problem.contains(words)), "{problem}");
}

#[cfg(unix)]
#[test]
fn saving_keeps_links_and_permissions() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let (file, link) = (folder.path().join("tube.ron"), folder.path().join("link.ron"));
    save_atomically(&file, "one").unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
    symlink(&file, &link).unwrap();
    save_atomically(&link, "two").unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::read_to_string(&file).unwrap(), "two");
    assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o640);
}

#[test]
fn saving_over_a_part_of_the_old_format_says_what_becomes_of_it() {
    let folder = tempfile::tempdir().unwrap();
    let museum = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/museum/part-v1-vertices.ron");
    let file = folder.path().join("old.ron");
    fs::copy(museum, &file).unwrap();
    let mut workbench = zigzag();
    workbench.perform(Command::Open(file.clone()));
    workbench.perform(Command::Edit(Edit::BendFrom(End::Finish)));
    workbench.perform(Command::Save);
    let text = workbench.screen().message.as_ref().unwrap().text.clone();
    assert!(text.starts_with("Saved to ") && text.contains("The file is elbowroom-system/4 now"), "{text}");
    assert!(fs::read_to_string(&file).unwrap().contains("elbowroom-system/4"));
    workbench.perform(Command::Edit(Edit::Rename("later".into())));
    workbench.perform(Command::Save);
    let text = workbench.screen().message.as_ref().unwrap().text.clone();
    assert!(!text.contains("system"), "it is told once: {text}");
    workbench.perform(Command::Open(file));
    assert_eq!(workbench.part().tooling.from, End::Finish, "from which end it is bent is kept");
}

#[test]
fn what_cannot_be_opened_is_told_and_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (mut workbench, file) = saved_in(folder.path());
    let whole = fs::read(&file).unwrap();
    fs::write(&file, &whole[..whole.len() / 2]).unwrap();
    workbench.perform(Command::Open(file.clone()));
    let text = refusal(&workbench);
    assert!(text.contains("tube.ron, line 23") && text.contains("the file ends too early"), "{text}");
    fs::write(&file, [b'(', b'\n', 0xff]).unwrap();
    workbench.perform(Command::Open(file.clone()));
    assert!(refusal(&workbench).contains("tube.ron, line 2: this is no text"), "{}", refusal(&workbench));
    workbench.perform(Command::Open(folder.path().join("gone.ron")));
    assert!(refusal(&workbench).contains("the file or its folder is not there"));
    assert_eq!((workbench.part().name.as_str(), workbench.file()), ("test part", Some(&file)));
}

#[test]
fn other_formats_open_through_their_importers() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("Table.CSV");
    let read = |bytes: &[u8], _: &Shop| match bytes {
        b"good" | b"odd" => {
            let system = System::of(Part { name: String::new(), ..common::zigzag() });
            let notes = if bytes == b"odd" { vec!["A branch was passed over.".to_owned()] } else { Vec::new() };
            Ok(Imported { system, notes })
        }
        _ => Err("line 7: no".to_owned()),
    };
    let mut workbench = zigzag().with_importers(vec![Importer { extension: "csv", read: Arc::new(read) }]);
    fs::write(&file, "bad").unwrap();
    workbench.perform(Command::Open(file.clone()));
    assert!(refusal(&workbench).ends_with("Table.CSV: line 7: no."), "{}", refusal(&workbench));
    fs::write(&file, "good").unwrap();
    workbench.perform(Command::Open(file.clone()));
    assert_eq!((workbench.part().name.as_str(), workbench.file(), workbench.unsaved()), ("Table", None, false));
    workbench.perform(Command::SaveAs(file.clone()));
    assert!(refusal(&workbench).contains("ends in .ron"), "{}", refusal(&workbench));
    fs::write(&file, "odd").unwrap();
    workbench.perform(Command::Open(file));
    let message = workbench.screen().message.as_ref().map(|message| message.text.as_str());
    assert_eq!(message, Some("Opened. A branch was passed over."), "what was passed over is told");
}

#[test]
fn a_part_is_exported_and_stays_what_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let write = |part: &Part, _: &Shop, file: &str| match part.name.as_str() {
        "bad" => Err(FileProblem::whole(file, "it has no vertices", "keep it as a part file")),
        name => Ok([b"\x00\xff", name.as_bytes()].concat()),
    };
    let exporter = Exporter { name: "bytes", extension: "byt", write: Arc::new(write) };
    let mut workbench = zigzag().with_exporters(vec![exporter]);
    let told = |workbench: &Workbench| workbench.screen().message.as_ref().unwrap().text.clone();
    workbench.perform(Command::AskExport);
    assert_eq!(workbench.take_requests(), [Request::AskExport]);
    let full = folder.path().join("tube.byt");
    workbench.perform(Command::Export(folder.path().join("tube")));
    assert_eq!(told(&workbench), format!("Exported as bytes to {}.", full.display()));
    assert_eq!(fs::read(&full).unwrap(), b"\x00\xfftest part");
    assert_eq!((workbench.file(), workbench.recent_files().len()), (None, 0), "it is no file of the part's own");
    workbench.perform(Command::Export(folder.path().join("tube")));
    assert!(refusal(&workbench).contains("is there already"));
    renamed(&mut workbench, "other");
    workbench.perform(Command::Export(folder.path().join("TUBE.BYT")));
    assert_eq!(fs::read(folder.path().join("TUBE.BYT")).unwrap(), b"\x00\xffother");
    assert!(workbench.unsaved(), "an export is no saving");
    workbench.perform(Command::Export(folder.path().join("tube.xyz")));
    assert_eq!(refusal(&workbench), "Not exported. The name must end in .byt (bytes).");
    renamed(&mut workbench, "bad");
    workbench.perform(Command::Export(full.clone()));
    assert!(refusal(&workbench).ends_with("tube.byt: it has no vertices; keep it as a part file."));
    assert_eq!(fs::read(&full).unwrap(), b"\x00\xfftest part", "what was there is untouched");
    workbench.perform(Command::Export(folder.path().join("no/such/tube.byt")));
    assert!(refusal(&workbench).starts_with("Not exported. "));
}

#[test]
fn a_name_that_gains_its_extension_replaces_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (mut workbench, file) = saved_in(folder.path());
    renamed(&mut workbench, "other");
    workbench.perform(Command::SaveAs(folder.path().join("tube")));
    assert!(refusal(&workbench).contains("is there already"));
    assert_eq!(read_part(&fs::read_to_string(file).unwrap(), "test").unwrap().name, "test part");
}

#[test]
fn settings_are_remembered() {
    let folder = tempfile::tempdir().unwrap();
    let home = || Home::at(folder.path().join("home"));
    let mut first = Workbench::at_home(home());
    assert!(first.screen().hints_shown, "the first start shows the hints");
    assert_eq!(first.screen().message, None);
    let part = folder.path().join("tube.ron");
    for command in [
        Command::SetTheme(Theme::Dark),
        Command::SetScale(9.0),
        Command::ToggleBench,
        Command::DismissHints,
        Command::SaveAs(part.clone()),
    ] {
        first.perform(command);
    }
    drop(first);
    let second = Workbench::at_home(home());
    let screen = second.screen();
    assert_eq!((screen.theme, screen.scale, screen.bench_open, screen.hints_shown), (Theme::Dark, 2.0, true, false));
    assert_eq!(second.recent_files(), [part]);
}

#[test]
fn unknown_settings_are_passed_over_and_broken_ones_told() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    fs::write(home.settings(), "(dark: true, of_a_later_version: [1, 2])").unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    assert_eq!((workbench.screen().theme, &workbench.screen().message), (Theme::Dark, &None));
    workbench.perform(Command::SetTheme(Theme::Light));
    drop(workbench);
    let text = fs::read_to_string(home.settings()).unwrap();
    assert!(text.contains("dark: false") && text.contains("of_a_later_version: [1, 2]"), "written back: {text}");
    fs::write(home.settings(), "(dark: perhaps)").unwrap();
    let workbench = Workbench::at_home(home);
    let text = &workbench.troubles()[0].text;
    assert!(text.contains("settings.ron, line 1"), "{text}");
}

#[test]
fn an_own_shop_is_made_used_and_never_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path().join("home"));
    let mut workbench = Workbench::at_home(home.clone());
    assert_eq!(workbench.shop_file(), None);
    workbench.perform(Command::MakeOwnShop);
    assert_eq!(fs::read_to_string(home.own_shop()).unwrap(), BUILT_IN_SHOP_TEXT);
    let mine = BUILT_IN_SHOP_TEXT.replace("\"Common practice\"", "\"Mine\"");
    fs::write(home.own_shop(), &mine).unwrap();
    workbench.perform(Command::MakeOwnShop);
    assert!(refusal(&workbench).contains("already"));
    let revision = workbench.revision();
    workbench.perform(Command::UseOwnShop);
    assert_eq!((workbench.shop().name.as_str(), workbench.shop_file()), ("Mine", Some(&home.own_shop())));
    assert!(workbench.revision() > revision);
    drop(workbench);
    assert_eq!(Workbench::at_home(home.clone()).shop().name, "Mine", "it is chosen at the start");

    let broken = mine.replace("hand: right", "hand: third");
    fs::write(home.own_shop(), &broken).unwrap();
    let mut workbench = Workbench::at_home(home.clone());
    let text = &workbench.troubles()[0].text;
    assert!(text.contains("third is not known; it must be one of right, left"), "{text}");
    assert_eq!((workbench.shop().name.as_str(), workbench.shop_file()), ("Common practice", None));
    workbench.perform(Command::UseShop(home.own_shop()));
    assert_eq!(workbench.shop_missed(), Some(home.own_shop().as_path()));
    drop(workbench);
    assert_eq!(fs::read_to_string(home.own_shop()).unwrap(), broken);
}

#[test]
fn demo_parts_open_and_say_what_they_show() {
    assert!(demo_parts().len() >= 6);
    for demo in demo_parts() {
        let part = demo.read().unwrap();
        assert!(demo.purpose().ends_with(['.', '?']), "{}: {}", demo.name, demo.purpose());
        assert_eq!(format!("{:?}", read_part(&write_part(&part), "test").unwrap()), format!("{part:?}"));
        let mut workbench = zigzag();
        workbench.perform(Command::OpenDemo(demo.name.into()));
        assert_eq!((workbench.part().name.as_str(), workbench.file()), (part.name.as_str(), None));
        assert!(!workbench.unsaved());
    }
    let mut workbench = zigzag();
    workbench.perform(Command::OpenDemo("no such part".into()));
    assert!(refusal(&workbench).contains("there are "));
}

#[test]
fn a_file_is_called_as_it_is_called() {
    let mut workbench = zigzag();
    workbench.perform(Command::Open("not-there.ron".into()));
    assert!(refusal(&workbench).starts_with("not-there.ron: "), "{}", refusal(&workbench));
}
