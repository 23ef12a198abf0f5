//! The drawer and everything that opens over the scene, in the whole window.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench, write_picture};
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::specimen::trial;
use elbowroom_bending::{Knowledge, KnowledgeEdit};
use elbowroom_workbench::{Command, SelectMode, Sheet, Target, Theme};

fn desk(theme: Theme, scale: f32) -> Desk {
    let rows = [(90.0, 0.0, 45.0), (115.0, 60.0, 60.0), (60.0, 180.0, 90.0), (180.0, 30.0, 20.0)];
    let mut desk = Desk::new(workbench(&rows, 100.0));
    desk.workbench.perform(Command::Select(desk.workbench.named(Target::Bend(1)), SelectMode::Only));
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

#[test]
fn no_sheet_widens_its_column() {
    let mut desk = desk(Theme::Light, 1.0);
    let (die, material) = ("50.8 at 1.5D".into(), "304 stainless".into());
    let trials = Knowledge::Trials(vec![trial(40.0, 38.5), trial(120.0, 116.5)]);
    desk.workbench.perform(Command::EditShop(KnowledgeEdit { die, material, what: trials }.into()));
    let mut harness = window(desk, 1440.0, 900.0);
    harness.run_steps(4);
    let scene = |harness: &egui_kittest::Harness<'_, Desk>| harness.state().shown.as_ref().unwrap().scene;
    let wanted = scene(&harness);
    for sheet in Sheet::ALL {
        harness.state_mut().workbench.perform(Command::ShowSheet(*sheet));
        harness.run_steps(4);
        let width = scene(&harness).width();
        assert!((width - wanted.width()).abs() < 0.5, "{}: {width}, not {}", sheet.name(), wanted.width());
    }
}
