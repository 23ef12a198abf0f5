//! The way between the ids of a path and the numbers of its bends, straights and vertices.

use elbowroom_geometry::{BendForm, HandleId};

use super::nodes::NodeId;
use super::part::Part;
use super::path::Path;

/// The way between ids and the numbers by which bends, straights and vertices are counted, from 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Numbering {
    ids: Vec<NodeId>,
    /// For each bend, its place in the path.
    bends: Vec<usize>,
    /// Whether the path is held in vertices.
    vertices: bool,
}

impl Numbering {
    /// The numbering of a part whose bend form is known.
    pub fn new(part: &Part, form: &BendForm) -> Self {
        let ids = part.nodes.ids(part.path.places());
        match &part.path {
            Path::Vertices(_) => Self { ids, bends: form.vertex_of_bend.clone(), vertices: true },
            Path::Bends(path) => Self { ids, bends: (1..=path.rows().len()).collect(), vertices: false },
        }
    }

    /// The numbering of a part.
    pub fn of(part: &Part) -> Self {
        match &part.path {
            Path::Vertices(path) => Self::new(part, &path.to_bend_form()),
            Path::Bends(path) => Self {
                ids: part.nodes.ids(part.path.places()),
                bends: (1..=path.rows().len()).collect(),
                vertices: false,
            },
        }
    }

    /// The ids of all places, in the order of the path.
    pub fn ids(&self) -> &[NodeId] {
        &self.ids
    }

    /// How many bends there are.
    pub fn bends(&self) -> usize {
        self.bends.len()
    }

    /// How many vertices a path in vertex form has; 0 in bend form.
    pub fn vertices(&self) -> usize {
        if self.vertices { self.ids.len() } else { 0 }
    }

    /// The place at which the tube starts.
    pub fn start(&self) -> NodeId {
        self.ids.first().copied().unwrap_or(NodeId::NOWHERE)
    }

    /// The place at which it finishes.
    pub fn finish(&self) -> NodeId {
        self.ids.last().copied().unwrap_or(NodeId::NOWHERE)
    }

    /// The id of a bend; [`NodeId::NOWHERE`] where there is none.
    pub fn bend(&self, index: usize) -> NodeId {
        self.bends.get(index).and_then(|&at| self.ids.get(at)).copied().unwrap_or(NodeId::NOWHERE)
    }

    /// The id by which a straight is known, that of the bend it lies before or of the finish.
    pub fn straight(&self, index: usize) -> NodeId {
        if index == self.bends.len() { self.finish() } else { self.bend(index) }
    }

    /// The id of a vertex of a path in vertex form; [`NodeId::NOWHERE`] where there is none.
    pub fn vertex(&self, index: usize) -> NodeId {
        self.ids.get(index).filter(|_| self.vertices).copied().unwrap_or(NodeId::NOWHERE)
    }

    /// A handle by the id of its bend.
    pub fn handle(&self, handle: HandleId) -> HandleId<NodeId> {
        handle.map(|bend| self.bend(bend))
    }

    /// The bend of an id.
    pub fn bend_at(&self, id: NodeId) -> Option<usize> {
        self.bends.binary_search(&self.place(id)?).ok()
    }

    /// The straight of an id.
    pub fn straight_at(&self, id: NodeId) -> Option<usize> {
        if id == self.finish() && id != NodeId::NOWHERE { Some(self.bends.len()) } else { self.bend_at(id) }
    }

    /// The vertex of an id, on a path in vertex form.
    pub fn vertex_at(&self, id: NodeId) -> Option<usize> {
        self.place(id).filter(|_| self.vertices)
    }

    /// The handle of an id.
    pub fn handle_at(&self, handle: HandleId<NodeId>) -> Option<HandleId> {
        handle.try_map(|id| self.bend_at(id))
    }

    /// The place of an id in the path.
    pub fn place(&self, id: NodeId) -> Option<usize> {
        // In a path that was never edited it lies where its number says.
        let guess = id.number() as usize;
        if self.ids.get(guess) == Some(&id) {
            return Some(guess);
        }
        self.ids.iter().position(|other| *other == id)
    }
}

impl Part {
    /// The way between this part's ids and the numbers of its bends, straights and vertices. Whoever has the
    /// solved part at hand finds it there.
    pub fn numbering(&self) -> Numbering {
        Numbering::of(self)
    }

    /// The id of a bend, counted from 0; [`NodeId::NOWHERE`] where there is none.
    pub fn bend_id(&self, index: usize) -> NodeId {
        self.numbering().bend(index)
    }

    /// The id by which a straight is known, counted from 0.
    pub fn straight_id(&self, index: usize) -> NodeId {
        self.numbering().straight(index)
    }

    /// The id of a vertex of a path in vertex form, counted from 0.
    pub fn vertex_id(&self, index: usize) -> NodeId {
        self.numbering().vertex(index)
    }
}
