//! A plain account of what the window shows, for tests and for reports of faults.
//!
//! Where the environment variable `ELBOWROOM_ACCOUNT` names a file, an entry is added to it whenever
//! something that is shown has changed: the texts of all panels, the marks on the tube, and where in the
//! window its handles and all fields and buttons lie, in logical pixels. An entry begins with `entry N` and is
//! complete once its line `end N` is there.

use std::fmt::Write as _;
use std::fs::{File, OpenOptions};
use std::io::Write as _;

use bevy::prelude::*;
use bevy::window::PrimaryWindow;
use bevy_egui::egui::accesskit::Role;
use bevy_egui::{EguiContext, EguiOutput, PrimaryEguiContext};
use elbowroom_panels::panel::REGISTRY;
use elbowroom_viewport::{Desk, Look};
use elbowroom_workbench::Workbench;

use super::redraw::Prepared;

/// The environment variable that names the file.
const VARIABLE: &str = "ELBOWROOM_ACCOUNT";

#[derive(Resource)]
struct Account {
    file: File,
    last: String,
    entries: u64,
}

/// Keeps the account where one is asked for.
pub fn plugin(app: &mut App) {
    let Some(name) = std::env::var_os(VARIABLE).filter(|name| !name.is_empty()) else { return };
    match OpenOptions::new().create(true).append(true).open(&name) {
        Ok(file) => {
            app.insert_resource(Account { file, last: String::new(), entries: 0 }).add_systems(Last, keep);
        }
        Err(error) => eprintln!("elbowroom: no account is kept: {}: {error}", name.display()),
    }
}

fn keep(
    mut account: ResMut<Account>,
    desk: Res<Desk>,
    look: Look,
    prepared: Res<Prepared>,
    window: Single<&Window, With<PrimaryWindow>>,
    panels: Single<(&mut EguiContext, &EguiOutput), With<PrimaryEguiContext>>,
) {
    let (mut context, output) = panels.into_inner();
    let context = context.get_mut();
    // The names of the widgets are those made for screen readers; egui leaves them out unless asked.
    context.enable_accesskit();
    let mut text = String::new();
    // Writing to a string cannot fail.
    let _ = writeln!(
        text,
        "window {} {}x{}",
        if prepared.whole() { "ready" } else { "opening" },
        window.width(),
        window.height()
    );
    let _ = writeln!(text, "title {}", window.title);
    write_workbench(&mut text, &desk.0);
    write_scene(&mut text, &look);
    write_widgets(&mut text, output, context.zoom_factor());
    for panel in REGISTRY.iter().filter(|panel| (panel.shown)(desk.0.screen())) {
        let _ = writeln!(text, "[{}]\n{}", panel.name, (panel.snapshot)(&desk.0).trim_end());
    }
    if text == account.last {
        return;
    }
    account.entries += 1;
    let entry = format!("entry {0}\n{text}end {0}\n", account.entries);
    // One write, so that a reader sees whole lines; a full disk stops the account and nothing else.
    if let Err(error) = account.file.write_all(entry.as_bytes()) {
        eprintln!("elbowroom: the account ends here: {error}");
    }
    account.last = text;
}

fn write_workbench(text: &mut String, workbench: &Workbench) {
    let _ = writeln!(text, "revision {}", workbench.revision());
    let _ = writeln!(text, "undo {}", workbench.undo_label().unwrap_or("-"));
    let _ = writeln!(text, "redo {}", workbench.redo_label().unwrap_or("-"));
    let _ = writeln!(text, "selected {:?}", workbench.selection().targets());
    let over = workbench.tube_hover().and_then(|tube| workbench.system().tube(tube));
    let _ = writeln!(text, "over {}", over.map_or("-", |tube| tube.name()));
    let proposed = workbench.proposal().and_then(|proposal| proposal.solved());
    let _ = writeln!(
        text,
        "proposed {}",
        proposed.map_or("-".into(), |solved| format!("{:.1} mm", solved.developed_length_mm))
    );
    let screen = workbench.screen();
    let _ = writeln!(
        text,
        "message {}",
        screen.message.as_ref().map_or("-", |message| message.text.as_str()).replace('\n', " ")
    );
    let _ = writeln!(text, "troubles {}", screen.troubles.len());
    let _ = writeln!(
        text,
        "question {}",
        screen.question.as_ref().map_or_else(|| "-".into(), |question| format!("{question:?}"))
    );
}

fn write_scene(text: &mut String, look: &Look) {
    for (target, at) in look.handles() {
        let _ = writeln!(text, "handle {target:?} at {:.1} {:.1}", at.x, at.y);
    }
    for (name, at) in look.other_tubes() {
        let _ = writeln!(text, "tube {name} at {:.1} {:.1}", at.x, at.y);
    }
    for (mark, at) in look.marks() {
        let at = at.map_or_else(String::new, |at| format!(" at {:.1} {:.1}", at.x, at.y));
        let _ = writeln!(text, "mark {} from {:.1} to {:.1} mm{at}", mark.severity.word(), mark.from_mm, mark.to_mm);
    }
}

/// What can be clicked or typed into, by the name that a screen reader gives it.
fn write_widgets(text: &mut String, output: &EguiOutput, zoom: f32) {
    let nodes = output.platform_output.accesskit_update.iter().flat_map(|update| &update.nodes);
    for (_, node) in nodes.filter(|(_, node)| !node.is_disabled() && is_hands_on(node.role())) {
        let (Some(name), Some(bounds)) = (node.label().or_else(|| node.value()), node.bounds()) else { continue };
        let [x, y] = [bounds.x0 + bounds.x1, bounds.y0 + bounds.y1].map(|sum| sum / 2.0 * f64::from(zoom));
        let _ = writeln!(text, "widget {} at {x:.1} {y:.1}", name.replace('\n', " "));
    }
}

fn is_hands_on(role: Role) -> bool {
    !matches!(role, Role::Label | Role::GenericContainer | Role::Unknown | Role::Window | Role::Pane | Role::TextRun)
}
