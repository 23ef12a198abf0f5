//! The window's own frame: its title, which says which part is open and whether it has unsaved changes, its
//! theme and its size.

use bevy::prelude::*;
use bevy::window::{Monitor, PrimaryMonitor, PrimaryWindow, WindowTheme};
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

/// Makes the window small enough for the monitor, with room for the desktop's own bars.
pub fn fit_to_monitor(
    monitors: Query<(&Monitor, Has<PrimaryMonitor>)>,
    mut window: Single<&mut Window, With<PrimaryWindow>>,
) {
    let Some((monitor, _)) = monitors.iter().max_by_key(|(_, primary)| *primary) else { return };
    let scale = window.resolution.scale_factor();
    let room = monitor.physical_size().as_vec2() / scale;
    let size = Vec2::new(window.width(), window.height());
    let (least_width, least_height) = (window.resize_constraints.min_width, window.resize_constraints.min_height);
    let fitting = size.min(room).max(Vec2::new(least_width, least_height));
    if fitting != size {
        window.resolution.set(fitting.x, fitting.y);
    }
}

/// Such as `Hill climb (unsaved) – Elbowroom`: the name of the whole, or that of the tube that is worked on where nobody
/// has named the whole.
pub fn title_of(workbench: &Workbench) -> String {
    let name = workbench.system().title().trim();
    let name = if name.is_empty() { "Part without a name" } else { name };
    format!("{name}{} – Elbowroom", if workbench.unsaved() { " (unsaved)" } else { "" })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::{Edit, SystemEdit, specimen};
    use elbowroom_workbench::Command;

    use super::*;

    #[test]
    fn the_title_is_that_of_the_whole_whichever_tube_is_worked_on() {
        let part = specimen::part(vec![specimen::row(200.0, 0.0, 90.0)], 200.0).unwrap();
        let mut workbench = Workbench::new(part, specimen::shop());
        workbench.perform(Command::Edit(Edit::Rename("Downpipe".into())));
        assert_eq!(title_of(&workbench), "Downpipe (unsaved) – Elbowroom", "a single tube names the whole");
        workbench.perform(Command::AddTube);
        assert_eq!(title_of(&workbench), "New tube (unsaved) – Elbowroom", "nobody has named the whole yet");
        workbench.perform(Command::EditSystem(SystemEdit::Rename("Hill climb".into())));
        assert_eq!(title_of(&workbench), "Hill climb (unsaved) – Elbowroom");
        let first = workbench.system().tubes()[0].id;
        workbench.perform(Command::EditSystem(SystemEdit::Activate(first)));
        assert_eq!(title_of(&workbench), "Hill climb (unsaved) – Elbowroom", "the other tube is worked on");
        workbench.perform(Command::New);
        workbench.perform(Command::AnswerDiscard);
        assert!(!title_of(&workbench).contains("unsaved"));
    }
}
