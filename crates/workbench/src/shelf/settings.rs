//! What a person has set and the program remembers: theme, scale, drawers, recent files.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use crate::desk::run::{MOST_RUNS, Run};
use crate::shelf::disk::is_nothing_there;
use crate::shelf::file::{FileProblem, outer_fields, parse, print, read_plain_text};
use crate::{Screen, Theme};

/// How many recent files are remembered.
const RECENT: usize = 10;

/// The settings. Those that this program does not know are passed over and written back as they stood, so that an older
/// program can run beside a newer one.
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
    /// How far tubes have come at the machine. The one taken up last first.
    pub runs: Vec<Run>,
    /// What a later version has set, field by field as it is written there.
    pub(crate) further: Vec<String>,
}

/// The fields of [`Stored`].
const KNOWN: [&str; 6] = ["dark", "scale", "bench_open", "hints_seen", "recent", "runs"];

/// The settings as they stand in their file.
#[derive(Serialize, Deserialize)]
#[serde(default)]
struct Stored {
    dark: bool,
    scale: f32,
    bench_open: bool,
    hints_seen: bool,
    recent: Vec<String>,
    runs: Vec<Run>,
}

impl Default for Settings {
    fn default() -> Self {
        let (theme, recent, runs, further) = (Theme::default(), Vec::new(), Vec::new(), Vec::new());
        Self { theme, scale: 1.0, bench_open: false, hints_seen: false, recent, runs, further }
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
            runs: settings.runs.clone(),
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
        let mut text = print("What Elbowroom remembers between two runs. It may be deleted.", &Stored::from(self), 3);
        if let Some(end) = text.rfind(')') {
            let further: String = self.further.iter().map(|field| format!("    {field},\n")).collect();
            text.insert_str(end, &further);
        }
        text
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
    let Some(fields) = outer_fields(text) else {
        let what = "it is written in a way that could not be written back without a loss";
        return Err(FileProblem::whole(file, what, "write plain fields, one a line, such as dark: true"));
    };
    let further = fields.into_iter().filter(|(name, _)| !KNOWN.contains(name));
    Ok(Settings {
        theme: if stored.dark { Theme::Dark } else { Theme::Light },
        scale: within_scale(stored.scale).unwrap_or(1.0),
        bench_open: stored.bench_open,
        hints_seen: stored.hints_seen,
        recent: stored.recent.into_iter().map(PathBuf::from).take(RECENT).collect(),
        runs: stored.runs.into_iter().filter(|run| run.is_sound()).take(MOST_RUNS).collect(),
        further: further.map(|(name, value)| format!("{name}: {value}")).collect(),
    })
}

/// An interface scale brought into 0.8 to 2.0; `None` if it is no number.
pub(crate) fn within_scale(scale: f32) -> Option<f32> {
    scale.is_finite().then(|| scale.clamp(0.8, 2.0))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn what_a_later_version_has_set_is_written_back_as_it_stood() {
        let later = "(\n  dark: true,\n  grid: (step: [1, 2], name: \"fine, (so)\"), // new\n  scale: 1.25, wheel: Some(Slow)\n)";
        let mut settings = read_settings(later, "a").unwrap();
        assert_eq!((settings.theme, settings.scale), (Theme::Dark, 1.25));
        settings.bench_open = true;
        let text = settings.text();
        for field in
            ["    grid: (step: [1, 2], name: \"fine, (so)\"),\n", "    wheel: Some(Slow),\n", "bench_open: true"]
        {
            assert!(text.contains(field), "{field} is lost:\n{text}");
        }
        assert_eq!(read_settings(&text, "again").unwrap(), settings);
        // A later version reads them as it wrote them.
        let fields = outer_fields(&text).unwrap();
        assert!(fields.contains(&("wheel", "Some(Slow)")), "{fields:?}");
    }

    #[test]
    fn the_fields_that_are_known_are_those_that_are_written() {
        let text = Settings::default().text();
        let names: Vec<&str> = outer_fields(&text).unwrap().into_iter().map(|(name, _)| name).collect();
        assert_eq!(names, KNOWN);
    }
}
