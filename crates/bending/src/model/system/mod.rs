//! The system: every tube of an exhaust by an id of its own, one of them the tube that is worked on.

mod edit;
mod obstacle;
mod obstacle_edit;
mod refusal;

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{LARGEST_MM, Length, Refusal};

use super::text::harmless;
use crate::Part;

pub use edit::{SystemEdit, SystemEvent};
pub use obstacle::{MeshSource, MeshUnit, Obstacle, ObstacleId, Shape, UpAxis};
pub use obstacle_edit::ObstacleEdit;
pub use refusal::SystemRefusal;

/// A tube of a system by which it is known for as long as it is there. Another tube of the same system never takes
/// its id.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct TubeId(u32);

impl TubeId {
    /// The id of a number, as a file holds it.
    pub const fn new(number: u32) -> Self {
        Self(number)
    }

    /// Its number, as a file holds it.
    pub const fn number(self) -> u32 {
        self.0
    }
}

/// A tube with its place in a system. It is called what its part is called.
#[derive(Clone, Debug, PartialEq)]
pub struct SystemTube {
    /// By which it is known.
    pub id: TubeId,
    /// Whether the scene leaves it out. The tube that is worked on never is.
    pub hidden: bool,
    /// What is drawn.
    pub part: Arc<Part>,
}

impl SystemTube {
    /// What it is called.
    pub fn name(&self) -> &str {
        &self.part.name
    }
}

/// The tubes of one exhaust. There is always one at least, no two share an id or a name, all show lengths in the
/// same unit, and one of them, which is not hidden, is worked on. A single tube is the smallest system.
#[derive(Clone, Debug, PartialEq)]
pub struct System {
    name: String,
    units: LengthUnit,
    tubes: Vec<SystemTube>,
    active: TubeId,
    /// How high the floor lies, along z.
    floor: Length,
    /// Ids from this number on were never given.
    next: u32,
    /// What stands around the tubes.
    obstacles: Vec<Arc<Obstacle>>,
    /// Ids of obstacles from this number on were never given.
    next_obstacle: u32,
}

impl System {
    /// The largest number of tubes that are taken.
    pub const MOST_TUBES: usize = 1000;

    /// The largest number of obstacles that are taken.
    pub const MOST_OBSTACLES: usize = 1000;

    /// The system of a single tube. It needs no name of its own.
    pub fn of(part: impl Into<Arc<Part>>) -> Self {
        let part = part.into();
        let id = TubeId(1);
        let units = part.units;
        let tubes = vec![SystemTube { id, hidden: false, part }];
        let (obstacles, next_obstacle) = (Vec::new(), 1);
        Self { name: String::new(), units, tubes, active: id, floor: Length::ZERO, next: 2, obstacles, next_obstacle }
    }

    /// A system of these tubes; `active` is worked on. Every tube comes to show lengths in `units`.
    ///
    /// # Errors
    /// Refuses none and too many tubes, an id or a name that stands twice, and an active tube that is not there or is
    /// hidden.
    pub fn new(
        name: impl AsRef<str>,
        units: LengthUnit,
        tubes: Vec<SystemTube>,
        active: TubeId,
    ) -> Result<Self, Refusal> {
        if tubes.is_empty() || tubes.len() > Self::MOST_TUBES {
            let may_be = format!("from 1 to {}", Self::MOST_TUBES);
            return Err(Refusal::new("the number of tubes", tubes.len().to_string(), may_be));
        }
        guard_each_once(&tubes)?;
        match tubes.iter().find(|tube| tube.id == active) {
            None => {
                let known: Vec<_> = tubes.iter().map(|tube| tube.id.0.to_string()).collect();
                let may_be = format!("the id of a tube of this system: {}", known.join(", "));
                return Err(Refusal::new("the id of the active tube", active.0.to_string(), may_be));
            }
            Some(tube) if tube.hidden => {
                let field = format!("the active tube, \u{201c}{}\u{201d},", tube.name());
                return Err(Refusal::new(field, "hidden", "shown"));
            }
            Some(_) => {}
        }
        let next = tubes.iter().map(|tube| tube.id.0.saturating_add(1)).fold(1, u32::max);
        let name = harmless(name.as_ref()).into_owned();
        let (floor, obstacles, next_obstacle) = (Length::ZERO, Vec::new(), 1);
        let mut system = Self { name, units, tubes, active, floor, next, obstacles, next_obstacle };
        system.show_units(units);
        Ok(system)
    }

