//! The scene alone in a window, for looking at it while working on it: `scene [DEMO PART] [dark]`.
//!
//! Keys: 1 to 7 look from a side, 8 changes the lens, 9 frames the selection, 0 frames all.

use bevy::prelude::*;
use bevy::window::{PrimaryWindow, WindowResolution};
use bevy::winit::WinitSettings;
use elbowroom_viewport::{Desk, SceneArea, SceneLabels, Step, ViewWishes, ViewportPlugin, Wishes};
use elbowroom_workbench::file::{built_in_shop, demo_parts};
use elbowroom_workbench::{Command, Request, Theme, ViewCommand, ViewFrom, Workbench};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let name = words.first().map_or("over-the-wheel", String::as_str);
    let Some(part) = demo_parts().find(|demo| demo.name == name).and_then(|demo| demo.read().ok()) else {
        eprintln!("there is no demo part {name}");
        return;
    };
    let mut workbench = Workbench::new(part, built_in_shop());
    if words.iter().any(|word| word == "dark") {
        workbench.perform(Command::SetTheme(Theme::Dark));
    }
    let window = Window { title: "scene".into(), resolution: WindowResolution::new(1280, 800), ..default() };
    App::new()
        .add_plugins(DefaultPlugins.set(WindowPlugin { primary_window: Some(window), ..default() }))
        .insert_resource(WinitSettings::desktop_app())
        .insert_resource(Desk(workbench))
        .add_plugins(ViewportPlugin)
        .add_systems(Update, fill_window.before(Step::Input))
        .add_systems(Update, (press_keys, perform).chain().in_set(Step::Perform))
        .add_systems(Last, say_labels)
        .run();
}

fn fill_window(window: Single<&Window, With<PrimaryWindow>>, mut area: ResMut<SceneArea>) {
    let margin = Vec2::new(60.0, 40.0);
    let size = window.size() - 2.0 * margin;
    area.set_if_neq(SceneArea { min: margin, size, pointer_inside: true, keyboard_free: true });
}

fn press_keys(keys: Res<ButtonInput<KeyCode>>, mut wishes: ResMut<Wishes>) {
    let rows = [
        (KeyCode::Digit1, ViewCommand::From(ViewFrom::Front)),
        (KeyCode::Digit2, ViewCommand::From(ViewFrom::Back)),
        (KeyCode::Digit3, ViewCommand::From(ViewFrom::Left)),
        (KeyCode::Digit4, ViewCommand::From(ViewFrom::Right)),
        (KeyCode::Digit5, ViewCommand::From(ViewFrom::Top)),
        (KeyCode::Digit6, ViewCommand::From(ViewFrom::Bottom)),
        (KeyCode::Digit7, ViewCommand::From(ViewFrom::Isometric)),
        (KeyCode::Digit8, ViewCommand::ToggleProjection),
        (KeyCode::Digit9, ViewCommand::FrameSelection),
        (KeyCode::Digit0, ViewCommand::FrameAll),
    ];
    wishes.0.extend(rows.into_iter().filter(|row| keys.just_pressed(row.0)).map(|row| Command::View(row.1)));
}

fn perform(mut desk: ResMut<Desk>, mut wishes: ResMut<Wishes>, mut views: ResMut<ViewWishes>) {
    for wish in std::mem::take(&mut wishes.0) {
        println!("{wish:?}");
        desk.0.perform(wish);
    }
    for request in desk.0.take_requests() {
        if let Request::View(view) = request {
            views.0.push(view);
        }
    }
}

fn say_labels(labels: Res<SceneLabels>) {
    if labels.is_changed() && !labels.0.is_empty() {
        println!("{:?}", labels.0);
    }
}
