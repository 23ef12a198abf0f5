//! Manual page and first hints.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts};
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::checks::REGISTRY;
use elbowroom_panels::manual;
use elbowroom_workbench::{Command, Theme};

#[test]
fn every_check_has_a_page_that_opens_and_closes() {
    for check in REGISTRY {
        let mut workbench = parts::sound();
        workbench.perform(Command::ShowManual(check.fault));
        let model = manual::Model::of(&workbench).unwrap();
        assert!(model.to_string().starts_with(&format!("{}: ", check.title)));
        assert!(model.to_string().contains("# What it looks for"), "{}", check.fault);
    }
    let mut workbench = parts::sound();
    workbench.perform(Command::ShowManual("clamp-across-arc"));
    let mut window = Window::new("manual", workbench, [900.0, 700.0].into(), Theme::Light, 1.0);
    assert!(window.harness.query_by_label("What it looks for").is_some());
    window.keep_picture("manual-light");
    window.click("Close window");
    assert_eq!(window.asked(), [Command::CloseManual]);
    assert_eq!(window.workbench().screen().manual, None);
}

#[test]
fn help_tells_every_key_of_the_catalogue() {
    let mut workbench = parts::sound();
    workbench.perform(Command::ToggleHelp);
    let text = elbowroom_panels::help::Model::of(&workbench).to_string();
    for verb in elbowroom_workbench::catalogue::VERBS {
        if let Some(shortcut) = verb.shortcut {
            assert!(text.contains(&format!("{shortcut}: {}", verb.label)), "{}", verb.id);
        }
    }
    let mut window = Window::new("help", workbench, [1000.0, 760.0].into(), Theme::Dark, 1.0);
    window.keep_picture("help-dark");
    window.click("Close window");
    assert_eq!(window.asked(), [Command::ToggleHelp]);
    assert!(!window.workbench().screen().help_open);
}

#[test]
fn hints_are_there_until_put_away() {
    let workbench = parts::sound();
    assert_eq!(elbowroom_panels::hints::Model::of(&workbench), None, "not asked for");
    let model = elbowroom_panels::hints::Model { hints: elbowroom_panels::hints::all() };
    assert_eq!(model.hints.len(), 3);
    let commands = elbowroom_workbench::catalogue::verb("commands").unwrap();
    let key = commands.shortcut.unwrap().to_string();
    assert!(model.to_string().contains(&key), "{model}");
}

#[test]
fn the_hints_button_puts_them_away() {
    use elbowroom_panels::{hints, install};
    let asked = std::rc::Rc::new(std::cell::RefCell::new(Vec::new()));
    let keep = std::rc::Rc::clone(&asked);
    let mut frames = 0;
    let show = move |ui: &mut egui::Ui| {
        install(ui.ctx(), Theme::Light, 1.0);
        frames += 1;
        // Fonts are there from the second frame on.
        if frames > 1 {
            keep.borrow_mut().extend(hints::ui(ui, &hints::Model { hints: hints::all() }));
        }
    };
    let mut harness = egui_kittest::Harness::builder().with_size([700.0, 400.0]).build_ui(show);
    harness.run_steps(3);
    let button = harness.get_by_label("Put the hints away").rect();
    assert!(button.bottom() <= 400.0 && button.left() >= 0.0, "within the scene: {button:?}");
    harness.get_by_label("Put the hints away").click();
    harness.run_steps(3);
    assert_eq!(*asked.borrow(), [Command::DismissHints]);
}
