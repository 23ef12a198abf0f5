//! The list of tubes: what it says, and what clicks and names ask for.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use elbowroom_bending::SystemEdit;
use elbowroom_workbench::{Command, Workbench};

/// A sound tube, a copy of it, and a straight piece, which is worked on.
fn three() -> Workbench {
    let mut workbench = parts::sound();
    let first = workbench.system().active();
    workbench.perform(Command::EditSystem(SystemEdit::DuplicateTube(first)));
    workbench.perform(Command::AddTube);
    workbench
}

fn said(window: &Window) -> String {
    elbowroom_panels::tubes::Model::of(window.workbench()).to_string()
}

#[test]
fn the_list_says_which_tubes_there_are_and_which_is_worked_on() {
    let mut workbench = three();
    assert!(workbench.screen().tubes_open, "a second tube opens the list");
    let ids: Vec<_> = workbench.system().tubes().iter().map(|tube| tube.id).collect();
    workbench.perform(Command::EditSystem(SystemEdit::HideTube(ids[1])));
    workbench.perform(Command::EditSystem(SystemEdit::Rename("Hill climb".into())));
    let model = elbowroom_panels::tubes::Model::of(&workbench);
    let lines: Vec<_> = model.to_string().lines().map(str::to_owned).collect();
    assert_eq!(lines[0], "Hill climb");
    assert!(lines[1].starts_with("  Test part") && !lines[1].contains("hidden"), "{lines:?}");
    assert!(lines[2].starts_with("  Test part 2") && lines[2].ends_with(", hidden"), "{lines:?}");
    assert!(lines[3].starts_with("> New tube"), "{lines:?}");
}

#[test]
fn a_click_turns_to_a_tube_and_hides_and_shows_it() {
    let mut window = shown("tubes", three(), [310.0, 400.0]);
    window.click("Test part");
    assert_eq!(window.workbench().part().name, "Test part");
    window.click("hide Test part 2");
    assert!(said(&window).lines().any(|line| line.starts_with("  Test part 2") && line.ends_with("hidden")));
    window.click("show Test part 2");
    assert!(!said(&window).contains("hidden"));
    window.workbench();
    for _ in 0..3 {
        window.harness.state_mut().workbench.perform(Command::Undo);
    }
    assert!(said(&window).contains("> New tube"), "every one of them was a step: {}", said(&window));
}

#[test]
fn renaming_takes_the_keyboard_to_the_name_to_be_typed_over() {
    // The list may be closed or open when it is asked for.
    for open in [false, true] {
        let mut workbench = parts::sound();
        if open {
            workbench.perform(Command::ToggleTubes);
        }
        let mut window = shown("tubes", workbench, [310.0, 400.0]);
        let name = |window: &Window| window.workbench().part().name.clone();
        let text = |window: &mut Window, text: &str| {
            window.harness.event(egui::Event::Text(text.to_owned()));
            window.harness.run_steps(2);
        };
        let key = |window: &mut Window, key| {
            window.harness.key_press(key);
            window.harness.run_steps(2);
        };
        window.harness.state_mut().workbench.perform(Command::NameTube);
        window.harness.run_steps(2);
        assert!(window.workbench().screen().tubes_open);
        text(&mut window, "Downpipe");
        key(&mut window, egui::Key::Escape);
        assert_eq!(name(&window), "Test part", "Escape leaves it");
        text(&mut window, "nowhere");
        key(&mut window, egui::Key::Enter);
        assert_eq!(name(&window), "Test part", "nor is anything typed any more");
        window.harness.state_mut().workbench.perform(Command::NameTube);
        window.harness.run_steps(2);
        text(&mut window, "Tail");
        key(&mut window, egui::Key::Enter);
        assert_eq!(name(&window), "Tail", "typed over, and taken by Enter");
        assert_eq!(window.workbench().undo_label(), Some("rename to \u{201c}Tail\u{201d}"));
    }
}

#[test]
fn pointing_at_a_name_points_at_the_tube() {
    let mut window = shown("tubes", three(), [310.0, 400.0]);
    let ids: Vec<_> = window.workbench().system().tubes().iter().map(|tube| tube.id).collect();
    let over = |window: &mut Window, name: &str| {
        let at = window.place(name).center();
        window.harness.event(egui::Event::PointerMoved(at));
        window.harness.run_steps(2);
        window.workbench().tube_hover()
    };
    assert_eq!(over(&mut window, "Test part 2"), Some(ids[1]));
    assert_eq!(over(&mut window, "Test part"), Some(ids[0]));
    assert_eq!(over(&mut window, "New tube"), None, "that one is worked on");
    over(&mut window, "Test part");
    window.harness.event(egui::Event::PointerMoved(egui::pos2(300.0, 390.0)));
    window.harness.run_steps(2);
    assert_eq!(window.workbench().tube_hover(), None);
    // What the scene points at is left alone.
    window.harness.state_mut().workbench.perform(Command::PointAtTube(Some(ids[0])));
    window.harness.run_steps(2);
    assert_eq!(window.workbench().tube_hover(), Some(ids[0]));
}

#[test]
fn tubes_are_added_copied_named_and_removed() {
    let mut window = shown("tubes", parts::sound(), [310.0, 400.0]);
    window.click("Copy");
    window.enter("Name of the tube", "Tail");
    window.enter("Name of the whole", "Hill climb");
    assert_eq!(window.workbench().system().title(), "Hill climb");
    let names = |window: &Window| {
        window.workbench().system().tubes().iter().map(|tube| tube.name().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(names(&window), ["Test part", "Tail"]);
    window.enter("Name of the tube", "Test part");
    let message = window.workbench().screen().message.clone().unwrap().text;
    assert!(
        message.contains("another tube is called \u{201c}Test part\u{201d} already")
            || message.contains("Another tube is called"),
        "{message}"
    );
    assert_eq!(names(&window), ["Test part", "Tail"]);
    window.click("Add");
    assert_eq!(names(&window), ["Test part", "Tail", "New tube"]);
    window.click("Remove");
    window.click("Remove");
    assert_eq!(names(&window), ["Test part"]);
    window.click("Remove");
    assert_eq!(names(&window), ["Test part"], "the last one stays");
    window.keep_picture("tubes");
}
