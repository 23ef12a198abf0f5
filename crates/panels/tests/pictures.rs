//! Pictures of the whole window in both themes and several sizes, written beside cargo's test files.
#![allow(clippy::unwrap_used, clippy::panic)]

mod support;

use egui_kittest::kittest::Queryable;
use elbowroom_bending::Edit;
use elbowroom_geometry::Angle;
use elbowroom_workbench::{Command, SelectMode, Target, Theme};
use support::{Desk, type_into, window, workbench, write_picture};

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
        desk.workbench.perform(Command::Select(Target::Bend(2), SelectMode::Only));
        desk.workbench.perform(Command::SetTheme(theme));
        desk.scale = scale;
        // The harness counts in points, of which there are fewer at a larger scale.
        let harness = window(desk, width / scale, height / scale);
        let size = egui::vec2(width, height) / scale;
        let path = write_picture(&harness, size, name);
        assert!(path.exists());
    }
}

#[test]
fn errors_menus_messages_and_questions_are_drawn() {
    let desk = || Desk::new(workbench(&[(200.0, 0.0, 90.0), (110.0, 45.0, 30.0)], 250.0));
    let size = egui::vec2(1280.0, 800.0);

    let mut harness = window(desk(), size.x, size.y);
    type_into(&mut harness, "bend 2 straight", "60 furlong");
    harness.run_steps(3);
    assert!(write_picture(&harness, size, "error").exists());

    let mut harness = window(desk(), size.x, size.y);
    harness.get_by_label("File").click();
    harness.run_steps(3);
    harness.get_by_label_contains("Demo parts").hover();
    harness.run_steps(6);
    assert!(write_picture(&harness, size, "menu").exists());

    let mut harness = window(desk(), size.x, size.y);
    harness.state_mut().workbench.perform(Command::Edit(Edit::SetAngle(7, Angle::HALF_TURN)));
    harness.run_steps(4);
    assert!(write_picture(&harness, size, "message").exists());

    let mut harness = window(desk(), size.x, size.y);
    harness.state_mut().workbench.perform(Command::Edit(Edit::SetAngle(0, Angle::HALF_TURN)));
    harness.state_mut().workbench.perform(Command::New);
    harness.run_steps(4);
    assert!(write_picture(&harness, size, "question").exists());
}
