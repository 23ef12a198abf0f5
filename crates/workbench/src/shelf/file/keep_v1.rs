//! What edits leave where it is, as it stands in system files since version 3.

use elbowroom_bending::{End, Hold, Keep, NodeId};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::measured_v1::EndV1;

/// What stays.
#[derive(Clone, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct KeepV1 {
    /// The side of a changed row that stays.
    side: EndV1,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    held: Vec<HoldV1>,
}

/// What is held of a place of the path, which goes by its number.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct HoldV1 {
    at: u32,
    #[serde(default)]
    place: bool,
    #[serde(default)]
    direction: bool,
}

impl KeepV1 {
    /// What is to be written; `None` where nothing is.
    pub fn of(keep: &Keep) -> Option<Self> {
        let held =
            |(id, hold): &(NodeId, Hold)| HoldV1 { at: id.number(), place: hold.place, direction: hold.direction };
        let stored = Self { side: keep.side.into(), held: keep.held().iter().map(held).collect() };
        (*keep != Keep::default()).then_some(stored)
    }

    /// Passes what is held: places of the path, each once. Those without numbers of their own count from 0.
    pub fn guard(&self, name: &str, ids: &[u32], places: usize) -> Result<(), Refusal> {
        let is_place = |at: u32| if ids.is_empty() { (at as usize) < places } else { ids.contains(&at) };
        let wrong =
            self.held.iter().enumerate().find(|(place, hold)| {
                !is_place(hold.at) || self.held[..*place].iter().any(|other| other.at == hold.at)
            });
        wrong.map_or(Ok(()), |(_, hold)| {
            let field = format!("what is held of the tube \u{201c}{name}\u{201d}");
            Err(Refusal::new(field, format!("at {}", hold.at), "at the number of a place of its path, each once"))
        })
    }

    /// What stays.
    pub fn live(self) -> Keep {
        let held = self.held.into_iter();
        let held = held.map(|hold| (NodeId::new(hold.at), Hold { place: hold.place, direction: hold.direction }));
        Keep::new(End::from(self.side), held)
    }
}
