//! Every change to a system, as a value, and what it changed.

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use elbowroom_geometry::{Length, Point3, Vector3};

use super::obstacle::{Obstacle, ObstacleId};
use super::obstacle_edit::{self, ObstacleEdit};
use super::{System, SystemRefusal, SystemTube, TubeId};
use crate::model::text::harmless;
use crate::{Edit, Motion, Part, Path};

/// A change to a system. Its tubes go by their ids.
#[derive(Clone, Debug, PartialEq)]
pub enum SystemEdit {
    /// Gives the whole another name.
    Rename(String),
    /// Changes one tube.
    ChangeTube(TubeId, Edit),
    /// Takes in a further tube, which is worked on from then on. Where its name is taken it gets a number behind it.
    AddTube(Arc<Part>),
    /// Takes in a copy of a tube, laid beside it, which is worked on from then on.
    DuplicateTube(TubeId),
    /// Takes a tube out. Where it was worked on, the next one is.
    RemoveTube(TubeId),
    /// Leaves a tube out of the scene. Where it was worked on, the next one that is shown is.
    HideTube(TubeId),
    /// Shows it again.
    ShowTube(TubeId),
    /// Shows every tube.
    ShowEveryTube,
    /// Turns to another tube: it is worked on from then on, and shown.
    Activate(TubeId),
    /// Takes in a copy of a tube on the other side of the plane through a point (mm), square to a direction. It is worked
    /// on from then on.
    MirrorTube(TubeId, Point3<f64>, Vector3<f64>),
    /// Lays the floor at a height along z.
    SetFloor(Length),
    /// Takes in an obstacle, under an id of its own. Where its name is taken it gets a number behind it.
    AddObstacle(Arc<Obstacle>),
    /// Changes an obstacle.
    ChangeObstacle(ObstacleId, ObstacleEdit),
    /// Takes an obstacle out.
    RemoveObstacle(ObstacleId),
}

/// What is other than it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SystemEvent {
    /// The name of the whole.
    Renamed,
    /// The height of the floor.
    FloorLaid,
    /// This tube came in.
    Added(TubeId),
    /// This tube is gone.
    Removed(TubeId),
    /// What is drawn of this tube, its name or anything else of its part.
    Changed(TubeId),
    /// Whether this tube is hidden.
    Shown(TubeId),
    /// This tube is worked on now.
    Activated(TubeId),
    /// This obstacle came in, is gone, or is other than it was.
    Obstacle(ObstacleId),
}

impl SystemEvent {
    /// Everything that is other in one system than in another, an earlier state of it.
    pub fn between(before: &System, after: &System) -> Vec<Self> {
        // Asked for at every step, of every tube: looking for each among all the others would grow with their square.
        let was: HashMap<TubeId, &SystemTube> = before.tubes.iter().map(|tube| (tube.id, tube)).collect();
        let stays: HashSet<TubeId> = after.tubes.iter().map(|tube| tube.id).collect();
        let mut events = Vec::new();
        if before.name != after.name {
            events.push(Self::Renamed);
        }
        if before.floor != after.floor {
            events.push(Self::FloorLaid);
        }
        events.extend(before.tubes.iter().map(|tube| tube.id).filter(|id| !stays.contains(id)).map(Self::Removed));
        for tube in &after.tubes {
            match was.get(&tube.id) {
                None => events.push(Self::Added(tube.id)),
                Some(was) => {
                    if !Arc::ptr_eq(&was.part, &tube.part) {
                        events.push(Self::Changed(tube.id));
                    }
                    if was.hidden != tube.hidden {
                        events.push(Self::Shown(tube.id));
                    }
                }
            }
        }
        if before.obstacles != after.obstacles {
            let other = |one: &System, obstacle: &&Arc<Obstacle>| one.obstacle(obstacle.id) != Some(*obstacle);
            let changed = after.obstacles.iter().filter(|obstacle| other(before, obstacle));
            let gone = before.obstacles.iter().filter(|obstacle| after.obstacle(obstacle.id).is_none());
            events.extend(gone.chain(changed).map(|obstacle| Self::Obstacle(obstacle.id)));
        }
        if before.active != after.active {
            events.push(Self::Activated(after.active));
        }
        events
    }
}

