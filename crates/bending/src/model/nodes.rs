//! Which place of the path is which: ids that survive insertion, removal, turning round and a change of form.

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
