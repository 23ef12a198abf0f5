//! Every verb of the program, once: its label, tooltip, shortcut, when it can be used, and its command.
//! Menus, command list, help and keyboard all read it here.

mod shortcut;
mod verbs;

pub use shortcut::{Key, Shortcut};
pub use verbs::VERBS;

use crate::{Command, Workbench};

/// What a verb is about; menus and help are grouped so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// Files.
    File,
    /// Changes to the part.
    Edit,
    /// The tubes of the system.
    Tubes,
    /// Where one looks from.
    View,
    /// Shop and bench.
    Shop,
    /// The window and help.
    Window,
}

impl Group {
    /// Every group, in the order of the menus.
    pub const ALL: [Self; 6] = [Self::File, Self::Edit, Self::Tubes, Self::View, Self::Shop, Self::Window];

    /// What menus and help call it.
    pub const fn label(self) -> &'static str {
        match self {
            Self::File => "File",
            Self::Edit => "Edit",
            Self::Tubes => "Tubes",
            Self::View => "View",
            Self::Shop => "Shop",
            Self::Window => "Window",
        }
    }
}

/// Something a person can ask for by menu, command list or key.
pub struct Verb {
    /// The name by which code and tests know it, such as `undo`.
    pub id: &'static str,
    /// What it is about.
    pub group: Group,
    /// What menus call it.
    pub label: &'static str,
    /// One sentence on what it does.
    pub tooltip: &'static str,
    /// Its key.
    pub shortcut: Option<Shortcut>,
    enabled: fn(&Workbench) -> bool,
    command: fn(&Workbench) -> Command,
}

impl Verb {
    /// Whether it would do anything now.
    pub fn enabled(&self, workbench: &Workbench) -> bool {
        (self.enabled)(workbench)
    }

    /// The command for it now.
    pub fn command(&self, workbench: &Workbench) -> Command {
        (self.command)(workbench)
    }

    /// The label for now: undo and redo say what they would do.
    pub fn label_now(&self, workbench: &Workbench) -> String {
        let what = match self.id {
            "undo" => workbench.undo_label(),
            "redo" => workbench.redo_label(),
            _ => None,
        };
        what.map_or_else(|| self.label.to_owned(), |what| format!("{}: {what}", self.label))
    }
}

/// The verb of that name.
pub fn verb(id: &str) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.id == id)
}

/// The verb that a key calls.
pub fn verb_for(shortcut: Shortcut) -> Option<&'static Verb> {
    VERBS.iter().find(|verb| verb.shortcut == Some(shortcut))
}

/// The verbs whose label or tooltip holds every word of a text, in either case; those whose label starts
/// with the text first.
pub fn matching(text: &str) -> Vec<&'static Verb> {
    let text = text.trim().to_lowercase();
    let holds = |verb: &&Verb| {
        let all = format!("{} {} {}", verb.group.label(), verb.label, verb.tooltip).to_lowercase();
        text.split_whitespace().all(|word| all.contains(word))
    };
    let mut found: Vec<&Verb> = VERBS.iter().filter(holds).collect();
    found.sort_by_key(|verb| !verb.label.to_lowercase().starts_with(&text));
    found
}
