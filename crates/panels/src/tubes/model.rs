//! What the list of tubes says.

use std::fmt;

use elbowroom_bending::{Severity, TubeId};
use elbowroom_workbench::Workbench;

/// One tube of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// By which it is known.
    pub id: TubeId,
    /// What it is called.
    pub name: String,
    /// Whether it is the one that is worked on.
    pub active: bool,
    /// Whether the scene leaves it out.
    pub hidden: bool,
    /// Whether it lies under the pointer, here or in the scene.
    pub pointed_at: bool,
    /// Its worst finding.
    pub severity: Option<Severity>,
}

/// What the list of tubes says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Model {
    /// What the whole is called; empty where nobody has named it.
    pub name: String,
    /// The tubes, in their order.
    pub tubes: Vec<Row>,
    /// The tube that lies under the pointer, of those that are not worked on.
    pub pointed_at: Option<TubeId>,
    /// How often the name of the tube that is worked on was asked for.
    pub names_asked: u32,
}

impl Model {
    /// The tubes as they are shown.
    pub fn of(workbench: &Workbench) -> Self {
        let system = workbench.system();
        let row = |tube: &elbowroom_bending::SystemTube| Row {
            id: tube.id,
            name: tube.name().to_owned(),
            active: tube.id == system.active(),
            hidden: tube.hidden,
            pointed_at: workbench.tube_hover() == Some(tube.id),
            severity: workbench.solved_tube(tube.id).and_then(|solved| solved.worst()),
        };
        Self {
            name: system.name().to_owned(),
            tubes: system.tubes().iter().map(row).collect(),
            pointed_at: workbench.tube_hover(),
            names_asked: workbench.screen().names_asked,
        }
    }

    /// The tube that is worked on.
    pub fn active(&self) -> Option<&Row> {
        self.tubes.iter().find(|row| row.active)
    }
}

impl Row {
    /// What a list calls it.
    pub fn called(&self) -> &str {
        if self.name.trim().is_empty() { "Tube without a name" } else { &self.name }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.name.is_empty() {
            writeln!(formatter, "{}", self.name)?;
        }
        for row in &self.tubes {
            let here = if row.active { "> " } else { "  " };
            let hidden = if row.hidden { ", hidden" } else { "" };
            let severity = row.severity.map_or(String::new(), |severity| format!(", {}", severity.word()));
            writeln!(formatter, "{here}{}{severity}{hidden}", row.called())?;
        }
        Ok(())
    }
}
