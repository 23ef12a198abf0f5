//! Which place of the path is which: ids that survive insertion, removal, turning round and a change of form.

use elbowroom_geometry::{BendForm, HandleId};

use crate::{Part, Path};

/// A place of a part's path by which it is known for as long as it is there: the start, a vertex or bend, the
/// finish. Another place of the same part never takes its id. A straight is known by the place it leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NodeId(u32);

impl NodeId {
    /// Names no place of any part.
    pub const NOWHERE: Self = Self(u32::MAX);

    /// The id of a number, as a file holds it.
    pub const fn new(number: u32) -> Self {
        Self(number)
    }

    /// Its number, as a file holds it.
    pub const fn number(self) -> u32 {
        self.0
    }
}

/// The ids of a part's path, one for each vertex, or for each row with the two ends about them.
///
/// A path that was never edited is numbered in its order. Which place is which is no part of what is drawn: two
/// parts that are drawn alike are equal.
#[derive(Clone, Debug, Default)]
pub struct Nodes {
    /// In the order of the path; empty while the path is numbered in its order.
    ids: Vec<NodeId>,
    /// Ids from this number on were never given.
    next: u32,
}

impl PartialEq for Nodes {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Nodes {
    /// Takes the ids that a file holds.
    pub fn from_ids(ids: Vec<NodeId>, next: u32) -> Self {
        let next = ids.iter().map(|id| id.0.saturating_add(1)).fold(next, u32::max);
        Self { ids, next }
    }

    /// The ids of a path of so many places.
    pub fn ids(&self, places: usize) -> Vec<NodeId> {
        if self.ids.len() == places {
            return self.ids.clone();
        }
        // Never edited, or put there as a whole: numbered in its order, after all that were given before.
        let first = if self.ids.is_empty() { 0 } else { self.next };
        (first..).take(places).map(NodeId).collect()
    }

    /// The number from which on no id was given, for a path of so many places.
    pub fn next(&self, places: usize) -> u32 {
        self.ids(places).iter().map(|id| id.0.saturating_add(1)).fold(self.next, u32::max)
    }

    /// Gives no id below this number to a new place: those were given to places that are gone by now.
    pub fn keep_clear_of(&mut self, next: u32) {
        self.next = self.next.max(next);
    }

    /// The ids after an edit: each place of the new path is the place before that it came from, or new.
    pub(crate) fn after(&self, places_before: usize, from: &[Option<usize>]) -> Self {
        let before = self.ids(places_before);
        let mut next = self.next(places_before);
        let ids = from.iter().map(|from| match from.and_then(|at| before.get(at)) {
            Some(id) => *id,
            None => {
                let id = NodeId(next);
                next = next.saturating_add(1);
                id
            }
        });
        let ids = ids.collect();
        Self { ids, next }
    }
}

/// How many places a path has: each vertex, or each row and the two ends.
pub(crate) fn places(path: &Path) -> usize {
    match path {
        Path::Vertices(path) => path.points().len(),
        Path::Bends(path) => path.rows().len() + 2,
    }
}

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
        let ids = part.nodes.ids(places(&part.path));
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
                ids: part.nodes.ids(places(&part.path)),
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
        let guess = id.0 as usize;
        if self.ids.get(guess) == Some(&id) {
            return Some(guess);
        }
        self.ids.iter().position(|other| *other == id)
    }
}

impl Path {
    /// How many places it has that are known by an id: each vertex, or each row and the two ends.
    pub fn places(&self) -> usize {
        places(self)
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
