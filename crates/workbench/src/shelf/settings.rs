//! What a person has set and the program remembers: theme, scale, drawers, recent files.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::shelf::file::{FileProblem, parse, print, read_plain_text};
use crate::shelf::troubles::is_nothing_there;
use crate::{Screen, Theme};

/// How many recent files are remembered.
const RECENT: usize = 10;

/// The settings. Unknown ones are passed over, so that an older program can run beside a newer one.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// The theme.
    pub theme: Theme,
    /// The interface scale, 0.8 to 2.0.
    pub scale: f32,
    /// Whether the bench drawer stands open.
    pub bench_open: bool,
    /// Whether the hints of the first start were put away.
    pub hints_seen: bool,
    /// Files opened or saved lately. The last one first.
    pub recent: Vec<PathBuf>,
}

/// The settings as they stand in their file.
#[derive(Serialize, Deserialize)]
#[serde(default)]
struct Stored {
    dark: bool,
    scale: f32,
    bench_open: bool,
    hints_seen: bool,
    recent: Vec<String>,
}

impl Default for Settings {
    fn default() -> Self {
        Self { theme: Theme::default(), scale: 1.0, bench_open: false, hints_seen: false, recent: Vec::new() }
    }
}

impl Default for Stored {
    fn default() -> Self {
        Self::from(&Settings::default())
    }
}

impl From<&Settings> for Stored {
    fn from(settings: &Settings) -> Self {
        Self {
            dark: settings.theme == Theme::Dark,
            scale: settings.scale,
            bench_open: settings.bench_open,
            hints_seen: settings.hints_seen,
            recent: settings.recent.iter().filter_map(|path| path.to_str()).map(str::to_owned).collect(),
        }
    }
}

impl Settings {
    /// Reads the settings; where there is no file yet, the usual ones.
    ///
    /// # Errors
    /// Says what is wrong with the file.
    pub(crate) fn read(path: &Path) -> Result<Self, FileProblem> {
        if is_nothing_there(path) {
            return Ok(Self::default());
        }
        read_settings(&read_plain_text(path)?, &path.display().to_string())
    }

    /// The text of the settings file.
    pub(crate) fn text(&self) -> String {
        print("What Elbowroom remembers between two runs. It may be deleted.", &Stored::from(self), 3)
    }

    /// Puts a file at the head of the recent ones.
    pub(crate) fn remember(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.recent.retain(|other| *other != path);
        self.recent.insert(0, path);
        self.recent.truncate(RECENT);
    }

    /// Sets the screen as it was left.
    pub(crate) fn dress(&self, screen: &mut Screen) {
        screen.theme = self.theme;
        screen.scale = self.scale;
        screen.bench_open = self.bench_open;
        screen.hints_shown = !self.hints_seen;
    }
}

/// Reads the text of a settings file. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_settings(text: &str, file: &str) -> Result<Settings, FileProblem> {
    let stored: Stored = parse(text, file)?;
    Ok(Settings {
        theme: if stored.dark { Theme::Dark } else { Theme::Light },
        scale: within_scale(stored.scale).unwrap_or(1.0),
        bench_open: stored.bench_open,
        hints_seen: stored.hints_seen,
        recent: stored.recent.into_iter().map(PathBuf::from).take(RECENT).collect(),
    })
}

/// An interface scale brought into 0.8 to 2.0; `None` if it is no number.
pub(crate) fn within_scale(scale: f32) -> Option<f32> {
    scale.is_finite().then(|| scale.clamp(0.8, 2.0))
}
