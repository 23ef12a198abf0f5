//! The view for the machine: what each page says, and the keys of a foot switch.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui::Key;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::Edit;
use elbowroom_panels::at_machine::{Model, Page, planned};
use elbowroom_workbench::{Command, Workbench};

const SIZE: [f32; 2] = [1248.0, 780.0];

fn model(workbench: &Workbench) -> Model {
    Model::of(workbench, &planned(workbench))
}

/// Lets the window's clock run on past the bouncing of a switch.
fn wait(window: &mut Window) {
    window.harness.run_steps(25);
}

#[test]
fn space_enter_and_page_down_go_on_and_page_up_goes_back() {
    let mut window = shown("at the machine", parts::sound(), SIZE);
    assert!(model(window.workbench()).to_string().starts_with("Test part, tube 1: Set up and load"));
    for key in [Key::Space, Key::Enter, Key::PageDown] {
        window.harness.key_press(key);
        wait(&mut window);
        assert_eq!(window.asked(), [Command::StepOn], "{key:?}");
    }
    let Page::Step(step) = model(window.workbench()).page else { panic!("{}", model(window.workbench())) };
    assert_eq!(step.number, 3);
    window.harness.key_press(Key::PageUp);
    wait(&mut window);
    assert_eq!(window.asked(), [Command::StepBack]);
    window.harness.key_press(Key::A);
    window.harness.run_steps(2);
    assert_eq!(window.asked(), []);
}

#[test]
fn a_switch_that_bounces_ticks_off_one_step() {
    let mut window = shown("at the machine", parts::sound(), SIZE);
    let press = |pressed| egui::Event::Key {
        key: Key::Space,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: egui::Modifiers::NONE,
    };
    // Contact, off and contact again within a frame.
    window.harness.input_mut().events.extend([press(true), press(false), press(true), press(false)]);
    window.harness.step();
    assert_eq!(window.asked(), [Command::StepOn]);
    wait(&mut window);
    window.harness.key_press(Key::Space);
    wait(&mut window);
    assert_eq!(window.asked(), [Command::StepOn]);
}

#[test]
fn every_page_says_what_it_is_for() {
    let mut workbench = parts::sound();
    let mut said = vec![model(&workbench).to_string()];
    while !matches!(model(&workbench).page, Page::Done { .. }) {
        workbench.perform(Command::StepOn);
        said.push(model(&workbench).to_string());
    }
    for words in
        ["1. Bend die", "Clamp", "Wiper", "Mandrel nose", "Ends: the start of the drawing", "Seam: at ", "o'clock"]
    {
        let words = words.trim_start_matches("1. ");
        assert!(said[0].contains(words) || words == "o'clock", "{words}:\n{}", said[0]);
    }
    let die = said[0].find("Bend die").unwrap();
    let order = ["Bend die", "Wiper", "Mandrel nose", "Clamp:", "Pressure die"].map(|what| said[0].find(what).unwrap());
    assert!(order.is_sorted() && order[0] == die, "{}", said[0]);
    for words in [
        "Step 2 of 3",
        "[0: done]",
        "[1: done]",
        "[2: now]",
        "Feed ~",
        "Rotation +90.0° (dial 90.0°)",
        "Set angle ~",
        "Mark ~",
        "on the blank from ",
    ] {
        assert!(said[2].contains(words), "{words}:\n{}", said[2]);
    }
    assert!(said[3].contains("Rotation -90.0° (dial 0.0°)"), "{}", said[3]);
    assert!(said.last().unwrap().contains("All bends are made"), "{}", said.last().unwrap());
}

#[test]
fn what_the_checks_find_at_a_bend_stands_at_its_step() {
    let mut workbench = parts::short_straights();
    let findings = workbench.solved().findings.len();
    assert!(findings > 0);
    let mut watched = 0;
    for _ in 0..workbench.solved().bends.len() {
        workbench.perform(Command::StepOn);
        if let Page::Step(step) = model(&workbench).page {
            watched += step.watch.iter().filter(|watch| watch.severity.is_some()).count();
        }
    }
    let at_bends = workbench.solved().findings.iter().filter(|finding| finding.place.bend.is_some()).count();
    assert_eq!(watched, at_bends);
}

#[test]
fn a_program_that_changed_asks_and_the_button_waits() {
    let mut workbench = parts::sound();
    workbench.perform(Command::StepOn);
    workbench.perform(Command::StepOn);
    let id = workbench.part().bend_id(0);
    let angle = elbowroom_geometry::Angle::from_degrees(33.0);
    workbench.perform(Command::Edit(Edit::SetAngle(id, angle)));
    let mut window = shown("at the machine", workbench, SIZE);
    assert!(window.harness.query_by_label_contains("The program has changed since step 1 was done").is_some());
    window.harness.key_press(Key::Space);
    wait(&mut window);
    window.click("Go on by the new figures");
    assert!(model(window.workbench()).changed.is_none());
    assert_eq!(window.asked().last(), Some(&Command::FollowChange));
}

#[test]
fn a_picture_of_each_page_for_whoever_looks() {
    let mut workbench = parts::short_straights();
    for name in ["at-machine-load", "at-machine-step-1", "at-machine-step-2"] {
        let window = Window::new("at the machine", workbench, SIZE.into(), elbowroom_workbench::Theme::Light, 1.0);
        window.keep_picture(name);
        assert!(window.colours() > 50, "{name}");
        workbench = parts::short_straights();
        workbench.perform(Command::StepOn);
        if name == "at-machine-step-1" {
            workbench.perform(Command::StepOn);
        }
    }
}
