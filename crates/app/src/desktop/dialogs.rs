//! Asking for a file name without holding up the window.
//!
//! The system's own dialog is asked for where there is one; else our own [`Prompt`] is shown. Setting
//! `ELBOWROOM_OWN_DIALOGS=1` asks for ours always, which tests do and people may who miss theirs.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use bevy::prelude::Resource;
use bevy::tasks::IoTaskPool;
use bevy::winit::{EventLoopProxyWrapper, WinitUserEvent};
use bevy_egui::egui::Context;
use elbowroom_workbench::Command;

use super::prompt::{Outcome, Prompt};
use super::purpose::Purpose;

/// Nobody answers a dialog faster than this: an answer that is faster means that none was shown.
const FASTEST_ANSWER: Duration = Duration::from_millis(120);

struct Asked {
    purpose: Purpose,
    folder: PathBuf,
    name: String,
    since: Instant,
    answer: Slot,
}

/// Where the dialog leaves its answer: nothing yet, or a path or none.
type Slot = Arc<Mutex<Option<Option<PathBuf>>>>;

/// The question for a file that is open, if any.
#[derive(Resource, Default)]
pub struct Dialogs {
    asked: Option<Asked>,
    /// Our own prompt, while it is the one that asks.
    pub prompt: Option<(Purpose, Prompt)>,
}

impl Dialogs {
    /// Asks, unless a question is open already.
    pub fn ask(&mut self, purpose: Purpose, folder: &Path, name: &str, window: &EventLoopProxyWrapper) {
        if self.asked.is_some() || self.prompt.is_some() {
            return;
        }
        let name = if purpose.writes() { name } else { "" };
        if !system_has_dialogs() {
            self.prompt = Some((purpose, Prompt::new(purpose, folder, name)));
            return;
        }
        let dialog = rfd::AsyncFileDialog::new()
            .set_title(purpose.title())
            .set_directory(folder)
            .add_filter(purpose.kinds(), &purpose.extensions());
        let answer = Slot::default();
        let (slot, window) = (Arc::clone(&answer), (**window).clone());
        let leave = move |picked: Option<rfd::FileHandle>| {
            let path = picked.map(|file| file.path().to_path_buf());
            *slot.lock().unwrap_or_else(PoisonError::into_inner) = Some(path);
            // The window sleeps until something happens; it is gone where this fails.
            let _ = window.send_event(WinitUserEvent::WakeUp);
        };
        // Both futures are made here, on the main thread, where some systems insist on it.
        match purpose {
            Purpose::SaveAs | Purpose::Export => {
                let picked = dialog.set_file_name(name).save_file();
                IoTaskPool::get().spawn(async move { leave(picked.await) }).detach();
            }
            Purpose::Open | Purpose::Shop | Purpose::Measurement | Purpose::Obstacle(..) => {
                let picked = dialog.pick_file();
                IoTaskPool::get().spawn(async move { leave(picked.await) }).detach();
            }
        }
        self.asked = Some(Asked { purpose, folder: folder.into(), name: name.into(), since: Instant::now(), answer });
    }

    /// Draws our own prompt where it is open, and gives the command that its answer asks for.
    pub fn show_prompt(&mut self, ctx: &Context) -> Option<Command> {
        let (purpose, prompt) = self.prompt.as_mut()?;
        let command = match prompt.show(ctx) {
            Outcome::Open => return None,
            Outcome::PutAway => None,
            Outcome::Given(path) => Some(purpose.command(path)),
        };
        self.prompt = None;
        command
    }

    /// The command that an answer asks for, once it is there.
    pub fn answer(&mut self) -> Option<Command> {
        let answer = self.asked.as_ref()?.answer.lock().unwrap_or_else(PoisonError::into_inner).take()?;
        let asked = self.asked.take()?;
        match answer {
            Some(path) => Some(asked.purpose.command(path)),
            None if asked.since.elapsed() < FASTEST_ANSWER => {
                self.prompt = Some((asked.purpose, Prompt::new(asked.purpose, &asked.folder, &asked.name)));
                None
            }
            None => None,
        }
    }
}

/// Whether the system can show a file dialog. Only the free desktops may lack one: there a portal answers
/// on the session bus, or the helper program that stands in for it is installed.
fn system_has_dialogs() -> bool {
    if std::env::var_os("ELBOWROOM_OWN_DIALOGS").is_some_and(|value| value != "0") {
        return false;
    }
    if !cfg!(all(unix, not(target_os = "macos"))) {
        return true;
    }
    let folders = |name: &str, usual: &str| -> Vec<PathBuf> {
        let listed = std::env::var(name).ok().filter(|value| !value.is_empty()).unwrap_or_else(|| usual.into());
        std::env::split_paths(&listed).collect()
    };
    let bus = std::env::var_os("DBUS_SESSION_BUS_ADDRESS").is_some()
        || std::env::var_os("XDG_RUNTIME_DIR").is_some_and(|folder| Path::new(&folder).join("bus").exists());
    let portal = || {
        let service = "dbus-1/services/org.freedesktop.portal.Desktop.service";
        folders("XDG_DATA_DIRS", "/usr/local/share:/usr/share").iter().any(|folder| folder.join(service).exists())
    };
    let helper = || folders("PATH", "/usr/bin").iter().any(|folder| folder.join("zenity").is_file());
    (bus && portal()) || helper()
}
