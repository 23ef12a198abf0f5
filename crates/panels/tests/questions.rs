//! Questions and messages: what they say, and what each answer asks for.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use crate::support::{Desk, window};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Edit;
use elbowroom_panels::{message, question};
use elbowroom_workbench::{Command, Home, MessageKind, Workbench};
use question::Answer;

fn unsaved() -> question::Model {
    let answer = |text, command| Answer { text, command };
    question::Model {
        title: "Save the changes to “Test pipe”?".into(),
        text: "They are in no file yet, and closing the program would lose them.".into(),
        answers: vec![
            answer("Save", Command::AnswerSave),
            answer("Lose the changes", Command::AnswerDiscard),
            answer("Go back", Command::AnswerCancel),
        ],
        on_escape: Some(Command::AnswerCancel),
    }
}

fn asked(model: question::Model) -> Harness<'static, Vec<Command>> {
    let draw = move |root: &mut egui::Ui, asked: &mut Vec<Command>| {
        if support::dressed(root) {
            asked.extend(question::ui(root, &model));
        }
    };
    let mut harness = Harness::builder().with_size([640.0, 400.0]).build_ui_state(draw, Vec::new());
    harness.run_steps(4);
    harness
}

#[test]
fn a_question_as_text() {
    let expected = "\
Save the changes to “Test pipe”?
They are in no file yet, and closing the program would lose them.
(Save)
(Lose the changes)
(Go back)
";
    assert_eq!(unsaved().to_string(), expected);
}

#[test]
fn each_answer_asks_for_its_own() {
    for (label, command) in [
        ("Save", Command::AnswerSave),
        ("Lose the changes", Command::AnswerDiscard),
        ("Go back", Command::AnswerCancel),
    ] {
        let mut harness = asked(unsaved());
        harness.get_by_label(label).click();
        harness.run_steps(2);
        assert_eq!(harness.state(), &[command]);
    }
}

#[test]
fn enter_means_the_safest_answer_and_escape_goes_back() {
    let mut harness = asked(unsaved());
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    assert_eq!(harness.state(), &[Command::AnswerSave]);
    let mut harness = asked(unsaved());
    harness.key_press(Key::Escape);
    harness.run_steps(2);
    assert_eq!(harness.state(), &[Command::AnswerCancel]);
}

#[test]
fn work_left_by_a_crash_is_left_for_later_by_escape() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::Edit(Edit::Rename("lost".into())));
    drop(workbench);
    let mut desk = Desk::new(Workbench::at_home(home));
    desk.performs = true;
    let mut harness = window(desk, 1280.0, 800.0);
    assert!(harness.query_by_label_contains("Take back the work on").is_some());
    harness.key_press(Key::Escape);
    harness.run_steps(4);
    let workbench = &harness.state().workbench;
    assert_eq!((&workbench.screen().question, workbench.recovery_waits()), (&None, true));
    harness.get_by_label("Look at it").click();
    harness.run_steps(4);
    assert!(harness.query_by_label_contains("Take back the work on").is_some());
    harness.get_by_label("Later").click();
    harness.run_steps(4);
    assert!(harness.state().workbench.recovery_waits());
}

#[test]
fn a_message_stays_until_it_is_put_away() {
    let model = message::Model { kind: MessageKind::Refused, text: "There is no bend 7; the part has 4 bends.".into() };
    assert_eq!(model.to_string(), "Not done: There is no bend 7; the part has 4 bends.");
    let draw = move |root: &mut egui::Ui, asked: &mut Vec<Command>| {
        if support::dressed(root) {
            asked.extend(message::ui(root, &model));
        }
    };
    let mut harness = Harness::builder().with_size([640.0, 400.0]).build_ui_state(draw, Vec::new());
    harness.run_steps(4);
    assert!(harness.query_by_label_contains("There is no bend 7").is_some());
    harness.get_by_label("Close").click();
    harness.run_steps(2);
    assert_eq!(harness.state(), &[Command::DismissMessage]);
}
