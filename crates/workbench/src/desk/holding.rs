//! What of the selection can be held, and the edit that holds it or frees it.

use elbowroom_bending::{Edit, Hold, Keep, NodeId, Numbering};
use elbowroom_geometry::HandleId;

use super::selection::{Selection, Target};

/// The ends and vertices that are selected, each once. A straight is no place that could be held.
pub fn holdable(selection: &Selection<NodeId>, nodes: &Numbering) -> Vec<NodeId> {
    let mut places: Vec<NodeId> = Vec::new();
    for target in selection.targets() {
        let place = match *target {
            Target::Straight(_) => continue,
            Target::Handle(HandleId::Start) => nodes.start(),
            Target::Handle(HandleId::Finish) => nodes.finish(),
            Target::Handle(HandleId::Vertex(id) | HandleId::ArcStart(id) | HandleId::ArcEnd(id)) => id,
            Target::Bend(id) | Target::Vertex(id) => id,
        };
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places
}

/// Holds this of places; where all of it is held of all of them already, frees it. `None` where there is no place.
pub fn hold_or_free(places: &[NodeId], what: Hold, keep: &Keep) -> Option<Edit> {
    let held = |id: &NodeId| keep.of(*id);
    let all = places.iter().map(held).all(|has| (has.place || !what.place) && (has.direction || !what.direction));
    let edit = |id: &NodeId| {
        let has = held(id);
        let hold = Hold {
            place: if what.place { !all } else { has.place },
            direction: if what.direction { !all } else { has.direction },
        };
        Edit::Hold(*id, hold)
    };
    match places {
        [] => None,
        [one] => Some(edit(one)),
        several => {
            let count = several.len();
            let label = if all { format!("free {count} places") } else { format!("hold {count} places") };
            Some(Edit::Together(label, several.iter().map(edit).collect()))
        }
    }
}
