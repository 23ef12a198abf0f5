//! What mouse and keys do: the mouse by place, the keys from the catalogue.

mod by_place;

use std::fmt;

use egui::{Grid, RichText, Ui, vec2};
use elbowroom_workbench::catalogue::{Group, VERBS};
use elbowroom_workbench::{Command, Workbench};

use crate::style::heading_text;
use crate::widgets::page;

/// Something done with mouse or keys, and what it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What one does.
    pub deed: String,
    /// What comes of it.
    pub effect: String,
}

/// Lines about one place or kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its heading.
    pub heading: String,
    /// Its lines.
    pub lines: Vec<Line>,
}

/// The help.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// In reading order.
    pub sections: Vec<Section>,
}

impl Model {
    /// The help; the same for every part.
    pub fn of(_: &Workbench) -> Self {
        let line = |deed: &str, effect: &str| Line { deed: deed.to_owned(), effect: effect.to_owned() };
        let by_place = by_place::BY_PLACE.iter().map(|(heading, lines)| Section {
            heading: (*heading).to_owned(),
            lines: lines.iter().map(|(deed, effect)| line(deed, effect)).collect(),
        });
        let keys = Group::ALL.iter().map(|group| Section {
            heading: format!("Keys: {}", group.label().to_lowercase()),
            lines: VERBS
                .iter()
                .filter(|verb| verb.group == *group)
                .filter_map(|verb| Some(line(&verb.shortcut?.to_string(), verb.label)))
                .collect(),
        });
        Self { sections: by_place.chain(keys).filter(|section| !section.lines.is_empty()).collect() }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for section in &self.sections {
            writeln!(out, "# {}", section.heading)?;
            for line in &section.lines {
                writeln!(out, "{}: {}", line.deed, line.effect)?;
            }
        }
        Ok(())
    }
}

/// Width of what one does, points.
const DEEDS: f32 = 210.0;

/// Shows the help in a window over the scene.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let open = page(ui, "help", "Keys and mouse", vec2(640.0, 560.0), |ui| {
        for section in &model.sections {
            ui.add_space(6.0);
            ui.label(RichText::new(&section.heading).text_style(heading_text()));
            let effects = (ui.available_width() - DEEDS - 12.0).max(120.0);
            Grid::new(&section.heading).num_columns(2).striped(true).min_col_width(0.0).show(ui, |ui| {
                for line in &section.lines {
                    for (text, width) in [(&line.deed, DEEDS), (&line.effect, effects)] {
                        ui.scope(|ui| {
                            ui.set_width(width);
                            ui.add(egui::Label::new(text).wrap());
                        });
                    }
                    ui.end_row();
                }
            });
        }
    });
    if open { Vec::new() } else { vec![Command::ToggleHelp] }
}
