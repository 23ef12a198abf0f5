//! Pictures of the whole window in both themes and several sizes, written beside cargo's test files.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, type_into, window, workbench, write_picture};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Edit;
use elbowroom_geometry::Angle;
use elbowroom_panels::verdict;
use elbowroom_workbench::{Command, SelectMode, Target, Theme};

#[test]
fn the_window_is_drawn_in_both_themes_and_at_every_scale() {
    for (name, theme, scale, width, height) in [
        ("light", Theme::Light, 1.0, 1280.0, 800.0),
        ("dark", Theme::Dark, 1.0, 1280.0, 800.0),
        ("double", Theme::Light, 2.0, 1280.0, 800.0),
        ("narrow", Theme::Dark, 1.0, 800.0, 600.0),
    ] {
        let rows: Vec<(f64, f64, f64)> = (0..9)
            .map(|bend| (60.0 + 15.0 * f64::from(bend), 30.0 * f64::from(bend % 4), 20.0 * f64::from(bend % 5 + 1)))
            .collect();
        let mut desk = Desk::new(workbench(&rows, 90.0));
        desk.workbench.perform(Command::Select(desk.workbench.named(Target::Bend(2)), SelectMode::Only));
        desk.workbench.perform(Command::SetTheme(theme));
        desk.scale = scale;
        // The harness counts in points, of which there are fewer at a larger scale.
        let harness = window(desk, width / scale, height / scale);
        let size = egui::vec2(width, height) / scale;
        write_picture(&harness, size, name);
        nothing_is_cut_off(&harness, size, name);
    }
}

/// Everything in the bar has room and overlaps nothing, the verdict lies within its column, and a fair share
/// of the window is left to the scene.
fn nothing_is_cut_off(harness: &Harness<'_, Desk>, size: egui::Vec2, name: &str) {
    let window = egui::Rect::from_min_size(egui::Pos2::ZERO, size);
    let scene = harness.state().shown.as_ref().unwrap().scene;
    assert!(scene.area() > 0.2 * window.area(), "{name}: only {scene:?} is left to the scene");
    let labels = ["File", "Edit", "View", "Shop", "Window", "Undo", "Redo", "Bench", "Commands", "Help"];
    let buttons: Vec<egui::Rect> =
        labels.iter().filter_map(|label| Some(harness.query_by_label(label)?.rect())).collect();
    assert!(buttons.len() >= 7, "{name}: the bar has only {} of its buttons", buttons.len());
    for (index, button) in buttons.iter().enumerate() {
        assert!(window.contains_rect(*button), "{name}: {button:?} sticks out of the window");
        let overlapped = buttons[index + 1..].iter().find(|other| other.shrink(1.0).intersects(*button));
        assert!(overlapped.is_none(), "{name}: {button:?} and {overlapped:?} overlap in the bar");
    }
    let sentence = harness.get_by_label(&verdict::Model::of(&harness.state().workbench).text).rect();
    assert!(
        sentence.left() > scene.right() && sentence.right() < size.x,
        "{name}: the verdict sticks out of its column"
    );
}

#[test]
fn errors_menus_messages_and_questions_are_drawn() {
    let desk = || Desk::new(workbench(&[(200.0, 0.0, 90.0), (110.0, 45.0, 30.0)], 250.0));
    let size = egui::vec2(1280.0, 800.0);

    let mut harness = window(desk(), size.x, size.y);
    type_into(&mut harness, "bend 2 straight", "60 furlong");
    harness.run_steps(3);
    write_picture(&harness, size, "error");
    let cell = harness.get_by_label("bend 2 straight").rect();
    let error = harness.get_by_label_contains("no unit of length").rect();
    assert!(error.top() > cell.bottom() && error.top() < cell.bottom() + 40.0, "the error stands under its cell");

    let mut harness = window(desk(), size.x, size.y);
    harness.get_by_label("File").click();
    harness.run_steps(3);
    harness.get_by_label_contains("Demo parts").hover();
    harness.run_steps(6);
    write_picture(&harness, size, "menu");
    assert!(harness.query_by_label("Hill system").is_some(), "the demo parts are listed beside the menu");

    let mut harness = window(desk(), size.x, size.y);
    harness
        .state_mut()
        .workbench
        .perform(Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(8), Angle::HALF_TURN)));
    harness.run_steps(4);
    write_picture(&harness, size, "message");
    let message = harness.get_by_label_contains("There is no such bend").rect();
    assert!(harness.state().shown.as_ref().unwrap().scene.contains_rect(message), "a message lies over the scene");

    let mut harness = window(desk(), size.x, size.y);
    harness
        .state_mut()
        .workbench
        .perform(Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(1), Angle::HALF_TURN)));
    harness.state_mut().workbench.perform(Command::New);
    harness.run_steps(4);
    write_picture(&harness, size, "question");
    let save = harness.get_by_label("Save").rect();
    assert!((save.center() - (size / 2.0).to_pos2()).length() < 300.0, "a question stands in the middle");
    assert!(harness.get_by_label("Save").is_focused(), "and its safest answer has the keyboard");
}
