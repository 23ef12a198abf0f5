//! What stands around the tubes, as a plain value.

use std::fmt;
use std::sync::Arc;

use elbowroom_bending::around::Clearance;
use elbowroom_bending::{Obstacle, TubeId};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::Workbench;

use crate::widgets::figure_text;

/// How near the tube that is worked on comes to something.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// What that is called.
    pub to: String,
    /// What it is, in words.
    pub kind: &'static str,
    /// The least room, or why nothing was measured.
    pub least: String,
    /// What is wanted, with the mark where it rests on common practice.
    pub wanted: String,
    /// Whether anything was measured.
    pub measured: bool,
    /// Whether what is wanted is kept.
    pub kept: bool,
}

/// What stands around.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The obstacles of the system.
    pub obstacles: Vec<Arc<Obstacle>>,
    /// The room of the tube that is worked on.
    pub rooms: Vec<Room>,
    /// The unit of lengths.
    pub units: LengthUnit,
    /// The tube that is worked on.
    pub tube: TubeId,
}

impl Model {
    /// Of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let units = workbench.system().units();
        let rooms = workbench.solved().clearances.iter().map(|clearance| room(clearance, units)).collect();
        Self { obstacles: workbench.system().obstacles().to_vec(), rooms, units, tube: workbench.system().active() }
    }

    /// Whether a figure among them must look unsure.
    pub fn unsure(&self) -> bool {
        self.rooms.iter().any(|room| room.wanted.contains(crate::widgets::UNSURE))
    }
}

fn room(clearance: &Clearance, units: LengthUnit) -> Room {
    let wanted = units.shown(clearance.wanted.clearance_mm).to_string();
    let least = match &clearance.measured {
        Ok(gap) if clearance.hits() => format!("{} into it", units.shown(-gap.least_mm)),
        Ok(gap) => units.shown(gap.least_mm.max(0.0)).to_string(),
        Err(why) => format!("not measured: {why}"),
    };
    Room {
        to: clearance.to.to_string(),
        kind: clearance.kind.said(),
        least,
        wanted: clearance.wanted.basis.map_or_else(|| wanted.clone(), |ground| figure_text(&wanted, ground)),
        measured: clearance.measured.is_ok(),
        kept: clearance.measured.is_ok() && !clearance.hits() && clearance.missed().is_none(),
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{} obstacles", self.obstacles.len())?;
        for obstacle in &self.obstacles {
            let hidden = if obstacle.hidden { ", hidden" } else { "" };
            let locked = if obstacle.locked { ", locked" } else { "" };
            writeln!(out, "{}: {}{hidden}{locked}", obstacle.name, obstacle.kind.said())?;
        }
        for room in &self.rooms {
            let kept = if room.kept { "kept" } else { "missed" };
            writeln!(out, "to {}: {}, wanted {}, {kept}", room.to, room.least, room.wanted)?;
        }
        Ok(())
    }
}