    /// What the whole is called; empty where nobody has named it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What a title calls it: its own name, else that of the only tube or of the one that is worked on.
    pub fn title(&self) -> &str {
        if self.name.trim().is_empty() { self.active_tube().name() } else { &self.name }
    }

    /// The unit in which lengths are shown and typed.
    pub fn units(&self) -> LengthUnit {
        self.units
    }

    /// How high the floor lies that heights are seen from, along z: a datum that somebody has set, zero until then.
    pub fn floor(&self) -> Length {
        self.floor
    }

    /// The same on another floor.
    ///
    /// # Errors
    /// Refuses a height beyond what coordinates reach.
    pub fn on_floor(mut self, floor: Length) -> Result<Self, Refusal> {
        let most = Length::from_mm(LARGEST_MM);
        if !floor.is_finite() || floor.abs() > most {
            return Err(Refusal::out_of("the height of the floor", floor, -most, most));
        }
        self.floor = floor;
        Ok(self)
    }

    /// What stands around the tubes, in the order in which it is listed.
    pub fn obstacles(&self) -> &[Arc<Obstacle>] {
        &self.obstacles
    }

    /// The obstacle of an id.
    pub fn obstacle(&self, id: ObstacleId) -> Option<&Arc<Obstacle>> {
        self.obstacles.iter().find(|obstacle| obstacle.id == id)
    }

    /// The same among these obstacles.
    ///
    /// # Errors
    /// Refuses too many, numbers that cannot be, and an id or a name that stands twice.
    pub fn among(mut self, obstacles: Vec<Obstacle>) -> Result<Self, Refusal> {
        if obstacles.len() > Self::MOST_OBSTACLES {
            let may_be = format!("{} or fewer", Self::MOST_OBSTACLES);
            return Err(Refusal::new("the number of obstacles", obstacles.len().to_string(), may_be));
        }
        let (mut ids, mut names) = (HashSet::new(), HashSet::new());
        let mut checked = Vec::with_capacity(obstacles.len());
        for obstacle in obstacles {
            let obstacle = obstacle.checked()?;
            let whose = format!("of the obstacle \u{201c}{}\u{201d}", obstacle.name);
            let not_once = |field: &str| Refusal::new(format!("{field} {whose}"), "that of another one too", "its own");
            if !ids.insert(obstacle.id) {
                return Err(not_once("the id"));
            }
            if !names.insert(obstacle.name.clone()) {
                return Err(not_once("the name"));
            }
            self.next_obstacle = self.next_obstacle.max(obstacle.id.number().saturating_add(1));
            checked.push(Arc::new(obstacle));
        }
        self.obstacles = checked;
        Ok(self)
    }

    /// The number from which on no id of an obstacle was given.
    pub fn next_obstacle(&self) -> u32 {
        self.next_obstacle
    }

    /// Gives no id below this number to a new obstacle, likewise.
    pub fn keep_obstacles_clear_of(&mut self, next: u32) {
        self.next_obstacle = self.next_obstacle.max(next);
    }

    /// The tubes, in the order in which they are listed.
    pub fn tubes(&self) -> &[SystemTube] {
        &self.tubes
    }

    /// The id of the tube that is worked on.
    pub fn active(&self) -> TubeId {
        self.active
    }

    /// The tube that is worked on.
    pub fn active_tube(&self) -> &SystemTube {
        self.tube(self.active).unwrap_or(&self.tubes[0])
    }

    /// The next tube of the list that is shown, after the last one the first; the same where there is no other.
    pub fn next_shown(&self) -> TubeId {
        let place = self.place(self.active).unwrap_or(0);
        let order = self.tubes[place..].iter().skip(1).chain(&self.tubes[..place]);
        order.into_iter().find(|tube| !tube.hidden).map_or(self.active, |tube| tube.id)
    }

