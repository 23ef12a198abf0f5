//! Manual page and first hints.
#![allow(clippy::unwrap_used, clippy::panic)]

mod one_panel;

use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::checks::REGISTRY;
use elbowroom_panels::manual;
use elbowroom_workbench::{Command, Theme};
use one_panel::{Window, parts};

#[test]
fn every_check_has_a_page_that_opens_and_closes() {
    for check in REGISTRY {
        let mut workbench = parts::sound();
        workbench.perform(Command::ShowManual(check.fault));
        let model = manual::Model::of(&workbench).unwrap();
        assert!(model.to_string().starts_with(&format!("{}: ", check.fault)));
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
