//! Changes to the shop, as values: each is one step that can be taken back, and is refused with the name of its field.

mod die_sets;
mod knowledge;
mod named;
mod tubes;

use elbowroom_geometry::Refusal;

pub use knowledge::{Knowledge, KnowledgeEdit};

use super::guarded::Guard;
use super::limits::LimitFigures;
use super::shop::{DieSetFigures, MachineFigures, Shop};
use super::tube::{Tube, TubeFigures};
use named::named;

/// A change to the shop.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopEdit {
    /// Changes what it knows of one die set in one material.
    Know(KnowledgeEdit),
    /// Gives the shop another name.
    Rename(String),
    /// Says other figures of its machine.
    SetMachine(MachineFigures),
    /// Sets itself other limits.
    SetLimits(LimitFigures),
    /// Takes in a die set, behind those there are.
    AddDie(DieSetFigures),
    /// Says other figures of a die set, its name and clamps among them. What was found out on it goes along.
    ChangeDie {
        /// The name it has gone by.
        name: String,
        /// What is to be known of it.
        to: DieSetFigures,
    },
    /// Takes die sets out by their names, and what was found out on them.
    RemoveDies(Vec<String>),
    /// Takes in a tube to have in stock.
    AddTube(TubeFigures),
    /// Has another tube in the place of one.
    ChangeTube {
        /// The tube as it was.
        was: Tube,
        /// What is to be known of it.
        to: TubeFigures,
    },
    /// Takes a tube out of stock.
    RemoveTube(Tube),
}

impl From<KnowledgeEdit> for ShopEdit {
    fn from(edit: KnowledgeEdit) -> Self {
        Self::Know(edit)
    }
}

impl ShopEdit {
    /// What undo and redo call it.
    pub fn label(&self) -> String {
        match self {
            Self::Know(edit) => edit.label(),
            Self::Rename(name) => format!("call the shop {name}"),
            Self::SetMachine(machine) => format!("change the machine {}", machine.name),
            Self::SetLimits(_) => "change the limits of the shop".to_owned(),
            Self::AddDie(die) => format!("add die set {}", die.name),
            Self::ChangeDie { name, to } if *name != to.name => format!("rename die set {name} to {}", to.name),
            Self::ChangeDie { name, .. } => format!("change die set {name}"),
            Self::RemoveDies(names) if names.len() == 1 => format!("remove die set {}", names[0]),
            Self::RemoveDies(names) => format!("remove {} die sets", names.len()),
            Self::AddTube(tube) => format!("add tube of {} to the stock", tube.material),
            Self::ChangeTube { .. } => "change a tube of the stock".to_owned(),
            Self::RemoveTube(tube) => format!("remove tube of {} from the stock", tube.material),
        }
    }

    /// The shop with this change.
    ///
    /// # Errors
    /// Refuses figures that cannot be, with the name of the field, and what the shop does not have; the shop given stays
    /// as it was.
    pub fn applied_to(&self, shop: &Shop) -> Result<Shop, Refusal> {
        let mut changed = shop.clone();
        match self {
            Self::Know(edit) => return edit.applied_to(shop),
            Self::Rename(name) => changed.name = named("the name of the shop", name)?,
            Self::SetMachine(machine) => {
                named("the name of the machine", &machine.name)?;
                changed.machine = machine.clone().sound()?;
            }
            Self::SetLimits(limits) => changed.limits = limits.sound()?,
            Self::AddDie(die) => die_sets::add(&mut changed, die)?,
            Self::ChangeDie { name, to } => die_sets::change(&mut changed, name, to)?,
            Self::RemoveDies(names) => die_sets::remove(&mut changed, names)?,
            Self::AddTube(tube) => tubes::add(&mut changed, tube)?,
            Self::ChangeTube { was, to } => tubes::change(&mut changed, was, to)?,
            Self::RemoveTube(tube) => {
                let place = tubes::place(&changed, tube)?;
                changed.tubes.remove(place);
            }
        }
        Ok(changed)
    }

    /// A die set that goes by another name from then on: the one it had, and the one it gets.
    pub fn renames_die(&self) -> Option<(&str, &str)> {
        match self {
            Self::ChangeDie { name, to } if *name != to.name => Some((name, &to.name)),
            _ => None,
        }
    }
}
