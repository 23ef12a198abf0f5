//! What stays where it is while other things are edited: held ends and vertices, and the side of a changed row.

use super::end::End;
use super::nodes::NodeId;

/// What is held of a place of the path.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Hold {
    /// Where it lies: an end or a vertex, or the middle of the arc of a bend whose vertex is far off.
    pub place: bool,
    /// The direction of the tube there: out of the start, into the finish, into and out of a vertex.
    pub direction: bool,
}

impl Hold {
    /// Place and direction.
    pub const BOTH: Self = Self { place: true, direction: true };
    /// The place alone.
    pub const PLACE: Self = Self { place: true, direction: false };
    /// The direction alone.
    pub const DIRECTION: Self = Self { place: false, direction: true };

    /// Whether nothing is held.
    pub const fn is_nothing(self) -> bool {
        !self.place && !self.direction
    }
}

/// What edits leave where it is. What is held lies where it lies in the path: only whoever lets go of it can move it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Keep {
    /// By id, each once, none of nothing.
    held: Vec<(NodeId, Hold)>,
    /// The side that stays where a row is changed and nothing is held: what lies towards this end of the drawing.
    pub side: End,
}

impl Keep {
    /// What a file holds. Of a place named twice the last word counts.
    pub fn new(side: End, held: impl IntoIterator<Item = (NodeId, Hold)>) -> Self {
        let mut keep = Self { held: Vec::new(), side };
        held.into_iter().for_each(|(id, hold)| keep.hold(id, hold));
        keep
    }

    /// What is held of a place.
    pub fn of(&self, id: NodeId) -> Hold {
        self.held.binary_search_by_key(&id, |(id, _)| *id).map_or_else(|_| Hold::default(), |at| self.held[at].1)
    }

    /// Everything that is held, by id.
    pub fn held(&self) -> &[(NodeId, Hold)] {
        &self.held
    }

    /// Holds this of a place, or lets go of it.
    pub(crate) fn hold(&mut self, id: NodeId, hold: Hold) {
        match (self.held.binary_search_by_key(&id, |(id, _)| *id), hold.is_nothing()) {
            (Ok(at), true) => drop(self.held.remove(at)),
            (Ok(at), false) => self.held[at].1 = hold,
            (Err(_), true) => {}
            (Err(at), false) => self.held.insert(at, (id, hold)),
        }
    }
}
