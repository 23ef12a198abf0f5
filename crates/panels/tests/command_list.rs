//! The command list: typing finds, arrows choose, Enter runs, and what cannot be done says why.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts};
use egui::{Event, Key};
use egui_kittest::kittest::Queryable as _;
use elbowroom_panels::command_list::Model;
use elbowroom_workbench::{Command, Theme, Workbench};

const SIZE: [f32; 2] = [900.0, 640.0];

fn opened() -> Workbench {
    let mut workbench = parts::short_straights();
    workbench.perform(Command::ToggleCommandList);
    workbench
}

fn list() -> Window {
    Window::new("command list", opened(), SIZE.into(), Theme::Light, 1.0)
}

fn type_text(window: &mut Window, text: &str) {
    window.harness.event(Event::Text(text.to_owned()));
    window.harness.run_steps(2);
}

fn press(window: &mut Window, key: Key) {
    window.harness.key_press(key);
    window.harness.run_steps(2);
}

#[test]
fn the_list_says_names_keys_and_why_not() {
    let text = Model::of(&opened()).to_string();
    assert!(text.contains("Save [Ctrl+S]\n"), "{text}");
    assert!(text.contains("Undo [Ctrl+Z] not now: Nothing has been changed yet\n"), "{text}");
}

#[test]
fn enter_runs_what_is_found_and_closes_the_list() {
    let mut window = list();
    type_text(&mut window, "worst");
    press(&mut window, Key::Enter);
    assert_eq!(window.asked(), [Command::ToggleCommandList, Command::GoToFinding(0)]);
    assert!(!window.workbench().screen().command_list_open);
}

#[test]
fn arrows_choose_and_go_round() {
    let mut window = list();
    let second = Model::of(window.workbench()).entries[1].command.clone();
    press(&mut window, Key::ArrowDown);
    press(&mut window, Key::Enter);
    assert_eq!(window.asked(), [Command::ToggleCommandList, second]);
    let mut window = list();
    let last = Model::of(window.workbench()).entries.last().unwrap().clone();
    press(&mut window, Key::ArrowUp);
    assert!(window.harness.query_by_label(&last.label).is_some(), "scrolled into view");
    window.keep_picture("command-list-end");
}

#[test]
fn a_click_runs_and_escape_only_closes() {
    let mut window = list();
    type_text(&mut window, "bench");
    window.click("Bench");
    assert_eq!(window.asked(), [Command::ToggleCommandList, Command::ToggleBench]);
    let mut window = list();
    press(&mut window, Key::Escape);
    assert_eq!(window.asked(), [Command::ToggleCommandList]);
}

#[test]
fn what_cannot_be_done_is_not_run() {
    let mut window = list();
    type_text(&mut window, "undo");
    press(&mut window, Key::Enter);
    assert_eq!(window.asked(), []);
    window.keep_picture("command-list-barred");
    assert!(window.workbench().screen().command_list_open);
}

#[test]
fn nothing_found_is_told() {
    let mut window = list();
    type_text(&mut window, "zzz");
    assert!(window.harness.query_by_label_contains("Nothing is called that").is_some());
    press(&mut window, Key::Enter);
    assert_eq!(window.asked(), []);
}

#[test]
fn pictures() {
    for (theme, suffix) in [(Theme::Light, "light"), (Theme::Dark, "dark")] {
        let window = Window::new("command list", opened(), SIZE.into(), theme, 1.0);
        window.keep_picture(&format!("command-list-{suffix}"));
        assert!(window.colours() > 20);
    }
}
