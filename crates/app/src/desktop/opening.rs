//! The workbench that the window opens with.

use std::path::PathBuf;

use elbowroom_exchange::survey_mesh;
use elbowroom_workbench::{Command, Home, Waker, Workbench};

use super::import::{exporters, importers};

/// The user's own workbench, with `file` open on it where one is given. It wakes the window by `waker` when
/// there is something to hear.
///
/// Where the platform names no folder for settings and recovery, the one for temporary files serves.
pub fn workbench(file: Option<PathBuf>, waker: Option<Waker>) -> Workbench {
    let home = Home::of_user().unwrap_or_else(|| Home::at(std::env::temp_dir().join("elbowroom")));
    let mut workbench = Workbench::at_home(home).with_importers(importers()).with_exporters(exporters());
    workbench = workbench.surveying_by(survey_mesh);
    if let Some(waker) = waker {
        workbench = workbench.waking(waker);
    }
    if let Some(file) = file {
        workbench.perform(Command::Open(file));
    }
    workbench
}
