//! What the bar offers.

use std::fmt;
use std::path::PathBuf;

use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::catalogue::{Group, VERBS, Verb, verb};
use elbowroom_workbench::{Command, Theme, Workbench};

/// One thing that can be asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// What it says now.
    pub label: String,
    /// What it says where there is little room.
    pub short: String,
    /// One sentence on what it does.
    pub tooltip: String,
    /// Its key.
    pub shortcut: Option<String>,
    /// Whether it would do anything.
    pub enabled: bool,
    /// Whether what it toggles is on.
    pub on: bool,
    /// What it asks for.
    pub command: Command,
}

/// One menu.
#[derive(Clone, Debug, PartialEq)]
pub struct Menu {
    /// What it is about.
    pub group: Group,
    /// What it offers.
    pub entries: Vec<Entry>,
}

/// What the bar offers.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The menus from left to right.
    pub menus: Vec<Menu>,
    /// Takes the last step back.
    pub undo: Entry,
    /// Makes it again.
    pub redo: Entry,
    /// What stands at the far end, from the right.
    pub at_the_end: Vec<Entry>,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// Files opened lately, the latest first.
    pub recent: Vec<PathBuf>,
    /// The part's name.
    pub name: String,
    /// Whether changes are in no file.
    pub unsaved: bool,
    /// The theme.
    pub theme: Theme,
    /// The interface scale.
    pub scale: f32,
}

/// Verbs that have a better place than a line in a menu: the units and the theme are chosen from lists.
const ELSEWHERE: [&str; 6] =
    ["show-millimetres", "show-centimetres", "show-metres", "show-inches", "show-feet", "theme"];

impl Model {
    /// What can be asked for now.
    pub fn of(workbench: &Workbench) -> Self {
        let entry = |verb: &Verb| Entry::of(verb, workbench);
        let of_group = |group| {
            let verbs = VERBS.iter().filter(|verb| verb.group == group && !ELSEWHERE.contains(&verb.id));
            Menu { group, entries: verbs.map(entry).collect() }
        };
        let named = |id| verb(id).map_or_else(|| Entry::none(id), entry);
        Self {
            menus: Group::ALL.into_iter().map(of_group).collect(),
            undo: named("undo"),
            redo: named("redo"),
            at_the_end: [("help", "Help"), ("commands", "Commands"), ("bench", "Bench")]
                .map(|(id, short)| Entry { short: short.to_owned(), ..named(id) })
                .to_vec(),
            unit: workbench.part().units,
            recent: workbench.recent_files().to_vec(),
            name: workbench.part().name.clone(),
            unsaved: workbench.unsaved(),
            theme: workbench.screen().theme,
            scale: workbench.screen().scale,
        }
    }
}

impl Entry {
    fn of(verb: &Verb, workbench: &Workbench) -> Self {
        let screen = workbench.screen();
        let on = match verb.id {
            "bench" => screen.bench_open,
            "tubes" => screen.tubes_open,
            "commands" => screen.command_list_open,
            "help" => screen.help_open,
            _ => false,
        };
        Self {
            label: verb.label_now(workbench),
            short: verb.label.to_owned(),
            tooltip: verb.tooltip.to_owned(),
            shortcut: verb.shortcut.map(|shortcut| shortcut.to_string()),
            enabled: verb.enabled(workbench),
            on,
            command: verb.command(workbench),
        }
    }

    /// Stands in for a verb that the catalogue does not have; a test sees to it that none is missing.
    fn none(id: &str) -> Self {
        Self {
            label: id.to_owned(),
            short: id.to_owned(),
            tooltip: String::new(),
            shortcut: None,
            enabled: false,
            on: false,
            command: Command::Escape,
        }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        for menu in &self.menus {
            let labels: Vec<&str> = menu.entries.iter().map(|entry| entry.label.as_str()).collect();
            writeln!(formatter, "{}: {}", menu.group.label(), labels.join(" | "))?;
        }
        let step = |entry: &Entry| if entry.enabled { entry.label.clone() } else { format!("({})", entry.label) };
        writeln!(formatter, "{}, {}", step(&self.undo), step(&self.redo))?;
        let saved = if self.unsaved { ", not saved" } else { "" };
        writeln!(formatter, "{}{saved}, lengths in {}", self.name, self.unit.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_catalogue_has_every_verb_that_the_bar_names() {
        for id in ["undo", "redo", "help", "commands", "bench"].into_iter().chain(ELSEWHERE) {
            assert!(verb(id).is_some(), "{id}");
        }
    }
}