impl SystemEdit {
    /// The system with this change made. Tubes that it leaves alone stay the very same.
    ///
    /// # Errors
    /// Says why the change cannot be made; the system given stays as it was.
    pub fn applied_to(&self, system: &System) -> Result<System, SystemRefusal> {
        let mut system = system.clone();
        match self {
            Self::Rename(name) => system.name = harmless(name).into_owned(),
            Self::ChangeTube(id, edit) => change(&mut system, *id, edit)?,
            Self::AddTube(part) => {
                let end = system.tubes.len();
                add(&mut system, end, Arc::clone(part))?;
            }
            Self::DuplicateTube(id) => {
                let copy = beside(&found(&system, *id)?.part)?;
                let behind = system.place(*id).map_or(system.tubes.len(), |place| place + 1);
                add(&mut system, behind, copy.into())?;
            }
            Self::MirrorTube(id, through, normal) => {
                let mirror = Edit::Move(Motion::Mirrored { through: *through, normal: *normal });
                let copy = mirror.applied_to(&found(&system, *id)?.part)?;
                let behind = system.place(*id).map_or(system.tubes.len(), |place| place + 1);
                add(&mut system, behind, copy.into())?;
            }
            Self::RemoveTube(id) => remove(&mut system, *id)?,
            Self::HideTube(id) => {
                let name = found(&system, *id)?.name().to_owned();
                set_hidden(&mut system, *id, true);
                if system.tubes.iter().all(|tube| tube.hidden) {
                    return Err(SystemRefusal::LastShown(name));
                }
                if system.active == *id
                    && let Some(place) = system.place(*id)
                {
                    turn_to_next(&mut system, place);
                }
            }
            Self::ShowTube(id) => {
                found(&system, *id)?;
                set_hidden(&mut system, *id, false);
            }
            Self::ShowEveryTube => system.tubes.iter_mut().for_each(|tube| tube.hidden = false),
            Self::Activate(id) => {
                found(&system, *id)?;
                set_hidden(&mut system, *id, false);
                system.active = *id;
            }
            Self::SetFloor(height) => system = system.on_floor(*height)?,
            Self::AddObstacle(obstacle) => obstacle_edit::add(&mut system, obstacle)?,
            Self::ChangeObstacle(id, edit) => obstacle_edit::change(&mut system, *id, edit)?,
            Self::RemoveObstacle(id) => obstacle_edit::remove(&mut system, *id)?,
        }
        Ok(system)
    }

    /// What undo and redo call this change, such as `remove tube “Tail”`.
    pub fn label(&self, system: &System) -> String {
        let name = |id: TubeId| system.tube(id).map_or("", SystemTube::name);
        match self {
            Self::Rename(_) => "rename the system".to_owned(),
            Self::ChangeTube(id, edit) => system.tube(*id).map(|tube| edit.label(&tube.part)).unwrap_or_default(),
            Self::AddTube(_) => "add a tube".to_owned(),
            Self::DuplicateTube(id) => format!("copy tube \u{201c}{}\u{201d}", name(*id)),
            Self::MirrorTube(id, ..) => format!("mirror tube \u{201c}{}\u{201d}", name(*id)),
            Self::RemoveTube(id) => format!("remove tube \u{201c}{}\u{201d}", name(*id)),
            Self::HideTube(id) => format!("hide tube \u{201c}{}\u{201d}", name(*id)),
            Self::ShowTube(id) => format!("show tube \u{201c}{}\u{201d}", name(*id)),
            Self::ShowEveryTube => "show every tube".to_owned(),
            Self::SetFloor(_) => "lay the floor".to_owned(),
            Self::AddObstacle(_) => "add an obstacle".to_owned(),
            Self::ChangeObstacle(id, edit) => edit.label(system.obstacle(*id).map_or("", |obstacle| &obstacle.name)),
            Self::RemoveObstacle(id) => {
                let name = system.obstacle(*id).map_or("", |obstacle| &obstacle.name);
                format!("remove obstacle \u{201c}{name}\u{201d}")
            }
            Self::Activate(id) => format!("turn to tube \u{201c}{}\u{201d}", name(*id)),
        }
    }
}

