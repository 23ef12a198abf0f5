//! What a panel is, and the registry that lists them.

use elbowroom_workbench::{Command, Screen, Workbench};

use crate::{PanelState, bar, findings, message, question, rows, strip, verdict, why};

/// Where a panel is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The slim bar on top.
    Bar,
    /// The right column, in the order of the registry.
    Column,
    /// The strip along the bottom.
    Strip,
    /// The drawer at the left.
    Drawer,
    /// Above everything else; the panel puts up its own window, in the order of the registry.
    Overlay,
}

/// A panel as the layout sees it.
pub struct Panel {
    /// What it is called, in tests and in the memory of egui.
    pub name: &'static str,
    /// Where it is shown.
    pub place: Place,
    /// Whether it is shown.
    pub shown: fn(&Screen) -> bool,
    /// Draws it and returns what was asked for.
    pub show: fn(&mut egui::Ui, &Workbench, &mut PanelState) -> Vec<Command>,
    /// What it says, as text.
    pub snapshot: fn(&Workbench) -> String,
}

fn always(_: &Screen) -> bool {
    true
}

/// Every panel, in the order in which they are drawn.
pub static REGISTRY: &[Panel] = &[
    Panel {
        name: "bar",
        place: Place::Bar,
        shown: always,
        show: |ui, workbench, _| bar::ui(ui, &bar::Model::of(workbench)),
        snapshot: |workbench| bar::Model::of(workbench).to_string(),
    },
    Panel {
        name: "verdict",
        place: Place::Column,
        shown: always,
        show: |ui, workbench, _| verdict::ui(ui, &verdict::Model::of(workbench)),
        snapshot: |workbench| verdict::Model::of(workbench).to_string(),
    },
    Panel {
        name: "rows",
        place: Place::Column,
        shown: always,
        show: |ui, workbench, state| rows::ui(ui, &rows::Model::of(workbench), &mut state.rows),
        snapshot: |workbench| rows::Model::of(workbench).to_string(),
    },
    Panel {
        name: "findings",
        place: Place::Column,
        shown: always,
        show: |ui, workbench, state| findings::ui(ui, &findings::Model::of(workbench), &mut state.findings),
        snapshot: |workbench| findings::Model::of(workbench).to_string(),
    },
    Panel {
        name: "why",
        place: Place::Column,
        shown: always,
        show: |ui, workbench, _| why::ui(ui, &why::Model::of(workbench)),
        snapshot: |workbench| why::Model::of(workbench).to_string(),
    },
    Panel {
        name: "strip",
        place: Place::Strip,
        shown: always,
        show: |ui, workbench, _| strip::ui(ui, &strip::Model::of(workbench)),
        snapshot: |workbench| strip::Model::of(workbench).to_string(),
    },
    Panel {
        name: "message",
        place: Place::Overlay,
        shown: |screen| screen.message.is_some(),
        show: |ui, workbench, _| message::Model::of(workbench).map_or_else(Vec::new, |model| message::ui(ui, &model)),
        snapshot: |workbench| message::Model::of(workbench).map_or_else(String::new, |model| model.to_string()),
    },
    Panel {
        name: "question",
        place: Place::Overlay,
        shown: |screen| screen.question.is_some(),
        show: |ui, workbench, _| question::Model::of(workbench).map_or_else(Vec::new, |model| question::ui(ui, &model)),
        snapshot: |workbench| question::Model::of(workbench).map_or_else(String::new, |model| model.to_string()),
    },
];
