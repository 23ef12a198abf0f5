//! The window's title: which part is open, and whether it has unsaved changes.

use bevy::prelude::*;
use bevy::window::{PrimaryWindow, WindowTheme};
use elbowroom_viewport::Desk;
use elbowroom_workbench::{Theme, Workbench};

/// Keeps title and frame in step with the workbench.
pub fn follow(desk: Res<Desk>, mut window: Single<&mut Window, With<PrimaryWindow>>) {
    let title = title_of(&desk.0);
    if window.title != title {
        window.title = title;
    }
    let theme = match desk.0.screen().theme {
        Theme::Light => WindowTheme::Light,
        Theme::Dark => WindowTheme::Dark,
    };
    if window.window_theme != Some(theme) {
        window.window_theme = Some(theme);
    }
}

/// Such as `Rear section (unsaved) – Elbowroom`.
pub fn title_of(workbench: &Workbench) -> String {
    let name = workbench.part().name.trim();
    let name = if name.is_empty() { "Part without a name" } else { name };
    format!("{name}{} – Elbowroom", if workbench.unsaved() { " (unsaved)" } else { "" })
}