fn found(system: &System, id: TubeId) -> Result<&SystemTube, SystemRefusal> {
    system.tube(id).ok_or_else(|| SystemRefusal::NoSuchTube { id, has: system.names_told() })
}

fn change(system: &mut System, id: TubeId, edit: &Edit) -> Result<(), SystemRefusal> {
    let before = Arc::clone(&found(system, id)?.part);
    let part = edit.applied_to(&before)?;
    let taken = |other: &SystemTube| other.id != id && other.name() == part.name;
    if part.name != before.name && system.tubes.iter().any(taken) {
        return Err(SystemRefusal::NameTaken(part.name));
    }
    let units = part.units;
    if part != *before
        && let Some(place) = system.place(id)
    {
        system.tubes[place].part = Arc::new(part);
    }
    // There is one unit for the whole.
    if units != system.units {
        system.show_units(units);
    }
    Ok(())
}

fn add(system: &mut System, place: usize, mut part: Arc<Part>) -> Result<(), SystemRefusal> {
    if system.tubes.len() >= System::MOST_TUBES {
        let most = System::MOST_TUBES;
        let was = (most + 1).to_string();
        return Err(elbowroom_geometry::Refusal::new("the number of tubes", was, format!("{most} or fewer")).into());
    }
    let name = system.free_name(&part.name);
    if name != part.name || part.units != system.units {
        let part = Arc::make_mut(&mut part);
        part.name = name;
        part.units = system.units;
    }
    let id = TubeId(system.next);
    system.next = system.next.saturating_add(1);
    system.tubes.insert(place, SystemTube { id, hidden: false, part });
    system.active = id;
    Ok(())
}

fn remove(system: &mut System, id: TubeId) -> Result<(), SystemRefusal> {
    let tube = found(system, id)?;
    if system.tubes.len() == 1 {
        return Err(SystemRefusal::LastTube(tube.name().to_owned()));
    }
    let Some(place) = system.place(id) else { return Ok(()) };
    system.tubes.remove(place);
    if system.active == id {
        turn_to_next(system, place);
    }
    Ok(())
}

/// Turns to the tube at a place or behind it, else to the one before: to one that is shown, where there is one.
fn turn_to_next(system: &mut System, place: usize) {
    let order = || (place..system.tubes.len()).chain((0..place).rev());
    let next = order().find(|&place| !system.tubes[place].hidden).or_else(|| order().next()).unwrap_or(0);
    system.tubes[next].hidden = false;
    system.active = system.tubes[next].id;
}

fn set_hidden(system: &mut System, id: TubeId, hidden: bool) {
    if let Some(place) = system.place(id) {
        system.tubes[place].hidden = hidden;
    }
}

/// How far beside a tube its copy is laid, as a multiple of the outside diameter: so far that both are seen.
const BESIDE_DIAMETERS: f64 = 2.0;

impl Part {
    /// Where the drawing starts.
    pub fn start(&self) -> Point3<f64> {
        match &self.path {
            Path::Vertices(path) => path.points().first().copied().unwrap_or_else(Point3::origin),
            Path::Bends(path) => path.start().origin,
        }
    }

    /// The part laid elsewhere: its start where another tube starts, and beside it.
    ///
    /// # Errors
    /// Where it would lie beyond what coordinates reach.
    pub fn beside(&self, other: &Self) -> Result<Self, SystemRefusal> {
        let apart: Length = (self.tube.od + other.tube.od) * (BESIDE_DIAMETERS / 2.0);
        let to = other.start() + Vector3::new(0.0, apart.mm(), 0.0);
        Ok(Edit::SetStart(to).applied_to(self)?)
    }
}

fn beside(part: &Part) -> Result<Part, SystemRefusal> {
    part.beside(part)
}
