//! Where the program keeps what is the user's own: settings, shop, and work that a crash left behind.

use std::path::{Path, PathBuf};

/// The environment variable that names one folder to be used in place of the platform's own ones.
pub const HOME_VARIABLE: &str = "ELBOWROOM_HOME";

/// The two folders of a user, which need not exist yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Home {
    configuration: PathBuf,
    recovery: PathBuf,
}

impl Home {
    /// The folders of whoever runs the program: the platform's own, or those under the folder that the
    /// environment variable [`HOME_VARIABLE`] names. `None` where the platform has none.
    pub fn of_user() -> Option<Self> {
        if let Some(folder) = std::env::var_os(HOME_VARIABLE).filter(|folder| !folder.is_empty()) {
            return Some(Self::at(folder));
        }
        let configuration = dirs::config_dir()?.join("elbowroom");
        let recovery = dirs::data_local_dir()?.join("elbowroom").join("recovery");
        Some(Self { configuration, recovery })
    }

    /// Both folders under one, for tests and for a program that travels on a stick.
    pub fn at(folder: impl Into<PathBuf>) -> Self {
        let configuration = folder.into();
        Self { recovery: configuration.join("recovery"), configuration }
    }

    /// The user's own shop file, which need not exist.
    pub fn own_shop(&self) -> PathBuf {
        self.configuration.join("shop.ron")
    }

    /// The settings file, which need not exist.
    pub fn settings(&self) -> PathBuf {
        self.configuration.join("settings.ron")
    }

    /// The folder for work that a crash left behind.
    pub fn recovery(&self) -> &Path {
        &self.recovery
    }
}
