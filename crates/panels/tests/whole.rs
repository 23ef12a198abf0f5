//! The drawer and everything that opens over the scene, in the whole window.
#![allow(clippy::unwrap_used, clippy::panic)]

mod support;

use egui_kittest::kittest::Queryable as _;
use elbowroom_workbench::{Command, SelectMode, Target, Theme};
use support::{Desk, window, workbench, write_picture};

fn desk(theme: Theme, scale: f32) -> Desk {
    let rows = [(90.0, 0.0, 45.0), (115.0, 60.0, 60.0), (60.0, 180.0, 90.0), (180.0, 30.0, 20.0)];
    let mut desk = Desk::new(workbench(&rows, 100.0));
    desk.workbench.perform(Command::Select(Target::Bend(1), SelectMode::Only));
    desk.workbench.perform(Command::SetTheme(theme));
    desk.scale = scale;
    desk
}

#[test]
fn what_opens_over_the_scene_stays_within_the_window() {
    let openers = [
        ("bench", Command::ToggleBench, "Part name"),
        ("help", Command::ToggleHelp, "In the scene"),
        ("commands", Command::ToggleCommandList, "Filter commands"),
        ("manual", Command::ShowManual("clamp-across-arc"), "What it looks for"),
    ];
    for (theme, scale) in [(Theme::Light, 1.0), (Theme::Dark, 2.0)] {
        for (name, opener, label) in &openers {
            let mut desk = desk(theme, scale);
            desk.workbench.perform(opener.clone());
            let size = egui::vec2(1280.0, 800.0) / scale;
            let mut harness = window(desk, size.x, size.y);
            harness.run_steps(4);
            let place = harness.get_by_label(label).rect();
            let whole = egui::Rect::from_min_size(egui::Pos2::ZERO, size);
            assert!(whole.contains_rect(place), "{name} at {scale}: {place:?}");
            write_picture(&harness, size, &format!("{name}-{scale}"));
        }
    }
}