    /// The tube of an id.
    pub fn tube(&self, id: TubeId) -> Option<&SystemTube> {
        self.tubes.iter().find(|tube| tube.id == id)
    }

    /// The tube of that name.
    pub fn tube_named(&self, name: &str) -> Option<&SystemTube> {
        self.tubes.iter().find(|tube| tube.name() == name)
    }

    /// The names of all tubes as a person is told them, such as `"Downpipe" and "Tail"`.
    pub fn names_told(&self) -> String {
        let quoted: Vec<_> = self.tubes.iter().map(|tube| format!("\u{201c}{}\u{201d}", tube.name())).collect();
        match quoted.split_last() {
            Some((last, [])) => last.clone(),
            Some((last, before)) => format!("{} and {last}", before.join(", ")),
            None => String::new(),
        }
    }

    /// The number from which on no id was given.
    pub fn next(&self) -> u32 {
        self.next
    }

    /// Gives no id below this number to a new tube: those were given to tubes that are gone by now.
    pub fn keep_clear_of(&mut self, next: u32) {
        self.next = self.next.max(next);
    }

    /// Gives no id below this number to a new place of a tube, likewise.
    pub fn keep_places_clear_of(&mut self, id: TubeId, next: u32) {
        if let Some(tube) = self.tubes.iter_mut().find(|tube| tube.id == id)
            && tube.part.nodes.next(0) < next
        {
            Arc::make_mut(&mut tube.part).nodes.keep_clear_of(next);
        }
    }

    /// Whether both hold the same work, whichever tube is worked on.
    pub fn holds_the_same_as(&self, other: &Self) -> bool {
        let alike = |one: &SystemTube, two: &SystemTube| {
            let same_part = Arc::ptr_eq(&one.part, &two.part) || one.part == two.part;
            one.id == two.id && one.hidden == two.hidden && same_part
        };
        self.name == other.name
            && self.units == other.units
            && self.floor == other.floor
            && self.obstacles == other.obstacles
            && self.tubes.len() == other.tubes.len()
            && self.tubes.iter().zip(&other.tubes).all(|(one, two)| alike(one, two))
    }

    /// A name like this one that no tube has yet: itself, else with the next number behind it.
    pub fn free_name(&self, like: &str) -> String {
        if self.tube_named(like).is_none() {
            return like.to_owned();
        }
        let stem = like.trim_end_matches(|sign: char| sign.is_ascii_digit());
        let (stem, first) = match like[stem.len()..].parse::<u32>() {
            Ok(number) if stem.ends_with(' ') => (stem.trim_end(), number.saturating_add(1)),
            _ => (like, 2),
        };
        let named = |number: u32| format!("{stem} {number}").trim_start().to_owned();
        (first..).map(named).find(|name| self.tube_named(name).is_none()).unwrap_or_default()
    }

    fn place(&self, id: TubeId) -> Option<usize> {
        self.tubes.iter().position(|tube| tube.id == id)
    }

    fn show_units(&mut self, units: LengthUnit) {
        self.units = units;
        for tube in self.tubes.iter_mut().filter(|tube| tube.part.units != units) {
            Arc::make_mut(&mut tube.part).units = units;
        }
    }
}

/// Passes tubes of which no two share an id or a name.
fn guard_each_once(tubes: &[SystemTube]) -> Result<(), Refusal> {
    let mut ids: HashMap<TubeId, &SystemTube> = HashMap::new();
    let mut names: HashSet<&str> = HashSet::new();
    for tube in tubes {
        let name = tube.name();
        if let Some(other) = ids.insert(tube.id, tube) {
            let field = format!("the id of the tube \u{201c}{name}\u{201d}");
            let was = format!("{}, as is that of \u{201c}{}\u{201d}", tube.id.0, other.name());
            return Err(Refusal::new(field, was, "one that no other tube of the system has"));
        }
        if !names.insert(name) {
            let field = format!("the name \u{201c}{name}\u{201d}");
            return Err(Refusal::new(field, "that of two tubes", "that of one tube alone"));
        }
    }
    Ok(())
}
