//! Wishes become work, and what the workbench cannot do without a window is done here.

use std::path::{Path, PathBuf};

use bevy::prelude::*;
use bevy::window::{FileDragAndDrop, RequestRedraw, WindowCloseRequested};
use bevy::winit::EventLoopProxyWrapper;
use elbowroom_viewport::{Desk, ViewWishes, Wishes};
use elbowroom_workbench::{Command, Request, Workbench};

use super::dialogs::Dialogs;
use super::purpose::Purpose;

/// A file dropped on the window is opened; the last one where there are several.
pub fn wish_for_dropped_files(mut dropped: MessageReader<FileDragAndDrop>, mut wishes: ResMut<Wishes>) {
    let file = dropped.read().filter_map(|message| match message {
        FileDragAndDrop::DroppedFile { path_buf, .. } => Some(path_buf.clone()),
        _ => None,
    });
    if let Some(path) = file.last() {
        wishes.0.push(Command::Open(path));
    }
}

/// The window's own close button asks to quit, which asks first where work is unsaved.
pub fn wish_to_close(mut asked: MessageReader<WindowCloseRequested>, mut wishes: ResMut<Wishes>) {
    if asked.read().last().is_some() {
        wishes.0.push(Command::Quit);
    }
}

/// A file name that was asked for becomes a wish once it is given.
pub fn wish_for_answered_file(mut dialogs: ResMut<Dialogs>, mut wishes: ResMut<Wishes>) {
    if let Some(command) = dialogs.answer() {
        wishes.0.push(command);
    }
}

/// Hears what the workbench's own threads have to say, and shows it.
pub fn hear(mut desk: ResMut<Desk>, mut redraw: MessageWriter<RequestRedraw>) {
    if desk.bypass_change_detection().0.hear() {
        desk.set_changed();
        redraw.write(RequestRedraw);
    }
}

/// Performs what was wished, in order.
pub fn perform_wishes(mut desk: ResMut<Desk>, mut wishes: ResMut<Wishes>) {
    for command in std::mem::take(&mut wishes.bypass_change_detection().0) {
        desk.0.perform(command);
    }
}

/// Does what the workbench asks of the window.
pub fn fulfil_requests(
    mut desk: ResMut<Desk>,
    mut view: ResMut<ViewWishes>,
    mut dialogs: ResMut<Dialogs>,
    window: Option<Res<EventLoopProxyWrapper>>,
    mut redraw: MessageWriter<RequestRedraw>,
    mut exit: MessageWriter<AppExit>,
) {
    let requests = desk.bypass_change_detection().0.take_requests();
    if requests.is_empty() {
        return;
    }
    redraw.write(RequestRedraw);
    for request in requests {
        let purpose = match request {
            Request::View(command) => {
                view.0.push(command);
                continue;
            }
            Request::Quit => {
                exit.write(AppExit::Success);
                continue;
            }
            Request::AskOpen => Purpose::Open,
            Request::AskSaveAs => Purpose::SaveAs,
            Request::AskExport => Purpose::Export,
            Request::AskShop => Purpose::Shop,
            Request::AskMeasurement => Purpose::Measurement,
            Request::AskObstacle(unit, up) => Purpose::Obstacle(unit, up),
        };
        if let Some(window) = &window {
            let name = PathBuf::from(file_name_of(&desk.0, purpose));
            let name = purpose.extensions().first().map_or(name.clone(), |extension| name.with_extension(extension));
            dialogs.ask(purpose, &folder_of(&desk.0), &name.to_string_lossy(), window);
        }
    }
}

/// The folder to look in first: the open part's own, else the current one.
fn folder_of(workbench: &Workbench) -> PathBuf {
    let own = workbench.file().and_then(|file| file.parent()).filter(|folder| folder.is_dir());
    let here = || std::env::current_dir().unwrap_or_else(|_| PathBuf::from("."));
    own.map_or_else(here, Path::to_path_buf)
}

/// The name to offer for saving: that of the file, else that of the whole made fit for one. An export holds the tube
/// that is worked on: of several it is called by its own name, so that each comes into a file of its own.
fn file_name_of(workbench: &Workbench, purpose: Purpose) -> String {
    let system = workbench.system();
    if purpose == Purpose::Export && system.tubes().len() > 1 {
        return file_name_for(system.active_tube().name());
    }
    match workbench.file().and_then(|file| file.file_stem()) {
        Some(stem) => format!("{}.ron", stem.to_string_lossy()),
        None => file_name_for(system.title()),
    }
}

fn file_name_for(part: &str) -> String {
    let fit = |letter: char| if letter.is_alphanumeric() || " -_.()".contains(letter) { letter } else { '-' };
    let name: String = part.trim().chars().map(fit).collect();
    let name = name.trim_matches(['.', ' ']);
    format!("{}.ron", if name.is_empty() { "part" } else { name })
}

#[cfg(test)]
mod tests {
    use elbowroom_bending::SystemEdit;

    use super::*;

    #[test]
    fn the_close_button_and_a_dropped_file_become_wishes() {
        let mut app = App::new();
        app.init_resource::<Wishes>().add_message::<FileDragAndDrop>().add_message::<WindowCloseRequested>();
        app.add_systems(Update, (wish_for_dropped_files, wish_to_close).chain());
        let (window, path_buf) = (Entity::PLACEHOLDER, PathBuf::from("a.ron"));
        app.world_mut().write_message(FileDragAndDrop::DroppedFile { window, path_buf: path_buf.clone() });
        app.world_mut().write_message(WindowCloseRequested { window });
        app.update();
        assert_eq!(app.world().resource::<Wishes>().0, [Command::Open(path_buf), Command::Quit]);
    }

    #[test]
    fn the_name_that_is_offered_is_that_of_the_whole_and_for_an_export_that_of_the_tube() {
        let shop = elbowroom_workbench::file::built_in_shop();
        let demo = elbowroom_workbench::file::demo_parts().next().expect("there are demo parts");
        let mut part = demo.read().expect("demo parts can be read");
        part.name = "Downpipe".into();
        let mut workbench = Workbench::new(part, shop);
        let offered =
            |workbench: &Workbench| [Purpose::SaveAs, Purpose::Export].map(|purpose| file_name_of(workbench, purpose));
        assert_eq!(offered(&workbench), ["Downpipe.ron", "Downpipe.ron"]);
        workbench.perform(Command::EditSystem(SystemEdit::Rename("Hill climb".into())));
        assert_eq!(offered(&workbench), ["Hill climb.ron", "Hill climb.ron"]);
        workbench.perform(Command::AddTube);
        assert_eq!(offered(&workbench), ["Hill climb.ron", "New tube.ron"]);
        let folder = tempfile::tempdir().expect("a folder");
        workbench.perform(Command::SaveAs(folder.path().join("car.ron")));
        assert_eq!(offered(&workbench), ["car.ron", "New tube.ron"]);
    }

    #[test]
    fn a_part_s_name_is_made_fit_for_a_file() {
        assert_eq!(file_name_for("Rear section"), "Rear section.ron");
        assert_eq!(file_name_for("a/b: 2\""), "a-b- 2-.ron");
        assert_eq!(file_name_for(" .. "), "part.ron");
    }
}
