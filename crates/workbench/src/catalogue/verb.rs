//! What a verb is.

use super::Shortcut;
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
    /// Another key that people expect to do it.
    pub other_shortcut: Option<Shortcut>,
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

const fn always(_: &Workbench) -> bool {
    true
}

/// A verb without a key that can always be used.
pub(super) const fn verb(
    group: Group,
    id: &'static str,
    label: &'static str,
    tooltip: &'static str,
    command: fn(&Workbench) -> Command,
) -> Verb {
    Verb { id, group, label, tooltip, shortcut: None, other_shortcut: None, enabled: always, command }
}

impl Verb {
    /// Called by a key too.
    pub(super) const fn on(mut self, shortcut: Shortcut) -> Self {
        self.shortcut = Some(shortcut);
        self
    }

    /// Called by yet another key.
    pub(super) const fn or_on(mut self, shortcut: Shortcut) -> Self {
        self.other_shortcut = Some(shortcut);
        self
    }

    /// Used only then.
    pub(super) const fn when(mut self, enabled: fn(&Workbench) -> bool) -> Self {
        self.enabled = enabled;
        self
    }
}
