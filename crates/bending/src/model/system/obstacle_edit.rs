//! Every change to an obstacle, as a value.

use std::sync::Arc;

use elbowroom_geometry::{Frame, Length};

use super::obstacle::{Obstacle, ObstacleId, Shape};
use super::{System, SystemRefusal};
use crate::model::surrounding::ObstacleKind;

/// A change to one obstacle.
#[derive(Clone, Debug, PartialEq)]
pub enum ObstacleEdit {
    /// Gives it another name.
    Rename(String),
    /// Makes it of something else, such as the same file taken in again.
    Reshape(Shape),
    /// Stands it elsewhere.
    Place(Frame),
    /// Says what it is.
    SetKind(ObstacleKind),
    /// Lays down how far a tube keeps clear of it; `None` leaves that to its kind.
    SetClearance(Option<Length>),
    /// Leaves it out of the scene, or shows it again.
    SetHidden(bool),
    /// Holds it where it stands, or frees it.
    SetLocked(bool),
}

impl ObstacleEdit {
    /// What undo and redo call this change of an obstacle of that name.
    pub(super) fn label(&self, name: &str) -> String {
        let does = match self {
            Self::Rename(_) => "rename",
            Self::Reshape(_) => "reshape",
            Self::Place(_) => "move",
            Self::SetKind(_) => "say the kind of",
            Self::SetClearance(_) => "set the clearance of",
            Self::SetHidden(true) => "hide",
            Self::SetHidden(false) => "show",
            Self::SetLocked(true) => "lock",
            Self::SetLocked(false) => "unlock",
        };
        format!("{does} obstacle \u{201c}{name}\u{201d}")
    }

    fn moves(&self) -> bool {
        matches!(self, Self::Reshape(_) | Self::Place(_))
    }
}

/// Takes in an obstacle under an id of its own; where its name is taken it gets a number behind it.
pub(super) fn add(system: &mut System, obstacle: &Obstacle) -> Result<(), SystemRefusal> {
    if system.obstacles.len() >= System::MOST_OBSTACLES {
        let most = System::MOST_OBSTACLES;
        let was = (most + 1).to_string();
        return Err(elbowroom_geometry::Refusal::new("the number of obstacles", was, format!("{most} or fewer")).into());
    }
    let mut obstacle = obstacle.clone().checked()?;
    let taken = |name: &str| system.obstacles.iter().any(|other| other.name == name);
    if taken(&obstacle.name) {
        let numbered = (2_u32..).map(|number| format!("{} {number}", obstacle.name));
        obstacle.name = numbered.into_iter().find(|name| !taken(name)).unwrap_or_default();
    }
    obstacle.id = ObstacleId::new(system.next_obstacle);
    system.next_obstacle = system.next_obstacle.saturating_add(1);
    system.obstacles.push(Arc::new(obstacle));
    Ok(())
}

/// Makes a change to an obstacle.
pub(super) fn change(system: &mut System, id: ObstacleId, edit: &ObstacleEdit) -> Result<(), SystemRefusal> {
    let place = free(system, id, edit.moves())?;
    let mut obstacle = Obstacle::clone(&system.obstacles[place]);
    match edit.clone() {
        ObstacleEdit::Rename(name) => obstacle.name = name,
        ObstacleEdit::Reshape(shape) => obstacle.shape = shape,
        ObstacleEdit::Place(placement) => obstacle.placement = placement,
        ObstacleEdit::SetKind(kind) => obstacle.kind = kind,
        ObstacleEdit::SetClearance(clearance) => obstacle.clearance = clearance,
        ObstacleEdit::SetHidden(hidden) => obstacle.hidden = hidden,
        ObstacleEdit::SetLocked(locked) => obstacle.locked = locked,
    }
    let obstacle = obstacle.checked()?;
    let taken = |other: &Arc<Obstacle>| other.id != id && other.name == obstacle.name;
    if system.obstacles.iter().any(taken) {
        return Err(SystemRefusal::ObstacleNameTaken(obstacle.name));
    }
    if obstacle != *system.obstacles[place] {
        system.obstacles[place] = Arc::new(obstacle);
    }
    Ok(())
}

/// Takes an obstacle out.
pub(super) fn remove(system: &mut System, id: ObstacleId) -> Result<(), SystemRefusal> {
    let place = free(system, id, true)?;
    system.obstacles.remove(place);
    Ok(())
}

/// The place of an obstacle, which is not locked where that counts.
fn free(system: &System, id: ObstacleId, counts: bool) -> Result<usize, SystemRefusal> {
    let place = system.obstacles.iter().position(|obstacle| obstacle.id == id);
    let place = place.ok_or(SystemRefusal::NoSuchObstacle(id))?;
    let obstacle = &system.obstacles[place];
    if counts && obstacle.locked {
        return Err(SystemRefusal::ObstacleLocked(obstacle.name.clone()));
    }
    Ok(place)
}
