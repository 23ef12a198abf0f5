//! Which shop everything is judged on: always in sight, below the verdict.

use std::fmt;
use std::path::{Path, PathBuf};

use egui::{Label, RichText, Ui};
use elbowroom_bending::text::shown_path;
use elbowroom_workbench::{Command, Workbench};

use crate::colours::{colour, colours};

/// The shop in use.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// What it is called.
    pub name: String,
    /// Its file; none for the one that is built in.
    pub file: Option<PathBuf>,
    /// Whether another one was asked for and could not be had.
    pub missed: bool,
}

impl Model {
    /// The shop in use.
    pub fn of(workbench: &Workbench) -> Self {
        let name = workbench.shop().name.clone();
        Self { name, file: workbench.shop_file().cloned(), missed: workbench.shop_missed().is_some() }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "Shop: {}, ", self.name)?;
        match self.file.as_ref().and_then(|file| file.file_name()) {
            Some(file) => formatter.write_str(&shown_path(Path::new(file)))?,
            None => write!(formatter, "built in")?,
        }
        formatter.write_str(if self.missed { "; not the one asked for" } else { "" })
    }
}

/// Draws the line.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let palette = colours(ui);
    let ink = if model.missed { palette.text } else { palette.weak_text };
    let place = match &model.file {
        Some(file) => shown_path(file),
        None => "The shop that comes with the program; its figures are common practice.".to_owned(),
    };
    ui.add(Label::new(RichText::new(model.to_string()).small().color(colour(ink))).truncate()).on_hover_text(place);
    Vec::new()
}
