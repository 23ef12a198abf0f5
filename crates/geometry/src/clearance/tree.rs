//! A tree of boxes over the elements in their order along the tube, which is an order in space as well.

use super::piece::Piece;
use crate::{BoundingBox, Element};

/// An element that has a length.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Leaf {
    /// Its number.
    pub element: usize,
    /// The whole of it.
    pub piece: Piece,
}

/// The elements that have a length, and the boxes over them.
pub(crate) struct Tree {
    leaves: Vec<Leaf>,
    /// A full binary tree in heap order: children of `k` are `2k + 1` and `2k + 2`.
    boxes: Vec<BoundingBox>,
}

/// A node of the tree: its place in the heap and the leaves it covers.
#[derive(Clone, Copy)]
struct Node {
    place: usize,
    from: usize,
    to: usize,
}

impl Node {
    fn is_leaf(self) -> bool {
        self.to - self.from == 1
    }

    fn children(self) -> [Self; 2] {
        let middle = self.from.midpoint(self.to);
        [
            Self { place: 2 * self.place + 1, from: self.from, to: middle },
            Self { place: 2 * self.place + 2, from: middle, to: self.to },
        ]
    }
}

impl Tree {
    /// Builds the tree over the elements of a centreline.
    pub fn of(elements: &[Element]) -> Self {
        let leaf = |element: usize| {
            // The next element starts where this one ends; taking that saves solving the end again.
            let next = elements.get(element + 1).map(|next| next.start.origin);
            Leaf { element, piece: Piece::whole(&elements[element], next) }
        };
        let with_length = (0..elements.len()).filter(|index| elements[*index].length_mm > 0.0);
        let mut leaves: Vec<Leaf> = Vec::with_capacity(elements.len());
        leaves.extend(with_length.map(leaf));
        let empty = BoundingBox::of_point(elements[0].start.origin);
        let mut tree = Self { boxes: vec![empty; 2 * leaves.len().next_power_of_two()], leaves };
        if let Some(root) = tree.root() {
            tree.fill(root, elements);
        }
        tree
    }

    fn root(&self) -> Option<Node> {
        (!self.leaves.is_empty()).then_some(Node { place: 0, from: 0, to: self.leaves.len() })
    }

    fn fill(&mut self, node: Node, elements: &[Element]) -> BoundingBox {
        let held = if node.is_leaf() {
            let leaf = &self.leaves[node.from];
            leaf.piece.bounding_box(&elements[leaf.element])
        } else {
            let [low, high] = node.children();
            self.fill(low, elements).union(&self.fill(high, elements))
        };
        self.boxes[node.place] = held;
        held
    }

    /// Visits every pair of elements (the first one before or the same as the second) whose boxes come
    /// within `reach_mm`, until `visit` returns `false`.
    pub fn pairs_within(&self, reach_mm: f64, visit: &mut impl FnMut(&Leaf, &Leaf) -> bool) {
        if let Some(root) = self.root() {
            self.within(root, reach_mm * reach_mm, visit);
        }
    }

    fn within(&self, node: Node, reach_squared: f64, visit: &mut impl FnMut(&Leaf, &Leaf) -> bool) -> bool {
        if node.is_leaf() {
            return visit(&self.leaves[node.from], &self.leaves[node.from]);
        }
        let [low, high] = node.children();
        self.within(low, reach_squared, visit)
            && self.within(high, reach_squared, visit)
            && self.between(low, (self, high), reach_squared, visit)
    }

    /// Visits every pair of an element of this tree and one of another whose boxes come within `reach_mm`, until `visit`
    /// returns `false`.
    pub fn pairs_between(&self, other: &Self, reach_mm: f64, visit: &mut impl FnMut(&Leaf, &Leaf) -> bool) {
        if let (Some(root), Some(other_root)) = (self.root(), other.root()) {
            self.between(root, (other, other_root), reach_mm * reach_mm, visit);
        }
    }

    fn between(
        &self,
        a: Node,
        (other, b): (&Self, Node),
        reach_squared: f64,
        visit: &mut impl FnMut(&Leaf, &Leaf) -> bool,
    ) -> bool {
        if self.boxes[a.place].distance_squared(&other.boxes[b.place]) > reach_squared {
            return true;
        }
        if a.is_leaf() && b.is_leaf() {
            return visit(&self.leaves[a.from], &other.leaves[b.from]);
        }
        if b.is_leaf() || (!a.is_leaf() && a.to - a.from >= b.to - b.from) {
            a.children().iter().all(|child| self.between(*child, (other, b), reach_squared, visit))
        } else {
            b.children().iter().all(|child| self.between(a, (other, *child), reach_squared, visit))
        }
    }
}
